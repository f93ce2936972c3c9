// Package partlist words the parts list of a station: one line an item, in the units
// of whoever reads the drawings. Report, tables and sheets tell the same lines.
package partlist

import (
	"fmt"
	"math"
	"strings"

	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/geometry/station/values"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"
)

// Line is one line of the list. Lengths mm, masses kg.
type Line struct {
	Item   int // its number, from 1
	ID     string
	Title  string
	Count  int
	Stock  string  // what it is cut from or ordered as
	Length float64 // long-point length, 0 where there is none
	Mass   float64 // of one, 0 where none is reckoned
	Ends   string  // how a tube's ends are cut

	Form  assembly.Form // what it is made from
	Bar   string        // the bar or tube that it is sawn from, "" for none
	Drop  float64       // of a piece with one mitre, by how much its long side is longer than its short one, mm
	Side  float64       // how far these sides are apart, mm
	Blank string        // the plate, sheet or board that it is cut from, "" for none
	Box   [2]float64    // the size that it takes of it, mm
	Parts []int         // indices in the assembly

	Fastener *Fastener // of what joints are made with; its mass is no part of the balance, and Mass is 0
}

// Of lists the parts of a station, then what their joints are made with, or the
// plates of a study on the bench.
func Of(r *solver.Result) []Line {
	w := writer{units: r.Frame.Drawing.Reads(), screws: r.Frame.Drawing.Screws()}
	if r.Station.Assembly == nil {
		w.bench(r)
		return w.list
	}
	w.assembly(r.Station.Assembly)
	return w.list
}

// writer words the lines.
type writer struct {
	units  specs.Units
	screws stock.Screws
	list   []Line
}

func (w *writer) add(l Line) {
	l.Item = len(w.list) + 1
	w.list = append(w.list, l)
}

func (w *writer) assembly(a *assembly.Assembly) {
	for _, i := range a.Items() {
		l := Line{ID: i.ID, Title: i.Title, Count: i.Count(), Length: i.Length, Mass: i.Mass, Form: i.Stock.Form, Parts: i.Parts}
		l.Stock = w.stock(&i.Stock)
		if len(i.Parts) > 0 && (i.Stock.Form == assembly.Tube || i.Stock.Form == assembly.Round) {
			l.Bar = l.Stock
			if p, ok := a.Parts[i.Parts[0]].Solid.(solid.Prism); ok && i.Stock.Form == assembly.Tube {
				l.Ends = ends(p)
				l.Drop, l.Side = drop(p)
			}
		}
		if len(i.Parts) > 0 {
			if box, ok := cutFrom(&a.Parts[i.Parts[0]]); ok {
				l.Box, l.Blank = box, strings.TrimSpace(i.Stock.Form.String()+" "+w.size(i.Stock.Size[2])+" "+i.Stock.Grade)
			}
		}
		w.add(l)
	}
	for _, f := range Fasteners(a, Every(a), w.screws) {
		w.add(Line{ID: f.Kind, Title: f.Title, Count: f.Count, Stock: f.Ordered(), Form: assembly.Bought, Fastener: &f})
	}
}

// size is a length in the reader's units, without them in millimetres' world.
func (w *writer) size(mm float64) string {
	if w.units == specs.InchPound {
		return sheet.Inches.Figure(mm)
	}
	return sheet.Millimetres.Length(mm, 1)
}

// stock words what a part is cut from or ordered as.
func (w *writer) stock(s *assembly.Stock) string {
	times := func(values ...float64) string {
		var out []string
		for _, v := range values {
			if v > 0 {
				out = append(out, w.size(v))
			}
		}
		return strings.Join(out, " x ")
	}
	text := ""
	switch s.Form {
	case assembly.Tube:
		text = "tube " + s.Name
		if s.Name == "" {
			text = "tube " + times(s.Size[0], s.Size[1], s.Size[2])
		}
	case assembly.Plate:
		text = "plate " + w.size(s.Size[2]) + ", " + times(s.Size[0], s.Size[1])
	case assembly.Sheet:
		text = "sheet " + w.size(s.Size[2]) + ", " + times(s.Size[0], s.Size[1])
	case assembly.Round:
		text = "round " + w.size(s.Size[0])
		if s.Size[1] > 0 {
			text += ", bore " + w.size(s.Size[1])
		}
		if s.Name != "" {
			text = "round tube " + s.Name
		}
	case assembly.Board, assembly.Foam:
		text = s.Form.String() + " " + times(s.Size[0], s.Size[1], s.Size[2])
	default:
		text = s.Name
		if text == "" {
			text = times(s.Size[0], s.Size[1], s.Size[2])
		}
	}
	if s.Grade == "" {
		return text
	}
	if text == "" {
		return s.Grade
	}
	return text + " " + s.Grade
}

