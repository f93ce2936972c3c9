package console

import (
	"fmt"
	"slices"
	"strings"

	"armwright/export/report"
	"armwright/export/terminal"
	"armwright/solver/fit"
)

// ShortLines is the most lines that Write writes unless it is asked for everything.
const ShortLines = 24

// short writes what to know first: the verdict, who is served, the leading figures,
// what fails or lies beyond a limit, what is at its limit and where the rest is. The
// lists give way where there is no room for all of them.
func (t *text) short(r *report.Report) {
	t.verdict(r)
	t.Words("", strings.TrimSpace(r.Headline.Outcome+" "+r.Headline.Served))
	part := func() *text { return &text{terminal.Text{Colour: t.Colour, Columns: t.Columns}} }
	figures, told, rest := part(), part(), part()
	figures.figures(r)
	rest.heldBack(r)
	rest.Words("", "Everything else: --full.")
	rest.Words("", r.Notice)
	room := ShortLines - t.Count() - figures.Count() - rest.Count()
	lists := []list{{"Not met", notMet(r)}, {"What would mend it", ways(r)}, {"Beyond a limit of protection", beyond(r)}, {"", notes(r)}}
	if slices.ContainsFunc(r.Headline.Figures, func(f report.Figure) bool { return !f.Met }) {
		lists[0].heading = "Also not met"
	}
	least := 0 // what the lists take that are still to come
	for _, l := range lists[:3] {
		least += len(t.layout(l, 0))
	}
	for i, l := range lists {
		if i < 3 {
			least -= len(t.layout(l, 0))
		}
		lines := t.layout(l, room-least)
		if len(lines) > room {
			continue
		}
		told.Lines(lines)
		room -= len(lines)
	}
	for _, b := range []*text{figures, told, rest} {
		if b.Len() > 0 && room > 0 {
			t.Line("")
			room--
		}
		t.Write(b.Bytes())
	}
}

// list is a list under a heading, which may be empty.
type list struct {
	heading string
	entries []string
}

// mostLines is how many lines an entry of a list takes before it is cut short.
const mostLines = 3

// layout lays out a list in so many lines, but at least its first entry.
func (t *text) layout(l list, room int) (out []string) {
	if len(l.entries) == 0 {
		return nil
	}
	indent := ""
	if l.heading != "" {
		out, indent = append(out, t.In(terminal.Bold, l.heading)), "  "
	}
	for i, e := range l.entries {
		lines := terminal.Wrap(e, t.Width()-len(indent)-2)
		if len(lines) > mostLines {
			lines = lines[:mostLines]
			lines[mostLines-1] = report.Clip(lines[mostLines-1]+" ...", t.Width()-len(indent)-2)
		}
		need := len(lines)
		if i < len(l.entries)-1 {
			need++ // for what is left out
		}
		if i > 0 && len(out)+need > room {
			return append(out, fmt.Sprintf("%sand %d more", indent, len(l.entries)-i))
		}
		for k, s := range lines {
			if k > 0 {
				s = "  " + s
			}
			out = append(out, indent+s)
		}
	}
	return out
}

// figures writes the leading figures.
func (t *text) figures(r *report.Report) {
	if r.NoStation != nil {
		return
	}
	table := terminal.Table{Right: []bool{false, true, false}}
	for _, f := range r.Headline.Figures {
		limit := f.Sense + " " + r.Units.Figure(f.Limit, f.Unit)
		if !f.Met {
			limit += t.In(terminal.Red, " NOT MET")
		}
		table.Add(f.Name, r.Units.Figure(f.Value, f.Unit), limit)
	}
	t.Table(table)
}

// heldBack names the requirements that have no room left.
func (t *text) heldBack(r *report.Report) {
	var list []string
	for _, q := range r.HeldBack() {
		list = append(list, q.ID)
	}
	if len(list) > 0 {
		t.Words("", "At their limits: "+strings.Join(list, ", ")+".")
	}
}

// picked tells what was chosen of what the brief leaves to the tool.
func picked(r *report.Report) []string {
	for _, c := range r.Choices {
		if c.Fate == string(fit.Chosen) {
			return []string{"chosen for " + report.Picking(r.Choices) + ": " + c.Picks()}
		}
	}
	return nil
}

// notMet tells what fails beside the leading figures.
func notMet(r *report.Report) []string {
	var list []string
	if r.NoStation != nil {
		return nil
	}
	for _, q := range r.Failed() {
		if slices.ContainsFunc(r.Headline.Figures, func(f report.Figure) bool { return f.Requirement == q.ID }) {
			continue
		}
		value, limit := r.Units.Figure(q.Value, q.Unit), r.Units.Figure(q.Limit, q.Unit)
		s := fmt.Sprintf("%s: %s, %s %s", q.ID, value, q.Sense, limit)
		if value == limit {
			s += ", missed by " + r.Units.Figure(-q.Margin, q.Unit)
		}
		if who := report.Governing(q); who != "" {
			s += "; " + who
		}
		list = append(list, s)
	}
	return list
}

// notes are what was chosen, and what the solver has to say.
func notes(r *report.Report) []string {
	list := picked(r)
	for _, n := range r.Notes {
		list = append(list, "note: "+n)
	}
	return list
}

// beyond tells what lies beyond a limit that protects joints.
func beyond(r *report.Report) []string {
	var list []string
	for _, p := range r.Beyond() {
		list = append(list, p.Tell(r.Units))
	}
	return list
}

// ways are the ways out of a conflict: changes of the brief that a search has shown to
// mend it, or else what to do about each demand that must give way.
func ways(r *report.Report) []string {
	var list []string
	for _, w := range r.Repairs {
		list = append(list, w.Sentence)
	}
	if len(list) == 0 {
		for _, b := range r.Buys {
			list = append(list, b.Sentence)
		}
	}
	if len(list) > 0 {
		return list
	}
	for _, c := range r.Conflict {
		if s := c.ID + ": " + c.Advice; c.Advice != "" && (c.Repair > 0 || c.Unit == "") && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	return list
}
