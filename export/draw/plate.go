package draw

import (
	"math"
	"strconv"

	"armwright/export/draw/platework"
	"armwright/export/sheet"
	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r2"
)

// plateView is a plate on its face, its own frame's origin at the view's; every size
// of hole has a diameter, and the plate its length and width in brackets.
func (d *drafter) plateView(title string, p *assembly.Part) sheet.View {
	v := sheet.View{Title: title}
	profile := platework.ProfileOf(p)
	if profile == nil {
		return v
	}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	add(outline(sheet.Visible, profile.Outer()))
	type size struct {
		n      int
		centre r2.Vec
		radius float64
	}
	var sizes []size
	for _, h := range profile.Holes() {
		centre, radius, ok := h.Round()
		if !ok {
			add(outline(sheet.Visible, h))
			continue
		}
		add(sheet.Circle{Role: sheet.Visible, Centre: centre, Radius: radius}, sheet.CentreMark{Centre: centre, Radius: radius})
		known := false
		for i := range sizes {
			if math.Abs(sizes[i].radius-radius) < sameSize/2 {
				sizes[i].n, known = sizes[i].n+1, true
			}
		}
		if !known {
			sizes = append(sizes, size{1, centre, radius})
		}
	}
	for _, s := range sizes {
		prefix := ""
		if s.n > 1 {
			prefix = strconv.Itoa(s.n) + "x "
		}
		add(sheet.Dimension{Kind: sheet.Diameter, A: s.centre, B: r2.Add(s.centre, r2.Scale(s.radius*math.Sqrt2/2, at(1, 1))), Prefix: prefix})
	}
	box := profile.Bounds()
	add(sheet.Dimension{Kind: sheet.Horizontal, A: at(box.Min.X, box.Min.Y), B: at(box.Max.X, box.Min.Y), Reference: true},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(box.Max.X, box.Min.Y), B: at(box.Max.X, box.Max.Y), Reference: true})
	return v
}

// holeTable gives the holes of a plate from its own frame's origin: x to the right
// and y up in the view of its face.
func (d *drafter) holeTable(title string, p *assembly.Part) sheet.Table {
	t := sheet.Table{Title: title + ", " + d.unit(), Columns: sheet.Columns("<Hole", ">Size", ">x", ">y")}
	profile := platework.ProfileOf(p)
	if profile == nil {
		return t
	}
	for _, h := range profile.Holes() {
		if centre, radius, ok := h.Round(); ok {
			t.Rows = append(t.Rows, []string{"round", d.fine(2 * radius), d.fine(centre.X), d.fine(centre.Y)})
			continue
		}
		// A slot: the middles of its round ends.
		for _, e := range h.RoundEnds() {
			t.Rows = append(t.Rows, []string{"slot, end", d.fine(2 * e.Radius), d.fine(e.Centre.X), d.fine(e.Centre.Y)})
		}
	}
	return t
}

// balloonAt points at a part, the first time on any sheet.
func (d *drafter) balloonAt(v *sheet.View, p *assembly.Part, at r2.Vec) {
	if i, ok := d.a.Index(p.ID); ok && !d.ballooned[d.item[i]] {
		d.ballooned[d.item[i]] = true
		v.Entities = append(v.Entities, sheet.Balloon{At: at, Item: d.item[i]})
	}
}
