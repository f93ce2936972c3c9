package drive

import (
	"math"

	"armwright/geometry/posture"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// Machine is the geometry in the terms of placing.
type Machine struct {
	Geometry *specs.Geometry
	Pivot    r3.Vec // right
	Axes     []r3.Vec
	Rest     posture.Rest
	Back     posture.Recline
}

func NewMachine(g *specs.Geometry) Machine {
	m := Machine{Geometry: g, Pivot: g.Pivots.Right()}
	m.Axes = make([]r3.Vec, len(g.Pivots.Axes))
	for i, a := range g.Pivots.Axes {
		m.Axes[i] = a.Vector()
	}
	if g.Pad != nil {
		m.Rest = posture.Rest{Slope: g.Pad.Slope, Offset: g.Pad.Offset, Near: g.Pad.Near, Far: g.Pad.Far, Width: g.Pad.Width}
	}
	if g.Back != nil {
		m.Back = posture.Recline{Angle: g.Back.Angle, Foot: g.Back.Foot, Height: g.Seat.Lowest}
	}
	return m
}

// Handles are the positions on either side of a wanted radius, the nearer
// first; both the same at the ends.
func (m Machine) Handles(want float64) [2]int {
	h := m.Geometry.Handle
	last := h.Positions - 1
	x := (want - h.Least) / h.Pitch
	i := int(math.Floor(max(-1, min(float64(last)+1, x))))
	near, far := max(0, min(last, i)), max(0, min(last, i+1))
	if x-float64(i) > 0.5 {
		near, far = far, near
	}
	return [2]int{near, far}
}

func sq(x float64) float64 { return x * x }