// ends tells how a tube is cut: the angle of each end from square, across which of
// its sides.
func ends(p solid.Prism) string {
	from, to := end(p.From), end(p.To)
	switch {
	case from == "" && to == "":
		return "square both ends"
	case from == to:
		return from + " both ends"
	case from == "":
		return to + ", other square"
	case to == "":
		return from + ", other square"
	}
	return from + " and " + to
}

// end is one end, "" for a square one.
func end(e solid.End) string {
	const square = 1e-4
	word := func(tilt float64, side string) string {
		if math.Abs(tilt) < square {
			return ""
		}
		return fmt.Sprintf("%.1f deg across the %s", math.Abs(math.Atan(tilt))/specs.Degree, side)
	}
	wide, high := word(e.Tilt.X, "width"), word(e.Tilt.Y, "height")
	if wide != "" && high != "" {
		return wide + " with " + high
	}
	return wide + high
}

// bench lists the plates that a study on the bench is cut from, and what else a cam
// sits on its shaft with.
func (w *writer) bench(r *solver.Result) {
	steel := r.Frame.Stock.Steel
	plate := func(id, title string, count int, thick, area float64) {
		w.add(Line{ID: id, Title: title, Count: count, Form: assembly.Plate, Mass: stock.SteelDensity * area * thick,
			Stock: "plate " + w.size(thick) + " " + steel})
	}
	d := &r.Resistance
	if r.Frame.Geometry.Cam != nil && d.Outline.Root.Len() > 0 {
		holes := 0.0
		for _, h := range d.Outline.Holes {
			holes += math.Pi / 4 * h.Diameter * h.Diameter
		}
		plate("cam-core", "Cam core", 2, drive.CorePlate(d.Cable.Diameter), math.Abs(d.Outline.Root.Area())-holes)
		plate("cam-cheek", "Cam cheek", 4, drive.CheekPlate, math.Abs(d.Outline.Blank.Area())-holes)
		switch h := d.Hub; h.Kind {
		case "keyway":
			long := drive.CorePlate(d.Cable.Diameter) + 2*drive.CheekPlate
			w.add(Line{ID: "key", Title: "Parallel key", Count: 2, Form: assembly.Bought, Length: long, Mass: stock.SteelDensity * h.Key.Width * h.Key.Height * long,
				Stock: h.Key.Standard + ", " + w.size(h.Key.Width) + " x " + w.size(h.Key.Height)})
		case "clamp":
			plate("split-hub", "Split hub", 2, h.Plate, h.Split.Outline.Area())
			w.add(Line{ID: "clamp-screw", Title: "Clamp screw", Count: 2, Form: assembly.Bought, Stock: ClampScrew(h.Screw.Thread, w.screws)})
		}
	}
	if r.Frame.Geometry.Linkage != nil {
		for _, b := range Bars(&r.Station.Values) {
			near, far := b.Areas()
			plate(b.ID, b.Title, 2, r.Station.Values.BarThick, near+far)
		}
	}
}

// Bar is a bar of a linkage with the name that its part and its cut file bear.
type Bar struct {
	ID, Title, What string
	linkage.Bar
}

// Bars are those of a linkage, from the arm on.
func Bars(v *values.Station) [4]Bar {
	b := station.NewLinkageBars(v)
	return [4]Bar{
		{"input-bar", "Input bar", "from the arm's shaft to the pin", b.Input},
		{"coupler", "Coupler", "from pin to pin", b.Coupler},
		{"output-bar", "Output bar", "from the output shaft to the pin", b.Output},
		{"plate-lever", "Plate lever", "from the output shaft to the sleeve", b.Lever},
	}
}
