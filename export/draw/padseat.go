package draw

import (
	"math"
	"strconv"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// padSheet is sheet 05: the arm pads in their own plane, and the seat with its
// positions.
func (d *drafter) padSheet() sheet.Sheet {
	s := d.sheet(medium, "Pads and seat", "Detail drawing")
	side, face := d.padViews()
	s.Views = append([]sheet.View{side, face, d.seatView()}, d.footPlateView()...)
	s.Views = append(s.Views, append(d.barView("Seat post, holes from its lower end", "seat-post"), d.seatSection()...)...)
	seat := d.bodies(append(d.chosen(padPart), d.seatParts()...), d.reference(), sheet.Visible, true)
	s.Views = append(s.Views, pictorial(seat))
	s.Tables = []sheet.Table{d.seatTable()}
	s.Notes = []string{
		"The pads are drawn level: turn them by the slope about the line of the pivots. Distances count from the pivot axis in its level position.",
		"Heights of the seat are those of the loaded surface above the floor; allow for the give of the foam. x counts forward from the pivots.",
		"Thickness of pads and seat is board and foam together.",
	}
	if d.chestPositions() > 0 {
		s.Notes = append(s.Notes, "The chest pad's place is that of the middle of its face; position 1 is the rearmost.")
	}
	if d.geo.FootPlate != nil {
		s.Notes = append(s.Notes, "The foot plate's heights are those of its top above the floor. The floor itself serves too.")
	}
	if d.geo.Back != nil {
		s.Notes[0] = "The stop pads are drawn level: turn them by the slope of the upper arm about the line of the pivots, the face to the arm. Distances count from the pivot axis in its level position."
	}
	return s
}

// padViews are the pads across their width and on their face.
func (d *drafter) padViews() (side, face sheet.View) {
	sin, cos := math.Sincos(d.slope())
	down, normal := r3.Vec{X: cos, Z: -sin}, r3.Vec{X: sin, Z: cos}
	across := hidden.Camera{Right: down, Up: normal, Toward: r3.Vec{Y: -1}, Origin: d.pivot}
	on := hidden.Camera{Right: down, Up: r3.Vec{Y: 1}, Toward: normal, Origin: r3.Vec{Z: d.pivot.Z}}
	one := d.bodies(d.chosen(func(p *assembly.Part) bool { return p.Side == assembly.Right && padPart(p) }), d.reference(), sheet.Visible, true)
	both := d.bodies(d.chosen(padPart), d.reference(), sheet.Visible, false)
	side, a := show("Pad, across its width", sheet.Front, one, across)
	face, b := show("Pads, on their face", sheet.FromAbove, both, on)
	a.view, b.view = &side, &face
	d.balloons(a)
	d.balloons(b)
	half := d.geo.Pivots.Spacing / 2
	foam, board := d.part("arm-pad-foam-right"), d.part("arm-pad-board-right")
	if foam == nil || board == nil {
		return side, face
	}
	far, near := span(foam, d.pivot, down)
	_, top := span(foam, d.pivot, normal)
	under, _ := span(board, d.pivot, normal)
	right, left := span(foam, d.pivot, r3.Vec{Y: 1})
	side.Entities = append(side.Entities,
		sheet.CentreMark{Radius: 12}, sheet.Leader{Note: "pivot"},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(near, top), B: at(far, top)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(near, top), B: r2.Vec{}},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(near, top), B: r2.Vec{}},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(far, top), B: at(far, under)})
	if tube := d.part("arm-pad-bracket-right"); tube != nil {
		low, high := span(tube, d.pivot, down)
		side.Entities = append(side.Entities, sheet.Dimension{Kind: sheet.Horizontal, A: at((low+high)/2, under), B: r2.Vec{}})
	}
	face.Entities = append(face.Entities,
		sheet.CentreMark{Centre: at(0, -half), Radius: 12}, sheet.CentreMark{Centre: at(0, half), Radius: 12},
		sheet.CentreLine{A: at(far, 0), B: at(0, 0)},
		sheet.CentreLine{A: at(far, -half), B: at(0, -half)}, sheet.CentreLine{A: at(far, half), B: at(0, half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, -half), B: at(0, half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(far, half-left+right+(left-right)/2), B: at(far, half+(left-right)/2)})
	return side, face
}

