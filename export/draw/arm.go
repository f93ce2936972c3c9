package draw

import (
	"fmt"
	"math"

	"armwright/export/sheet"
	"armwright/geometry/station"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// armSheet is sheet 04: the right arm seen along its axis and across it.
func (d *drafter) armSheet() sheet.Sheet {
	s := d.sheet(medium, "Arm", "Detail drawing")
	along := d.armAt(0)
	up := r3.Cross(d.axis, along)
	bodies := append(d.arm(0, sheet.Visible), d.pivotUnit()...)
	if d.geo.Linkage != nil {
		bodies = append(bodies, d.inputBar(0))
	}
	// Put the pivot at the origin, so that the dimensions count from the axis.
	for i := range bodies {
		if bodies[i].bare {
			bodies[i].role = sheet.Phantom // plates are no part of the arm
		}
		bodies[i] = bodies[i].moved(r3.Scale(-1, d.pivot))
	}
	beside := sheet.View{Title: "Right arm along its axis, from outside", Position: sheet.Front, Entities: drawn(bodies, camera{along, up, d.axis})}
	below := sheet.View{Title: "From below", Position: sheet.FromBelow, Entities: drawn(bodies, camera{along, d.axis, r3.Scale(-1, up)})}
	d.balloons(shown{bodies, camera{along, up, d.axis}, &beside}, shown{bodies, camera{along, d.axis, r3.Scale(-1, up)}, &below})
	d.armSizes(&beside)
	d.axialSizes(&below)
	s.Views = []sheet.View{beside, below}
	s.Tables = []sheet.Table{d.armTable()}
	s.Notes = []string{
		"Grip drawn at its middle position. Distances along the arm count from the pivot axis, distances along the axis from the pivot, outward.",
		"The left arm is the mirror image.",
	}
	if d.geo.Lever != nil {
		s.Notes = append(s.Notes, "The angle of the plates is that between the arm and the line from the axis to the plates; it is fixed in the arm and equals the phase plus the slope of the arm at flexion 0.")
	}
	return s
}

// ahead is the angle from the arm to what points a phase above forward at
// flexion 0, flexion positive.
func (m *machine) ahead(phase float64) float64 {
	forward, up := m.plane()
	a := m.armAt(0)
	return math.Remainder(phase-math.Atan2(r3.Dot(a, up), r3.Dot(a, forward)), 2*math.Pi)
}

// armSizes dimensions the arm along itself.
func (d *drafter) armSizes(v *sheet.View) {
	h, l := d.geo.Handle, d.layout
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	half := l.ArmTube / 2
	add(sheet.CentreMark{Radius: hubAcross / 2},
		sheet.Dimension{Kind: sheet.Horizontal, A: r2.Vec{}, B: at(station.HubReach, -half)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(station.HubReach, -half), B: at(d.geo.Handle.Greatest()+station.GripPast, -half)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: r2.Vec{}, B: at(h.Least, half)})
	if h.Positions > 1 {
		suffix := fmt.Sprintf(" = %d x %s", h.Positions-1, d.length(h.Pitch))
		add(sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(h.Least, half), B: at(d.geo.Handle.Greatest(), half), Suffix: suffix})
	}
	for i := range h.Positions {
		x := h.Radius(i)
		add(sheet.Line{Role: sheet.Thin, A: at(x, half-6), B: at(x, half)})
	}
	if c := d.geo.Counterweight; c != nil && c.Mass > 0 {
		sin, cos := math.Sincos(c.Phase)
		p := at(-c.Radius*cos, -c.Radius*sin)
		add(sheet.CentreMark{Centre: p, Radius: d.counterSide() / 2})
		if c.Phase == 0 {
			add(sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: p, B: r2.Vec{}})
		} else {
			opposite := at(-c.Radius, 0)
			angle := sheet.Dimension{Kind: sheet.Angular, A: opposite, B: p, Decimals: 1}
			if c.Phase < 0 {
				angle.A, angle.B = p, opposite
			}
			add(sheet.CentreLine{B: p}, sheet.CentreLine{B: opposite}, sheet.Dimension{Kind: sheet.Aligned, A: p, B: r2.Vec{}, Offset: -18}, angle)
		}
	}
	// turning dimensions what is fixed in the arm at a radius and an angle.
	turning := func(radius, phase, across float64) {
		angle := d.ahead(phase)
		sin, cos := math.Sincos(angle)
		p := at(radius*cos, radius*sin)
		arm := at(d.geo.Handle.Greatest(), 0)
		dim := sheet.Dimension{Kind: sheet.Angular, A: arm, B: p, Decimals: 1}
		if angle < 0 {
			dim.A, dim.B = p, arm
		}
		add(sheet.CentreMark{Centre: p, Radius: across / 2}, sheet.CentreLine{A: r2.Vec{}, B: p}, sheet.CentreLine{A: r2.Vec{}, B: arm},
			sheet.Dimension{Kind: sheet.Aligned, A: r2.Vec{}, B: p, Offset: -18}, dim)
	}
	if w := d.geo.Lever; w != nil {
		turning(w.Radius, w.Phase, 2*d.r.Frame.Stock.Shaft)
	}
	if w := d.geo.Linkage; w != nil {
		turning(w.Input, w.InputPhase+w.Direction, station.PinAcross(d.layout.BarThick))
	}
	if w := d.geo.Eccentric; w != nil && w.Mass > 0 {
		turning(w.Radius, w.Phase, d.eccentricAcross())
	}
}

