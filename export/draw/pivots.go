package draw

import (
	"math"
	"strconv"

	"armwright/export/draw/platework"
	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// axisLine is how far the axis lines of sheet 02 run outward, mm.
const axisLine = 200.0

// axisStep is how much longer each next one is, mm: room for its number at
// 1:5, should the axes lie close together.
const axisStep = 30.0

// pivots is sheet 02: the axis positions in the front view, in the plan and
// along the swivel line, about which the brackets turn; index plate and cheeks.
func (d *drafter) pivots() sheet.Sheet {
	s := d.sheet(large, "Pivots and axes", "Detail drawing")
	// The plan of the view from the front: what is behind is at the top.
	plan := hidden.Camera{Right: r3.Vec{Y: 1}, Up: r3.Vec{X: -1}, Toward: r3.Vec{Z: 1}}
	sin, cos := math.Sincos(d.slope())
	normal := hidden.Camera{Right: r3.Vec{Y: 1}, Up: r3.Vec{X: -cos, Z: sin}, Toward: r3.Vec{X: sin, Z: cos}}
	s.Views = []sheet.View{
		d.axes("Seen from the front: cant", sheet.Front, hidden.FromFront()),
		d.axes("Plan: toe", sheet.FromAbove, plan),
		d.axes("Along the swivel line", sheet.Free, normal),
	}
	s.Tables = []sheet.Table{d.axisTable(), d.pivotTable()}
	index, inner, outer := d.part("index-plate-right"), d.part("inner-cheek-right"), d.part("outer-cheek-right")
	s.Views = append(s.Views, d.indexView(index), d.cheekView("Inner cheek, right, from outside", inner), d.cheekView("Outer cheek, right, from outside", outer))
	s.Views = append(append(s.Views, d.bracketView()), d.bearingSection()...)
	s.Views = append(s.Views, pictorial(d.bodies(d.bracketParts(), d.reference(), sheet.Visible, true)))
	s.Tables = append(s.Tables, d.holeTable("Inner cheek", inner), d.holeTable("Outer cheek", outer))
	s.Notes = []string{
		"Toe is the angle of the axis in the plan, positive with the outer end to the rear; cant its angle seen from the front, positive with the outer end up. Both are given for the right arm; the left is its mirror image in the plane y = 0. True angle is the angle between the axis and the machine's y.",
		"The bracket swivels on the index plate about the line through the pivot square to the pad; the swivel angle counts from the middle position, outer end up the pad positive. Out of plane is what is left between the axis and the plane of the pad.",
		"Index plate: seen from the bracket's side, x down the pad and y to the user's left from the swivel line; the pin's hole of every axis position is in the table, the two slots let the clamp bolts follow. Cheeks: x down the pad, y square to it, from the pivot axis.",
	}
	if second := d.secondShaft(); second != nil {
		s.Tables = append(s.Tables, d.secondTable(second))
		s.Notes = append(s.Notes, second.Title+": middle of its bearings, on the bracket's cheeks, parallel to the axis in every position.")
	}
	return s
}

// secondShaft is what the cheeks carry beside the arm's shaft, nil without one.
func (m *machine) secondShaft() *assembly.Part {
	if p := m.part("countershaft-right"); p != nil {
		return p
	}
	return m.part("output-shaft-right")
}

// axes draws both pivots with the axis lines of all positions in one view, the
// first and the last dimensioned on the right side.
func (d *drafter) axes(title string, p sheet.Position, c hidden.Camera) sheet.View {
	v := sheet.View{Title: title, Position: p}
	if p != sheet.Free {
		v.Scale = sheet.Scale{Drawing: 1, Real: 5} // the plates need the room
	}
	pivot := c.See(d.pivot)
	level := r2.Vec{X: -1}
	list := d.geo.Pivots.Axes
	for i, a := range list {
		end := c.See(r3.Add(d.pivot, r3.Scale(axisLine, a.Vector())))
		// Every line its own length, so that the numbers do not meet.
		u := r2.Unit(r2.Sub(end, pivot))
		reach := axisLine + axisStep*float64(i)
		tip := r2.Add(pivot, r2.Scale(reach, u))
		mirror := func(q r2.Vec) r2.Vec { return r2.Vec{X: -q.X, Y: q.Y} }
		for _, side := range [...]func(r2.Vec) r2.Vec{func(q r2.Vec) r2.Vec { return q }, mirror} {
			v.Entities = append(v.Entities, sheet.Line{Role: sheet.Centre, A: side(pivot), B: side(tip)})
		}
		v.Entities = append(v.Entities, sheet.Leader{At: tip, Note: strconv.Itoa(i + 1)})
		if i == 0 || i == len(list)-1 {
			dim := sheet.Dimension{Kind: sheet.Angular, Vertex: pivot, A: tip, B: r2.Add(pivot, r2.Scale(reach, level)), Decimals: 2}
			if r2.Cross(u, level) < 0 {
				dim.A, dim.B = dim.B, dim.A
			}
			v.Entities = append(v.Entities, dim)
		}
	}
	shaft := d.r.Frame.Stock.Shaft
	left := r2.Vec{X: -pivot.X, Y: pivot.Y}
	for _, q := range [...]r2.Vec{pivot, left} {
		v.Entities = append(v.Entities, sheet.Circle{Role: sheet.Visible, Centre: q, Radius: shaft / 2}, sheet.CentreMark{Centre: q, Radius: shaft / 2})
	}
	v.Entities = append(v.Entities,
		sheet.Line{Role: sheet.Thin, A: r2.Add(pivot, r2.Scale(axisLine, level)), B: r2.Sub(left, r2.Scale(axisLine, level))},
		sheet.Dimension{Kind: sheet.Horizontal, A: pivot, B: left})
	return v
}

// indexHole is the index plate's hole for an axis position, in the plate's own frame:
// the pin's place in the middle position turned by the swivel angle.
func (m *machine) indexHole(i int) (r2.Vec, bool) {
	pin, plate := m.part("index-pin-right"), m.part("index-plate-right")
	if pin == nil || plate == nil {
		return r2.Vec{}, false
	}
	q := plate.Place.Inverse().Point(pin.Place.Origin)
	turn := m.swivel(m.axis) - m.swivel(m.geo.Pivots.Axes[i].Vector())
	return r2.Rotate(at(q.X, q.Y), turn, r2.Vec{}), true
}

// indexView is the right index plate with the holes of all axis positions.
func (d *drafter) indexView(p *assembly.Part) sheet.View {
	v := d.plateView("Index plate, right, from the bracket", p)
	if p == nil {
		return v
	}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	add(sheet.CentreMark{Radius: 12}, sheet.Leader{Note: "swivel line"})
	n := len(d.geo.Pivots.Axes)
	for i := range n {
		hole, ok := d.indexHole(i)
		if !ok {
			continue
		}
		add(sheet.CentreLine{B: hole})
		add(sheet.Leader{At: hole, Note: strconv.Itoa(i + 1)})
		if i == n/2 {
			add(sheet.Dimension{Kind: sheet.Radius, B: hole})
		}
	}
	first, ok := d.indexHole(0)
	last, _ := d.indexHole(n - 1)
	if ok && n > 1 && math.Abs(r2.Cross(first, last)) > 1e-6 {
		dim := sheet.Dimension{Kind: sheet.Angular, A: first, B: last, Decimals: 2}
		if r2.Cross(first, last) < 0 {
			dim.A, dim.B = last, first
		}
		add(dim)
	}
	// The slots are alike.
	slots := 0
	var end contour.Element
	for _, h := range platework.ProfileOf(p).Holes() {
		if ends := h.RoundEnds(); len(ends) == 2 {
			end = ends[0]
			slots++
		}
	}
	if slots > 0 {
		add(sheet.Leader{At: end.Centre, Note: strconv.Itoa(slots) + "x slot " + d.measure(2*end.Radius) + " wide"})
	}
	d.balloonAt(&v, p, platework.ProfileOf(p).Centroid())
	return v
}

// cheekView is a cheek with the places of its shafts.
func (d *drafter) cheekView(title string, p *assembly.Part) sheet.View {
	v := d.plateView(title, p)
	if p == nil {
		return v
	}
	foot := platework.ProfileOf(p).Outer().Bounds().Min.Y
	v.Entities = append(v.Entities, sheet.Leader{Note: "arm's axis"},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(0, foot), B: r2.Vec{}})
	if second := d.secondShaft(); second != nil {
		q := p.Place.Inverse().Point(second.Place.Origin)
		place := at(q.X, q.Y)
		v.Entities = append(v.Entities, sheet.CentreMark{Centre: place, Radius: 6})
		v.Entities = append(v.Entities, offsets(place, sheet.Above, sheet.Leftward)...)
	}
	box := platework.ProfileOf(p).Outer().Bounds()
	sight := r3.Dot(p.Place.X, r3.Cross(p.Place.Y, d.axis))
	v.Entities = append(v.Entities, trace("B", platework.ProfileOf(p).Outer(), at(0, 1), at(sight, 0)))
	d.balloonAt(&v, p, at(0.8*box.Min.X, foot+8))
	return v
}

