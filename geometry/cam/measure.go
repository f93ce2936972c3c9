package cam

import (
	"math"
	"sort"

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
// outline of its groove root gives at flexion theta; see Gauge, which is quicker
// for more than one flexion.
func Measure(root contour.Path, cable float64, g Guide, ratio, theta float64) (Reading, error) {
	m, err := NewGauge(root, cable, g, ratio)
	if err != nil {
		return Reading{}, err
	}
	return m.At(theta)
}

// Gauge measures a finished outline at any flexion, from the lines and arcs of
// the outline alone: the outline is turned by ratio times theta, widened by half
// the cable's diameter, and the common tangent with the guide sheave is found
// that pulls against flexion. A hollow is bridged, as a taut cable bridges it.
type Gauge struct {
	elements []contour.Element
	from     []float64 // normal angle where each element starts, rising; nil unless the outline is convex
	cable    float64
	guide    Guide
	ratio    float64
}

// NewGauge returns the gauge of a groove root's outline, which must be closed and
// lie about the cam axis at the origin as at flexion 0. The error is an *Error
// of kind Input.
func NewGauge(root contour.Path, cable float64, g Guide, ratio float64) (*Gauge, error) {
	if root.Len() < 2 || !root.Closed || !finite(cable, ratio, g.X, g.Y, g.Radius) || cable < 0 || g.Radius < 0 || g.Side != Open && g.Side != Crossed {
		return nil, &Error{Kind: Input, What: "number of outline elements", Value: float64(root.Len()), Limit: 2, Hint: "give a closed outline, finite sizes and a guide side of Open or Crossed"}
	}
	m := &Gauge{elements: make([]contour.Element, root.Len()), cable: cable, guide: g, ratio: ratio}
	for i := range m.elements {
		m.elements[i] = root.Element(i)
	}
	m.from = normals(m.elements)
	return m, nil
}

// normals returns the angles of the outward normals at the elements' starts,
// rising through one turn, or nil if the outline is not convex and
// counter-clockwise.
func normals(elements []contour.Element) []float64 {
	const rounding = 1e-9
	from := make([]float64, len(elements))
	end := 0.0
	for i, e := range elements {
		if e.Bulge < 0 {
			return nil
		}
		t, _ := e.Tangents()
		start := math.Atan2(-t.X, t.Y)
		if i > 0 {
			start = end + math.Remainder(start-end, 2*math.Pi)
			if start < end-rounding {
				return nil
			}
			start = math.Max(start, end)
		}
		from[i], end = start, start+e.Sweep()
	}
	if end-from[0] > 2*math.Pi+rounding {
		return nil
	}
	return from
}

// support is the largest extent of the outline along the unit vector n, whose
// angle is phi, and a point where it is reached.
func (m *Gauge) support(phi float64, n r2.Vec) (float64, r2.Vec) {
	if m.from == nil {
		most, at := math.Inf(-1), r2.Vec{}
		for _, e := range m.elements {
			if h, p := e.Support(n); h > most {
				most, at = h, p
			}
		}
		return most, at
	}
	phi = m.from[0] + turn(phi-m.from[0])
	i := sort.Search(len(m.from), func(i int) bool { return m.from[i] > phi }) - 1
	e := &m.elements[max(i, 0)]
	if e.IsArc() && phi <= m.from[max(i, 0)]+e.Sweep() {
		at := r2.Add(e.Centre, r2.Scale(e.Radius, n))
		return r2.Dot(at, n), at
	}
	return r2.Dot(e.End, n), e.End
}

// At returns what the gauge reads at flexion theta. The error is an *Error:
// Input, Reach or Span.
func (m *Gauge) At(theta float64) (Reading, error) {
	g := m.guide
	d := math.Hypot(g.X, g.Y)
	if !finite(theta) {
		return Reading{}, &Error{Kind: Input, What: "flexion (rad)", Value: theta, Hint: "it must be finite"}
	}
	sr := float64(g.Side) * g.Radius
	psiQ := math.Atan2(g.Y, g.X)

	// gap is how far the tangent at the normal angle psi runs outside the
	// guide's tangent of the same direction. Its slope is the free span.
	gap := func(psi float64) (f, slope, arm, along float64) {
		n := normal(psi - m.ratio*theta)
		h, at := m.support(psi-m.ratio*theta, n)
		along = n.X*at.Y - n.Y*at.X
		arm = h + m.cable/2
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
