package console

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"armwright/export/report"
	"armwright/export/terminal"
	"armwright/specs"
)

// full writes everything: requirements, drive, axis positions, balance, people,
// conflicts, choices, trades, notes, notice.
func (t *text) full(r *report.Report) {
	t.verdict(r)
	t.Words("", r.Summary)
	if r.NoStation == nil {
		t.requirements(r)
		t.drive(r)
		t.axes(r)
		t.balance(r)
		t.people(r)
	}
	t.conflict(r)
	t.choices(r)
	t.trades(r)
	for _, n := range r.Notes {
		t.Paragraph("note: " + n)
	}
	t.Paragraph(r.Notice)
}

func (t *text) requirements(r *report.Report) {
	t.Heading("Requirements")
	table := terminal.Table{Head: []string{"", "", "value", "limit", "margin", "governed by"}, Right: []bool{false, false, true, true, true, false}}
	var named []string
	for _, q := range r.Requirements {
		colour := terminal.Green
		if !q.Met {
			colour = terminal.Red
		}
		table.Add(t.In(colour, report.Status(q)), q.ID, r.Units.Figure(q.Value, q.Unit), limitOf(r, q.Sense, q.Limit, q.Unit),
			r.Units.Figure(q.Margin, q.Unit), report.Governed(q))
		if q.Person != nil && !slices.Contains(named, *q.Person) {
			named = append(named, *q.Person)
		}
	}
	t.Table(table)
	if len(named) > 0 {
		t.Words("  ", "Persons: "+strings.Join(named, "; ")+".")
	}
}

// limitOf writes a limit with its sense.
func limitOf(r *report.Report, sense string, limit float64, unit string) string {
	if sense == "at least" {
		return ">= " + r.Units.Figure(limit, unit)
	}
	return "<= " + r.Units.Figure(limit, unit)
}

func (t *text) drive(r *report.Report) {
	d := &r.Resistance
	t.Heading("Resistance")
	t.Words("  ", report.DriveSentence(r))
	loads := terminal.Table{Head: []string{"load", "mass", "rms", "largest", "at", "hardest at", "peak up", "peak down", "inertia"},
		Right: []bool{false, true, true, true, true, true, true, true, true}}
	for _, l := range d.Loads {
		loads.Add(l.Load, r.Units.Figure(l.Mass, "kg"), report.Percent(&l.RMS), report.Percent(&l.MaxError),
			r.Units.Figure(l.WorstAngle, "deg"), r.Units.Figure(l.HardestAngle, "deg"),
			greatest(r.Units, l.Lifting), greatest(r.Units, l.Lowering), greatest(r.Units, magnitudes(l.Inertia)))
	}
	t.Table(loads)
	for _, s := range report.EffortSentences(r) {
		t.Words("  ", s)
	}
	if len(d.Ratios) == 0 {
		return
	}
	t.Line("")
	ratios := terminal.Table{Head: []string{"", "ratio", "teeth", "eccentric", "rms", "largest", "worst load", "radius", "wrap", "size", "parts"},
		Right: []bool{false, true, true, true, true, true, true, true, true, true, true}}
	for _, c := range d.Ratios {
		ratios.Add(chosen(c.Chosen), fmt.Sprintf("%.3f", c.Ratio), report.Teeth(c), report.Optional(r.Units, c.Eccentric, "kg"),
			report.Percent(c.RMS), report.Percent(c.MaxError), report.Percent(c.WorstRMS), report.Optional(r.Units, c.LeastRadius, "mm"), report.Optional(r.Units, c.WrapAngle, "deg"), report.Optional(r.Units, c.Size, "mm"), fmt.Sprint(c.Parts))
	}
	t.Table(ratios)
}

