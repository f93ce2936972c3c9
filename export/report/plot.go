package report

import (
	"fmt"
	"html/template"
)

// Plot is one plot of a report: an SVG fragment whose colours come from
// [plot.Style], so that it follows light and dark.
type Plot struct {
	ID    string // names it within its report
	Title string
	SVG   template.HTML
}

// Plots returns every plot that a report has the data for, in the order of the
// printed report.
func Plots(r *Report) []Plot {
	var list []Plot
	add := func(id, title string, svg template.HTML) {
		if svg != "" {
			list = append(list, Plot{id, title, svg})
		}
	}
	add("torque", "Torque wanted and delivered, middle load", torqueChart(r))
	add("hardness", "Torque over strength: the hardest point, middle load", hardnessChart(r))
	add("loads", "Torque wanted and delivered at three loads", loadsChart(r))
	add("footprint", "Centres of mass inside the feet, from above", footprintPlot(r))
	for i, c := range r.Seated {
		add(fmt.Sprintf("seated-%d", i+1), "Seat and pad load of "+c.Person+", "+c.Why, seatedChart(r, c))
	}
	add("seat-place", "Where the seat's reaction acts", seatPlaceChart(r))
	add("coverage", "Who fits, by stature", coverageChart(r))
	add("explorer", explorerTitle(r), explorerPlot(r))
	add("seat-setting", "Seat position to take, by stature", settingChart(r, "Seat position by stature", "seat position, 1 the lowest",
		setting{"", "one", func(b *Band) *Usual { return b.Seat }}))
	add("handle-setting", "Handle position to take, by stature", settingChart(r, "Handle position by stature", "handle position, 1 nearest the axis",
		setting{"", "one", func(b *Band) *Usual { return b.Handle }}))
	add("axis-setting", "Axis position to take, by stature", settingChart(r, "Axis position by stature", "axis position, 1 the smallest toe",
		setting{"women", "three", func(b *Band) *Usual { return b.AxisWomen }}, setting{"men", "two", func(b *Band) *Usual { return b.AxisMen }}))
	add("paths", "Hand paths of three persons", handPathPlot(r))
	add("persons", "Hand path of every boundary person", personsPlot(r))
	return list
}

// plotsOf picks plots by their ids, in the order of Plots.
func plotsOf(r *Report, ids ...string) []Plot {
	var out []Plot
	for _, p := range Plots(r) {
		for _, id := range ids {
			if p.ID == id {
				out = append(out, p)
			}
		}
	}
	return out
}
