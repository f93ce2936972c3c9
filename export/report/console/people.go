package console

import (
	"fmt"
	"slices"

	"armwright/export/report"
	"armwright/export/terminal"
)

func (t *text) people(r *report.Report) {
	p := &r.People
	if p.Sample == 0 {
		return
	}
	t.Heading("People")
	t.Words("  ", r.Headline.Served+" "+report.HandPathSentence(r))
	if len(p.TurnedAway) > 0 {
		t.Line("")
		away := terminal.Table{Head: []string{"turned away by", "persons", "share", "only this", "women", "men", "stature of most"}, Right: []bool{false, true, true, true, true, true, false}}
		for _, c := range p.TurnedAway {
			away.Add(c.ID, fmt.Sprint(c.Count), report.Percent(&c.Share), fmt.Sprint(c.Only), fmt.Sprint(c.Women), fmt.Sprint(c.Men), report.Statures(r.Units, c.From, c.To)+" "+r.Units.Symbol("mm"))
		}
		t.Table(away)
	}
	if len(p.OneAxis) > 1 {
		t.Line("")
		one := terminal.Table{Head: []string{"if the only axis", "hand path", "95 %", "at worst", "within", "slide and swivel for 95 %"}, Right: []bool{false, true, true, true, true, false}}
		for _, a := range p.OneAxis {
			one.Add(fmt.Sprintf("position %d", a.Position), r.Units.Figure(a.HandPath.Median, "mm"), r.Units.Figure(a.HandPath.P95, "mm"), r.Units.Figure(a.HandPath.Worst, "mm"), report.Percent(&a.Within),
				r.Units.Figure(a.Slide.P95, "mm")+", "+r.Units.Figure(a.Swivel.P95, "deg"))
		}
		t.Table(one)
	}
	if chart := p.Chart(); len(chart) > 0 {
		t.Line("")
		table := terminal.Table{Head: []string{"stature, " + r.Units.Symbol("mm"), "persons", "fit", "seat", "handle", "axis, women", "axis, men"}, Right: []bool{false, true, true}}
		plate := slices.ContainsFunc(chart, func(b report.Band) bool { return b.Foot != nil })
		if plate {
			table.Head = append(table.Head, "foot plate")
		}
		for _, b := range chart {
			row := []string{report.Statures(r.Units, b.From, b.To), fmt.Sprint(b.Persons), report.Percent(&b.Coverage), b.Seat.String(), b.Handle.String(), b.AxisWomen.String(), b.AxisMen.String()}
			if plate {
				row = append(row, b.Foot.String())
			}
			table.Add(row...)
		}
		t.Table(table)
	}
}
