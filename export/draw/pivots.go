package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// axisLine is how far the axis lines of sheet 02 run outward, mm.
const axisLine = 200.0

// axisStep is how much longer each next one is, mm: room for its number at
// 1:5, should the axes lie close together.
const axisStep = 30.0

// padShown is how much of the pads sheet 02 shows, mm.
const padShown = 50.0

// pivots is sheet 02: the axis positions in the front view, in the plan and
// along the normal of the pad, about which the brackets swivel.
func (d *drafter) pivots() sheet.Sheet {
	s := d.sheet(medium, "Pivots and axes", "Detail drawing")
	// The plan of the view from the front: what is behind is at the top.
	plan := camera{r3.Vec{Y: 1}, r3.Vec{X: -1}, r3.Vec{Z: 1}}
	sin, cos := math.Sincos(d.slope())
	normal := camera{r3.Vec{Y: 1}, r3.Vec{X: -cos, Z: sin}, r3.Vec{X: sin, Z: cos}}
	s.Views = []sheet.View{
		d.axes("Seen from the front: cant", sheet.Front, fromFront()),
		d.axes("Plan: toe", sheet.FromAbove, plan),
		d.axes("Along the pad's normal: swivel angle", sheet.Free, normal),
		d.wedgeView(),
	}
	s.Tables = []sheet.Table{d.axisTable(), d.bracketTable(), d.pivotTable()}
	s.Notes = []string{
		"Toe is the angle of the axis in the plan, positive with the outer end to the rear; cant its angle seen from the front, positive with the outer end up. Both are given for the right arm; the left is its mirror image in the plane y = 0.",
		"The swivel angle turns the bracket about the normal of the pad through the pivot, from the middle position; the middle position is the mean of all. Out of plane is what is left between the axis and the plane of the pad: shim the bearings by it, or set the swivel plate level at the middle position.",
		"True angle is the angle between the axis and the machine's y.",
	}
	s.Notes = append(s.Notes, d.bracketNotes()...)
	if d.layout.Train != nil {
		s.Tables = append(s.Tables, d.outputTable())
		s.Notes = append(s.Notes, "Output shaft: middle of its bearings, on the bracket that carries the arm's, parallel to the axis in every position.")
	}
	return s
}

// axes draws both pivots with the axis lines of all positions in one view, the
// first and the last dimensioned on the right side.
func (d *drafter) axes(title string, p sheet.Position, c camera) sheet.View {
	v := sheet.View{Title: title, Position: p}
	var pads []prism
	for _, l := range d.r.Structure.Lumps {
		if l.ID == "pad-right" || l.ID == "pad-left" {
			// Only the lower end of the pad: it shows how the axes lie to it.
			q := lump(l)
			q.role = sheet.Phantom
			long := r3.Norm(q.along)
			short := math.Min(padShown, long)
			lower := r3.Unit(q.along) // forwards is down the pad
			for k := range q.base {
				q.base[k] = r3.Add(q.base[k], r3.Scale(long-short, lower))
			}
			q.along = r3.Scale(short, lower)
			pads = append(pads, q)
		}
	}
	v.Entities = drawn(pads, c)
	pivot := c.see(d.pivot)
	level := r2.Vec{X: -1}
	list := d.geo.Pivots.Axes
	for i, a := range list {
		axis := a.Vector()
		end := c.see(r3.Add(d.pivot, r3.Scale(axisLine, axis)))
		// Every line its own length, so that the numbers do not meet.
		u := r2.Unit(r2.Sub(end, pivot))
		reach := axisLine + axisStep*float64(i)
		tip := r2.Add(pivot, r2.Scale(reach, u))
		mirror := func(q r2.Vec) r2.Vec { return r2.Vec{X: -q.X, Y: q.Y} }
		for _, side := range [...]func(r2.Vec) r2.Vec{func(q r2.Vec) r2.Vec { return q }, mirror} {
			v.Entities = append(v.Entities, sheet.Line{Role: sheet.Centre, A: side(pivot), B: side(tip)})
		}
		v.Entities = append(v.Entities, sheet.Text{Role: sheet.Lettering, At: r2.Add(tip, r2.Scale(16, u)), Value: strconv.Itoa(i + 1), H: sheet.Middle, V: sheet.HalfHeight})
		if i == 0 || i == len(list)-1 {
			dim := sheet.Dimension{Kind: sheet.Angular, Vertex: pivot, A: tip, B: r2.Add(pivot, r2.Scale(reach, level)), Decimals: 2}
			if r2.Cross(u, level) < 0 {
				dim.A, dim.B = dim.B, dim.A
			}
			v.Entities = append(v.Entities, dim)
		}
	}
	if d.layout.Train != nil {
		place := c.see(d.layout.OutputShaft(d.axis))
		v.Entities = append(v.Entities, sheet.CentreMark{Centre: place, Radius: d.r.Frame.Stock.Shaft / 2},
			sheet.Leader{At: place, Note: "output shaft, mean axis"})
	}
	left := r2.Vec{X: -pivot.X, Y: pivot.Y}
	for _, q := range [...]r2.Vec{pivot, left} {
		v.Entities = append(v.Entities, sheet.Circle{Role: sheet.Visible, Centre: q, Radius: d.r.Frame.Stock.Shaft / 2},
			sheet.CentreMark{Centre: q, Radius: d.r.Frame.Stock.Shaft / 2})
	}
	v.Entities = append(v.Entities,
		sheet.Line{Role: sheet.Thin, A: r2.Add(pivot, r2.Scale(axisLine, level)), B: r2.Sub(left, r2.Scale(axisLine, level))},
		sheet.Dimension{Kind: sheet.Horizontal, A: pivot, B: left})
	return v
}

