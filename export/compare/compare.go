// Package compare lays two stations side by side: what they are asked, what spares
// joints, sizes, and which of the two is better.
package compare

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"

	"armwright/export/report"
	"armwright/solver/require"
	"armwright/specs"
)

// Schema is the name of the format of a Comparison, and of its
// version.
const Schema = "armwright/comparison/1"

// Comparison lays two stations side by side.
type Comparison struct {
	Schema string      `json:"schema" enum:"armwright/comparison/1" doc:"format and version"`
	Names  [2]string   `json:"names" doc:"the stations"`
	Met    [2]string   `json:"verdicts" doc:"their verdicts"`
	Better int         `json:"better" doc:"1 or 2, the station that is better as a whole; 0 where neither is"`
	Why    string      `json:"why" doc:"why, or why neither, in a sentence"`
	Limits string      `json:"limits" doc:"which limits of the two differ, in a sentence, and that both are held to the stricter; empty where they are the same"`
	Units  specs.Units `json:"units" enum:"metric|inch-pound" doc:"units that the printed comparison is in; the numbers here are metric"`
	Groups []Group     `json:"groups" doc:"what is compared"`
	Notice string      `json:"notice" doc:"what this must not be taken for"`
}

// Group is a group of values under a heading.
type Group struct {
	Title string `json:"title" doc:"heading"`
	Lines []Row  `json:"lines" doc:"values"`
}

// Row is one value of both stations. What one of them has not is null.
type Row struct {
	What   string      `json:"what" doc:"name of the value"`
	Unit   string      `json:"unit" doc:"of the values"`
	Values [2]*float64 `json:"values" doc:"of the first and the second station"`
	Limits [2]*float64 `json:"limits" doc:"as the brief of each station states it; null of what follows from the station itself or has no limit"`
	Failed [2]bool     `json:"failed" doc:"whether the value lies beyond the limit, the stricter where the two stations' differ"`
	Better int         `json:"better" doc:"1 or 2 where that value keeps its limit and is better by more than a tenth of a difference that matters; 0 where they are alike or it is a matter of taste"`

	counts bool   // the values are counted
	differ string // sense of limits that differ; "" where they do not
}

// held is a value under a limit.
type held struct {
	value, limit, matters float64 // limit not a number where no brief states it
	sense                 string
	met                   bool
}

// bench is the kind that no person sits in.
const bench = "cam-study"

// rounding is the part of what matters that the rounding of a report may take.
const rounding = 0.01

// under says whether the value keeps another limit of its sense than its own.
func (h *held) under(limit float64) bool {
	if h.sense == atLeast {
		return h.value >= limit-rounding*h.matters
	}
	return h.value <= limit+rounding*h.matters
}

// stricter is the stricter of two limits of a sense.
func stricter(sense string, a, b float64) float64 {
	if sense == atLeast {
		return math.Max(a, b)
	}
	return math.Min(a, b)
}

const atLeast, atMost = "at least", "at most"

// beside sets a value of both stations side by side, both held to the stricter of their
// limits; what one has not is nil.
func beside(what, unit string, a, b *held) Row {
	row := Row{What: what, Unit: unit}
	for i, h := range []*held{a, b} {
		if h != nil {
			row.Values[i], row.Failed[i] = told(h.value), !h.met
			if !math.IsNaN(h.limit) {
				row.Limits[i] = told(h.limit)
			}
		}
	}
	if a == nil || b == nil || a.sense != b.sense {
		return row
	}
	if a.limit != b.limit && !math.IsNaN(a.limit+b.limit) {
		row.differ = a.sense
		limit := stricter(a.sense, a.limit, b.limit)
		for i, h := range []*held{a, b} {
			row.Failed[i] = row.Failed[i] || !h.under(limit)
		}
	}
	sign := -1.0
	if a.sense == atLeast {
		sign = 1
	}
	row.Better = better(sign*a.value, sign*b.value, math.Min(a.matters, b.matters))
	if row.Better > 0 && row.Failed[row.Better-1] {
		row.Better = 0
	}
	return row
}

