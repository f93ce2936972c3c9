package draw

import (
	"fmt"
	"math"
	"strconv"
	"sync"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// arrangement is sheet 01: the station from the user's right, from the front
// and from above, and in an axonometric view.
func (d *drafter) arrangement() sheet.Sheet {
	s := d.sheet(large, "General arrangement", "General arrangement drawing")
	bodies := d.whole(0)
	views := [...]struct {
		title    string
		position sheet.Position
		camera   hidden.Camera
		view     sheet.View
		scene    *hidden.Scene
	}{
		{title: "Seen from the user's right", position: sheet.Front, camera: hidden.FromRight()},
		{title: "Seen from the front", position: sheet.FromRight, camera: hidden.FromFront()},
		{title: "Plan", position: sheet.FromAbove, camera: hidden.FromAbove()},
		{title: "Axonometric view", camera: hidden.Axonometric()},
	}
	var wait sync.WaitGroup
	for i := range views {
		v := &views[i]
		wait.Go(func() {
			v.scene = hidden.NewScene(bodies, v.camera)
			v.view = sheet.View{Title: v.title, Position: v.position, Entities: append(v.scene.Lines(), d.flexible(v.camera, true)...)}
		})
	}
	wait.Wait()
	right, front, above := &views[0], &views[1], &views[2]
	if all := d.r.People.Boundary; len(all) > 0 {
		right.view.Entities = append(right.view.Entities, d.figure(&all[0], hidden.FromRight(), sheet.Phantom)...)
	}
	d.arrangementSizes(right.scene, above.scene, &right.view, &front.view, &above.view)
	d.balloons(shown{right.scene, &right.view}, shown{front.scene, &front.view}, shown{above.scene, &above.view})
	for i := range views {
		s.Views = append(s.Views, views[i].view)
	}
	s.Tables = []sheet.Table{d.principal()}
	s.Notes = d.arrangementNotes()
	return s
}

// arrangementSizes adds the principal dimensions.
func (d *drafter) arrangementSizes(side, plan *hidden.Scene, right, front, above *sheet.View) {
	g := d.geo
	half := g.Pivots.Spacing / 2
	add := func(v *sheet.View, dims ...sheet.Dimension) {
		for _, e := range dims {
			v.Entities = append(v.Entities, e)
		}
	}
	pivot := at(0, g.Pivots.Height)
	b := d.base()
	rear, fore := at(b.Min.X, 0), at(b.Max.X, 0)
	mark := d.r.Frame.Stock.Shaft
	right.Entities = append(right.Entities, sheet.CentreMark{Centre: pivot, Radius: mark},
		sheet.Line{Role: sheet.Thin, A: rear, B: fore})
	edge := g.Seat.Front - g.Seat.Depth/2
	add(right,
		sheet.Dimension{Kind: sheet.Horizontal, A: rear, B: fore},
		sheet.Dimension{Kind: sheet.Horizontal, A: rear, B: pivot},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: fore, B: pivot},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: fore, B: at(pivot.X, side.Extent(true).Max.Y), Reference: true},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: rear, B: at(edge, d.seatTop(0))},
	)
	if g.Seat.Positions > 1 {
		add(right, sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: rear, B: at(edge, d.seatTop(g.Seat.Positions-1))})
	}
	if _, tall, ok := d.reach(d.ofItems(true, "tower-top"), r3.Vec{}, r3.Vec{Z: 1}); ok {
		add(right, sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: fore, B: at(g.Base.Tower, tall)})
	}
	if p := d.part("arm-pad-foam-right"); p != nil && g.Back == nil {
		face := d.padFace(p)
		add(right, sheet.Dimension{Kind: sheet.Angular, Vertex: face.low, A: face.high, B: r2.Add(face.low, at(-r2.Norm(r2.Sub(face.high, face.low)), 0))})
	}
	if p := d.part("back-foam"); p != nil {
		low, high := d.backFace(p)
		add(right, sheet.Dimension{Kind: sheet.Angular, Vertex: low, A: r2.Add(low, at(0, r2.Norm(r2.Sub(high, low)))), B: high})
	}

	add(front,
		sheet.Dimension{Kind: sheet.Horizontal, A: at(b.Min.Y, 0), B: at(b.Max.Y, 0)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(-half, g.Pivots.Height), B: at(half, g.Pivots.Height)},
	)
	front.Entities = append(front.Entities,
		sheet.CentreLine{A: at(0, 0), B: at(0, g.Pivots.Height+100)})
	for _, y := range [...]float64{-half, half} {
		front.Entities = append(front.Entities, sheet.CentreMark{Centre: at(y, g.Pivots.Height), Radius: mark})
		above.Entities = append(above.Entities, sheet.CentreMark{Centre: at(0, y), Radius: mark})
	}
	above.Entities = append(above.Entities, sheet.CentreLine{A: at(b.Min.X, 0), B: at(b.Max.X, 0)})
	still := plan.Extent(false)
	add(above,
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, -half), B: at(0, half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, still.Min.Y), B: at(0, still.Max.Y), Reference: true})
	if math.Abs(still.Max.X-still.Min.X-(b.Max.X-b.Min.X)) > sameSize {
		add(above, sheet.Dimension{Kind: sheet.Horizontal, A: at(still.Min.X, 0), B: at(still.Max.X, 0), Reference: true})
	}
}

