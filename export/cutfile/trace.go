package cutfile

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Trace is a line on a face of a plate where the edge of a part lies that is welded to
// it: set on its traces, the part stands in its place. Plate's own frame, mm.
type Trace struct {
	A, B r2.Vec
	Far  bool // on the face at the profile's start, which is not seen as it is cut
}

const (
	onFace     = 0.1 // of an edge from the face on which it lies, mm
	traceClear = 2.0 // of a trace from every edge that is cut, mm
	traceLeast = 3.0 // the shortest that is drawn, mm
	traceStep  = 2.0 // in which a trace is followed, mm
)

// Traces are those of the parts that are welded to a plate, kept clear of what is cut;
// none of what is no straight prism.
func Traces(a *assembly.Assembly, part int) []Trace {
	p := &a.Parts[part]
	s, ok := p.Solid.(solid.Prism)
	if !ok || s.From.Tilt != (r2.Vec{}) || s.To.Tilt != (r2.Vec{}) {
		return nil
	}
	own := p.Place.Inverse()
	var out []Trace
	for k := range a.Joints {
		j := &a.Joints[k]
		if j.Kind != assembly.Weld || j.A != part && j.B != part {
			continue
		}
		mate := &a.Parts[j.A]
		if j.A == part {
			mate = &a.Parts[j.B]
		}
		at := own.Then(mate.Place)
		shell := mate.Solid.Shell()
		for i := range shell.Edges {
			e := &shell.Edges[i]
			points := []r3.Vec{at.Point(shell.Vertices[e.From]), at.Point(shell.Vertices[e.To])}
			if e.Ellipse != nil {
				const chords = 8
				points = points[:0]
				for n := range chords + 1 {
					points = append(points, at.Point(e.Ellipse.At(float64(n)/chords)))
				}
			}
			for _, face := range [2]float64{s.To.Z, s.From.Z} {
				if slices.ContainsFunc(points, func(q r3.Vec) bool { return math.Abs(q.Z-face) > onFace }) {
					continue
				}
				for n := 1; n < len(points); n++ {
					from, to := points[n-1], points[n]
					out = clearOf(s.Profile, Trace{r2.Vec{X: from.X, Y: from.Y}, r2.Vec{X: to.X, Y: to.Y}, face == s.From.Z}, out)
				}
			}
		}
	}
	return out
}

// clearOf adds what of a trace is inside a profile and clear of its edges, each once.
func clearOf(p *solid.Profile, t Trace, out []Trace) []Trace {
	clear := func(q r2.Vec) bool {
		if !p.Outer().Contains(q) {
			return false
		}
		if gap, _ := p.Outer().Distance(q); gap < traceClear {
			return false
		}
		for _, h := range p.Holes() {
			if gap, _ := h.Distance(q); gap < traceClear || h.Contains(q) {
				return false
			}
		}
		return true
	}
	long := r2.Norm(r2.Sub(t.B, t.A))
	n := max(1, int(math.Ceil(long/traceStep)))
	at := func(i int) r2.Vec { return r2.Add(t.A, r2.Scale(float64(i)/float64(n), r2.Sub(t.B, t.A))) }
	start := -1
	for i := range n + 2 {
		if i <= n && clear(at(i)) {
			if start < 0 {
				start = i
			}
			continue
		}
		if start >= 0 {
			piece := Trace{at(start), at(i - 1), t.Far}
			// Chords of a round are short, but whole ones belong to it.
			whole := start == 0 && i-1 == n && long > 0
			if (r2.Norm(r2.Sub(piece.B, piece.A)) >= traceLeast || whole && long >= 0.5) && !Has(out, piece) {
				out = append(out, piece)
			}
		}
		start = -1
	}
	return out
}

// Has reports whether a trace is among others, whichever way it runs.
func Has(list []Trace, t Trace) bool {
	const same = 0.1 // mm
	near := func(a, b r2.Vec) bool { return r2.Norm(r2.Sub(a, b)) < same }
	return slices.ContainsFunc(list, func(o Trace) bool {
		return o.Far == t.Far && (near(o.A, t.A) && near(o.B, t.B) || near(o.A, t.B) && near(o.B, t.A))
	})
}

// Common are the traces that all of some parts have, which are cut from one file.
func Common(a *assembly.Assembly, parts []int) []Trace {
	if len(parts) == 0 {
		return nil
	}
	out := Traces(a, parts[0])
	for _, p := range parts[1:] {
		if len(out) == 0 {
			break
		}
		other := Traces(a, p)
		out = slices.DeleteFunc(out, func(t Trace) bool { return !Has(other, t) })
	}
	return out
}
