package build

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Swing is the turning of one arm about its pivot axis: Forward and Up are
// unit vectors across the outward Axis, and flexion turns Forward towards Up.
// The arm points along Forward at flexion 0.
type Swing struct{ Pivot, Axis, Forward, Up r3.Vec }

// InPlane returns the place of what stands x along Forward, y along Up and w
// outward along the axis.
func (s Swing) InPlane(x, y, w float64) r3.Vec {
	return r3.Add(s.Pivot, r3.Add(r3.Scale(w, s.Axis), r3.Add(r3.Scale(x, s.Forward), r3.Scale(y, s.Up))))
}

// NewSwing returns the swing of an arm that points down a pad of the given
// slope at flexion 0, as nearly as its axis lets it.
func NewSwing(pivot, axis r3.Vec, slope float64) Swing {
	s, c := math.Sincos(slope)
	down := r3.Vec{X: c, Z: -s}
	forward := r3.Unit(r3.Sub(down, r3.Scale(r3.Dot(down, axis), axis)))
	return Swing{Pivot: pivot, Axis: axis, Forward: forward, Up: r3.Cross(axis, forward)}
}

// At returns the place of what sits r from the axis and w outward along it at
// flexion theta; r may be negative, on the other side of the axis.
func (s Swing) At(r, w, theta float64) r3.Vec {
	sin, cos := math.Sincos(theta)
	return s.Place(r, w, sin, cos)
}

// Place is At for a sine and cosine already known.
func (s Swing) Place(r, w, sin, cos float64) r3.Vec {
	return s.InPlane(r*cos, r*sin, w)
}
