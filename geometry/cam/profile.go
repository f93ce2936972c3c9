// Package cam computes the outline of a cable-wrapped cam from the moment arm
// it is to give, and measures the moment arm of a finished outline again.
//
// Frame: the cam plane seen from the user's right, x forward, y up, the cam
// axis at the origin, angles counter-clockwise positive. The cam turns
// counter-clockwise by the drive ratio times the elbow flexion and winds cable
// up; the cable resists. World means at rest in that plane; body means turning
// with the cam, equal to world at flexion 0. Lengths are in mm, angles in rad.
package cam

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Which side of the guide sheave the cable runs on.
const (
	Open    = 1  // cable on the same side of cam and sheave
	Crossed = -1 // cable crosses over between cam and sheave
)

// Guide is the sheave that leads the cable off the cam. A radius of 0 is a
// fixed point the cable is tied to.
type Guide struct {
	X, Y   float64 // place from the cam axis
	Radius float64 // to the cable centre
	Side   int     // Open or Crossed
}

// Profile is a wrapping cam: the law its cable follows, the guide sheave, and
// the cam's turn per turn of the arm.
type Profile struct {
	Law   Law
	Guide Guide
	Ratio float64
}

// State is a profile at one elbow flexion.
type State struct {
	Theta           float64
	Arm, Arm1, Arm2 float64 // moment arm and its derivatives by flexion
	Psi             float64 // world angle of the cable line's outward normal
	Phi             float64 // the same angle in the body
	Support         Support // of the pitch curve, by body normal angle
	Rho             float64 // radius of curvature of the pitch curve
	Point           r2.Vec  // contact, body
	Contact         r2.Vec  // contact, world
	Leave           r2.Vec  // where the cable meets the guide sheave, world
	Span            float64 // free cable from Contact to Leave
}

// At returns the profile's state at flexion theta.
//
// With D the guide's distance, w = h - s r and S = sqrt(D^2 - w^2), the cable
// line n·p = h passes the guide's centre at the distance s r, so that
//
//	psi = psiQ + acos(w/D),  phi = psi - k theta
//	dpsi/dtheta = -h'/S,     dphi/dtheta = -(k + h'/S) = -G
//
// Of the two tangents this one pulls against flexion. The pitch curve is the
// envelope of the cable line in the body, whose support function is H(phi) = h:
//
//	H' = -h'/G
//	H″ = (k h″ - w (h'/S)^3) / G^3
//	rho = H + H″
//
// the second line from dG/dtheta = h″/S + w h'^2/S^3. The contact stays on the
// working side while G > 0.
//
// The error is an *Error: Input, Range, Reach (|w| >= D), Turn (G <= 0) or Span
// (the cable would leave the cam beyond the guide).
func (p Profile) At(theta float64) (State, error) {
	if err := p.check(theta); err != nil {
		return State{}, err
	}
	h, h1, h2 := p.Law.At(theta)
	return p.state(theta, h, h1, h2)
}

func (p Profile) check(theta float64) error {
	switch g := p.Guide; {
	case len(p.Law.value) == 0:
		return &Error{Kind: Input, What: "number of values", Limit: leastNodes, Hint: "make the law with NewLaw"}
	case !finite(p.Ratio) || p.Ratio <= 0:
		return &Error{Kind: Input, What: "drive ratio", Value: p.Ratio, Hint: "it must be above zero"}
	case g.Side != Open && g.Side != Crossed:
		return &Error{Kind: Input, What: "side of the guide", Value: float64(g.Side), Limit: Open, Hint: "use Open or Crossed"}
	case !finite(g.X, g.Y, g.Radius) || g.Radius < 0 || g.X == 0 && g.Y == 0:
		return &Error{Kind: Input, What: "radius of the guide (mm)", Value: g.Radius, Hint: "place and radius must be finite, the radius not negative, the place off the cam axis"}
	}
	// A thousandth of the overrun forgives rounding of its end.
	from, to := p.Law.Range()
	if low, high := from-Overrun*1.001, to+Overrun*1.001; !(theta >= low && theta <= high) {
		limit := high
		if theta < low {
			limit = low
		}
		return &Error{Kind: Range, Theta: theta, What: "flexion (rad)", Value: theta, Limit: limit, Hint: "the law ends before"}
	}
	return nil
}

// line is the cable line at a moment arm and its derivatives.
type line struct {
	w, d, s float64 // h - s r, guide's distance, its part along the cable
	q, g    float64 // h'/S, k + h'/S
	n       float64 // H″ G^3
}

