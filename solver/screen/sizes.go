package screen

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/solver/require"

	"gonum.org/v1/gonum/spatial/r3"
)

// sizes adds the outside dimensions of the station with all its parts, over the
// loaded range and in every axis position. Seat, handle and foot plate stay inside
// these in all their positions.
func (s *Screen) sizes(sc *Scene, out *require.Rows) {
	g := sc.Geometry
	if g.Base == nil {
		return
	}
	low, high, top := s.envelope(sc)
	out.Add("footprint-length", -1, high.X-low.X)
	out.Add("footprint-width", -1, 2*high.Y)
	out.Add("height", -1, high.Z).At(top)
}

// envelope is the box of all parts over axis positions and flexions, and the
// flexion of its greatest height. Stations are symmetrical: the left side's parts
// stand where the right one's mirror images do.
func (s *Screen) envelope(sc *Scene) (low, high r3.Vec, top float64) {
	a := sc.Station.Assembly
	low, high = r3.Vec{X: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Z: math.Inf(-1)}
	top = s.Angles[0]
	if a == nil {
		far := r3.Vec{X: unbuildable * 10, Y: unbuildable * 10, Z: unbuildable * 10}
		return r3.Scale(-1, far), far, top
	}
	moves := turning(a)
	swivels := make([]bool, len(a.Groups))
	pose := a.Reference
	reference := a.At(pose, nil)
	places := append([]solid.Placement(nil), reference...)
	for i := range sc.Geometry.Pivots.Axes {
		pose.Axis = i
		places = a.At(pose, places)
		for g := range places {
			swivels[g] = swivels[g] || places[g] != reference[g]
		}
	}
	const left = assembly.Left
	take := func(part int, theta float64) {
		p := &a.Parts[part]
		at := places[p.Group].Then(p.Place)
		l, h := solid.Bounds(p.Solid, at)
		low = r3.Vec{X: min(low.X, l.X), Y: min(low.Y, l.Y), Z: min(low.Z, l.Z)}
		if h.Z > high.Z {
			top = theta
		}
		high = r3.Vec{X: max(high.X, h.X), Y: max(high.Y, h.Y, -l.Y), Z: max(high.Z, h.Z)}
	}
	// A ball round a part that stays inside needs no closer look.
	reach := make([]float64, len(a.Parts))
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Side != left && (moves[p.Group] || swivels[p.Group]) {
			l, h := solid.Bounds(p.Solid, solid.World())
			c := p.Solid.Centroid()
			reach[i] = r3.Norm(r3.Vec{X: max(h.X-c.X, c.X-l.X), Y: max(h.Y-c.Y, c.Y-l.Y), Z: max(h.Z-c.Z, c.Z-l.Z)})
		}
	}
	pose.Axis = a.Reference.Axis
	places = a.At(pose, places)
	for i := range a.Parts {
		if g := a.Parts[i].Group; !moves[g] && !swivels[g] && a.Parts[i].Side != left {
			take(i, s.Angles[0])
		}
	}
	for axis := range sc.Geometry.Pivots.Axes {
		for k, theta := range s.Angles {
			pose.Axis, pose.Flexion = axis, [2]float64{theta, theta}
			places = a.At(pose, places)
			for i := range a.Parts {
				p := &a.Parts[i]
				if p.Side == left || !moves[p.Group] && (k > 0 || !swivels[p.Group]) {
					continue
				}
				c := places[p.Group].Point(p.Centre)
				r := reach[i]
				if c.X-r > low.X && c.X+r < high.X && c.Y-r > -high.Y && c.Z+r < high.Z {
					continue
				}
				take(i, theta)
			}
		}
	}
	return low, high, top
}
