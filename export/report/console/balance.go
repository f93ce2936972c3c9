package console

import (
	"fmt"
	"slices"

	"armwright/export/report"
	"armwright/export/terminal"
)

// balance prints how the station stands and sits, and its hazards and joints.
func (t *text) balance(r *report.Report) {
	if len(r.Stability.Cases) == 0 {
		return
	}
	t.Heading("Balance")
	least := r.Stability.Cases[0]
	for _, c := range r.Stability.Cases {
		if c.Tilt < least.Tilt {
			least = c
		}
	}
	who := ""
	if least.Person != nil {
		who = *least.Person + ", "
	}
	t.Words("  ", report.TiltSentence(r)+fmt.Sprintf(" Empty or in use it tips first over the %s (%s%s); that takes %s.",
		least.Edge, who, least.Case, r.Units.Figure(least.Energy, "J")))
	if r.Stability.Anchored {
		t.Words("  ", fmt.Sprintf("ANCHORED TO THE FLOOR: each of four anchors pulls %s at least", report.Optional(r.Units, r.Stability.AnchorPull, "N")))
	}
	entry := terminal.Table{Right: []bool{false, true, false}}
	for _, c := range r.Stability.Entry {
		entry.Add(c.Case, r.Units.Figure(c.Tilt, "deg"), "left over the "+c.Edge)
	}
	t.Table(entry)
	if len(r.Seated) > 0 {
		t.Heading("Seated")
		seats := terminal.Table{}
		for _, c := range r.Seated {
			i := lowest(c.Share)
			held := fmt.Sprintf("least seat load %s of body weight at %s", report.Percent(&c.Share[i]), r.Units.Figure(r.Resistance.Angles[i], "deg"))
			if len(c.Chest) > 0 {
				held += fmt.Sprintf("; the chest pad holds up to %s", r.Units.Figure(slices.Max(c.Chest), "N"))
			}
			seats.Add(c.Person+", "+c.Why, held)
		}
		t.Table(seats)
	}
	if pairs := narrowest(r.Hazards.Pairs, 4); len(pairs) > 0 {
		t.Heading("Hazards: gaps that fall short, and the narrowest")
		gaps := terminal.Table{Right: []bool{false, false, true, false}}
		for _, p := range pairs {
			mark := ""
			if !p.Met {
				mark = "SHORT"
			}
			gaps.Add(mark, p.Moving+" to "+p.Fixed, r.Units.Figure(p.Gap, "mm"), fmt.Sprintf("a %s needs %s", p.Part, r.Units.Figure(p.Required, "mm")))
		}
		t.Table(gaps)
	}
	if len(r.Protection) > 0 {
		t.Heading("Joints")
		joints := terminal.Table{Right: []bool{false, false, false, true, true, false}}
		for _, p := range r.Protection {
			mark := ""
			if !p.Met {
				mark = "BEYOND"
			}
			joints.Add(mark, p.Joint, p.What, p.Span(r.Units), limitOf(r, p.Sense, p.Limit, p.Unit), p.Decides())
		}
		t.Table(joints)
	}
}

func lowest(list []float64) int {
	at := 0
	for i, v := range list {
		if v < list[at] {
			at = i
		}
	}
	return at
}

// narrowest lists the pairs that fall short, and after them the n with the
// least room over what they need.
func narrowest(pairs []report.HazardPair, n int) []report.HazardPair {
	var out []report.HazardPair
	taken := make([]bool, len(pairs))
	for i, p := range pairs {
		if !p.Met {
			taken[i] = true
			out = append(out, p)
		}
	}
	for range n {
		best := -1
		for i, p := range pairs {
			if !taken[i] && (best < 0 || p.Gap-p.Required < pairs[best].Gap-pairs[best].Required) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		taken[best] = true
		out = append(out, pairs[best])
	}
	return out
}
