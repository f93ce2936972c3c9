package draw

import (
	"strconv"
	"strings"

	"armwright/export/draw/erection"
	"armwright/export/draw/schedule"
	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/solver/tolerance"
)

// erectionSheets are sheets 3xx: the steps, and what is inspected after the last.
func (d *drafter) erectionSheets() []named {
	w := &erection.Drawer{
		Assembly: d.a, List: d.list, Item: d.item,
		Body: func(part int) hidden.Body {
			return d.bodies([]int{part}, d.reference(), sheet.Visible, true)[0]
		},
		Screws: d.screws(),
		Torque: func(nmm float64) string { return d.reads().Size(nmm/1000, "N m") },
		Blank: func(title, kind string) sheet.Sheet {
			return d.sheet(small, title, kind)
		},
	}
	var out []named
	for i, s := range w.Sheets() {
		out = append(out, named{erection.First + i, s.Slug, s.Sheet})
	}
	return append(out, named{erection.First + len(out), "inspection", d.inspectionSheet()})
}

// inspectionSheet is the last sheet: what is measured on the finished station, with
// room for what is found. Holds say how closely.
func (d *drafter) inspectionSheet() sheet.Sheet {
	s := d.sheet(small, "Inspection", "Inspection sheet")
	axes := sheet.Table{Title: "Axes, by angle gauge on the shaft", Columns: sheet.Columns("Position", ">Toe °", ">Cant °", ">Toe found, right", ">Toe found, left", ">Cant found, right", ">Cant found, left")}
	for i, a := range d.geo.Pivots.Axes {
		axes.Rows = append(axes.Rows, []string{strconv.Itoa(i + 1), sheet.Degrees(a.Toe, 2), sheet.Degrees(a.Cant, 2)})
	}
	held := sheet.Table{Title: "What is held", Columns: sheet.Columns("<Dimension", ">Nominal "+d.unit(), "<Within", "<For", ">Found, right", ">Found, left")}
	for _, h := range d.holds {
		if h.Feature == "" || h.Unit == tolerance.Kilogram {
			continue
		}
		nominal, within := "", "±"+sheet.Degrees(h.To, 2)+"°"
		if h.Unit != tolerance.Radian {
			within = "±" + d.fine(h.To) + " " + d.unit()
			if h.Size > 0 {
				nominal = d.length(h.Size)
			}
		}
		by := h.For
		if h.General {
			by = strings.TrimSuffix(h.By, " (M)")
		}
		if !schedule.Weldable(h) {
			by += "; set after welding"
		}
		held.Rows = append(held.Rows, []string{h.Name, nominal, within, by})
	}
	places := sheet.Table{Title: "Positions, " + d.unit(), Columns: sheet.Columns("<Setting", ">Position", ">Nominal", ">Found, right", ">Found, left")}
	row := func(what string, i int, x float64) {
		places.Rows = append(places.Rows, []string{what, strconv.Itoa(i + 1), d.length(x)})
	}
	if t := d.geo.Seat; t != nil {
		for i := range t.Positions {
			row("Seat over the floor, unloaded", i, d.seatTop(i))
		}
	}
	for i := range d.geo.Handle.Positions {
		row("Grip from the axis", i, d.handleAt(i))
	}
	s.Tables = []sheet.Table{axes, held, places}
	s.Notes = []string{
		"Measured on a level floor, feet locked, screws tightened. Angles with an angle gauge of 0.1° or finer, lengths with a tape of class I or a height gauge.",
		"Swing: each arm, unloaded, pushed once by hand, goes through its range without catching, in every axis position.",
		"Cable: led through the whole range at the lightest load; it stays in every groove and comes nearer than 2 mm to nothing else.",
		"What is not within is told to who designed the station before it is used.",
	}
	return s
}