// bracketParts are the right swivel bracket with what it carries and stands on.
func (m *machine) bracketParts() []int {
	parts := m.chosen(func(p *assembly.Part) bool {
		return p.Side == assembly.Right && m.a.Groups[p.Group].ID == "swivel-right" && !p.Is(assembly.Guard)
	})
	return append(parts, m.ofItems(true, "index-plate", "arm-shaft")...)
}

// bracketView is the right swivel bracket with its bearings, along the pad.
func (d *drafter) bracketView() sheet.View {
	// Along the pad from below: outward to the left.
	sole := d.part("swivel-sole-right")
	c := hidden.Camera{Right: d.axis, Up: sole.Place.Z, Toward: r3.Cross(d.axis, sole.Place.Z), Origin: d.pivot}
	v, s := show("Right swivel bracket along the pad", sheet.Free, d.bodies(d.bracketParts(), d.reference(), sheet.Visible, true), c)
	s.view = &v
	d.balloons(s)
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	for _, id := range [...]string{"inner-cheek-right", "outer-cheek-right", "pivot-inner-insert-right", "pivot-outer-insert-right"} {
		if p := d.part(id); p != nil {
			low, high := span(p, d.pivot, d.axis)
			add(sheet.Dimension{Kind: sheet.OrdinateX, Side: sheet.Above, B: at((low+high)/2, 0)})
		}
	}
	_, face := span(sole, d.pivot, sole.Place.Z)
	add(sheet.CentreMark{Radius: 12}, sheet.Leader{Note: "pivot"},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(0, face), B: r2.Vec{}},
		sheet.Dimension{Kind: sheet.OrdinateX, Side: sheet.Above, B: r2.Vec{}})
	return v
}

