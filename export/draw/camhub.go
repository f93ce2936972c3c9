package draw

import (
	"math"

	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/geometry/cam"
	"armwright/specs/stock"
)

// hubViews show how the cam sits on its shaft: the bore with its keyway, or the
// split hub; none where a flange is welded and bolted.
func (d *drafter) hubViews() []sheet.View {
	h := d.r.Resistance.Hub
	switch h.Kind {
	case "keyway":
		return []sheet.View{d.keywayView()}
	case "clamp":
		return []sheet.View{d.splitHub()}
	}
	return nil
}

// keywayView is the bore with its keyway at twice its size.
func (d *drafter) keywayView() sheet.View {
	p := d.cam.Plate
	r, floor := p.Bore/2, p.Bore/2+p.KeyDepth
	v := sheet.View{Title: "Keyway of core and cheeks", Scale: sheet.Scale{Drawing: 2, Real: 1}}
	depth := ""
	if d.units == sheet.Millimetres && !stock.InchSize(p.Bore) {
		depth = " +0.2/0" // DIN 6885-1, from 8 x 7 up; less for smaller keys
	}
	v.Entities = []sheet.Entity{
		outline(sheet.Visible, d.cam.Outline.Keyed), sheet.CentreMark{Radius: r},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(-p.KeyWidth/2, floor), B: at(p.KeyWidth/2, floor), Suffix: " " + d.r.Resistance.Hub.Key.HubClass()},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, -r), B: at(p.KeyWidth/2, floor), Suffix: depth},
	}
	return v
}

// splitHub is the hub that clamps the shaft, as it is cut.
func (d *drafter) splitHub() sheet.View {
	h := d.r.Resistance.Hub
	c, s := h.Clamp, h.Split
	v := sheet.View{Title: "Split hub, on the inner face of the cam, seen from the user's right", Scale: sheet.Scale{Drawing: 1, Real: 1}}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	add(outline(sheet.Visible, s.Outline), sheet.CentreMark{Radius: c.Bore / 2})
	for _, o := range s.Holes {
		add(sheet.Circle{Role: sheet.Visible, Centre: o.Centre, Radius: o.Diameter / 2}, sheet.CentreMark{Centre: o.Centre, Radius: o.Diameter / 2})
	}
	box := s.Outline.Bounds()
	edge := c.Screw / 2
	for _, side := range [...]float64{-1, 1} {
		from, to := side*c.Slot/2, side*s.Half
		add(sheet.Line{Role: sheet.Hidden, A: at(s.ScrewX-edge, from), B: at(s.ScrewX-edge, to)},
			sheet.Line{Role: sheet.Hidden, A: at(s.ScrewX+edge, from), B: at(s.ScrewX+edge, to)})
	}
	r := c.Bore / 2 * math.Sqrt2 / 2
	add(sheet.CentreLine{A: at(s.ScrewX, -s.Half), B: at(s.ScrewX, s.Half)},
		sheet.Dimension{Kind: sheet.Diameter, B: at(-r, r), Suffix: " H7"},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Below, B: at(s.ScrewX, -s.Half)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Below, A: at(box.Min.X, 0), B: at(box.Max.X, -s.Half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(box.Max.X, -c.Slot/2), B: at(box.Max.X, c.Slot/2)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(box.Max.X, -s.Half), B: at(box.Max.X, s.Half)})
	return v
}

// drillTable lists what is bored, drilled or cut through the plates of the cam,
// places from its axis at flexion 0.
func (d *drafter) drillTable() sheet.Table {
	t := sheet.Table{Title: "Holes, " + d.unit() + ", cam at flexion 0", Columns: sheet.Columns("<Hole", ">Diameter", ">x", ">y")}
	row := func(name, size string, h cam.Hole) {
		t.Rows = append(t.Rows, []string{name, size, d.fine(h.Centre.X), d.fine(h.Centre.Y)})
	}
	for _, h := range d.cam.Outline.Holes {
		switch h.Name {
		case "bore":
			row("Bore, core and cheeks", d.fine(h.Diameter)+" H7", h)
		case "bolt":
			row(d.hubScrew(), d.fine(h.Diameter), h)
		case "anchor":
			row("Cable anchor", d.fine(h.Diameter), h)
		default:
			row("Lightening", d.fine(h.Diameter), h)
		}
	}
	if h := d.r.Resistance.Hub; h.Kind == "clamp" {
		t.Rows = append(t.Rows, []string{"Across the split hub's ears", d.fine(h.Screw.Hole), d.fine(h.Split.ScrewX), "right through"})
	}
	return t
}

// hubScrew names the screws through the plates.
func (d *drafter) hubScrew() string {
	return "Screw " + d.screws().Name(d.r.Resistance.Hub.BoltThread())
}

// hubRows tell how the cam sits on its shaft.
func (d *drafter) hubRows() [][2]string {
	h := d.r.Resistance.Hub
	moment := func(nmm float64) string { return d.reads().Size(nmm/1000, "N m") }
	out := [][2]string{{"Torque on the shaft, heavy load", moment(h.Torque)}}
	switch h.Kind {
	case "keyway":
		k := h.Key
		out = append(out,
			[2]string{"Parallel key (" + k.Standard + ")", d.fine(k.Width) + " x " + d.fine(k.Height) + " " + d.unit()},
			[2]string{"Keyway, shaft deep / hub past bore", d.fine(k.ShaftDepth) + " / " + d.fine(k.HubDepth) + " " + d.unit()},
			[2]string{"Pressure of the key", d.reads().Size(h.Pressure, "N/mm²")})
	case "clamp":
		out = append(out,
			[2]string{"Split hub, plate", d.measure(h.Plate) + " " + d.r.Frame.Stock.Steel},
			[2]string{"Clamp screw", partlist.ClampScrew(h.Screw.Thread, d.screws())},
			[2]string{"Torque the clamp holds", moment(h.Holding)})
	}
	return out
}

// hubNotes tell how to fit the hub.
func (d *drafter) hubNotes() []string {
	switch d.r.Resistance.Hub.Kind {
	case "keyway":
		note := "The keyway stands plumb above the axis at flexion 0; key and shaft's keyway as in the table. "
		if d.cam.Plate.Bolts > 0 {
			return []string{note + "It reaches on through the hub on the inner face, whose screws " + d.screws().Name(d.r.Resistance.Hub.BoltThread()) + " hold core and cheeks together."}
		}
		return []string{note + "It reaches on through the hub on the inner face. There is no room for screws: weld cheeks, core and hub together round the bore."}
	case "clamp":
		return []string{"The split hub is screwed to the inner face of the cam, the side of the bracket, through its four holes (cut/cam-hub.dxf), drilled right through both ears at half its thickness, and clamped after the index stands plumb."}
	}
	if d.cam.Plate.Bolts == 0 {
		return []string{"There is no room for a bolt circle: weld the hub into the bore."}
	}
	return nil
}
