package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// footArea is the part of the floor, mm, that the feet of all boundary persons
// take on the foot plate, shanks upright: a quarter of the foot behind the ankle,
// and a hand's breadth beside the thighs' middle.
func (d *drafter) footArea() (area r2.Box, ok bool) {
	const beside = 80.0
	area = r2.Box{Min: at(math.Inf(1), 0), Max: at(math.Inf(-1), 0)}
	for _, p := range d.r.People.Boundary {
		ankle := p.Pose.Hip.X + p.Body.Knee - p.Body.ThighDepth/2
		area.Min.X = math.Min(area.Min.X, ankle-p.Person.FootLength/4)
		area.Max.X = math.Max(area.Max.X, ankle+p.Person.FootLength*3/4)
		area.Max.Y = math.Max(area.Max.Y, p.Body.ThighHalf+beside)
	}
	area.Min.Y = -area.Max.Y
	return area, area.Max.X > area.Min.X
}

// footPlateSide draws the foot plate at every height into a view from the user's
// right whose floor is at height 0.
func (d *drafter) footPlateSide(v *sheet.View) {
	f := d.geo.FootPlate
	area, ok := d.footArea()
	if f == nil || !ok {
		return
	}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	datum := at(area.Max.X, 0)
	for i := range f.Positions {
		z := f.Height(i)
		role := sheet.Phantom
		if i == 0 {
			role = sheet.Visible
		}
		add(sheet.Line{Role: role, A: at(area.Min.X, z), B: at(area.Max.X, z)},
			sheet.Dimension{Kind: sheet.OrdinateY, Side: sheet.Leftward, A: datum, B: at(area.Min.X, z)})
	}
	add(sheet.Leader{At: at((area.Min.X+area.Max.X)/2, f.Lowest), Note: "foot plate"},
		sheet.Line{Role: sheet.Thin, A: at(area.Min.X, 0), B: datum})
}

// footPlateView is the foot plate from above, with the posts that pass through it;
// none without one.
func (d *drafter) footPlateView() []sheet.View {
	area, ok := d.footArea()
	if d.geo.FootPlate == nil || !ok {
		return nil
	}
	v := sheet.View{Title: "Foot plate from above"}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	rect := func(role sheet.Role, b r2.Box) sheet.Entity {
		return sheet.Polyline{Role: role, Closed: true, Vertices: []sheet.Vertex{
			{Vec: b.Min}, {Vec: at(b.Max.X, b.Min.Y)}, {Vec: b.Max}, {Vec: at(b.Min.X, b.Max.Y)},
		}}
	}
	add(rect(sheet.Visible, area), sheet.CentreLine{A: at(area.Min.X, 0), B: at(area.Max.X, 0)},
		sheet.CentreMark{Radius: 12}, sheet.Leader{Note: "middle between the pivots"},
		sheet.Dimension{Kind: sheet.Horizontal, A: area.Min, B: at(area.Max.X, area.Min.Y)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: r2.Vec{}, B: area.Max},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(area.Max.X, area.Min.Y), B: area.Max})
	half := d.layout.Side / 2
	for _, x := range [...]float64{d.geo.Base.PadPost, d.geo.Base.SeatPost} {
		if x+half > area.Min.X && x-half < area.Max.X {
			add(rect(sheet.Phantom, r2.Box{Min: at(x-half, -half), Max: at(x+half, half)}), sheet.Leader{At: at(x, half), Note: "post: leave it free"})
		}
	}
	return []sheet.View{v}
}

// footPlateRows are the rows of the foot plate's heights.
func (d *drafter) footPlateRows() [][2]string {
	f := d.geo.FootPlate
	if f == nil {
		return nil
	}
	out := [][2]string{{"Pitch of the foot plate", d.length(f.Pitch)}}
	for i := range f.Positions {
		out = append(out, [2]string{"Foot plate height " + strconv.Itoa(i+1), d.length(f.Height(i))})
	}
	return out
}
