package draw

import (
	"fmt"
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// camSheet is sheet 03: the cam's core plate, its place to the guide sheave, a
// section of the rim, and the polar table.
func (d *drafter) camSheet() sheet.Sheet {
	s := d.sheet(medium, "Cam", "Detail drawing")
	s.Views = append([]sheet.View{d.corePlate(), d.camAndGuide(), d.rimSection()}, append(d.hubSection(), d.hubViews()...)...)
	s.Tables = []sheet.Table{d.polarTable(), d.camData(), d.drillTable()}
	s.Notes = d.camNotes()
	return s
}

// farthest is the point of a path that is farthest from the origin.
func farthest(p contour.Path) r2.Vec {
	var best r2.Vec
	for i := range p.Len() {
		e := p.Element(i)
		points := []r2.Vec{e.Start, e.End}
		if e.IsArc() {
			// The point of the circle away from the origin, if it is on the arc.
			q := r2.Add(e.Centre, r2.Scale(e.Radius, r2.Unit(e.Centre)))
			if e.Distance(q) < 1e-9 {
				points = append(points, q)
			}
		}
		for _, q := range points {
			if r2.Norm2(q) > r2.Norm2(best) {
				best = q
			}
		}
	}
	return best
}

// fullSize is the size, mm, up to which a cam is drawn 1:1: it leaves room for
// the tables on the sheet.
const fullSize = 240.0

// corePlate is the plate that is cut, at flexion 0.
func (d *drafter) corePlate() sheet.View {
	o := d.cam.Outline
	v := sheet.View{Title: "Core plate at flexion 0, seen from the user's right", Position: sheet.Front}
	box := o.Root.Bounds()
	if math.Max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y) < fullSize {
		v.Scale = sheet.Scale{Drawing: 1, Real: 1} // to lay the part on the print
	}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	add(outline(sheet.Visible, o.Root), outline(sheet.Phantom, o.Blank), outline(sheet.Centre, o.Pitch))
	var bolt cam.Hole
	for _, h := range o.Holes {
		if h.Name == "bore" && o.Keyed.Len() > 0 {
			add(outline(sheet.Visible, o.Keyed))
		} else {
			add(sheet.Circle{Role: sheet.Visible, Centre: h.Centre, Radius: h.Diameter / 2})
		}
		add(sheet.CentreMark{Centre: h.Centre, Radius: h.Diameter / 2})
		rim := r2.Add(h.Centre, at(h.Diameter/2*math.Sqrt2/2, h.Diameter/2*math.Sqrt2/2))
		switch h.Name {
		case "bore":
			add(sheet.Dimension{Kind: sheet.Diameter, A: h.Centre, B: rim, Suffix: " H7"})
		case "bolt":
			bolt = h
		case "anchor":
			add(sheet.Dimension{Kind: sheet.Diameter, A: h.Centre, B: rim, Suffix: " anchor"})
			add(offsets(h.Centre, sheet.Below, sheet.Rightward)...)
		}
	}
	if p := d.cam.Plate; p.Bolts > 0 {
		r := p.BoltCircle / 2
		add(sheet.Circle{Role: sheet.Centre, Radius: r},
			sheet.Dimension{Kind: sheet.Diameter, B: at(-r*math.Sqrt2/2, -r*math.Sqrt2/2)},
			sheet.Dimension{Kind: sheet.Diameter, A: bolt.Centre, B: r2.Add(bolt.Centre, at(bolt.Diameter/2, 0)), Prefix: strconv.Itoa(p.Bolts) + "x "})
	}
	for _, m := range o.Marks {
		add(sheet.Line{Role: sheet.Thin, A: m.From, B: m.To})
		note := map[string]string{
			"index": "index: plumb above the axis at flexion 0",
			"first": "contact at " + sheet.Degrees(d.first, 0) + "°",
			"last":  "contact at " + sheet.Degrees(d.last, 0) + "°",
		}[m.Name]
		add(sheet.Leader{At: m.From, Note: note})
	}
	if d.part("cam-hub-right") != nil {
		u := d.hubPlane()
		add(trace("A", d.cam.Outline.Blank, u, at(u.Y, -u.X)))
	}
	far := farthest(o.Root)
	if item := d.itemOf("cam-core"); item != "" {
		add(sheet.Balloon{At: r2.Scale(0.6, far), Item: item})
	}
	add(sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(box.Min.X, 0), B: at(box.Max.X, 0), Reference: true},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, box.Min.Y), B: at(0, box.Max.Y), Reference: true},
		sheet.Dimension{Kind: sheet.Radius, B: far, Reference: true})
	return v
}

