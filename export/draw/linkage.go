package draw

import (
	"math"
	"strconv"

	"armwright/export/hidden"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// linkageSheet is sheet 03 of a linkage drive: the bars in their place, their
// planes along the axis, their travel, and each bar as it is cut.
func (d *drafter) linkageSheet() sheet.Sheet {
	s := d.sheet(medium, "Linkage", "Detail drawing")
	s.Views = append([]sheet.View{d.barPlaces(), d.planesView(), d.barTravel()}, d.barDetails()...)
	s.Tables = []sheet.Table{d.barTable(), d.barData()}
	s.Notes = []string{
		"Seen from the user's right, forward to the right, from the arm's axis. Lengths of bars are from pin to pin. The left side is the mirror image.",
		"Input bar: welded to a collar that is keyed on the arm's shaft. Output bar and plate lever: welded to one collar on the output shaft, at the angle between them that the table gives. Weld all round, throat " + d.measure(4) + ".",
		"Both shafts run in bearings on one bracket, so that they stay parallel in every axis position. Cover the bars on both sides: they close like scissors.",
		"The torque at the arm is the plates' moment about the output shaft times the ratio, and the weight of the bars. Without friction.",
	}
	return s
}

// pose is the linkage at one elbow angle. A result holds one that closes over
// the loaded range.
func (m *machine) pose(theta float64) linkage.Pose {
	p, _ := m.values.Linkage.Train.At(theta)
	return p
}

// barPlanes are the middles of the bars' plates, outward from the pivot.
func (m *machine) barPlanes() [4]float64 {
	p := m.values.Planes()
	return [4]float64{p.Input, p.Coupler, p.Output, p.PlateLever}
}

// barBodies are the bars of the right arm at the first loaded angle, with the shafts
// and pins of a station.
func (m *machine) barBodies(bare bool) []hidden.Body {
	if m.a != nil {
		out := m.bodies(m.chosen(func(p *assembly.Part) bool {
			if p.Side != assembly.Right {
				return false
			}
			switch p.Item {
			case "input-bar", "coupler", "output-bar", "plate-lever", "input-pin", "output-pin", "pin-spacer", "pin-bush", "pin-ring",
				"output-shaft", "arm-shaft", "plate-sleeve", "plate-ring":
				return true
			}
			return false
		}), m.reference(), sheet.Visible, bare)
		return append(out, m.bodies(m.ofItems(true, "plates"), m.reference(), sheet.Phantom, true)...)
	}
	p := m.pose(m.first)
	forward, up := m.plane()
	ends := [4][2]r2.Vec{{{}, p.Pin}, {p.Pin, p.Joint}, {p.Shaft, p.Joint}, {p.Shaft, p.Plates}}
	half := m.values.BarThick / 2
	var out []hidden.Body
	for i, b := range partlist.Bars(m.values) {
		profile := solid.NewProfile(b.Outline(), b.Bores()...)
		way := r2.Unit(r2.Sub(ends[i][1], ends[i][0]))
		space := func(q r2.Vec) r3.Vec { return r3.Add(r3.Scale(q.X, forward), r3.Scale(q.Y, up)) }
		place := solid.Placement{X: space(way), Y: space(at(-way.Y, way.X)), Z: m.axis}
		place.Origin = r3.Add(m.pivot, r3.Add(space(ends[i][0]), r3.Scale(m.barPlanes()[i]-half, m.axis)))
		out = append(out, hidden.Body{Shape: hidden.NewShape(solid.Straight(profile, 2*half), m.sagitta), Place: place, Bare: bare})
	}
	return out
}

// barPlaces is the linkage at the first loaded angle.
func (d *drafter) barPlaces() sheet.View {
	p := d.pose(d.first)
	v, s := show("Linkage at "+sheet.Degrees(d.first, 0)+"°", sheet.Front, d.barBodies(false), d.drivePlane())
	s.view = &v
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	for _, q := range [...]r2.Vec{{}, p.Shaft} {
		add(sheet.CentreMark{Centre: q, Radius: d.values.Shaft / 2})
	}
	add(sheet.CentreLine{B: p.Shaft},
		sheet.Leader{At: r2.Vec{}, Note: "arm's axis"}, sheet.Leader{At: p.Shaft, Note: "output shaft"}, sheet.Leader{At: p.Plates, Note: "plates"})
	add(offsets(p.Shaft, sheet.Below, sheet.Leftward)...)
	d.balloons(s)
	return v
}

// planesView shows how bars and sleeve lie along the axis.
func (d *drafter) planesView() sheet.View {
	forward, up := d.plane()
	c := hidden.Camera{Right: forward, Up: d.axis, Toward: r3.Scale(-1, up), Origin: d.pivot}
	v, s := show("From below: planes along the axis, from the pivot outward", sheet.FromBelow, d.barBodies(true), c)
	s.view = &v
	p := d.pose(d.first)
	planes := d.barPlanes()
	for _, q := range [...]r2.Vec{
		{}, at(p.Pin.X, planes[0]), at(p.Joint.X, planes[1]), at(p.Joint.X, planes[2]), at(p.Plates.X, planes[3]),
	} {
		v.Entities = append(v.Entities, sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: r2.Vec{}, B: q})
	}
	v.Entities = append(v.Entities, sheet.CentreMark{Radius: 12},
		sheet.CentreLine{B: at(0, planes[0])}, sheet.CentreLine{A: at(p.Shaft.X, 0), B: at(p.Shaft.X, planes[3])})
	d.balloons(s)
	return v
}

