package measure

import (
	"fmt"
	"math"
	"strings"

	"armwright/export/dxf"
)

// frameRounding is what four decimals of a frame's axes can shift a place by, mm, in a
// station of two metres.
const frameRounding = 0.5

// weldments holds the sheets 1xx against the list of the assembly. Each member stands
// where its own place and size put it: told by one of its faces, by its own origin or,
// of one askew, the middle of an end. The table's rows say so, and of one that lies
// along the axes the ordinates do. The runs of all welds are those of the joints.
func (m *measurer) weldments() {
	a := m.assembly
	if a == nil {
		return
	}
	part := map[string]int{}
	for i := range a.Parts {
		part[a.Parts[i].ID] = i
	}
	welds := 0
	for i := range a.Weldments {
		w := &a.Weldments[i]
		welds += len(w.Welds)
		for k := range w.Members {
			id := w.Members[k].Part
			n, ok := part[id]
			m.out.check(ok, assemblyPath, id, "is a member of a weldment, but no part")
			if ok {
				m.member(w, k, n)
			}
		}
		m.weldmentSheet(w)
	}
	joints := 0
	for _, j := range a.Joints {
		if j.Kind == "weld" {
			joints++
		}
	}
	m.out.compare(assemblyPath, "welds on the sheets of weldments", "", float64(joints), float64(welds), 0)
}

// member holds where a member is told to be against its own place and box.
func (m *measurer) member(w *listedWeldment, k, n int) {
	p, q := &m.assembly.Parts[n], &w.Members[k]
	low, high := [3]float64{}, [3]float64{}
	for axis := range 3 {
		low[axis], high[axis] = math.Inf(1), math.Inf(-1)
	}
	for corner := range 8 {
		var c [3]float64
		for axis := range 3 {
			c[axis] = p.Box[corner>>axis&1][axis]
		}
		at := w.Frame.own(p.Place.point(c))
		for axis := range 3 {
			low[axis], high[axis] = min(low[axis], at[axis]), max(high[axis], at[axis])
		}
	}
	origin := w.Frame.own(p.Place.Origin)
	first := w.Frame.own(p.Place.point([3]float64{0, 0, p.Box[0][2]}))
	for axis, name := range [3]string{"x", "y", "z"} {
		choice := []float64{origin[axis], first[axis]}
		if q.Square {
			choice = append(choice, low[axis], high[axis])
		}
		got := choice[0]
		for _, c := range choice {
			if math.Abs(c-q.At[axis]) < math.Abs(got-q.At[axis]) {
				got = c
			}
		}
		m.out.compare(assemblyPath, fmt.Sprintf("%s on sheet %d, %s", q.Part, w.Sheet, name), "mm", q.At[axis], got, frameRounding)
	}
}

// weldmentSheet holds a sheet's tables and ordinates against the list.
func (m *measurer) weldmentSheet(w *listedWeldment) {
	path := ""
	for _, p := range m.out.Files {
		if strings.HasPrefix(p, fmt.Sprintf("drawings/%d-", w.Sheet)) {
			path = p
		}
	}
	if path == "" {
		return
	}
	d := m.drawings[path]
	unit, decimals := 1.0, 1
	if inches(d) {
		unit, decimals = millimetresPerInch, 3
	}
	rounding := 0.5*math.Pow10(-decimals)*unit + quantum
	all := dimensions(d)
	for axis, heading := range [3]string{"x", "y", "z"} {
		figures := column(d, heading)
		m.out.check(len(figures) == len(w.Members), path, "column "+heading, fmt.Sprintf("%d figures stand under this heading, want %d", len(figures), len(w.Members)))
		for k, q := range w.Members[:min(len(w.Members), len(figures))] {
			m.out.compare(path, q.Part+", "+heading+" in the table", "mm", q.At[axis], figures[k]*unit, rounding)
			if q.Square && math.Abs(q.At[axis]) > leastSize {
				m.ordinate(path, q.Part+", ordinate of "+heading, all, axis, q.At[axis])
			}
		}
	}
	for _, c := range [...]struct {
		heading string
		of      func(k int) float64
	}{
		{"Plan °", func(k int) float64 { return w.Members[k].Plan }},
		{"Rise °", func(k int) float64 { return w.Members[k].Rise }},
		{"Turn °", func(k int) float64 { return w.Members[k].Turn }},
	} {
		figures := column(d, c.heading)
		at := 0
		for k, q := range w.Members {
			if q.Square {
				continue
			}
			got := math.NaN()
			if at < len(figures) {
				got = figures[at]
			}
			m.out.compare(path, q.Part+", "+c.heading+" in the table", "deg", c.of(k), got, 0.005+quantum)
			at++
		}
	}
	runs := column(d, "All runs")
	m.out.check(len(runs) == len(w.Welds), path, "column All runs", fmt.Sprintf("%d figures stand under this heading, want %d", len(runs), len(w.Welds)))
	for k, q := range w.Welds[:min(len(w.Welds), len(runs))] {
		m.out.compare(path, "run of "+q.Parts[0]+" on "+q.Parts[1], "mm", q.Run, runs[k]*unit, rounding)
	}
}

// ordinate looks for a place along an axis among the ordinates of a sheet: x runs across,
// z up, y either way.
func (m *measurer) ordinate(path, what string, all []dimension, axis int, want float64) {
	got, slack := nearestValue(all, func(q dimension) bool {
		return q.Kind == dxf.Ordinate && (axis != 0 || q.XOrdinate) && (axis != 2 || !q.XOrdinate)
	}, want)
	m.out.compare(path, what, "mm", want, got, 2*slack+2*quantum)
}