// paired goes through two lists by name: the first's order, then what only the second
// has.
func paired[T any](a, b []T, name func(*T) string, add func(name string, a, b *T)) {
	second := map[string]*T{}
	for i := range b {
		second[name(&b[i])] = &b[i]
	}
	for i := range a {
		add(name(&a[i]), &a[i], second[name(&a[i])])
		delete(second, name(&a[i]))
	}
	for i := range b {
		if second[name(&b[i])] != nil {
			add(name(&b[i]), nil, &b[i])
		}
	}
}

// Of lays two reports side by side: requirements, what spares joints, sizes.
func Of(a, b *report.Report) Comparison {
	c := Comparison{Schema: Schema, Names: [2]string{a.Name, b.Name}, Met: [2]string{a.Verdict, b.Verdict}, Units: a.Units, Notice: a.Notice}

	asked := Group{Title: "Requirements"}
	stated := map[string]bool{} // by the brief; other limits follow from what a station is made of
	for _, k := range require.Kinds() {
		stated[k.ID] = k.Limit != ""
	}
	ofRequirement := func(q *report.Requirement) *held {
		if q == nil {
			return nil
		}
		limit := q.Limit
		if !stated[q.ID] {
			limit = math.NaN()
		}
		return &held{q.Value, limit, 0.1 * q.Scale, q.Sense, q.Met}
	}
	paired(a.Requirements, b.Requirements, func(q *report.Requirement) string { return q.ID }, func(name string, x, y *report.Requirement) {
		asked.Lines = append(asked.Lines, beside(name, cmp.Or(x, y).Unit, ofRequirement(x), ofRequirement(y)))
	})

	joints := Group{Title: "Joints"}
	ofJoint := func(p *report.Protection) *held {
		if p == nil {
			return nil
		}
		return &held{p.Value, p.Limit, 0.01 * math.Abs(p.Limit), p.Sense, p.Met}
	}
	paired(a.Protection, b.Protection, func(p *report.Protection) string { return p.Joint + ": " + p.What }, func(name string, x, y *report.Protection) {
		joints.Lines = append(joints.Lines, beside(name, cmp.Or(x, y).Unit, ofJoint(x), ofJoint(y)))
	})

	whole := Group{Title: "Station"}
	add := func(what, unit, sense string, value func(*report.Report) *float64) {
		var both [2]*held
		for i, r := range []*report.Report{a, b} {
			if v := value(r); v != nil {
				both[i] = &held{*v, math.NaN(), 1e-3 * math.Abs(*v), sense, true}
			}
		}
		row := beside(what, unit, both[0], both[1])
		if sense == "" {
			row.Better = 0
		}
		whole.Lines = append(whole.Lines, row)
	}
	const most, least, taste = atLeast, atMost, ""
	c.Limits = differing(asked.Lines, c.Units)
	if covered := func(r *report.Report) *float64 { return scaled(r.People.Coverage, 100) }; c.Limits == "" {
		add("coverage", "%", most, covered)
	} else {
		add("coverage, each by its own limits", "%", taste, covered)
	}
	add("worst hand path", "mm", least, func(r *report.Report) *float64 { return r.Elbow.WorstHandPath })
	count := func(what string, of func(*report.Report) int) {
		add(what, "", taste, func(r *report.Report) *float64 { return told(float64(of(r))) })
		whole.Lines[len(whole.Lines)-1].counts = true
	}
	count("axis positions", func(r *report.Report) int { return len(r.Pivots.Right.Axes) })
	count("seat positions", func(r *report.Report) int { return len(r.Seat.Positions) })
	add("torque rms at the middle load", "%", least, func(r *report.Report) *float64 { return told(100 * r.Resistance.RMS) })
	add("least tilt, empty or in use", "deg", most, func(r *report.Report) *float64 { return r.Stability.LeastTilt })
	add("base length", "mm", least, func(r *report.Report) *float64 { return r.Footprint.Length })
	add("base width", "mm", least, func(r *report.Report) *float64 { return r.Footprint.Width })
	add("pivot height", "mm", taste, func(r *report.Report) *float64 { return told(r.Pivots.Right.Z) })
	add("pivot spacing", "mm", taste, func(r *report.Report) *float64 { return told(2 * r.Pivots.Left.Y) })

	c.Groups = []Group{asked, joints, whole}
	c.Better, c.Why = asAWhole(a, b, asked.Lines)
	if (a.Kind == bench) != (b.Kind == bench) {
		c.Better, c.Why = 0, "One is a station, the other a bench: neither does the other's work."
	}
	c.Why += hurting(a, b)
	return c
}

