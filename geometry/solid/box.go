package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Box is a right-angled solid in any position: half its extents along three
// unit vectors at right angles.
type Box struct {
	Centre r3.Vec
	Axes   [3]r3.Vec
	Half   [3]float64
}

// BoxOf returns a box round s at p, square to the body's own frame: the smallest but
// for oblique ends, over which it reaches as far as over the box round the profile.
func BoxOf(s Solid, p Placement) Box {
	low, high := s.box()
	return Box{
		Centre: p.Point(r3.Scale(0.5, r3.Add(low, high))), Axes: [3]r3.Vec{p.X, p.Y, p.Z},
		Half: [3]float64{(high.X - low.X) / 2, (high.Y - low.Y) / 2, (high.Z - low.Z) / 2},
	}
}

// Bounds returns the corners of the upright box round the box.
func (b *Box) Bounds() (low, high r3.Vec) {
	var reach r3.Vec
	for i, a := range b.Axes {
		reach = r3.Add(reach, r3.Scale(b.Half[i], r3.Vec{X: math.Abs(a.X), Y: math.Abs(a.Y), Z: math.Abs(a.Z)}))
	}
	return r3.Sub(b.Centre, reach), r3.Add(b.Centre, reach)
}

// Reach is the distance of the box's corners from its centre.
func (b Box) Reach() float64 {
	return math.Sqrt(b.Half[0]*b.Half[0] + b.Half[1]*b.Half[1] + b.Half[2]*b.Half[2])
}

// Gap returns the distance between the segment from p to q and the box. Where
// they meet it is negative: the least distance by which they would have to be
// moved apart (separating axes; Gottschalk, Lin and Manocha 1996).
//
// In the box's own frame the squared distance of a point on the segment is a
// sum of squares of what sticks out on each side: convex in the place along
// the segment, with a slope that is linear between the places where the
// segment's line crosses the box's faces. The least lies in the piece where the
// slope changes sign.
func (b *Box) Gap(p, q r3.Vec) float64 {
	p, q = r3.Sub(p, b.Centre), r3.Sub(q, b.Centre)
	var from, step [3]float64
	for i := range b.Axes {
		a := &b.Axes[i]
		from[i] = r3.Dot(p, *a)
		step[i] = r3.Dot(q, *a) - from[i]
	}
	// outside gives what sticks out at t.
	outside := func(i int, t float64) float64 {
		x := from[i] + t*step[i]
		if x > b.Half[i] {
			return x - b.Half[i]
		}
		if x < -b.Half[i] {
			return x + b.Half[i]
		}
		return 0
	}
	slope := func(t float64) float64 {
		return outside(0, t)*step[0] + outside(1, t)*step[1] + outside(2, t)*step[2]
	}
	distance := func(t float64) float64 {
		x, y, z := outside(0, t), outside(1, t), outside(2, t)
		return math.Sqrt(x*x + y*y + z*z)
	}
	lo, hi := 0.0, 1.0
	slo := slope(lo)
	end := func(t float64) float64 {
		if d := distance(t); d > 0 {
			return d
		}
		return -overlap(&from, &step, &b.Half)
	}
	if slo >= 0 {
		return end(0)
	}
	shi := slope(hi)
	if shi <= 0 {
		return end(1)
	}
	for i := range step {
		if step[i] == 0 {
			continue
		}
		for _, face := range [2]float64{-b.Half[i], b.Half[i]} {
			t := (face - from[i]) / step[i]
			if t <= lo || t >= hi {
				continue
			}
			if s := slope(t); s < 0 {
				lo, slo = t, s
			} else {
				hi, shi = t, s
			}
		}
	}
	return end(lo - slo*(hi-lo)/(shi-slo))
}

// overlap returns how far a segment from from by step must be moved to leave a
// box of the given half extents about the origin, which it meets.
func overlap(from, step, half *[3]float64) float64 {
	least := math.Inf(1)
	// side is the reach of box and segment together along an axis less the
	// distance of their middles.
	side := func(middle, reach float64) { least = min(least, reach-math.Abs(middle)) }
	for i := range half {
		side(from[i]+step[i]/2, half[i]+math.Abs(step[i])/2)
	}
	// Across each edge of the box and the segment, on which it is a point.
	for i := range half {
		j, k := (i+1)%3, (i+2)%3
		length := math.Hypot(step[j], step[k])
		if length < 1e-12 {
			continue
		}
		nj, nk := -step[k]/length, step[j]/length
		side(from[j]*nj+from[k]*nk, half[j]*math.Abs(nj)+half[k]*math.Abs(nk))
	}
	return max(0, least)
}
