package contour

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Element is one straight or circular piece of a path.
type Element struct {
	Start, End r2.Vec
	Bulge      float64 // tan of a quarter of the sweep, 0 for a line
	Centre     r2.Vec  // of the arc; meaningless for a line
	Radius     float64 // of the arc, 0 for a line
	middle     r2.Vec  // unit vector from the centre to the middle of the arc
	halfCos    float64 // cosine of half the sweep
}

// straight is the bulge below which a piece counts as a line: its sagitta is
// then less than 1e-12 of its chord.
const straight = 2e-12

func newElement(start, end r2.Vec, bulge float64) Element {
	e := Element{Start: start, End: end}
	if math.Abs(bulge) < straight {
		return e
	}
	chord := r2.Sub(end, start)
	c := r2.Norm(chord)
	b2 := bulge * bulge
	e.Bulge = bulge
	e.Radius = c * (1 + b2) / (4 * math.Abs(bulge))
	e.Centre = r2.Add(r2.Scale(.5, r2.Add(start, end)), r2.Scale((1-b2)/(4*bulge), left(chord)))
	e.middle = r2.Scale(-math.Copysign(1/c, bulge), left(chord))
	e.halfCos = (1 - b2) / (1 + b2)
	return e
}

// IsArc reports whether the element is an arc.
func (e Element) IsArc() bool { return e.Bulge != 0 }

// Sweep returns the angle the tangent turns along the element, rad,
// counter-clockwise positive, 0 for a line.
func (e Element) Sweep() float64 { return 4 * math.Atan(e.Bulge) }

// Length returns the length along the element.
func (e Element) Length() float64 {
	c := r2.Norm(r2.Sub(e.End, e.Start))
	if !e.IsArc() {
		return c
	}
	b := math.Abs(e.Bulge)
	return c * (1 + b*b) * math.Atan(b) / b
}

// Tangents returns the unit tangents at the start and the end.
func (e Element) Tangents() (start, end r2.Vec) {
	t := r2.Unit(r2.Sub(e.End, e.Start))
	if !e.IsArc() {
		return t, t
	}
	// The chord makes half the sweep, 2 atan(b), with either tangent.
	b2 := e.Bulge * e.Bulge
	c, s := (1-b2)/(1+b2), 2*e.Bulge/(1+b2)
	return turn(t, c, -s), turn(t, c, s)
}

// At returns the point at the share u, 0 to 1, of the element's length.
func (e Element) At(u float64) r2.Vec {
	if !e.IsArc() {
		return r2.Add(r2.Scale(1-u, e.Start), r2.Scale(u, e.End))
	}
	s, c := math.Sincos(u * e.Sweep())
	return r2.Add(e.Centre, turn(r2.Sub(e.Start, e.Centre), c, s))
}

// Support returns the largest value of n·p over the element and the point
// where it is reached; n must be a unit vector.
func (e Element) Support(n r2.Vec) (float64, r2.Vec) {
	if e.IsArc() && r2.Dot(n, e.middle) >= e.halfCos {
		return r2.Dot(n, e.Centre) + e.Radius, r2.Add(e.Centre, r2.Scale(e.Radius, n))
	}
	a, b := r2.Dot(n, e.Start), r2.Dot(n, e.End)
	if a >= b {
		return a, e.Start
	}
	return b, e.End
}

// Distance returns the distance of a point from the element.
func (e Element) Distance(p r2.Vec) float64 {
	if e.IsArc() {
		d := r2.Sub(p, e.Centre)
		if r := r2.Norm(d); r2.Dot(d, e.middle) >= e.halfCos*r {
			return math.Abs(r - e.Radius)
		}
	} else {
		v := r2.Sub(e.End, e.Start)
		if u := r2.Dot(r2.Sub(p, e.Start), v); u > 0 && u < r2.Norm2(v) {
			return math.Abs(r2.Cross(v, r2.Sub(p, e.Start))) / r2.Norm(v)
		}
	}
	return math.Min(r2.Norm(r2.Sub(p, e.Start)), r2.Norm(r2.Sub(p, e.End)))
}

// holds reports whether a point on the element's line or circle is on the
// element itself.
func (e Element) holds(p r2.Vec) bool {
	if e.IsArc() {
		d := r2.Sub(p, e.Centre)
		return r2.Dot(d, e.middle) >= e.halfCos*r2.Norm(d)
	}
	v := r2.Sub(e.End, e.Start)
	u := r2.Dot(r2.Sub(p, e.Start), v)
	return u >= 0 && u <= r2.Norm2(v)
}

// left returns v turned by a right angle, counter-clockwise.
func left(v r2.Vec) r2.Vec { return r2.Vec{X: -v.Y, Y: v.X} }

// turn returns v turned by the angle of cosine c and sine s.
func turn(v r2.Vec, c, s float64) r2.Vec {
	return r2.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y}
}
