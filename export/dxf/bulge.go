package dxf

import (
	"math"
)

// ArcFromBulge returns centre, radius, start angle and signed sweep (radians,
// counter-clockwise positive) of the arc from a to b. The bulge must not be
// zero and the points must differ.
//
// With chord c and bulge k: radius c(1+k²)/(4|k|), sweep 4 atan k, and the
// centre lies (1−k²)/(4k) chords to the left of the chord's middle.
func ArcFromBulge(a, b Point, k float64) (centre Point, radius, start, sweep float64) {
	centre, radius = bulgeCircle(a, b, k)
	start = math.Atan2(a.Y-centre.Y, a.X-centre.X)
	return centre, radius, start, 4 * math.Atan(k)
}

// bulgeCircle is the circle of a bulged segment.
func bulgeCircle(a, b Point, k float64) (centre Point, radius float64) {
	dx, dy := b.X-a.X, b.Y-a.Y
	off := (1 - k*k) / (4 * k)
	centre = Point{(a.X+b.X)/2 - off*dy, (a.Y+b.Y)/2 + off*dx}
	return centre, math.Hypot(dx, dy) * (1 + k*k) / (4 * math.Abs(k))
}

func (p Point) sub(q Point) Point    { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) dist(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// polar returns the point at radius r and angle t from p.
func (p Point) polar(r, t float64) Point {
	return Point{p.X + r*math.Cos(t), p.Y + r*math.Sin(t)}
}

func abs(x float64) float64 { return math.Abs(x) }

// turn reduces an angle to [0, 2π).
func turn(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a < 0 {
		a += 2 * math.Pi
	}
	if a >= 2*math.Pi {
		return 0
	}
	return a
}

// box is a growing axis-parallel rectangle.
type box struct{ lo, hi Point }

func emptyBox() box {
	inf := math.Inf(1)
	return box{Point{inf, inf}, Point{-inf, -inf}}
}

func (b *box) empty() bool { return b.lo.X > b.hi.X }

// add grows the box to hold the points. It passes over NaN, infinite and huge
// ones, so that the entity they come from is blamed when it is written, not
// the box.
func (b *box) add(ps ...Point) {
	for _, p := range ps {
		if !(abs(p.X) <= largest && abs(p.Y) <= largest) {
			continue
		}
		b.lo = Point{min(b.lo.X, p.X), min(b.lo.Y, p.Y)}
		b.hi = Point{max(b.hi.X, p.X), max(b.hi.Y, p.Y)}
	}
}

// addBulge adds the quadrant points that a bulged segment passes. They lie on
// the arc's side of the chord, the right for a positive bulge: no angle is
// needed.
func (b *box) addBulge(from, to Point, k float64) {
	centre, r := bulgeCircle(from, to, k)
	quadrants := [4]Point{{r, 0}, {0, r}, {-r, 0}, {0, -r}}
	for _, q := range quadrants {
		p := Point{centre.X + q.X, centre.Y + q.Y}
		if side := (to.X-from.X)*(p.Y-from.Y) - (to.Y-from.Y)*(p.X-from.X); side*k <= 0 {
			b.add(p)
		}
	}
}

// addArc adds the arc from angle start over the signed sweep: its ends and
// the quadrant points it passes.
func (b *box) addArc(c Point, r, start, sweep float64) {
	b.add(c.polar(r, start), c.polar(r, start+sweep))
	if sweep < 0 {
		start, sweep = start+sweep, -sweep
	}
	quadrants := [4]Point{{r, 0}, {0, r}, {-r, 0}, {0, -r}}
	for i, q := range quadrants {
		if turn(float64(i)*math.Pi/2-start) <= sweep {
			b.add(Point{c.X + q.X, c.Y + q.Y})
		}
	}
}
