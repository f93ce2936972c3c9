package draw

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// arrangement is sheet 01: the station from the user's right, from the front
// and from above, and in an axonometric view.
func (d *drafter) arrangement() sheet.Sheet {
	s := d.sheet(large, "General arrangement", "General arrangement drawing")
	bodies := d.bodies()
	right := sheet.View{Title: "Seen from the user's right", Position: sheet.Front, Entities: drawn(bodies, fromRight())}
	front := sheet.View{Title: "Seen from the front", Position: sheet.FromRight, Entities: drawn(bodies, fromFront())}
	above := sheet.View{Title: "Plan", Position: sheet.FromAbove, Entities: drawn(bodies, fromAbove())}
	for i := range bodies {
		bodies[i].bare = true
	}
	axo := sheet.View{Title: "Axonometric view", Entities: drawn(bodies, axonometric())}

	if all := d.r.People.Boundary; len(all) > 0 {
		right.Entities = append(right.Entities, d.figure(&all[0], fromRight(), sheet.Phantom)...)
	}
	for _, v := range [...]struct {
		view   *sheet.View
		camera camera
	}{{&right, fromRight()}, {&front, fromFront()}, {&above, fromAbove()}, {&axo, axonometric()}} {
		v.view.Entities = append(v.view.Entities, d.cableLine(v.camera, true)...)
	}
	d.arrangementSizes(bodies, &right, &front, &above)
	d.balloons(shown{bodies, fromRight(), &right}, shown{bodies, fromFront(), &front}, shown{bodies, fromAbove(), &above})
	s.Views = []sheet.View{right, front, above, axo}
	s.Tables = []sheet.Table{d.principal(), d.partsTable(false)}
	s.Notes = d.arrangementNotes()
	return s
}

// arrangementSizes adds the principal dimensions.
func (d *drafter) arrangementSizes(bodies []prism, right, front, above *sheet.View) {
	g, b := d.geo, d.geo.Base
	half := g.Pivots.Spacing / 2
	add := func(v *sheet.View, dims ...sheet.Dimension) {
		for _, e := range dims {
			v.Entities = append(v.Entities, e)
		}
	}
	pivot := at(0, g.Pivots.Height)
	rear, fore := at(b.Rear, 0), at(b.Front, 0)
	right.Entities = append(right.Entities, sheet.CentreMark{Centre: pivot, Radius: hubAcross / 2})
	edge := g.Seat.Front - g.Seat.Depth/2
	lowest := at(edge, g.Seat.Lowest)
	highest := at(edge, g.Seat.Top(g.Seat.Positions-1))
	add(right,
		sheet.Dimension{Kind: sheet.Horizontal, A: rear, B: fore},
		sheet.Dimension{Kind: sheet.Horizontal, A: rear, B: pivot},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: fore, B: pivot},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: fore, B: at(pivot.X, outside(bodies, fromRight(), true).Max.Y), Reference: true},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: rear, B: lowest},
	)
	if g.Seat.Positions > 1 {
		add(right, sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: rear, B: highest})
	}
	if b.TowerTall > 0 {
		add(right, sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: fore, B: at(b.Tower, b.TowerTall)})
	}
	if p := g.Pad; p != nil && g.Back == nil {
		sn, cs := math.Sincos(p.Slope)
		low := at(-p.Near*cs-p.Offset*sn, g.Pivots.Height+p.Near*sn-p.Offset*cs)
		high := at(-p.Far*cs-p.Offset*sn, g.Pivots.Height+p.Far*sn-p.Offset*cs)
		add(right, sheet.Dimension{Kind: sheet.Angular, Vertex: low, A: high, B: r2.Add(low, at(-p.Far, 0))})
	}
	if k := g.Back; k != nil {
		sn, cs := math.Sincos(k.Angle)
		foot := at(k.Foot, g.Seat.Lowest)
		top := r2.Add(foot, at(-k.Length*sn, k.Length*cs))
		add(right, sheet.Dimension{Kind: sheet.Angular, Vertex: foot, A: r2.Add(foot, at(0, k.Length)), B: top})
	}

	add(front,
		sheet.Dimension{Kind: sheet.Horizontal, A: at(-b.Width/2, 0), B: at(b.Width/2, 0)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(-half, g.Pivots.Height), B: at(half, g.Pivots.Height)},
	)
	front.Entities = append(front.Entities,
		sheet.CentreLine{A: at(0, 0), B: at(0, g.Pivots.Height+100)})
	for _, y := range [...]float64{-half, half} {
		front.Entities = append(front.Entities, sheet.CentreMark{Centre: at(y, g.Pivots.Height), Radius: hubAcross / 2})
		above.Entities = append(above.Entities, sheet.CentreMark{Centre: at(0, y), Radius: hubAcross / 2})
	}
	above.Entities = append(above.Entities, sheet.CentreLine{A: at(b.Rear, 0), B: at(b.Front, 0)})
	still := outside(bodies, fromAbove(), false)
	add(above,
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, -half), B: at(0, half)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(0, still.Min.Y), B: at(0, still.Max.Y), Reference: true})
	if math.Abs(still.Max.X-still.Min.X-(b.Front-b.Rear)) > sameSize {
		add(above, sheet.Dimension{Kind: sheet.Horizontal, A: at(still.Min.X, 0), B: at(still.Max.X, 0), Reference: true})
	}
}

