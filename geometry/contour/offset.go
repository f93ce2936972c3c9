package contour

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Offset returns the parallel curve of a closed, convex, counter-clockwise
// path at the distance d, outwards positive. Arcs keep their centres and
// sweeps, so the parallel is exact. Outwards a corner becomes an arc of radius
// d. Inwards the path must be free of corners and its arcs wider than d.
// Otherwise the error is an *Error with the index of the element or vertex.
func (p Path) Offset(d float64) (Path, error) {
	if !p.Closed || p.Len() < 2 {
		return Path{}, &Error{Defect: "path not closed", Hint: "only a closed path has an inside"}
	}
	q := Path{Closed: true, Vertices: make([]Vertex, 0, len(p.Vertices))}
	for i := range p.Len() {
		e := p.Element(i)
		angle := p.corner(i)
		switch {
		case e.Bulge < 0 || angle < -smooth:
			return Path{}, &Error{Index: i, Defect: "path not convex", Hint: "it must turn counter-clockwise throughout"}
		case e.IsArc() && e.Radius+d <= 0:
			return Path{}, &Error{Index: i, Defect: "arc narrower than the offset", Hint: "widen the arc or offset less"}
		case angle > smooth && d < 0:
			return Path{}, &Error{Index: i, Defect: "corner", Hint: "round it before offsetting inwards"}
		}
		before := i - 1
		if before < 0 {
			before = p.Len() - 1
		}
		_, in := p.Element(before).Tangents()
		out, _ := e.Tangents()
		if angle > smooth && d > 0 {
			c := outward(e.Start, in, d)
			q.Vertices = append(q.Vertices, Vertex{X: c.X, Y: c.Y, Bulge: math.Tan(angle / 4)})
			in = out
		}
		at := outward(e.Start, r2.Unit(r2.Add(in, out)), d)
		q.Vertices = append(q.Vertices, Vertex{X: at.X, Y: at.Y, Bulge: e.Bulge})
	}
	return q, nil
}

// outward returns p moved by d to the right of the tangent.
func outward(p, tangent r2.Vec, d float64) r2.Vec {
	return r2.Sub(p, r2.Scale(d, left(tangent)))
}
