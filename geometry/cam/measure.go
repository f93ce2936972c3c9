package cam

import (
	"math"

	"armwright/geometry/contour"
	"gonum.org/v1/gonum/spatial/r2"
)

// Reading is what is measured of a finished outline at one elbow flexion.
type Reading struct {
	Arm     float64 // moment arm of the cable about the cam axis
	Psi     float64 // world angle of the cable line's outward normal
	Span    float64 // free cable between cam and guide sheave
	Contact r2.Vec  // where the cable leaves the cam, world
}

// Measure returns the moment arm and free span that a cam with the given
// outline of its groove root gives at flexion theta, from the lines and arcs
// of the outline alone: the outline is turned by ratio times theta, widened by
// half the cable's diameter, and the common tangent with the guide sheave is
// found that pulls against flexion. The outline must be closed and must lie
// about the cam axis at the origin as at flexion 0. A hollow is bridged, as a
// taut cable bridges it.
//
// The error is an *Error: Input, Reach or Span.
func Measure(root contour.Path, cable float64, g Guide, ratio, theta float64) (Reading, error) {
	d := math.Hypot(g.X, g.Y)
	if root.Len() < 2 || !root.Closed || !finite(cable, ratio, theta, d, g.Radius) || cable < 0 || g.Radius < 0 || g.Side != Open && g.Side != Crossed {
		return Reading{}, &Error{Kind: Input, Theta: theta, What: "number of outline elements", Value: float64(root.Len()), Limit: 2, Hint: "give a closed outline, finite sizes and a guide side of Open or Crossed"}
	}
	sr := float64(g.Side) * g.Radius
	psiQ := math.Atan2(g.Y, g.X)

	// gap is how far the tangent at the normal angle psi runs outside the
	// guide's tangent of the same direction. Its slope is the free span.
	gap := func(psi float64) (f, slope, arm, along float64) {
		n := normal(psi - ratio*theta)
		h, at := root.Support(n)
		along = n.X*at.Y - n.Y*at.X
		arm = h + cable/2
		s, c := math.Sincos(psi - psiQ)
		return arm - sr - d*c, along + d*s, arm, along
	}

	// The tangent pointing straight away from the guide lies inside, the
	// opposite one outside, and in between the gap passes zero once.
	lo, hi := psiQ, psiQ+math.Pi
	if f, _, arm, _ := gap(lo); f >= 0 {
		return Reading{}, &Error{Kind: Reach, Theta: theta, What: "reach of the cam towards the guide (mm)", Value: arm - sr, Limit: d, Hint: "cam and guide overlap; move the guide farther away"}
	}
	psi := psiQ + math.Pi/2
	for range maxTangentSteps {
		f, slope, _, _ := gap(psi)
		if f > 0 {
			hi = psi
		} else {
			lo = psi
		}
		next := psi - f/slope
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-psi) < tangentStep {
			psi = next
			break
		}
		psi = next
	}
	_, span, arm, along := gap(psi)
	if !(span > 0) {
		return Reading{}, &Error{Kind: Span, Theta: theta, What: "free cable (mm)", Value: span, Hint: "cam and guide overlap; move the guide farther away"}
	}
	return Reading{Arm: arm, Psi: psi, Span: span, Contact: Support{H: arm, H1: along}.Point(psi)}, nil
}

const (
	// tangentStep ends the search: at a span of 1 m it is 1e-10 mm.
	tangentStep = 1e-13
	// maxTangentSteps lets bisection alone reach tangentStep.
	maxTangentSteps = 60
)