// barDetails are the bars as they are cut.
func (d *drafter) barDetails() []sheet.View {
	var out []sheet.View
	for _, b := range partlist.Bars(d.values) {
		v := sheet.View{Title: b.Title + ", plate " + d.measure(d.values.BarThick) + ", 2 off"}
		add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
		end := at(b.Length, 0)
		add(outline(sheet.Visible, b.Outline()), sheet.CentreLine{B: end},
			sheet.Dimension{Kind: sheet.Horizontal, A: r2.Vec{}, B: end})
		for i, e := range [...]linkage.Eye{b.A, b.B} {
			centre, way := r2.Vec{}, -1.0
			if i == 1 {
				centre, way = end, 1
			}
			slant := math.Sqrt2 / 2
			add(sheet.Circle{Role: sheet.Visible, Centre: centre, Radius: e.Bore / 2}, sheet.CentreMark{Centre: centre, Radius: e.Bore / 2},
				sheet.Dimension{Kind: sheet.Diameter, A: centre, B: r2.Add(centre, at(way*slant*e.Bore/2, slant*e.Bore/2))},
				sheet.Dimension{Kind: sheet.Radius, A: centre, B: r2.Add(centre, at(way*slant*e.Radius, -slant*e.Radius))})
		}
		out = append(out, v)
	}
	return out
}

// lines draws the bars of a pose as the lines between their pins.
func (d *drafter) lines(p linkage.Pose, role sheet.Role) []sheet.Entity {
	out := []sheet.Entity{
		sheet.Line{Role: role, B: p.Pin}, sheet.Line{Role: role, A: p.Pin, B: p.Joint},
		sheet.Line{Role: role, A: p.Shaft, B: p.Joint}, sheet.Line{Role: role, A: p.Shaft, B: p.Plates},
	}
	pin := partlist.Bars(d.values)[0].B.Bore
	for _, q := range [...]r2.Vec{p.Pin, p.Joint} {
		out = append(out, sheet.Circle{Role: role, Centre: q, Radius: pin / 2})
	}
	return append(out, sheet.Circle{Role: role, Centre: p.Plates, Radius: pin})
}

// barTravel shows the bars at the first, the middle and the last loaded angle.
func (d *drafter) barTravel() sheet.View {
	middle := (d.first + d.last) / 2
	v := sheet.View{Title: "Travel: first angle, middle and last in phantom lines"}
	for i, theta := range [...]float64{d.first, middle, d.last} {
		p := d.pose(theta)
		role := sheet.Phantom
		if i == 0 {
			role = sheet.Visible
			for _, q := range [...]r2.Vec{{}, p.Shaft} {
				r := d.values.Shaft / 2
				v.Entities = append(v.Entities, sheet.Circle{Role: sheet.Visible, Centre: q, Radius: r}, sheet.CentreMark{Centre: q, Radius: r})
			}
		}
		v.Entities = append(v.Entities, d.lines(p, role)...)
		note := sheet.Degrees(theta, 0) + "°"
		v.Entities = append(v.Entities, sheet.Leader{At: p.Pin, Note: note}, sheet.Leader{At: p.Plates, Note: note})
	}
	return v
}

// barTable gives the bars' angles over the loaded range.
func (d *drafter) barTable() sheet.Table {
	t := sheet.Table{Title: "Angles, above forward", Columns: sheet.Columns(">Elbow °", ">Input bar °", ">Output bar °", ">Plates °", ">Ratio", ">Transmission °")}
	level := func(a float64) string { return sheet.Degrees(math.Remainder(a, 2*math.Pi), 1) }
	way := d.geo.Linkage.Direction
	for _, theta := range d.r.Resistance.Angles {
		p := d.pose(theta)
		t.Rows = append(t.Rows, []string{sheet.Degrees(theta, 1), level(p.Input + way), level(p.Output + way), level(p.Lever),
			sheet.Unsigned(strconv.FormatFloat(p.Ratio, 'f', 3, 64)), sheet.Degrees(p.Transmission, 1)})
	}
	return t
}

// barData lists what the linkage is built by.
func (d *drafter) barData() sheet.Table {
	v := d.geo.Linkage
	t := sheet.Table{Title: "Linkage", Columns: sheet.Columns("<Quantity", ">Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	turn := func(a float64) string { return sheet.Degrees(math.Remainder(a, 2*math.Pi), 1) + "°" }
	row("Between the axes", d.measure(v.Ground))
	row("Output shaft from the arm's axis, above forward", turn(v.Direction))
	row("Input bar", d.measure(v.Input))
	row("Coupler", d.measure(v.Coupler))
	row("Output bar", d.measure(v.Output))
	row("Plate lever", d.measure(v.Radius))
	row("Assembly", v.Assembly)
	row("Input bar ahead of the arm, flexion positive", turn(d.ahead(v.InputPhase+v.Direction)))
	row("Plate lever ahead of the output bar", turn(v.Phase-v.Direction))
	row("Least transmission angle, loaded range", sheet.Degrees(d.r.Resistance.Linkage.LeastTransmission, 1)+"°")
	row("Greatest force in the coupler", d.reads().Size(d.r.Resistance.Linkage.PinForce, "N"))
	return t
}
