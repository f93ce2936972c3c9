// Package linkage computes the moment of weights that turn with an arm about
// an axis in space, and the position and velocity ratio of a planar four-bar
// linkage.
//
// Frame: the machine frame, x forward, y to the user's left, z up. Lengths are
// in mm, masses in kg, moments in N·mm, angles in rad. A pivot axis points
// outward, so that flexion is right-handed about it; for the right arm that is
// towards -y.
package linkage

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// G is the standard acceleration of free fall, m/s^2 or N/kg.
const G = 9.80665

// Harmonic is a moment that follows the flexion theta as
// Cos cos(theta) + Sin sin(theta), N·mm. The moment of any weight that turns
// about a fixed axis does; the part of its arm along the axis drops out.
type Harmonic struct {
	Cos, Sin float64
}

// At returns the moment at flexion theta.
func (h Harmonic) At(theta float64) float64 {
	s, c := math.Sincos(theta)
	return h.Cos*c + h.Sin*s
}

// Add returns the sum of two moments.
func (h Harmonic) Add(k Harmonic) Harmonic {
	return Harmonic{Cos: h.Cos + k.Cos, Sin: h.Sin + k.Sin}
}

// Ahead returns the moment of the same weights turned ahead by an angle, in the
// sense of flexion.
func (h Harmonic) Ahead(angle float64) Harmonic {
	s, c := math.Sincos(angle)
	return Harmonic{Cos: h.Cos*c + h.Sin*s, Sin: h.Sin*c - h.Cos*s}
}

// NearestHarmonic returns the harmonic nearest to values at angles in the least
// squares. The angles must span more than a point, modulo half a turn.
func NearestHarmonic(angles, values []float64) Harmonic {
	var cc, cs, ss, cv, sv float64
	for i, a := range angles {
		s, c := math.Sincos(a)
		cc, cs, ss = cc+c*c, cs+c*s, ss+s*s
		cv, sv = cv+c*values[i], sv+s*values[i]
	}
	det := cc*ss - cs*cs
	return Harmonic{Cos: (cv*ss - sv*cs) / det, Sin: (cc*sv - cs*cv) / det}
}

// Peak returns the largest value of the moment and the flexion, in (-pi, pi],
// where it is reached.
func (h Harmonic) Peak() (value, theta float64) {
	return math.Hypot(h.Cos, h.Sin), math.Atan2(h.Sin, h.Cos)
}

// Weight is a mass fixed to an arm that turns about an axis.
type Weight struct {
	Mass  float64
	Pivot r3.Vec // a point of the axis
	Axis  r3.Vec // along the axis, outward; any length but zero
	Arm   r3.Vec // from the pivot to the mass at flexion 0
}

// Moment returns the moment of gravity about the axis as a function of
// flexion, positive where gravity helps flexion:
//
//	a·((p - P) x (-m g z))
//
// with a the unit axis, P the pivot and p the place of the mass.
func (w Weight) Moment() Harmonic {
	a := r3.Unit(w.Axis)
	// a·(r x z) = r·(z x a), and a turned r is r cos + (a x r) sin plus a
	// part along a, to which z x a is normal.
	across := r3.Scale(-w.Mass*G, r3.Cross(r3.Vec{Z: 1}, a))
	return Harmonic{Cos: r3.Dot(w.Arm, across), Sin: r3.Dot(r3.Cross(a, w.Arm), across)}
}

// Torque returns the moment of gravity about the axis at flexion theta,
// positive where gravity helps flexion, negative where it resists.
func (w Weight) Torque(theta float64) float64 { return w.Moment().At(theta) }