func (t *text) axes(r *report.Report) {
	t.Heading("Pivot axes")
	axes := terminal.Table{Head: []string{"position", "toe", "cant"}, Right: []bool{false, true, true}}
	for i, a := range r.Pivots.Right.Axes {
		axes.Add(fmt.Sprint(i+1), r.Units.Figure(a.Toe, "deg"), r.Units.Figure(a.Cant, "deg"))
	}
	t.Table(axes)
	t.supposed(r)
	if r.Search == nil || len(r.Search.Axes) == 0 {
		return
	}
	t.Line("")
	tried := terminal.Table{Head: []string{"", "positions", "worst hand path", "least scaled margin"}, Right: []bool{false, true, true, true}}
	for _, a := range r.Search.Axes {
		tried.Add(chosen(a.Chosen), fmt.Sprint(a.Positions), r.Units.Figure(a.HandPath, "mm"), report.Optional(r.Units, a.Worst, ""))
	}
	t.Table(tried)
	if len(r.Search.Objective) == 0 {
		return
	}
	t.Line("")
	least := terminal.Table{Head: []string{"least of", "weight", "value", "share", "what it is"}, Right: []bool{false, true, true, true}}
	for _, a := range r.Search.Objective {
		least.Add(a.Term, fmt.Sprint(a.Weight), fmt.Sprintf("%.2f", a.Value), report.Percent(&a.Share), a.What)
	}
	t.Table(least)
}

// supposed tells both hand paths, and what inputs that nobody can measure do.
func (t *text) supposed(r *report.Report) {
	if len(r.Elbow.Supposed) == 0 {
		return
	}
	t.Line("")
	t.Words("  ", report.TurnSentence(r)+" What nobody can measure on a user, and how the boundary persons fare if it is otherwise:")
	table := terminal.Table{Head: []string{"input", "if it were", "", "hand path", "axis tilt", "boundary persons"}, Right: []bool{false, true, false, true, true, false}}
	for i := range r.Elbow.Supposed {
		v := &r.Elbow.Supposed[i]
		own := ""
		if v.Asked {
			own = "asked"
		}
		table.Add(v.Key, v.Value, own, r.Units.Figure(v.HandPath, "mm"), r.Units.Figure(v.AxisTilt, "deg"), v.Outcome())
	}
	t.Table(table)
}

func (t *text) trades(r *report.Report) {
	untold := report.Unpriced(r)
	if len(r.Trades) == 0 && untold == "" {
		return
	}
	t.Heading("What holds the design back")
	if untold != "" {
		t.Words("  ", untold)
	}
	for _, tr := range r.Trades {
		t.Words("  ", tr.Sentence)
	}
}

func (t *text) conflict(r *report.Report) {
	if len(r.Conflict) == 0 {
		return
	}
	t.Heading("What conflicts, and the cheapest way out")
	for _, c := range r.Conflict {
		state := "holds"
		if c.Excess > 0 {
			state = "fails by " + r.Units.Figure(c.Excess, c.Unit)
		}
		part := fmt.Sprintf(", %.0f %% of the conflict", 100*c.Share)
		if c.Needed {
			part += ", one of those that cannot hold together"
		}
		t.Words("  ", fmt.Sprintf("%s %s%s", c.ID, state, part))
		t.Words("    ", c.Advice)
	}
	for _, p := range r.Proofs {
		t.Words("  ", fmt.Sprintf("Proved for every station: %s: %s against %s.", p.Reason, r.Units.Figure(p.Needed, p.Unit), r.Units.Figure(p.Allowed, p.Unit)))
	}
	if len(r.Repairs) > 0 {
		t.Words("  ", "Any one of these changes of the brief lets it be met, as a search has shown:")
	}
	for _, way := range r.Repairs {
		t.Words("    ", way.Sentence)
	}
	if len(r.Buys) > 0 {
		t.Words("  ", "What one change of the brief does for coverage, each solved for by itself:")
	}
	for _, b := range r.Buys {
		t.Words("    ", b.Sentence)
	}
}

// greatest writes the largest torque of a list.
func greatest(u specs.Units, list []float64) string {
	if len(list) == 0 {
		return "-"
	}
	return u.Figure(slices.Max(list), "N·m")
}

func chosen(yes bool) string {
	if yes {
		return "->"
	}
	return ""
}

func magnitudes(list []float64) []float64 {
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = math.Abs(v)
	}
	return out
}