// swivel is how an axis stands to the pad: the angle in the pad's plane from
// the machine's y, outer end towards the shoulder positive, and the angle out
// of that plane.
func (m *machine) swivel(a specs.Axis) (angle, out float64) {
	v := a.Vector()
	sin, cos := math.Sincos(m.slope())
	up := r3.Dot(v, r3.Vec{X: -cos, Z: sin})
	return math.Atan2(up, -v.Y), math.Asin(r3.Dot(v, r3.Vec{X: sin, Z: cos}))
}

func (d *drafter) axisTable() sheet.Table {
	t := sheet.Table{
		Title: "Axis positions, right arm",
		Columns: columns("No", ">Toe °", ">Cant °", ">True angle °", ">Axis x", ">Axis y", ">Axis z",
			">Swivel °", ">Out of plane °", ">Bearings x", ">y", ">z"),
	}
	list := d.geo.Pivots.Axes
	mean := d.meanSwivel()
	for i, a := range list {
		v := a.Vector()
		angle, out := d.swivel(a)
		row := []string{strconv.Itoa(i + 1), degrees(a.Toe, 2), degrees(a.Cant, 2), degrees(math.Acos(-v.Y), 2)}
		for _, x := range [...]float64{v.X, v.Y, v.Z} {
			row = append(row, sheet.Unsigned(strconv.FormatFloat(x, 'f', 5, 64)))
		}
		row = append(row, degrees(angle-mean, 2), degrees(out, 2))
		b := r3.Add(d.pivot, r3.Scale(d.layout.BearingPlane(), v))
		t.Rows = append(t.Rows, append(row, d.fine(b.X), d.fine(b.Y), d.fine(b.Z)))
	}
	return t
}

// outputTable gives the place of a linkage's output shaft for every axis position.
func (d *drafter) outputTable() sheet.Table {
	t := sheet.Table{Title: "Output shaft, right arm, " + d.unit(), Columns: columns("No", ">x", ">y", ">z")}
	for i, a := range d.geo.Pivots.Axes {
		p := d.layout.OutputShaft(a.Vector())
		t.Rows = append(t.Rows, []string{strconv.Itoa(i + 1), d.fine(p.X), d.fine(p.Y), d.fine(p.Z)})
	}
	return t
}

func (d *drafter) pivotTable() sheet.Table {
	t := sheet.Table{Title: "Pivots, " + d.unit(), Columns: columns("<Pivot", ">x", ">y", ">z")}
	for _, side := range [...]struct {
		name string
		y    float64
	}{{"right", d.pivot.Y}, {"left", -d.pivot.Y}} {
		t.Rows = append(t.Rows, []string{side.name, d.fine(0), d.fine(side.y), d.fine(d.pivot.Z)})
	}
	return t
}