func (p Profile) line(theta, h, h1, h2 float64) (line, error) {
	l := line{w: h - float64(p.Guide.Side)*p.Guide.Radius, d: math.Hypot(p.Guide.X, p.Guide.Y)}
	if !(math.Abs(l.w) < l.d) {
		return l, &Error{Kind: Reach, Theta: theta, What: "moment arm less guide radius (mm)", Value: l.w, Limit: l.d, Hint: "move the guide farther from the cam axis or lower the moment arm"}
	}
	l.s = math.Sqrt((l.d - l.w) * (l.d + l.w))
	l.q = h1 / l.s
	l.g = p.Ratio + l.q
	if !(l.g > 0) {
		return l, &Error{Kind: Turn, Theta: theta, What: "turn of the contact per turn of the arm", Value: l.g, Hint: "let the moment arm fall more slowly, move the guide farther away or raise the drive ratio"}
	}
	l.n = p.Ratio*h2 - l.w*l.q*l.q*l.q
	return l, nil
}

func (p Profile) state(theta, h, h1, h2 float64) (State, error) {
	l, err := p.line(theta, h, h1, h2)
	if err != nil {
		return State{}, err
	}
	st := State{Theta: theta, Arm: h, Arm1: h1, Arm2: h2}
	st.Psi = math.Atan2(p.Guide.Y, p.Guide.X) + math.Acos(l.w/l.d)
	st.Phi = st.Psi - p.Ratio*theta
	st.Support = l.support(h, h1)
	st.Rho = st.Support.Radius()
	st.Point = st.Support.Point(st.Phi)
	st.Contact = st.Support.Point(st.Psi)
	n := normal(st.Psi)
	st.Leave = r2.Add(r2.Vec{X: p.Guide.X, Y: p.Guide.Y}, r2.Scale(float64(p.Guide.Side)*p.Guide.Radius, n))
	st.Span = l.s + st.Support.H1
	if err := l.free(theta, st.Support); err != nil {
		return State{}, err
	}
	return st, nil
}

// support is the cam's support function at the contact.
func (l *line) support(h, h1 float64) Support {
	return Support{H: h, H1: -h1 / l.g, H2: l.n / (l.g * l.g * l.g)}
}

// free reports that no cable is left between the contact and the guide.
func (l *line) free(theta float64, at Support) error {
	if span := l.s + at.H1; !(span > 0) {
		return &Error{Kind: Span, Theta: theta, What: "free cable (mm)", Value: span, Hint: "move the guide farther from the cam axis"}
	}
	return nil
}

// Radius returns At's Rho alone, mm: the radius of curvature of the pitch curve at
// the contact.
func (p Profile) Radius(theta float64) (float64, error) {
	if err := p.check(theta); err != nil {
		return 0, err
	}
	h, h1, h2 := p.Law.At(theta)
	l, err := p.line(theta, h, h1, h2)
	if err != nil {
		return 0, err
	}
	support := l.support(h, h1)
	return support.Radius(), l.free(theta, support)
}

// TakeUp returns the cable wound up, mm, while the arm moves from flexion a to
// b. By virtual work it is the integral of the moment arm over the cam's turn,
// whatever the routing; it equals the gain of arc on the cam, of free span and
// of wrap on the guide, s r (psi(b) - psi(a)).
func (p Profile) TakeUp(a, b float64) float64 {
	return p.Ratio * p.Law.Integral(a, b)
}

// WrapAngle returns the angle through which the pitch curve turns between the
// contacts at flexions a and b, positive if b > a.
func (p Profile) WrapAngle(a, b float64) (float64, error) {
	first, err := p.At(a)
	if err != nil {
		return 0, err
	}
	last, err := p.At(b)
	if err != nil {
		return 0, err
	}
	return first.Phi - last.Phi, nil
}

// Linear is the radius of curvature of the pitch curve and its partial
// derivatives by the moment arm and its first and second derivatives by
// flexion. It is exactly linear in the second derivative.
type Linear struct {
	Rho        float64
	C0, C1, C2 float64
}

// RhoLinear returns the radius of curvature at flexion theta to first order in
// changes of the law: rho + C0 dh + C1 dh' + C2 dh″.
func (p Profile) RhoLinear(theta float64) (Linear, error) {
	if err := p.check(theta); err != nil {
		return Linear{}, err
	}
	h, h1, h2 := p.Law.At(theta)
	return p.linear(theta, h, h1, h2)
}

func (p Profile) linear(theta, h, h1, h2 float64) (Linear, error) {
	l, err := p.line(theta, h, h1, h2)
	if err != nil {
		return Linear{}, err
	}
	g3 := l.g * l.g * l.g
	q2 := l.q * l.q
	// dS/dh = -w/S, so dq/dh = q w/S^2 and dq/dh' = 1/S; dG = dq.
	qh, qh1 := l.q*l.w/(l.s*l.s), 1/l.s
	byQ := -3*l.w*q2/g3 - 3*l.n/(g3*l.g)
	return Linear{
		Rho: h + l.n/g3,
		C0:  1 - l.q*q2/g3 + byQ*qh,
		C1:  byQ * qh1,
		C2:  p.Ratio / g3,
	}, nil
}