// sameSize is the difference, mm, below which two sizes are written alike.
const sameSize = 0.05

// outside is the box round the pictures of all bodies, phantoms among them if
// moved.
func outside(bodies []prism, c camera, moved bool) r2.Box {
	box := bodies[0].extent(c)
	for _, b := range bodies {
		if moved || b.role != sheet.Phantom {
			box = around(box, b.extent(c))
		}
	}
	return box
}

// shown is bodies in a view.
type shown struct {
	bodies []prism
	camera camera
	view   *sheet.View
}

// itemOf is the number of a part in the parts list, "" without one.
func (d *drafter) itemOf(part string) string {
	for _, p := range d.r.Parts {
		if part != "" && (p.Title == part || part == stackPlate && strings.HasPrefix(p.Title, stackPlate)) {
			return strconv.Itoa(p.Item)
		}
	}
	return ""
}

// balloons points at one body of each part, in the view where most of it can
// be seen.
func (d *drafter) balloons(views ...shown) {
	scenes := make([]scene, len(views))
	for i, v := range views {
		scenes[i] = newScene(v.bodies, v.camera)
	}
	const same = 2.0 // mm: two dots there would be one
	done := map[string]bool{"": true}
	for i, b := range views[0].bodies {
		item := d.itemOf(b.part)
		if done[item] {
			continue
		}
		done[item] = true
		best, most := 0, 0.0
		for k, s := range scenes {
			box, spot := s.boxes[i], s.camera.see(b.spot())
			area := (box.Max.X - box.Min.X) * (box.Max.Y - box.Min.Y)
			taken := slices.ContainsFunc(views[k].view.Entities, func(e sheet.Entity) bool {
				o, ok := e.(sheet.Balloon)
				return ok && r2.Norm(r2.Sub(o.At, spot)) < same
			})
			if area > most && !taken && s.shows(i) {
				best, most = k, area
			}
		}
		v := views[best]
		v.view.Entities = append(v.view.Entities, sheet.Balloon{At: v.camera.see(b.spot()), Item: item})
	}
}

// shows reports whether the spot of a body that a balloon points at is not
// hidden by another body.
func (s scene) shows(i int) bool {
	const half = 1.0 // mm
	mid, aside := s.bodies[i].spot(), r3.Scale(half, s.camera.right)
	return len(s.behind(i, edge{r3.Sub(mid, aside), r3.Add(mid, aside)})) == 0
}