// camAndGuide shows where the guide sheave stands, and the cable at flexion 0,
// or as near to that as the cam was made for.
func (d *drafter) camAndGuide() sheet.View {
	theta := math.Max(d.first-cam.Overrun, math.Min(0, d.last))
	v := sheet.View{Title: "Place of the guide sheave, arm at " + sheet.Degrees(theta, 0) + "°"}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	c := d.geo.Cam
	o := d.cam.Outline
	q := at(c.GuideX, c.GuideY)
	half := d.cam.Plate.Cable / 2
	bore := sheet.Entity(sheet.Circle{Role: sheet.Visible, Radius: d.cam.Plate.Bore / 2})
	if o.Keyed.Len() > 0 {
		bore = outline(sheet.Visible, o.Keyed.Place(c.Ratio*theta, r2.Vec{}))
	}
	add(outline(sheet.Visible, o.Root.Place(c.Ratio*theta, r2.Vec{})), bore, sheet.CentreMark{Radius: d.cam.Plate.Bore / 2},
		sheet.Circle{Role: sheet.Phantom, Centre: q, Radius: math.Max(1, c.GuideR-half)}, sheet.CentreMark{Centre: q, Radius: c.GuideR},
		sheet.Dimension{Kind: sheet.Radius, A: q, B: r2.Add(q, at(0, -math.Max(1, c.GuideR-half))), Suffix: " tread"})
	if item := d.itemOf("sheave"); item != "" {
		add(sheet.Balloon{At: r2.Add(q, at(-c.GuideR/2, c.GuideR/2)), Item: item})
	}
	add(offsets(q, sheet.Below, sheet.Leftward)...)
	if st, err := d.cam.Profile.At(theta); err == nil {
		add(sheet.Line{Role: sheet.Phantom, A: st.Contact, B: st.Leave},
			sheet.Leader{At: r2.Scale(0.5, r2.Add(st.Contact, st.Leave)), Note: "cable centre"})
	}
	if c.Ratio != 1 {
		p := at(-c.CentreX, -c.CentreY)
		add(sheet.Circle{Role: sheet.Phantom, Centre: p, Radius: d.r.Frame.Stock.Shaft / 2}, sheet.CentreMark{Centre: p, Radius: d.r.Frame.Stock.Shaft},
			sheet.Leader{At: p, Note: "pivot axis"})
		add(offsets(p, sheet.Above, sheet.Rightward)...)
	}
	return v
}

// rimSection is the section of the rim: core, cheeks and cable.
func (d *drafter) rimSection() sheet.View {
	v := sheet.View{Title: "Section of the rim", Scale: sheet.Scale{Drawing: 5, Real: 1}}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	cable := d.cam.Plate.Cable
	depth := cam.NewGroove(cable).Depth
	core, cheek := d.cam.Core/2, d.cam.Cheek
	down := 1.5 * depth
	box := func(x0, x1, y1 float64) []sheet.Vertex {
		return []sheet.Vertex{{Vec: at(x0, -down)}, {Vec: at(x1, -down)}, {Vec: at(x1, y1)}, {Vec: at(x0, y1)}}
	}
	for _, p := range [...]struct {
		loop  []sheet.Vertex
		angle float64
	}{{box(-core, core, 0), math.Pi / 4}, {box(-core-cheek, -core, depth), 3 * math.Pi / 4}, {box(core, core+cheek, depth), 3 * math.Pi / 4}} {
		open := append([]sheet.Vertex{p.loop[0]}, p.loop[3], p.loop[2], p.loop[1])
		add(sheet.Polyline{Role: sheet.Visible, Vertices: open}, sheet.Hatch{Loops: [][]sheet.Vertex{p.loop}, Angle: p.angle, Spacing: 2})
	}
	add(sheet.Circle{Role: sheet.Phantom, Centre: at(0, cable/2), Radius: cable / 2}, sheet.CentreMark{Centre: at(0, cable/2), Radius: cable / 2},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(-core, -down), B: at(core, -down)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(-core-cheek, -down), B: at(core+cheek, -down)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(core, 0), B: at(core+cheek, depth)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(-core, 0), B: at(0, cable/2)})
	return v
}