// axialSizes dimensions the planes across the axis, from the pivot outward.
func (d *drafter) axialSizes(v *sheet.View) {
	h, l := d.geo.Handle, d.layout
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	grip := d.middleHandle()
	end := d.geo.Handle.Greatest() + station.GripPast
	for _, p := range [...]r2.Vec{
		{}, at(grip, h.Middle+h.GripLength/2), at(grip, h.Middle-h.GripLength/2),
		at(end, l.ArmPlane()), at(0, l.BearingPlane()), at(0, l.CamPlane()),
	} {
		add(sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: r2.Vec{}, B: p})
	}
	add(sheet.CentreLine{B: at(0, l.CamPlane()+30)}, sheet.CentreMark{Radius: 12},
		sheet.Leader{At: at(0, l.CamPlane()), Note: "plane of the " + d.driven()},
		sheet.Leader{At: at(0, l.BearingPlane()), Note: "middle of the bearings"})
}

func (d *drafter) driven() string {
	switch {
	case d.geo.Lever != nil:
		return "plates"
	case d.geo.Linkage != nil:
		return "input bar"
	}
	return "cam"
}

// armTable lists what the arm is set by.
func (d *drafter) armTable() sheet.Table {
	t := sheet.Table{Title: "Arm", Columns: columns("<Quantity", ">Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	h, l := d.geo.Handle, d.layout
	row("Handle positions", fmt.Sprintf("%d", h.Positions))
	row("Smallest and largest radius", d.length(h.Least)+" to "+d.measure(d.geo.Handle.Greatest()))
	row("Pitch", d.measure(h.Pitch))
	row("Grip, clear length x diameter", d.length(h.GripLength)+" x "+d.measure(h.Diameter))
	row("Middle of the grip, outward", d.measure(h.Middle))
	row("Arm tube", d.measure(l.ArmTube)+" square, "+d.measure(d.partLength("Arm tube"))+" long")
	row("Mass of the arm", d.told(h.ArmMass, "kg")+" at "+d.measure(h.ArmCentre))
	if c := d.geo.Counterweight; c != nil && c.Mass > 0 {
		row("Counterweight", d.told(c.Mass, "kg")+" at "+d.measure(c.Radius))
		if c.Phase != 0 {
			row("Counterweight ahead of opposite the arm, flexion positive", degrees(c.Phase, 1)+"°")
		}
	}
	if w := d.geo.Lever; w != nil {
		row("Plates from the axis", d.measure(w.Radius))
		row("Plates ahead of the arm, flexion positive", degrees(d.ahead(w.Phase), 1)+"°")
		row("Phase: plates above forward at flexion 0", degrees(w.Phase, 1)+"°")
	}
	if w := d.geo.Linkage; w != nil {
		row("Input bar, from pin to pin", d.measure(w.Input))
		row("Input bar ahead of the arm, flexion positive", degrees(d.ahead(w.InputPhase+w.Direction), 1)+"°")
	}
	if w := d.geo.Eccentric; w != nil && w.Mass > 0 {
		row("Eccentric weight", d.told(w.Mass, "kg")+" at "+d.measure(w.Radius))
		row("Eccentric weight ahead of the arm, flexion positive", degrees(d.ahead(w.Phase), 1)+"°")
		row("Phase: its angle above forward at flexion 0", degrees(w.Phase, 1)+"°")
	}
	row("Loaded range", degrees(d.first, 0)+"° to "+degrees(d.last, 0)+"°")
	return t
}
