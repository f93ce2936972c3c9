// Package elbow models the elbow as one oblique hinge and measures how well a
// handle on a fixed machine axis can follow the hand.
//
// Frame: the arm frame of a right arm, X anterior, Y proximal along the upper
// arm, Z lateral. A left arm is the mirror image in Z. Angles are in rad,
// lengths in mm. Flexion is 0 with the elbow straight and increases with
// bending; about the hinge axis, which points laterally, it is right-handed.
package elbow

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hinge is the elbow as a single fixed hinge without internal rotation.
//
// Tilt (beta) is the angle of the hinge from the perpendicular of the upper
// arm, lateral end proximal. Valgus (gamma) is the angle of the forearm from
// the plane perpendicular to the hinge. Their sum is the carrying angle of the
// straight, supinated arm, commonly 5 to 22 degrees. Tilt of 0.07 to 0.14 rad
// is published for the bone axis (Morrey, The Elbow and its Disorders).
type Hinge struct {
	Tilt, Valgus float64
}

// FromCarrying returns the hinge of an arm with carrying angle alpha of which
// the share axisShare, 0 to 1, is tilt of the axis and the rest valgus of the
// forearm. An equal split is the only one that folds the forearm exactly onto
// the upper arm.
func FromCarrying(alpha, axisShare float64) Hinge {
	return Hinge{Tilt: alpha * axisShare, Valgus: alpha * (1 - axisShare)}
}

// Axis returns the unit vector along the hinge, pointing laterally.
func (h Hinge) Axis() r3.Vec {
	sb, cb := math.Sincos(h.Tilt)
	return r3.Vec{Y: sb, Z: cb}
}

// Forearm returns the unit vector from the elbow along the forearm at flexion
// theta.
func (h Hinge) Forearm(theta float64) r3.Vec {
	sb, cb := math.Sincos(h.Tilt)
	sg, cg := math.Sincos(h.Valgus)
	st, ct := math.Sincos(theta)
	return r3.Vec{
		X: cg * st,
		Y: sg*sb - cg*cb*ct,
		Z: sg*cb + cg*sb*ct,
	}
}

// AbductionSine returns the lateral component of the forearm's unit vector at
// flexion theta: the hand's distance from the plane of X and Y through the
// elbow, as a share of its distance from the elbow.
func (h Hinge) AbductionSine(theta float64) float64 {
	sb, cb := math.Sincos(h.Tilt)
	sg, cg := math.Sincos(h.Valgus)
	return sg*cb + cg*sb*math.Cos(theta)
}

// Abduction returns the angle of the forearm from the plane of X and Y,
// lateral positive, at flexion theta. It is the carrying angle at theta 0,
// about the valgus at a right angle, and valgus less tilt fully folded.
func (h Hinge) Abduction(theta float64) float64 {
	return math.Asin(h.AbductionSine(theta))
}

// LongAxisAngle returns the true angle between the long axes of upper arm and
// forearm at flexion theta, 0 when they are in line.
func (h Hinge) LongAxisAngle(theta float64) float64 {
	f := h.Forearm(theta)
	return math.Atan2(math.Hypot(f.X, f.Z), -f.Y)
}

// Rotate returns v turned by angle about the direction axis, right-handed
// (Rodrigues). It serves a hinge with internal rotation, whose axis has an
// anterior component, for which Forearm's closed form does not hold. The axis
// need not be a unit vector; a zero axis leaves v as it is.
func Rotate(v, axis r3.Vec, angle float64) r3.Vec {
	n := r3.Norm(axis)
	if n == 0 {
		return v
	}
	k := r3.Scale(1/n, axis)
	s, c := math.Sincos(angle)
	return r3.Add(
		r3.Add(r3.Scale(c, v), r3.Scale(s, r3.Cross(k, v))),
		r3.Scale((1-c)*r3.Dot(k, v), k),
	)
}
