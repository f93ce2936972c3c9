package elbow

import (
	"math"
)

// AxisPoint is a place seen from an axis: its distance from the axis and its
// place along it, mm.
type AxisPoint struct {
	Radial, Axial float64
}

// Setting is where a handle is set on its arm: its distance from the machine
// axis and its place along that axis, mm.
type Setting struct {
	Radius, Axial float64
}

// Deviation is the distance between the hand's path and the handle's path, mm:
// the largest, the root mean square, and the index of the point with the
// largest, the first of equals.
type Deviation struct {
	Max, RMS float64
	Worst    int
}

// Mismatch returns the handle setting, free in radius and along the axis, that
// makes the largest distance between hand and handle least, and the distances
// at that setting. The points are the hand's places over the loaded range seen
// from the machine axis; the handle runs on a circle about that axis, so the
// distance is taken in the plane of radius and axis and the best setting is
// the centre of the smallest circle round the points.
//
// The circle is built by exchange of its at most three support points (Welzl
// 1991), always taking in the farthest point (Gärtner 1999), so the answer is
// exact up to rounding and does not depend on chance. It allocates nothing.
// Without points everything is zero.
func Mismatch(points []AxisPoint) (Setting, Deviation) {
	if len(points) == 0 {
		return Setting{}, Deviation{}
	}
	var s support
	s.add(points[0])
	for range maxExchange(len(points)) {
		far, d2 := s.farthest(points)
		if d2 <= s.r2*(1+roundoff) || !s.exchange(points[far]) {
			break
		}
	}
	best := Setting{Radius: s.centre.Radial, Axial: s.centre.Axial}
	return best, MismatchAt(points, best)
}

// MismatchAt returns the distances between hand and handle when the handle is
// set at s.
func MismatchAt(points []AxisPoint, s Setting) Deviation {
	var d Deviation
	if len(points) == 0 {
		return d
	}
	most, sum := -1.0, 0.0
	for i, p := range points {
		d2 := square(p, AxisPoint{s.Radius, s.Axial})
		sum += d2
		if d2 > most {
			most, d.Worst = d2, i
		}
	}
	d.Max = math.Sqrt(most)
	d.RMS = math.Sqrt(sum / float64(len(points)))
	return d
}

// roundoff is the relative error of a squared distance below which a point
// counts as lying on the circle. Places some 300 mm from the axis, in circles
// of some 10 mm, round at 2^-52 (300/10)^2 = 2e-13; on such a circle it lets a
// point stand out by 5e-11 mm.
const roundoff = 1e-11

// maxExchange bounds the exchanges. Each one enlarges the circle, so they end
// by themselves; in practice after three or four.
func maxExchange(n int) int { return 10 + 4*n }

// support is a circle held by one to three points on its rim.
type support struct {
	on     [3]AxisPoint
	n      int
	centre AxisPoint
	r2     float64
}

func (s *support) add(p AxisPoint) {
	*s = support{on: [3]AxisPoint{p}, n: 1, centre: p}
}

func (s *support) farthest(points []AxisPoint) (int, float64) {
	far, most := 0, -1.0
	for i, p := range points {
		if d2 := square(p, s.centre); d2 > most {
			far, most = i, d2
		}
	}
	return far, most
}

// exchange replaces the circle by the smallest one round its support points
// and p, which lies outside and therefore on the new rim. It reports whether
// the circle grew.
func (s *support) exchange(p AxisPoint) bool {
	best := support{r2: math.Inf(1)}
	for i := range s.n {
		s.keepSmaller(&best, through2(p, s.on[i]))
	}
	if best.n == 0 {
		for i := range s.n {
			for j := i + 1; j < s.n; j++ {
				if c, ok := through3(p, s.on[i], s.on[j]); ok {
					s.keepSmaller(&best, c)
				}
			}
		}
	}
	if best.n == 0 || best.r2 <= s.r2 {
		return false
	}
	*s = best
	return true
}

// keepSmaller makes c the best circle if it holds all of s's support points
// and is smaller.
func (s *support) keepSmaller(best *support, c support) {
	if c.r2 >= best.r2 {
		return
	}
	for _, q := range s.on[:s.n] {
		if square(q, c.centre) > c.r2*(1+roundoff) {
			return
		}
	}
	*best = c
}

func through2(a, b AxisPoint) support {
	m := AxisPoint{(a.Radial + b.Radial) / 2, (a.Axial + b.Axial) / 2}
	return support{on: [3]AxisPoint{a, b}, n: 2, centre: m, r2: square(a, b) / 4}
}

// through3 returns the circle through three points, or false if they are in
// line.
func through3(a, b, c AxisPoint) (support, bool) {
	bx, by := b.Radial-a.Radial, b.Axial-a.Axial
	cx, cy := c.Radial-a.Radial, c.Axial-a.Axial
	det := 2 * (bx*cy - by*cx)
	if det == 0 {
		return support{}, false
	}
	b2, c2 := bx*bx+by*by, cx*cx+cy*cy
	ux, uy := (cy*b2-by*c2)/det, (bx*c2-cx*b2)/det
	m := AxisPoint{a.Radial + ux, a.Axial + uy}
	return support{on: [3]AxisPoint{a, b, c}, n: 3, centre: m, r2: ux*ux + uy*uy}, true
}

func square(a, b AxisPoint) float64 {
	x, y := a.Radial-b.Radial, a.Axial-b.Axial
	return x*x + y*y
}