func (d *drafter) axisTable() sheet.Table {
	t := sheet.Table{
		Title: "Axis positions, right arm",
		Columns: sheet.Columns("No", ">Toe °", ">Cant °", ">True angle °", ">Axis x", ">Axis y", ">Axis z",
			">Swivel °", ">Out of plane °", ">Index x", ">Index y", ">Bearings x", ">y", ">z"),
	}
	for i, a := range d.geo.Pivots.Axes {
		v := a.Vector()
		row := []string{strconv.Itoa(i + 1), sheet.Degrees(a.Toe, 2), sheet.Degrees(a.Cant, 2), sheet.Degrees(math.Acos(-v.Y), 2)}
		for _, x := range [...]float64{v.X, v.Y, v.Z} {
			row = append(row, sheet.Unsigned(strconv.FormatFloat(x, 'f', 5, 64)))
		}
		row = append(row, sheet.Degrees(d.swivel(v)-d.swivel(d.axis), 2), sheet.Degrees(d.outOfPlane(v), 2))
		hole, _ := d.indexHole(i)
		b := d.bearingMiddle(i, "pivot")
		t.Rows = append(t.Rows, append(row, d.fine(hole.X), d.fine(hole.Y), d.fine(b.X), d.fine(b.Y), d.fine(b.Z)))
	}
	return t
}

// swivel is how an axis lies in the pad's plane: its angle from the machine's y,
// outer end towards the shoulder positive.
func (m *machine) swivel(v r3.Vec) float64 {
	sin, cos := math.Sincos(m.slope())
	return math.Atan2(r3.Dot(v, r3.Vec{X: -cos, Z: sin}), -v.Y)
}

// outOfPlane is the angle between an axis and the pad's plane.
func (m *machine) outOfPlane(v r3.Vec) float64 {
	sin, cos := math.Sincos(m.slope())
	return math.Asin(r3.Dot(v, r3.Vec{X: sin, Z: cos}))
}

// secondTable gives the place of the second shaft for every axis position.
func (d *drafter) secondTable(p *assembly.Part) sheet.Table {
	t := sheet.Table{Title: p.Title + ", right arm, " + d.unit(), Columns: sheet.Columns("No", ">x", ">y", ">z")}
	id := "countershaft"
	if p.Item == "output-shaft" {
		id = "output"
	}
	for i := range d.geo.Pivots.Axes {
		q := d.bearingMiddle(i, id)
		t.Rows = append(t.Rows, []string{strconv.Itoa(i + 1), d.fine(q.X), d.fine(q.Y), d.fine(q.Z)})
	}
	return t
}

func (d *drafter) pivotTable() sheet.Table {
	t := sheet.Table{Title: "Pivots, " + d.unit(), Columns: sheet.Columns("<Pivot", ">x", ">y", ">z")}
	for _, side := range [...]struct {
		name string
		y    float64
	}{{"right", d.pivot.Y}, {"left", -d.pivot.Y}} {
		t.Rows = append(t.Rows, []string{side.name, d.fine(0), d.fine(side.y), d.fine(d.pivot.Z)})
	}
	return t
}
