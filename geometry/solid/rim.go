package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"armwright/geometry/contour"
)

// rim is what the support function of a plane outline looks at: its corners and
// those of its arcs that bulge outward.
type rim struct {
	points []r2.Vec
	arcs   []arc
}

// arc is the part of a circle whose directions from the centre are within an
// angle of middle.
type arc struct {
	centre, middle r2.Vec
	radius         float64
	halfCos        float64
}

func newRim(p contour.Path) rim {
	var r rim
	n := len(p.Vertices)
	if n == 2 && p.Vertices[0].Bulge == 1 && p.Vertices[1].Bulge == 1 {
		a, b := p.Vertices[0].Point(), p.Vertices[1].Point()
		return rim{arcs: []arc{{
			centre: r2.Scale(.5, r2.Add(a, b)), middle: r2.Vec{X: 1},
			radius: r2.Norm(r2.Sub(b, a)) / 2, halfCos: -1,
		}}}
	}
	r.points = make([]r2.Vec, 0, n)
	for i := range p.Len() {
		e := p.Element(i)
		r.add(e)
	}
	return r
}

// add adds the start of an element and its arc.
func (r *rim) add(e contour.Element) {
	r.points = append(r.points, e.Start)
	if e.Bulge > 0 {
		half := e.Sweep() / 2
		r.arcs = append(r.arcs, arc{
			centre: e.Centre, middle: r2.Unit(r2.Sub(e.At(.5), e.Centre)), radius: e.Radius, halfCos: math.Cos(half),
		})
	}
}

// support returns the farthest point along n, which may have any length.
func (r *rim) support(n r2.Vec) r2.Vec {
	best, at := math.Inf(-1), r2.Vec{}
	for i := range r.points {
		q := &r.points[i]
		if h := n.X*q.X + n.Y*q.Y; h > best {
			best, at = h, *q
		}
	}
	if len(r.arcs) == 0 {
		return at
	}
	length := math.Sqrt(n.X*n.X + n.Y*n.Y)
	if length == 0 {
		if len(r.points) == 0 {
			return r2.Vec{X: r.arcs[0].centre.X + r.arcs[0].radius, Y: r.arcs[0].centre.Y}
		}
		return at
	}
	for i := range r.arcs {
		a := &r.arcs[i]
		if n.X*a.middle.X+n.Y*a.middle.Y < a.halfCos*length {
			continue
		}
		if h := n.X*a.centre.X + n.Y*a.centre.Y + a.radius*length; h > best {
			best = h
			at = r2.Vec{X: a.centre.X + a.radius/length*n.X, Y: a.centre.Y + a.radius/length*n.Y}
		}
	}
	return at
}

// rectangle returns the corners of an upright sharp rectangle, and whether the
// rim is one.
func (r *rim) rectangle() (low, high r2.Vec, ok bool) {
	if len(r.points) != 4 || len(r.arcs) != 0 {
		return low, high, false
	}
	low, high = r.points[0], r.points[2]
	low, high = r2.Vec{X: min(low.X, high.X), Y: min(low.Y, high.Y)}, r2.Vec{X: max(low.X, high.X), Y: max(low.Y, high.Y)}
	for i, q := range r.points {
		next := r.points[(i+1)%4]
		on := (q.X == low.X || q.X == high.X) && (q.Y == low.Y || q.Y == high.Y)
		if !on || (q.X == next.X) == (q.Y == next.Y) {
			return low, high, false
		}
	}
	return low, high, true
}
