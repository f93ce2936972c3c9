package sheet

import "gonum.org/v1/gonum/spatial/r2"

// Proportions of a cutting plane's ends, paper mm: less than the first dimension line
// stands off the outline.
const (
	traceGap   = 1.0 // between the outline and the thick stroke
	traceThick = 5.0 // of the stroke
	traceTail  = 7.0 // of an arrow behind its tip on the stroke
)

// cuttingPlane draws the trace of a section's plane.
func (l *viewLayout) cuttingPlane(e CuttingPlane) []Primitive {
	a, b := l.paper(e.A), l.paper(e.B)
	if r2.Norm(r2.Sub(b, a)) == 0 || r2.Norm(e.Sight) == 0 {
		return nil
	}
	out := []Primitive{Stroke{Role: Centre, Path: straight(a, b)}}
	sight := r2.Unit(e.Sight)
	way := r2.Unit(r2.Sub(b, a))
	for _, end := range [2]struct{ at, out r2.Vec }{{a, r2.Scale(-1, way)}, {b, way}} {
		on := func(s float64) r2.Vec { return along(end.at, end.out, s) }
		tip := on(traceGap + traceThick/2)
		tail := along(tip, sight, -traceTail)
		out = append(out, Stroke{Role: Visible, Path: straight(on(traceGap), on(traceGap+traceThick))},
			dimLine(tail, tip), arrow(tip, sight),
			centred(along(tail, sight, -(textGap+l.height/2)), e.Letter, l.height, 0))
	}
	return out
}
