package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/geometry/station"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// padSheet is sheet 05: the arm pads in their own plane, and the seat with its
// positions.
func (d *drafter) padSheet() sheet.Sheet {
	s := d.sheet(medium, "Pads and seat", "Detail drawing")
	side, face := d.padViews()
	s.Views = append([]sheet.View{side, face, d.seatView()}, d.footPlateView()...)
	s.Tables = []sheet.Table{d.seatTable()}
	s.Notes = []string{
		"The pads are drawn level: turn them by the slope about the line of the pivots. Distances count from the pivot axis in its level position.",
		"Heights of the seat are those of the loaded surface above the floor; allow for the give of the foam. x counts forward from the pivots.",
		"Thickness of pads and seat is board and foam together.",
	}
	if d.geo.FootPlate != nil {
		s.Notes = append(s.Notes, "The foot plate reaches under the feet of everybody in the table of people, shanks upright; its heights are those of its top above the floor. The floor itself serves too.")
	}
	if d.geo.Back != nil {
		s.Notes[0] = "The stop pads are drawn level: turn them by the slope of the upper arm about the line of the pivots, the face to the arm. Distances count from the pivot axis in its level position."
	}
	return s
}

// padViews are the pads across their width and on their face.
func (d *drafter) padViews() (side, face sheet.View) {
	p := d.geo.Pad
	sin, cos := math.Sincos(p.Slope)
	down, normal := r3.Vec{X: cos, Z: -sin}, r3.Vec{X: sin, Z: cos}
	var pads []prism
	for _, l := range d.r.Structure.Lumps {
		if l.ID == "pad-right" || l.ID == "pad-left" {
			l.Centre.Z -= d.pivot.Z // pivots at the origin of the views
			pads = append(pads, lump(l))
		}
	}
	half := d.geo.Pivots.Spacing / 2
	side = sheet.View{Title: "Pad, across its width", Position: sheet.Front, Entities: drawn(pads, camera{down, normal, r3.Vec{Y: -1}})}
	face = sheet.View{Title: "Pads, on their face", Position: sheet.FromAbove, Entities: drawn(pads, camera{down, r3.Vec{Y: 1}, normal})}
	d.balloons(shown{pads, camera{down, r3.Vec{Y: 1}, normal}, &face})
	side.Entities = append(side.Entities,
		sheet.CentreMark{Radius: 12}, sheet.Leader{Note: "pivot"},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(-p.Near, -p.Offset), B: at(-p.Far, -p.Offset)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(-p.Near, -p.Offset), B: r2.Vec{}},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(-p.Near, -p.Offset), B: r2.Vec{}},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(-p.Far, -p.Offset), B: at(-p.Far, -p.Offset-station.PadThickness)})
	face.Entities = append(face.Entities,
		sheet.CentreMark{Centre: at(0, -half), Radius: 12}, sheet.CentreMark{Centre: at(0, half), Radius: 12},
		sheet.CentreLine{A: at(-p.Far, 0), B: at(0, 0)},
		sheet.CentreLine{A: at(-p.Far, -half), B: at(0, -half)}, sheet.CentreLine{A: at(-p.Far, half), B: at(0, half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, -half), B: at(0, half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(-p.Far, half-p.Width/2), B: at(-p.Far, half+p.Width/2)})
	return side, face
}

// seatView is the seat from the user's right, with its surface in every
// position, and the back pad.
func (d *drafter) seatView() sheet.View {
	g := d.geo.Seat
	var bodies []prism
	for _, l := range d.r.Structure.Lumps {
		if l.ID == "seat" || l.ID == "back" {
			bodies = append(bodies, lump(l))
		}
	}
	v := sheet.View{Title: "Seat from the user's right", Entities: drawn(bodies, fromRight())}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	d.balloons(shown{bodies, fromRight(), &v})
	rear := g.Front - g.Depth
	floor := at(g.Front, 0)
	add(sheet.Line{Role: sheet.Thin, A: at(rear, 0), B: floor},
		sheet.Leader{At: at((rear+g.Front)/2, 0), Note: "floor"},
		sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: floor, B: floor},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(rear, 0), B: floor})
	for i := range g.Positions {
		z := g.Top(i)
		add(sheet.Line{Role: sheet.Phantom, A: at(rear, z), B: at(g.Front, z)},
			sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Rightward, A: floor, B: at(g.Front, z)})
	}
	d.footPlateSide(&v)
	if k := d.geo.Back; k != nil {
		sin, cos := math.Sincos(k.Angle)
		foot := at(k.Foot, g.Lowest)
		add(sheet.Dimension{Kind: sheet.Angular, Vertex: foot, A: r2.Add(foot, at(0, k.Length)), B: r2.Add(foot, at(-k.Length*sin, k.Length*cos))},
			sheet.Dimension{Kind: sheet.Aligned, A: foot, B: r2.Add(foot, at(-k.Length*sin, k.Length*cos)), Offset: -12})
	}
	return v
}

// seatTable lists pad, seat and every seat position.
func (d *drafter) seatTable() sheet.Table {
	t := sheet.Table{Title: "Pads and seat, " + d.unit(), Columns: columns("<Quantity", ">Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	g, p := d.geo, d.geo.Pad
	row("Slope of the pads", degrees(p.Slope, 1)+"°")
	row("Seat, depth x width", d.length(g.Seat.Depth)+" x "+d.length(g.Seat.Width))
	row("Front edge of the seat, x", d.length(g.Seat.Front))
	if k := g.Back; k != nil {
		row("Back pad meets the lowest seat, x", d.length(k.Foot))
	}
	row("Pitch of the seat", d.length(g.Seat.Pitch))
	for i := range g.Seat.Positions {
		row("Seat position "+strconv.Itoa(i+1), d.length(g.Seat.Top(i)))
	}
	for _, r := range d.footPlateRows() {
		row(r[0], r[1])
	}
	return t
}