// polarTable gives the profile at every five degrees of flexion and at the
// ends of the loaded range.
func (d *drafter) polarTable() sheet.Table {
	t := sheet.Table{
		Title:   "Profile, " + d.unit() + ", cam at flexion 0",
		Columns: sheet.Columns(">Flexion °", ">Moment arm", ">Normal °", ">Root x", ">Root y", ">Radius to cable"),
	}
	const step = 5 * specs.Degree
	angles := []float64{d.first}
	for k := math.Floor(d.first/step) + 1; k*step < d.last-1e-9; k++ {
		if k*step > d.first+1e-9 {
			angles = append(angles, k*step)
		}
	}
	for _, theta := range append(angles, d.last) {
		st, err := d.cam.Profile.At(theta)
		if err != nil {
			continue // the outline was made of these angles
		}
		sin, cos := math.Sincos(st.Phi)
		root := r2.Sub(st.Point, r2.Scale(d.cam.Plate.Cable/2, at(cos, sin)))
		phi := math.Mod(st.Phi, 2*math.Pi)
		if phi < 0 {
			phi += 2 * math.Pi
		}
		t.Rows = append(t.Rows, []string{sheet.Degrees(theta, 0), d.fine(st.Arm), sheet.Degrees(phi, 2), d.fine(root.X), d.fine(root.Y), d.fine(st.Rho)})
	}
	return t
}

// camData is the table of what the cam is made of and works with.
func (d *drafter) camData() sheet.Table {
	t := sheet.Table{Title: "Cam data", Columns: sheet.Columns("<Quantity", "<Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	c, s, o, r := d.geo.Cam, d.r.Frame.Stock, d.cam.Outline, d.r.Resistance
	least, greatest := d.cam.Cable.GrooveRadius()
	row("Cable", d.cam.Cable.Name+", diameter "+d.fine(d.cam.Cable.Diameter)+" "+d.unit())
	row("Drive ratio, cam to arm", strconv.FormatFloat(c.Ratio, 'g', 6, 64))
	if t, ok := transmission(&d.r.Frame); ok {
		row("Drive, arm to cam", t.Title)
		row("Teeth, arm to cam", fmt.Sprintf("%d to %d, %d pitches", c.ArmTeeth, c.DrivenTeeth, c.Pitches))
	} else if c.Ratio == 1 {
		row("Drive", "cam on the arm shaft")
	}
	row("Guide sheave from the axis", "x "+d.fine(c.GuideX)+", y "+d.fine(c.GuideY)+" "+d.unit())
	row("Guide radius to the cable", d.fine(c.GuideR)+" "+d.unit()+", "+c.Side)
	row("Core plate", d.measure(d.cam.Core)+" "+s.Steel)
	row("Cheek plates", "2 x "+d.measure(d.cam.Cheek)+" "+s.Steel)
	row("Groove, if milled", "radius "+d.fine(least)+" to "+d.fine(greatest)+", depth "+d.fine(d.cam.Cable.GrooveDepth())+" "+d.unit())
	row("Least radius to the cable", d.fine(o.LeastRadius)+" "+d.unit()+" (D/d "+strconv.FormatFloat(d.cam.Cable.TreadRatio(o.LeastRadius), 'f', 1, 64)+")")
	row("Wrap over the loaded range", sheet.Degrees(r.WrapAngle, 1)+"°")
	row("Dead wrap", sheet.Degrees(o.DeadWrap, 0)+"°")
	row("Cable taken up", d.measure(r.TakeUp))
	row("Tension at the middle load", d.reads().Size(r.Tension, "N"))
	for _, h := range d.hubRows() {
		row(h[0], h[1])
	}
	return t
}

func (d *drafter) camNotes() []string {
	notes := []string{
		"Origin: the cam axis. x forward, y up in the plane of the cam, seen from the user's right, arm at flexion 0. Flexion turns the cam counter-clockwise. The cam of the left arm is the same part turned over.",
		"The outline is the root of the groove: the cable lies on the edge of the core plate (cut/cam.dxf) between two cheek plates (cut/cam-cheek.dxf), whose rim stands 1.5 cable diameters above the root. Chain line: centre of the cable; double-dot chain line: rim of the cheeks.",
		"Or mill the groove into one plate of " + d.measure(d.r.Frame.Stock.CamPlate) + " cut to the cheek outline, its root on the core outline.",
		"The cable ends in an eye on a screw through the anchor hole: relieve the core from the hole to the edge there by the width of the eye. The cable has passed the dead wrap by then; the working profile stays as cut.",
		"Profile within " + d.measure(0.1) + "; the files are cut without kerf compensation. Normal is the direction of the outward normal at the contact.",
	}
	return append(notes, d.hubNotes()...)
}