// principal is the table of principal sizes and settings.
func (d *drafter) principal() sheet.Table {
	g, b := d.geo, d.geo.Base
	t := sheet.Table{Title: "Principal sizes", Columns: columns("<Size", ">"+d.unit()+", °")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	row("Base length", d.length(b.Front-b.Rear))
	row("Base width", d.length(b.Width))
	if b.TowerTall > 0 {
		row("Height of the tower", d.length(b.TowerTall))
	}
	row("Pivot height", d.length(g.Pivots.Height))
	row("Pivot spacing", d.length(g.Pivots.Spacing))
	if g.Back == nil && g.Pad != nil {
		row("Pad slope", degrees(g.Pad.Slope, 1)+"°")
	}
	if g.Pad != nil {
		row("Pad face below the axis", d.length(g.Pad.Offset))
	}
	if g.Back != nil {
		row("Back pad from vertical", degrees(g.Back.Angle, 1)+"°")
	}
	row("Seat positions", fmt.Sprintf("%d x %s", g.Seat.Positions, d.length(g.Seat.Pitch)))
	row("Seat lowest", d.length(g.Seat.Lowest))
	row("Seat highest", d.length(g.Seat.Top(g.Seat.Positions-1)))
	row("Handle positions", fmt.Sprintf("%d x %s", g.Handle.Positions, d.length(g.Handle.Pitch)))
	row("Handle radius", d.length(g.Handle.Least)+" to "+d.length(d.geo.Handle.Greatest()))
	row("Axis positions", strconv.Itoa(len(g.Pivots.Axes)))
	row("Loaded range", degrees(d.first, 0)+"° to "+degrees(d.last, 0)+"°")
	return t
}

// partsTable is the parts list; with all its columns where full.
func (d *drafter) partsTable(full bool) sheet.Table {
	u := d.reads()
	weigh := func(kg float64, decimals int) string { return strconv.FormatFloat(u.In(kg, "kg"), 'f', decimals, 64) }
	t := sheet.Table{Title: "Parts", Columns: columns("Item", "Qty", "<Part", "<Stock", ">Length "+d.unit())}
	if full {
		t.Columns = append(t.Columns, columns(">Mass "+u.Symbol("kg"), ">Total "+u.Symbol("kg"), "<Ends")...)
	}
	total := 0.0
	for _, p := range d.r.Parts {
		length, mass, sum := "", "", ""
		if p.Length > 0 {
			length = d.length(p.Length)
		}
		if p.Mass > 0 {
			mass = weigh(p.Mass, 2)
			sum = weigh(p.Mass*float64(p.Count), 1)
			total += p.Mass * float64(p.Count)
		}
		row := []string{strconv.Itoa(p.Item), strconv.Itoa(p.Count), p.Title, p.Stock, length}
		if full {
			row = append(row, mass, sum, p.Mitre)
		}
		t.Rows = append(t.Rows, row)
	}
	if full {
		t.Rows = append(t.Rows, []string{"", "", "Total of the masses listed", "", "", "", weigh(total, 1), ""})
	}
	return t
}

// arrangementNotes tells how the views are to be read.
func (d *drafter) arrangementNotes() []string {
	notes := []string{
		"Arms at " + degrees(d.first, 0) + "° of elbow flexion, the axis at the mean of its positions; double-dot chain lines show the arms at " +
			degrees(d.last, 0) + "° and the seat at its highest.",
		"The origin of all coordinates is on the floor midway between the pivots: x the way the user faces, y to the user's left, z up. Left and right are mirror images.",
		"Swivel bars and bearing uprights are drawn turned to the mean axis; sheet \"Pivots and axes\" tells how to set them up. Brackets, bearings, hubs and pulleys are shown simplified; the stands of countershafts, covers and guards are not shown. Thin lines: the cables.",
	}
	if all := d.r.People.Boundary; len(all) > 0 {
		notes = append(notes, "The figure is a "+all[0].Person.Sex.String()+" of middle size in seat position "+strconv.Itoa(all[0].Seat+1)+" counted from the lowest.")
	}
	return notes
}