// face is the line of a pad's loaded face in the view from the user's right.
type face struct{ low, high r2.Vec }

// padFace is that of an arm pad's foam: its own x runs down the pad, z out of it.
func (m *machine) padFace(p *assembly.Part) face {
	from, to := span(p, r3.Vec{}, p.Place.X)
	_, top := span(p, r3.Vec{}, p.Place.Z)
	on := func(x float64) r2.Vec {
		return hidden.FromRight().See(r3.Add(r3.Scale(x, p.Place.X), r3.Scale(top, p.Place.Z)))
	}
	if p.Place.X.Z > 0 {
		from, to = to, from
	}
	return face{low: on(to), high: on(from)}
}

// principal is the table of principal sizes and settings.
func (d *drafter) principal() sheet.Table {
	g, b := d.geo, d.base()
	t := sheet.Table{Title: "Principal sizes", Columns: sheet.Columns("<Size", ">"+d.unit()+", °")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	row("Base length", d.length(b.Max.X-b.Min.X))
	row("Base width", d.length(b.Max.Y-b.Min.Y))
	if _, tall, ok := d.reach(d.ofItems(true, "tower-top"), r3.Vec{}, r3.Vec{Z: 1}); ok {
		row("Height of the tower", d.length(tall))
	}
	row("Pivot height", d.length(g.Pivots.Height))
	row("Pivot spacing", d.length(g.Pivots.Spacing))
	if g.Back == nil && g.Pad != nil {
		row("Pad slope", sheet.Degrees(g.Pad.Slope, 1)+"°")
	}
	if g.Pad != nil {
		row("Pad face below the axis", d.length(g.Pad.Offset))
	}
	if g.Back != nil {
		row("Back pad from vertical", sheet.Degrees(g.Back.Angle, 1)+"°")
	}
	row("Seat positions", fmt.Sprintf("%d x %s", g.Seat.Positions, d.length(g.Seat.Pitch)))
	row("Seat lowest", d.length(d.seatTop(0)))
	row("Seat highest", d.length(d.seatTop(g.Seat.Positions-1)))
	row("Handle positions", fmt.Sprintf("%d x %s", g.Handle.Positions, d.length(g.Handle.Pitch)))
	row("Handle radius", d.length(g.Handle.Least)+" to "+d.length(d.geo.Handle.Greatest()))
	row("Axis positions", strconv.Itoa(len(g.Pivots.Axes)))
	row("Loaded range", sheet.Degrees(d.first, 0)+"° to "+sheet.Degrees(d.last, 0)+"°")
	return t
}

// arrangementNotes tells how the views are to be read.
func (d *drafter) arrangementNotes() []string {
	notes := []string{
		"Arms at " + sheet.Degrees(d.first, 0) + "° of elbow flexion in the middle axis position; double-dot chain lines show the arms at " +
			sheet.Degrees(d.last, 0) + "° and the seat at its highest.",
		"The origin of all coordinates is on the floor midway between the pivots: x the way the user faces, y to the user's left, z up. Left and right are mirror images. Thin lines: cables, chains or belts.",
	}
	if all := d.r.People.Boundary; len(all) > 0 {
		notes = append(notes, "The figure is a "+all[0].Person.Sex.String()+" of middle size in seat position "+strconv.Itoa(all[0].Seat+1)+" counted from the lowest.")
	}
	return notes
}
