package cam

import (
	"math"

	"armwright/geometry/contour"
	"gonum.org/v1/gonum/spatial/r2"
)

// MeasureTakeUp returns the cable drawn in past the guide sheave, mm, while the
// arm moves from flexion a to flexion b, from the lines and arcs of the outline
// alone: what winds on the cam, less what the free span and the wrap on the
// guide give,
//
//	arc on the cam + span(b) − span(a) + s r (ψ(b) − ψ(a))
//
// It knows nothing of moment arms, so that the work on the load can be held
// against the work of the torque that Measure gives. The outline must be
// convex and counter-clockwise; see Measure for the rest.
func MeasureTakeUp(root contour.Path, cable float64, g Guide, ratio, a, b float64) (float64, error) {
	m, err := NewGauge(root, cable, g, ratio)
	if err != nil {
		return 0, err
	}
	first, err := m.At(a)
	if err != nil {
		return 0, err
	}
	last, err := m.At(b)
	if err != nil {
		return 0, err
	}
	from, to := last.Psi-ratio*b, first.Psi-ratio*a
	sign := 1.0
	if from > to {
		from, to, sign = to, from, -1
	}
	arc := 0.0
	for _, e := range m.elements {
		if e.Bulge < 0 {
			return 0, &Error{Kind: Input, What: "bulge of an outline element", Value: e.Bulge, Hint: "give a convex outline, counter-clockwise"}
		}
		arc += wound(e, cable/2, from, to)
	}
	return sign*arc + last.Span - first.Span + float64(g.Side)*g.Radius*(last.Psi-first.Psi), nil
}

// wound is the length of an element, widened outwards, whose normals lie
// between two angles less than a full turn apart.
func wound(e contour.Element, wider, from, to float64) float64 {
	if !e.IsArc() {
		along := r2.Sub(e.End, e.Start)
		normal := math.Atan2(-along.X, along.Y)
		if turn(normal-from) < to-from {
			return r2.Norm(along)
		}
		return 0
	}
	out := r2.Sub(e.Start, e.Centre)
	start := turn(math.Atan2(out.Y, out.X) - from) // 0 to a full turn past from
	sum := 0.0
	for _, back := range [...]float64{0, 2 * math.Pi} {
		lo, hi := math.Max(start-back, 0), math.Min(start-back+e.Sweep(), to-from)
		sum += math.Max(0, hi-lo)
	}
	return (e.Radius + wider) * sum
}

// turn brings an angle to 0 inclusive to a full turn.
func turn(angle float64) float64 {
	angle = math.Mod(angle, 2*math.Pi)
	if angle < 0 {
		angle += 2 * math.Pi
	}
	return angle
}