// differing tells which limits of two stations differ, empty where none does.
func differing(asked []Row, u specs.Units) string {
	var list []string
	for _, row := range asked {
		if row.differ != "" {
			list = append(list, fmt.Sprintf("%s %s %s and %s", row.What, row.differ, u.Figure(*row.Limits[0], row.Unit), u.Figure(*row.Limits[1], row.Unit)))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "Their limits differ, and both are held to the stricter: " + strings.Join(list, "; ") + "."
}

// asAWhole tells which of two stations is better as a whole: the one that meets what both
// are asked, each limit the stricter of theirs, or that fails in less; of two that meet it
// the one that is better in something and worse in nothing.
func asAWhole(a, b *report.Report, asked []Row) (which int, why string) {
	failed := [2][]string{}
	ahead := [2][]string{}
	for _, row := range asked {
		for i := range failed {
			if row.Failed[i] {
				failed[i] = append(failed[i], row.What)
			}
		}
		if row.Better > 0 {
			ahead[row.Better-1] = append(ahead[row.Better-1], row.What)
		}
	}
	misses := func(i int) string { return fmt.Sprintf("%d misses %s", i+1, strings.Join(failed[i], ", ")) }
	switch n, m := len(failed[0]), len(failed[1]); {
	case n == 0 && m > 0:
		return 1, "1 meets what is asked, " + misses(1) + "."
	case m == 0 && n > 0:
		return 2, "2 meets what is asked, " + misses(0) + "."
	case n > 0 && n < m:
		return 1, "It fails in less: " + misses(0) + "; " + misses(1) + "."
	case m > 0 && m < n:
		return 2, "It fails in less: " + misses(1) + "; " + misses(0) + "."
	case n > 0:
		return 0, "Both fail in as many: " + misses(0) + "; " + misses(1) + "."
	}
	leads := func(i int) string { return fmt.Sprintf("%d is better in %s", i+1, strings.Join(ahead[i], ", ")) }
	switch n, m := len(ahead[0]), len(ahead[1]); {
	case n == 0 && m == 0:
		return 0, "Both meet what is asked, and differ in no requirement by what matters."
	case m == 0:
		return 1, "Both meet what is asked; " + leads(0) + " and worse in nothing."
	case n == 0:
		return 2, "Both meet what is asked; " + leads(1) + " and worse in nothing."
	}
	return 0, "Both meet what is asked; " + leads(0) + "; " + leads(1) + "."
}

// hurting tells which of two stations lies beyond a limit that protects joints and that
// no requirement judges: what is better may not be kinder.
func hurting(a, b *report.Report) string {
	s := ""
	for i, r := range []*report.Report{a, b} {
		if list := r.Unjudged(); len(list) > 0 {
			s += fmt.Sprintf(" %d lies beyond a limit that protects joints: %s.", i+1, strings.Join(list, "; "))
		}
	}
	return s
}

// told is a figure as the file has it.
func told(x float64) *float64 {
	x = report.Round(x)
	return &x
}

func scaled(x *float64, by float64) *float64 {
	if x == nil {
		return nil
	}
	return told(*x * by)
}

// better tells which of two is the greater, 0 when they differ by less than what
// matters.
func better(a, b, matters float64) int {
	switch {
	case a > b+matters:
		return 1
	case b > a+matters:
		return 2
	}
	return 0
}

// JSON writes the comparison as JSON.
func JSON(w io.Writer, c Comparison) error { return report.Encode(w, c) }
