package linkage

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// Lever is a weighted lever seen along its axis. At flexion theta it points
// theta + Phase above forward horizontal, so its moment is greatest at
// theta = -Phase. It serves for plates, an eccentric weight and, with its
// phase turned by half a turn, a counterweight.
type Lever struct {
	Mass   float64
	Radius float64 // of the mass from the axis
	Phase  float64 // above forward horizontal at flexion 0
}

// On returns the lever as a weight on an axis in space, for an axis with toe
// and cant. Phase then counts, about the axis, from the projection of forward.
// The axis must not point straight forward.
func (l Lever) On(pivot, axis r3.Vec) Weight {
	a := r3.Unit(axis)
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(a.X, a)))
	return Weight{Mass: l.Mass, Pivot: pivot, Axis: axis, Arm: r3.Scale(l.Radius, r3.Rotate(forward, l.Phase, a))}
}
