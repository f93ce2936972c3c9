package draw

import (
	"fmt"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// plates reports whether a part is a weight that the user hangs on, or what holds it.
func plates(p *assembly.Part) bool { return p.Item == "plates" || p.Item == "plate-collar" }

// armSheet is sheet 04: the right arm seen along its axis and across it.
func (d *drafter) armSheet() sheet.Sheet {
	s := d.sheet(large, "Arm", "Detail drawing")
	pose := d.reference()
	pose.Handle = d.geo.Handle.Positions / 2
	turning := func(p *assembly.Part) bool { return d.in(p, "arm-right") }
	bodies := d.bodies(d.chosen(func(p *assembly.Part) bool { return turning(p) && !plates(p) }), pose, sheet.Visible, true)
	bodies = append(bodies, d.bodies(d.chosen(func(p *assembly.Part) bool { return turning(p) && plates(p) }), pose, sheet.Phantom, true)...)
	frame := d.armFrame()
	below := hidden.Camera{Right: frame.X, Up: frame.Z, Toward: r3.Scale(-1, frame.Y), Origin: frame.Origin}
	beside, one := show("Right arm along its axis, from outside", sheet.Front, bodies, hidden.Onto(frame))
	under, two := show("From below", sheet.FromBelow, bodies, below)
	one.view, two.view = &beside, &under
	d.balloons(one, two)
	d.armSizes(&beside)
	d.axialSizes(&under)
	s.Views = append([]sheet.View{beside, under}, d.barView("Grip bar without its rubber", "grip-bar-right", "grip-plug-right")...)
	s.Views = append(s.Views, pictorial(bodies))
	s.Tables = []sheet.Table{d.armTable(), d.detentTable()}
	s.Notes = []string{
		"Handle drawn in its middle position. Distances along the arm count from the pivot axis, distances along the axis from the pivot, outward.",
		"Detents: holes right through the tube, square to the side that faces outward; the slide's pin holds in one of them in every position.",
		"The left arm is the mirror image.",
	}
	if d.geo.Lever != nil {
		s.Notes = append(s.Notes, "The angle of the plates is that between the arm and the line from the axis to the plates; it is fixed in the arm and equals the phase plus the slope of the arm at flexion 0.")
	}
	return s
}

// armSizes dimensions the arm along itself.
func (d *drafter) armSizes(v *sheet.View) {
	h := d.geo.Handle
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	frame := d.armFrame()
	add(sheet.CentreMark{Radius: d.r.Frame.Stock.Shaft})
	if tube := d.part("arm-tube-right"); tube != nil {
		from, to := span(tube, d.pivot, frame.X)
		low, high := span(tube, d.pivot, frame.Y)
		add(sheet.Dimension{Kind: sheet.Horizontal, A: r2.Vec{}, B: at(from, low)},
			sheet.Dimension{Kind: sheet.Horizontal, A: at(from, low), B: at(to, low)},
			sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(to, low), B: at(to, high)})
		first, last := d.handleAt(0), d.handleAt(h.Positions-1)
		add(sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: r2.Vec{}, B: at(first, high)})
		if h.Positions > 1 {
			suffix := fmt.Sprintf(" = %d x %s", h.Positions-1, d.length(h.Pitch))
			add(sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(first, high), B: at(last, high), Suffix: suffix})
		}
		for i := range h.Positions {
			x := d.handleAt(i)
			add(sheet.Line{Role: sheet.Thin, A: at(x, high-6), B: at(x, high)})
		}
	}
	// turning dimensions what is fixed in the arm at a place.
	turning := func(p r2.Vec, across float64) {
		arm := at(d.handleAt(h.Positions-1), 0)
		dim := sheet.Dimension{Kind: sheet.Angular, A: arm, B: p, Decimals: 1}
		if p.Y < 0 {
			dim.A, dim.B = p, arm
		}
		add(sheet.CentreMark{Centre: p, Radius: across / 2}, sheet.CentreLine{A: r2.Vec{}, B: p}, sheet.CentreLine{A: r2.Vec{}, B: arm},
			sheet.Dimension{Kind: sheet.Aligned, A: r2.Vec{}, B: p, Offset: -18}, dim)
	}
	if w := d.part("counter-weight-right"); w != nil {
		p := d.onArm(w.Place.Origin)
		if c := d.geo.Counterweight; c != nil && c.Phase == 0 {
			add(sheet.CentreMark{Centre: p, Radius: w.Stock.Size[0] / 2}, sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: p, B: r2.Vec{}})
		} else {
			// From straight opposite the arm.
			opposite := at(-r2.Norm(p), 0)
			angle := sheet.Dimension{Kind: sheet.Angular, A: opposite, B: p, Decimals: 1}
			if r2.Cross(opposite, p) < 0 {
				angle.A, angle.B = p, opposite
			}
			add(sheet.CentreMark{Centre: p, Radius: w.Stock.Size[0] / 2}, sheet.CentreLine{B: p}, sheet.CentreLine{B: opposite},
				sheet.Dimension{Kind: sheet.Aligned, A: p, B: r2.Vec{}, Offset: -18}, angle)
		}
	}
	if w := d.part("eccentric-weight-right"); w != nil {
		turning(d.onArm(w.Place.Origin), w.Stock.Size[0])
	}
	if w := d.part("plate-sleeve-right"); w != nil && d.geo.Lever != nil {
		turning(d.onArm(w.Place.Origin), w.Stock.Size[0])
	}
	if w := d.part("input-pin-right"); w != nil {
		turning(d.onArm(w.Place.Origin), w.Stock.Size[0])
	}
}

