package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the wedge under the bearings, mm: own choices.
const (
	wedgeLong = 100.0
	wedgeThin = 5.0
)

// compound is how a shop sets up an axis that stands neither level nor square,
// from the outer face of a plumb upright, which looks along the machine's y.
type compound struct {
	wedge float64 // angle between that face and the bearings' face
	thick float64 // direction of the wedge's thick edge on the face, from forward, upward positive, seen from outside on the right
	turn  float64 // first turn: about the plumb line, outer end to the rear
	lift  float64 // then: about the level line across the axis, outer end up
}

// compoundOf takes the right arm's outward unit vector. The outer face of the
// wedge has it for its normal: its distance from the upright falls towards
// (a_x, a_z), so the thick edge is opposite. Turn and lift are the azimuth and
// the elevation of the vector, which a swivelling and tilting vice is set to
// in this order.
func compoundOf(a r3.Vec) compound {
	return compound{
		wedge: math.Acos(math.Min(1, math.Max(-1, -a.Y))),
		thick: math.Atan2(-a.Z, -a.X),
		turn:  math.Atan2(-a.X, -a.Y),
		lift:  math.Asin(math.Min(1, math.Max(-1, a.Z))),
	}
}

// rise is how much the wedge thickens over its length.
func (c compound) rise() float64 { return wedgeLong * math.Tan(c.wedge) }

// bracketTable gives wedge and drill angles for every axis position and for
// the mean of all.
func (d *drafter) bracketTable() sheet.Table {
	t := sheet.Table{
		Title: "Setting up the compound angle, right bracket",
		Columns: columns("<Axis", ">Wedge °", ">Thick edge at °", ">Rise on "+d.length(wedgeLong), ">Drill: turn °", ">then lift °",
			">Index x", ">Index y"),
	}
	row := func(name string, a r3.Vec, index [2]string) {
		c := compoundOf(a)
		t.Rows = append(t.Rows, []string{name, degrees(c.wedge, 2), degrees(c.thick, 1), d.fine(c.rise()),
			degrees(c.turn, 2), degrees(c.lift, 2), index[0], index[1]})
	}
	list := d.geo.Pivots.Axes
	radius := d.indexRadius()
	for i, a := range list {
		p := d.index(a, radius)
		row(strconv.Itoa(i+1), a.Vector(), [2]string{d.fine(p.X), d.fine(p.Y)})
	}
	row("mean", d.axis, [2]string{d.fine(radius), d.fine(0)})
	return t
}

// meanSwivel is the mean of the swivel angles.
func (m *machine) meanSwivel() float64 {
	sum := 0.0
	for _, a := range m.geo.Pivots.Axes {
		angle, _ := m.swivel(a)
		sum += angle
	}
	return sum / float64(len(m.geo.Pivots.Axes))
}

// index is the place of an axis position's index hole in the swivel plate, seen
// along its normal from above, from the swivel pin: x outward along the mean
// axis, y up the pad.
func (m *machine) index(a specs.Axis, radius float64) r2.Vec {
	angle, _ := m.swivel(a)
	sin, cos := math.Sincos(angle - m.meanSwivel())
	return at(radius*cos, radius*sin)
}

// indexRadius is the radius of the index holes, mm, at which neighbours are
// far enough apart for pins of 10 mm, rounded up to 10 mm.
func (m *machine) indexRadius() float64 {
	const least, most, apart, step = 120.0, 400.0, 20.0, 10.0
	list := m.geo.Pivots.Axes
	radius := least
	for i := 1; i < len(list); i++ {
		a, _ := m.swivel(list[i-1])
		b, _ := m.swivel(list[i])
		if s := 2 * math.Sin(math.Abs(b-a)/2); s > apart/most {
			radius = math.Max(radius, apart/s)
		} else {
			radius = most
		}
	}
	return step * math.Ceil(radius/step-1e-9)
}

// wedgeView is the wedge of the mean axis, across its slope.
func (d *drafter) wedgeView() sheet.View {
	c := compoundOf(d.axis)
	v := sheet.View{Title: "Wedge for the mean axis, across its slope"}
	thick := wedgeThin + c.rise()
	corners := []r2.Vec{{}, {X: wedgeLong}, {X: wedgeLong, Y: thick}, {Y: wedgeThin}}
	p := sheet.Polyline{Role: sheet.Visible, Closed: true}
	for _, q := range corners {
		p.Vertices = append(p.Vertices, sheet.Vertex{Vec: q})
	}
	v.Entities = append(v.Entities, p,
		sheet.Dimension{Kind: sheet.Horizontal, A: corners[0], B: corners[1]},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: corners[0], B: corners[3]},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: corners[1], B: corners[2], Decimals: 2})
	if c.wedge > 0.5*deg {
		v.Entities = append(v.Entities, sheet.Dimension{Kind: sheet.Angular, Vertex: corners[3], A: r2.Add(corners[3], at(wedgeLong, 0)), B: corners[2], Decimals: 2},
			sheet.Line{Role: sheet.Thin, A: corners[3], B: r2.Add(corners[3], at(0.7*wedgeLong, 0))})
	}
	return v
}

// bracketNotes says how the table and the wedge are used.
func (d *drafter) bracketNotes() []string {
	notes := []string{
		"Wedge: laid between the plumb outer face of the upright and the bearings, its thick edge towards the angle given, counted from forward, upward positive, seen from the user's right (left bracket: the mirror image). The bearings then stand square to the axis.",
		"Drill: set the work with its plumb face to the spindle, turn it about the plumb line so that the outer end goes to the rear, then lift the outer end. In this order.",
	}
	if len(d.geo.Pivots.Axes) > 1 {
		notes = append(notes, "Index holes of the swivel plate, diameter "+d.measure(indexHole)+", are given from the swivel pin along the plate: x outward along the mean axis, y up the pad.")
	}
	if d.r.Frame.Kind != "cam-study" {
		notes = append(notes, "Swivel bars and bearing uprights are cut as the parts list says, for a level axis, and are set up turned to the mean axis, as drawn; the wedge or the turned plate makes up the angle.")
	}
	return notes
}

// indexHole is the diameter of an index hole, mm.
const indexHole = 10.0
