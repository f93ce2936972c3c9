package fit

import (
	"math"

	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// machine is the geometry in the terms of placing.
type machine struct {
	geo   *specs.Geometry
	pivot r3.Vec // right
	axes  []r3.Vec
	rest  station.Rest
	back  station.Recline
}

func newMachine(g *specs.Geometry) machine {
	m := machine{geo: g, pivot: r3.Vec{Y: -g.Pivots.Spacing / 2, Z: g.Pivots.Height}}
	m.axes = make([]r3.Vec, len(g.Pivots.Axes))
	for i, a := range g.Pivots.Axes {
		m.axes[i] = station.AxisVector(a.Toe, a.Cant)
	}
	if g.Pad != nil {
		m.rest = station.Rest{Slope: g.Pad.Slope, Offset: g.Pad.Offset, Near: g.Pad.Near, Far: g.Pad.Far, Width: g.Pad.Width}
	}
	if g.Back != nil {
		m.back = station.Recline{Angle: g.Back.Angle, Foot: g.Back.Foot}
	}
	return m
}

func (m machine) seatTop(i int) float64 { return m.geo.Seat.Lowest + float64(i)*m.geo.Seat.Pitch }

// handles are the positions on either side of a wanted radius, the nearer
// first; both the same at the ends.
func (m machine) handles(want float64) [2]int {
	h := m.geo.Handle
	last := h.Positions - 1
	x := (want - h.Least) / h.Pitch
	i := int(math.Floor(max(-1, min(float64(last)+1, x))))
	near, far := max(0, min(last, i)), max(0, min(last, i+1))
	if x-float64(i) > 0.5 {
		near, far = far, near
	}
	return [2]int{near, far}
}
