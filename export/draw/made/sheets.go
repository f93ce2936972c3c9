package made

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sheet is a sheet of made parts with the name its files bear.
type Sheet struct {
	Slug string
	sheet.Sheet
	Parts []Part
}

// Shop is what sheets are made with.
type Shop struct {
	Units sheet.Units
	Blank func(title string) sheet.Sheet // an empty sheet
	Files map[string][]string            // cut files by the id of an item
}

// families are the sheets in their order.
var families = [...]struct{ slug, title string }{
	{"tubes", "Tubes"},
	{"plates", "Plates"},
	{"blocks", "Bars, blocks and bends"},
	{"rounds", "Turned parts"},
	{"boards", "Boards and foam"},
}

func (p *Part) family() int {
	switch {
	case p.Form == assembly.Tube:
		return 0
	case p.Form == assembly.Round:
		return 3
	case p.Form == assembly.Board || p.Form == assembly.Foam:
		return 4
	case p.cut():
		return 1
	}
	return 2
}

// Sheets draws the parts, as many on a sheet as have room there, each once.
func (w *Shop) Sheets(parts []Part) []Sheet {
	var out []Sheet
	for family, of := range families {
		var own []Part
		for _, p := range parts {
			if p.family() == family {
				own = append(own, p)
			}
		}
		for n, group := range w.divided(own) {
			title := of.title
			if n > 0 {
				title += ", " + strconv.Itoa(n+1)
			}
			s := Sheet{Slug: of.slug, Sheet: w.Blank(title), Parts: group}
			s.Dense = true
			t := sheet.Table{Title: "What is made, " + w.Units.Symbol(), Columns: sheet.Columns("Item", "<Feature", ">x", ">y", ">z", "<From", ">Size", ">Depth, length", "<Thread, fit, use")}
			for i := range group {
				s.Views = append(s.Views, group[i].draw())
				t.Rows = append(t.Rows, w.rows(&group[i])...)
			}
			s.Tables = []sheet.Table{t}
			s.Notes = w.notes(family, group)
			out = append(out, s)
		}
	}
	return out
}

// Room that is reckoned for on an A2 or C sheet, mm².
const (
	usable   = 155e3 // for pictures and rows, of some 200e3: they do not fill it without gaps
	aroundX  = 42.0  // dimensions beside a picture
	aroundY  = 46.0  // and above and below
	rowTall  = 5.2
	tableRow = 165.0 // width of the table
)

// divided shares parts out over as few sheets as have room for them, about as much on
// each.
func (w *Shop) divided(parts []Part) [][]Part {
	needs := make([]float64, len(parts))
	total := 0.0
	for i := range parts {
		p := &parts[i]
		f := p.scale().Factor()
		wide := max(p.size.X*f+aroundX, sheet.TextWidth(p.caption(), sheet.ViewText)+5)
		needs[i] = wide*(p.size.Y*f+aroundY) + float64(len(w.rows(p)))*rowTall*tableRow
		total += needs[i]
	}
	fill := func(room float64) (out [][]Part) {
		full := math.Inf(1)
		for i, p := range parts {
			if full+needs[i] > room {
				out, full = append(out, nil), 0
			}
			out[len(out)-1] = append(out[len(out)-1], p)
			full += needs[i]
		}
		return out
	}
	best := fill(usable)
	const steps = 10
	least := total / max(1, float64(len(best)))
	for k := range steps {
		if out := fill(least + float64(k)/steps*(usable-least)); len(out) == len(best) {
			return out
		}
	}
	return best
}

func (w *Shop) notes(family int, group []Part) []string {
	if family == 4 {
		return []string{"x from the left edge, y from the lower edge."}
	}
	n := []string{
		"x from the left end or edge, from the long point of a mitre. Of tubes, bars and rounds y and z count from the middle, up and towards the viewer; of others y from the lower edge, z from the far face.",
		"Opposite hand: mirror image of what is drawn.",
	}
	switch family {
	case 0:
		n = append(n, "Lengths from long point to long point. Angles of mitres are those from square at which the saw is set.")
	case 1:
		n = append(n, "Outlines are cut from the files; those ending in -left are for the left side. Holes too small to cut are etched as a cross.",
			"Thin lines: where parts are welded on, etched where all plates of a file have them; dashed: on the far face.")
	case 3:
		broken := 0.5
		if w.Units != sheet.Millimetres {
			broken = 0.508 // 0.02 in
		}
		note := "Edges broken " + w.Units.Fine(broken) + " at 45°."
		if standard := keyed(group); standard != "" {
			note += " Keyways of a shaft lie in one line; a keyway in a bore where the part's place on its shaft asks for it. Keyways "
			if standard == "DIN 6885-1" {
				note += "form A, "
			}
			note += standard + "."
		}
		n = append(n, note)
	}
	return n
}

// keyed is the standard of the keys on a sheet, "" without one: one shaft size has one.
func keyed(group []Part) string {
	for i := range group {
		for j := range group[i].Features {
			if f := &group[i].Features[j]; f.Kind == Keyway {
				return f.Standard
			}
		}
	}
	return ""
}