// axialSizes dimensions the planes across the axis, from the pivot outward.
func (d *drafter) axialSizes(v *sheet.View) {
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	ordinate := func(x, y float64) {
		add(sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: r2.Vec{}, B: at(x, y)})
	}
	ordinate(0, 0)
	grip := d.handleAt(d.geo.Handle.Positions / 2)
	planes := d.values.Planes()
	ordinate(grip, planes.GripIn)
	ordinate(grip, planes.GripOut)
	if p := d.part("arm-tube-right"); p != nil {
		low, high := span(p, d.pivot, d.axis)
		_, to := span(p, d.pivot, d.armFrame().X)
		ordinate(to, (low+high)/2)
	}
	middle := d.outward(d.bearingMiddle(len(d.geo.Pivots.Axes)/2, "pivot"))
	ordinate(0, middle)
	add(sheet.Leader{At: at(0, middle), Note: "middle of the bearings"}, sheet.CentreMark{Radius: 12})
	end := middle
	if p := d.part("arm-shaft-right"); p != nil {
		_, end = span(p, d.pivot, d.axis)
		ordinate(0, end)
	}
	for _, id := range [...]string{"lever-right", "input-bar-right", "cam-core-right", "counter-weight-right"} {
		p := d.part(id)
		if p == nil || !d.in(p, "arm-right") {
			continue
		}
		low, high := span(p, d.pivot, d.axis)
		ordinate(d.onArm(p.Place.Origin).X, (low+high)/2)
	}
	add(sheet.CentreLine{B: at(0, end+30)})
}

// detentTable gives the holes of the arm's tube.
func (d *drafter) detentTable() sheet.Table {
	t := sheet.Table{Title: "Detent holes of the arm tube, " + d.unit(), Columns: sheet.Columns("No", ">From the axis", ">From the tube's inner end", ">Diameter")}
	p := d.part("arm-tube-right")
	if p == nil {
		return t
	}
	from, _ := span(p, d.pivot, d.armFrame().X)
	size := 0.0
	if s, ok := p.Solid.(solid.Prism); ok && len(s.Bores) > 0 {
		size = s.Bores[0].Diameter
	}
	for i, x := range detents(p, d.pivot, d.armFrame().X) {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), d.fine(x), d.fine(x - from), d.fine(size)})
	}
	return t
}

// armTable lists what the arm is set by.
func (d *drafter) armTable() sheet.Table {
	t := sheet.Table{Title: "Arm", Columns: sheet.Columns("<Quantity", ">Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	h := d.geo.Handle
	row("Handle positions", fmt.Sprintf("%d", h.Positions))
	row("Smallest and largest radius", d.length(d.handleAt(0))+" to "+d.measure(d.handleAt(h.Positions-1)))
	row("Pitch", d.measure(h.Pitch))
	row("Grip, clear length x diameter", d.length(h.GripLength)+" x "+d.measure(h.Diameter))
	row("Middle of the grip, outward", d.measure(h.Middle))
	if p := d.part("arm-tube-right"); p != nil {
		row("Arm tube", p.Stock.Name+", "+d.measure(p.Length())+" long")
	}
	mass, moment := 0.0, 0.0
	pose := d.reference()
	pose.Handle = h.Positions / 2
	places := d.displaced(pose)
	for i := range d.a.Parts {
		if p := &d.a.Parts[i]; (d.a.Groups[p.Group].ID == "handle-right" || d.a.Groups[p.Group].ID == "handle-pin-right" || p.Item == "arm-tube" || p.Item == "arm-hub" || p.ID == "arm-cap-right") && p.Side == assembly.Right {
			mass += p.Mass
			moment += p.Mass * d.onArm(places[p.Group].Point(p.Centre)).X
		}
	}
	if mass > 0 {
		row("Hub, tube and handle", d.told(mass, "kg")+" at "+d.measure(moment/mass))
	}
	if c := d.geo.Counterweight; c != nil && c.Mass > 0 {
		row("Counterweight with its bar", d.told(c.Mass, "kg")+" at "+d.measure(c.Radius))
		if c.Phase != 0 {
			row("Counterweight ahead of opposite the arm, flexion positive", sheet.Degrees(c.Phase, 1)+"°")
		}
	}
	if w := d.geo.Lever; w != nil {
		row("Plates from the axis", d.measure(w.Radius))
		row("Plates ahead of the arm, flexion positive", sheet.Degrees(d.ahead(w.Phase), 1)+"°")
		row("Phase: plates above forward at flexion 0", sheet.Degrees(w.Phase, 1)+"°")
	}
	if w := d.geo.Linkage; w != nil {
		row("Input bar, from pin to pin", d.measure(w.Input))
		row("Input bar ahead of the arm, flexion positive", sheet.Degrees(d.ahead(w.InputPhase+w.Direction), 1)+"°")
	}
	if w := d.geo.Eccentric; w != nil && w.Mass > 0 {
		row("Eccentric weight with its bar", d.told(w.Mass, "kg")+" at "+d.measure(w.Radius))
		row("Eccentric weight ahead of the arm, flexion positive", sheet.Degrees(d.ahead(w.Phase), 1)+"°")
		row("Phase: its angle above forward at flexion 0", sheet.Degrees(w.Phase, 1)+"°")
	}
	row("Loaded range", sheet.Degrees(d.first, 0)+"° to "+sheet.Degrees(d.last, 0)+"°")
	return t
}
