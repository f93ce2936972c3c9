package cam

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Led returns what a profile's cam gives at flexion theta where its cable leads to a
// place of the cam's plane other than the guide's, as that of a cam that has been swung
// away from a sheave that stands still: the tangent from the place that pulls against
// flexion. Past the ends of the law and its overrun the pitch curve goes on with the
// curvature it has there, as the outline does.
//
// The pitch curve is told by the law's flexion t at which the cable would leave it for
// the guide, so the tangent is where n(psi)·to = H with psi = phi(t) + k theta, whose
// slope by t is the free cable times -dphi/dt.
//
// The error is an *Error: those of At, or Span where the place lies within the cam.
func (p Profile) Led(theta float64, to r2.Vec) (Reading, error) {
	if err := p.check(theta); err != nil {
		return Reading{}, err
	}
	t := theta
	for range maxTangentSteps {
		at, err := p.pitch(t)
		if err != nil {
			return Reading{}, err
		}
		psi := at.phi + p.Ratio*theta
		n := normal(psi)
		r := Reading{Arm: at.H, Psi: psi, Span: n.Y*to.X - n.X*to.Y + at.H1, Contact: at.Point(psi)}
		if !(r.Span > 0) {
			return r, &Error{Kind: Span, Theta: theta, What: "free cable (mm)", Value: r.Span, Hint: "the cam reaches the place that its cable leads to"}
		}
		step := (r2.Dot(n, to) - at.H) / (r.Span * at.fall)
		if math.Abs(step) < ledStep {
			return r, nil
		}
		t -= max(-mostLed, min(mostLed, step))
	}
	return Reading{}, &Error{Kind: Reach, Theta: theta, What: "distance of the place from the cam's axis (mm)", Value: r2.Norm(to), Hint: "no cable leads there from the cam"}
}

const (
	ledStep = 1e-9               // rad of flexion: a thousandth of a micrometre of cable
	mostLed = 10 * math.Pi / 180 // at a time: the law bends
)

// pitched is the support of the pitch curve at a normal angle of the body, and by how
// much that angle falls per flexion of the law.
type pitched struct {
	Support
	phi, fall float64
}

// pitch is the pitch curve where the law's cable leaves it at flexion t.
func (p Profile) pitch(t float64) (pitched, error) {
	from, to := p.Law.Range()
	end := max(from-Overrun, min(to+Overrun, t))
	h, h1, h2 := p.Law.At(end)
	l, err := p.line(end, h, h1, h2)
	if err != nil {
		return pitched{}, err
	}
	at := pitched{Support: l.support(h, h1), fall: l.g}
	at.phi = math.Atan2(p.Guide.Y, p.Guide.X) + math.Acos(l.w/l.d) - p.Ratio*end
	if past := -l.g * (t - end); past != 0 {
		rho := at.Radius()
		s, c := math.Sincos(past)
		at.H, at.H1 = rho+(at.H-rho)*c+at.H1*s, at.H1*c-(at.H-rho)*s
		at.H2 = rho - at.H
		at.phi += past
	}
	return at, nil
}