// rows tells the features of a part.
func (w *Shop) rows(p *Part) [][]string {
	var out [][]string
	item := strconv.Itoa(p.Item)
	for _, f := range p.cutRows(w) {
		out = append(out, append([]string{item}, f...))
	}
	for i := range p.Features {
		out = append(out, append([]string{item}, w.row(p, &p.Features[i])...))
	}
	return out
}

// cutRows tell where the outline of a plate is, and the length of what is bent.
func (p *Part) cutRows(w *Shop) [][]string {
	var out [][]string
	s, prism := p.Drawn.Solid.(solid.Prism)
	switch {
	case p.cut():
		for i, f := range w.Files[p.ID] {
			name := "outline"
			if i > 0 {
				name = "outline, left"
			}
			out = append(out, []string{name, "", "", "", "", "", "", f})
		}
	case prism && p.shape == plate && p.Form == assembly.Plate:
		if flat := p.Drawn.Stock.Size[0]; flat > max(p.size.X, p.size.Y)+1 && len(s.Profile.Outer().Vertices) > 4 && p.thick > p.Drawn.Stock.Size[2]+1 {
			out = append(out, []string{"bent from", "", "", "", "", w.Units.Fine(flat), w.Units.Fine(p.thick), "developed length, width"})
			break
		}
		out = append(out, []string{"thickness", "", "", "", "", w.Units.Fine(p.thick), "", "towards the viewer"})
	case p.shape == plate:
		out = append(out, []string{"thickness", "", "", "", "", w.Units.Fine(p.thick), "", ""})
	}
	return out
}

// row tells one feature, but for the item.
func (w *Shop) row(p *Part, f *Feature) []string {
	fine := w.Units.Fine
	name, x, y, z, from, size, depth := f.name(), "", "", "", "", fine(f.Size), ""
	note := f.Note
	at := p.look.See(f.At)
	out := r3.Dot(r3.Sub(f.At, p.look.Origin), p.look.Toward)
	off := func(v float64) string {
		if p.shape == bar && math.Abs(v) < 0.005 {
			return "middle"
		}
		return fine(v)
	}
	along := func() {
		x, depth = fine(at.X), fine(f.Depth)
	}
	switch f.Kind {
	case End:
		return w.end(f)
	case Step:
		along()
		size = "Ø" + size
		if f.Deep > 0 {
			size += " to " + fine(f.Deep)
		}
	case Seat:
		along()
		size = "Ø" + size
	case Screw:
		x, size = fine(at.X), p.screws.Name(f.Size)
		name = strconv.Itoa(max(1, f.Count)) + " " + name
		if p.shape == plate {
			x, z = "", fine(out)
		}
	case Keyway:
		if f.Inside {
			return []string{name + " in the bore", "", "", "", "", size, "through", fine(f.Deep) + " past the bore, " + note}
		}
		along()
		return []string{name, x, "", "", "", size, depth, fine(f.Deep) + " deep, " + note}
	case Opening:
		x, y, size = fine(at.X), fine(at.Y), size+" x "+fine(f.Deep)
	default: // holes and slots
		size = "Ø" + size
		depth = "through"
		if f.Depth > 0 {
			depth = fine(f.Depth)
		}
		if f.Inside {
			name = "bore"
			break
		}
		from = face(p, f.Dir)
		if math.Abs(r3.Dot(f.Dir, p.look.Right)) < 0.5 {
			x = fine(at.X)
		}
		if math.Abs(r3.Dot(f.Dir, p.look.Up)) < 0.5 {
			y = off(at.Y)
		}
		if math.Abs(r3.Dot(f.Dir, p.look.Toward)) < 0.5 {
			z = off(out)
		}
	}
	return []string{name, x, y, z, from, size, depth, note}
}

// end tells how far an end is from square.
func (w *Shop) end(f *Feature) []string {
	name := "end, left"
	if f.Dir.Z < 0 {
		name = "end, right"
	}
	across := func(t float64) string { return sheet.Degrees(math.Abs(t), 2) + "°" }
	size, note := across(f.Tilt.X), "from square, in the picture"
	switch {
	case r2.Norm(f.Tilt) > 0 && math.Abs(f.Tilt.X) <= square:
		size, note = across(f.Tilt.Y), "from square, towards the viewer"
	case math.Abs(f.Tilt.Y) > square:
		note += "; " + across(f.Tilt.Y) + " towards the viewer"
	}
	return []string{name, "", "", "", "", size, "", note}
}

// face names the side that a tool enters from.
func face(p *Part, dir r3.Vec) string {
	side := func(axis r3.Vec) float64 { return r3.Dot(dir, axis) }
	switch {
	case side(p.look.Toward) < -0.5:
		return "front"
	case side(p.look.Toward) > 0.5:
		return "rear"
	case side(p.look.Up) < -0.5:
		return "top"
	case side(p.look.Up) > 0.5:
		return "bottom"
	case side(p.look.Right) > 0.5:
		return "left"
	}
	return "right"
}
