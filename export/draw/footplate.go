package draw

import (
	"strconv"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// footPlateParts are the foot plate with its guides.
func (m *machine) footPlateParts() []int {
	return m.ofItems(false, "foot-guide", "foot-guide-cap", "foot-sleeve", "foot-pin", "foot-bearer", "foot-bearer-cap", "foot-tread")
}

// footPlateSide draws the foot plate at every height into a view from the user's
// right whose floor is at height 0.
func (d *drafter) footPlateSide(v *sheet.View) {
	tread := d.part("foot-tread")
	if tread == nil {
		return
	}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	v.Entities = append(v.Entities, hidden.NewScene(d.bodies(d.footPlateParts(), d.reference(), sheet.Visible, true), hidden.FromRight()).Lines()...)
	rear, front := span(tread, r3.Vec{}, r3.Vec{X: 1})
	top := d.footTop(tread, 0)
	datum := at(front, 0)
	for i := range d.geo.FootPlate.Positions {
		z := d.footTop(tread, i)
		add(sheet.Line{Role: sheet.Phantom, A: at(rear, z), B: at(front, z)},
			sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Leftward, A: datum, B: at(rear, z)})
	}
	add(sheet.Leader{At: at((rear+front)/2, top), Note: "foot plate"},
		sheet.Line{Role: sheet.Thin, A: at(rear, 0), B: datum})
}

// footTop is the height of the foot plate's top in a position.
func (m *machine) footTop(tread *assembly.Part, i int) float64 {
	pose := m.reference()
	pose.Foot = i
	_, top := span(tread, r3.Vec{}, r3.Vec{Z: 1})
	return top + m.a.At(pose, nil)[tread.Group].Origin.Z
}

// footPlateView is the foot plate from above with its guides; none without one.
func (d *drafter) footPlateView() []sheet.View {
	tread := d.part("foot-tread")
	if tread == nil {
		return nil
	}
	v, s := show("Foot plate from above", sheet.Free, d.bodies(d.footPlateParts(), d.reference(), sheet.Visible, true), hidden.FromAbove())
	s.view = &v
	d.balloons(s)
	x0, x1 := span(tread, r3.Vec{}, r3.Vec{X: 1})
	y0, y1 := span(tread, r3.Vec{}, r3.Vec{Y: 1})
	v.Entities = append(v.Entities, sheet.CentreLine{A: at(x0, 0), B: at(x1, 0)},
		sheet.CentreMark{Radius: 12}, sheet.Leader{Note: "middle between the pivots"},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(x0, y0), B: at(x1, y0)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: r2.Vec{}, B: at(x1, y1)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(x1, y0), B: at(x1, y1)})
	return []sheet.View{v}
}

// footPlateRows are the rows of the foot plate's heights.
func (d *drafter) footPlateRows() [][2]string {
	f := d.geo.FootPlate
	tread := d.part("foot-tread")
	if f == nil || tread == nil {
		return nil
	}
	out := [][2]string{{"Pitch of the foot plate", d.length(f.Pitch)}}
	for i := range f.Positions {
		out = append(out, [2]string{"Foot plate height " + strconv.Itoa(i+1), d.length(d.footTop(tread, i))})
	}
	return out
}