// padPart tells the parts of the arm pads.
func padPart(p *assembly.Part) bool {
	switch p.Item {
	case "arm-pad-board", "arm-pad-foam", "arm-pad-plate", "arm-pad-bracket", "arm-pad-saddle":
		return true
	}
	return p.ID == "arm-pad-cap-right" || p.ID == "arm-pad-cap-left"
}

// seatParts are the seat with what it slides in, and the back pad with its strut.
func (m *machine) seatParts() []int {
	return m.ofItems(true, "seat-sleeve", "seat-post", "seat-pin", "seat-carriage", "seat-board", "seat-foam", "cross-seat",
		"back-strut", "back-strut-cap", "back-board", "back-foam", "back-bracket", "cross-back")
}

// seatView is the seat from the user's right, with its surface in every
// position, and the back pad.
func (d *drafter) seatView() sheet.View {
	g := d.geo.Seat
	v, s := show("Seat from the user's right", sheet.Free, d.bodies(d.seatParts(), d.reference(), sheet.Visible, true), hidden.FromRight())
	s.view = &v
	v.Scale = sheet.Scale{Drawing: 1, Real: 5} // heights and places: what is made of it has sheets of its own
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	d.balloons(s)
	foam := d.part("seat-foam")
	if foam == nil {
		return v
	}
	rear, front := span(foam, r3.Vec{}, r3.Vec{X: 1})
	floor := at(front, 0)
	add(sheet.Line{Role: sheet.Thin, A: at(rear, 0), B: floor},
		sheet.Leader{At: at((rear+front)/2, 0), Note: "floor"},
		sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: floor, B: floor},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(rear, 0), B: floor})
	for i := range g.Positions {
		z := d.seatTop(i)
		add(sheet.Line{Role: sheet.Phantom, A: at(rear, z), B: at(front, z)},
			sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: floor, B: at(front, z)})
	}
	d.footPlateSide(&v)
	if p := d.part("back-foam"); p != nil {
		foot, high := d.backFace(p)
		long := r2.Norm(r2.Sub(high, foot))
		add(sheet.Dimension{Kind: sheet.Angular, Vertex: foot, A: r2.Add(foot, at(0, long)), B: high},
			sheet.Dimension{Kind: sheet.Aligned, A: foot, B: high, Offset: -12})
	}
	return v
}

// chestPositions is how many positions the chest pad has.
func (m *machine) chestPositions() int {
	if m.geo.ChestPad == nil || m.part("chest-pad-foam") == nil {
		return 0
	}
	return m.geo.ChestPad.Positions
}

// chestFace is x of the middle of the chest pad's face in a position.
func (m *machine) chestFace(i int) float64 {
	foam := m.part("chest-pad-foam")
	pose := m.reference()
	pose.Chest = i
	return m.a.At(pose, nil)[foam.Group].Point(foam.Place.Origin).X
}

// seatTable lists pad, seat and every seat position.
func (d *drafter) seatTable() sheet.Table {
	t := sheet.Table{Title: "Pads and seat, " + d.unit(), Columns: sheet.Columns("<Quantity", ">Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	g, p := d.geo, d.geo.Pad
	row("Slope of the pads", sheet.Degrees(p.Slope, 1)+"°")
	row("Seat, depth x width", d.length(g.Seat.Depth)+" x "+d.length(g.Seat.Width))
	row("Front edge of the seat, x", d.length(g.Seat.Front))
	if k := g.Back; k != nil {
		row("Back pad meets the lowest seat, x", d.length(k.Foot))
	}
	row("Pitch of the seat", d.length(g.Seat.Pitch))
	for i := range g.Seat.Positions {
		row("Seat position "+strconv.Itoa(i+1), d.length(d.seatTop(i)))
	}
	for i := range d.chestPositions() {
		row("Chest pad position "+strconv.Itoa(i+1)+", x", d.length(d.chestFace(i)))
	}
	for _, r := range d.footPlateRows() {
		row(r[0], r[1])
	}
	return t
}
