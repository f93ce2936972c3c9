package weldment

import (
	"math"
	"slices"
	"strconv"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Drawer draws the weldments of one assembly.
type Drawer struct {
	Assembly *assembly.Assembly
	Item     []string                   // number of each part in the parts list
	Body     func(part int) hidden.Body // of a part where it is welded, without hidden edges
	Units    sheet.Units
	Blank    func(title, kind string) sheet.Sheet // the smallest, with its title block
}

// drawing is one sheet being drawn.
type drawing struct {
	*Drawer
	w      *Weldment
	frame  solid.Placement // axes and origin in the machine frame
	low    r3.Vec          // corners of the box round all, in the frame
	high   r3.Vec
	views  []view
	seen   []sheet.Entity // the axonometric view, to look at
	placed []Placing
	scale  sheet.Scale
}

// view is a view with its scene; its picture's x and y are axes of the frame.
type view struct {
	sheet.View
	*hidden.Scene
	x, y int // axes, 0 to 2
}

// Sheet draws a weldment.
func (d *Drawer) Sheet(w *Weldment) sheet.Sheet {
	g := &drawing{Drawer: d, w: w, frame: w.Frame(d.Assembly)}
	title := w.Title
	if w.Side != assembly.Middle {
		title += ", " + w.Side.String()
	}
	g.place()
	s := d.Blank(title, "Weldment drawing")
	s.Tolerance = "ISO 13920-BF"
	g.draw()
	g.dimension()
	g.angles()
	welds := g.symbols()
	g.balloons()
	for i := range g.views {
		s.Views = append(s.Views, g.views[i].View)
	}
	s.Views = append(s.Views, sheet.View{Title: "Axonometric view", Spare: true, Entities: g.seen})
	s.Tables = []sheet.Table{g.members(), welds}
	s.Notes = g.notes()
	return s
}

func (g *drawing) part(i int) *assembly.Part { return &g.Assembly.Parts[i] }

// place tells where every block is.
func (g *drawing) place() {
	g.low, g.high = extent(g.Assembly, g.w, g.frame)
	g.placed = g.w.Members(g.Assembly, g.frame)
}

// draw makes the three views: the main one with x to the right and z up, one from the
// end of x and one from above.
func (g *drawing) draw() {
	var bodies []hidden.Body
	for k := range g.w.Blocks {
		for _, i := range g.w.Blocks[k].Parts {
			b := g.Body(i)
			b.Item = g.Item[g.w.Blocks[k].Lead]
			bodies = append(bodies, b)
		}
	}
	f := &g.frame
	g.scale = scaleFor(g.size())
	add := func(position sheet.Position, right, up r3.Vec, x, y int) {
		c := hidden.Camera{Right: right, Up: up, Toward: r3.Cross(right, up), Origin: f.Origin}
		scene := hidden.NewScene(bodies, c)
		g.views = append(g.views, view{sheet.View{Title: seenFrom(c.Toward), Position: position, Scale: g.scale, Entities: scene.Lines()}, scene, x, y})
	}
	add(sheet.Front, f.X, f.Z, 0, 2)
	add(sheet.FromRight, f.Y, f.Z, 1, 2)
	add(sheet.FromAbove, f.X, f.Y, 0, 1)
	g.seen = hidden.NewScene(bodies, hidden.Axonometric()).Lines()
}

// scaleFor is the scale at which what is so large, mm, can be read: of three views on
// the sizes of sheets that there are.
func scaleFor(extent float64) sheet.Scale {
	switch {
	case extent <= 110:
		return sheet.Scale{Drawing: 1, Real: 1}
	case extent <= 480:
		return sheet.Scale{Drawing: 1, Real: 2}
	case extent <= 1400:
		return sheet.Scale{Drawing: 1, Real: 5}
	}
	return sheet.Scale{Drawing: 1, Real: 10}
}

// seenFrom says where in the machine the viewer stands.
func seenFrom(toward r3.Vec) string {
	best, name := 0.0, ""
	for _, w := range [...]struct {
		by   float64
		name string
	}{{-toward.Y, "From the right"}, {toward.X, "From the front"}, {toward.Z, "From above"}, {toward.Y, "From the left"}, {-toward.X, "From behind"}, {-toward.Z, "From below"}} {
		if w.by > best+1e-9 {
			best, name = w.by, w.name
		}
	}
	return name
}

// sameSize is the difference, mm, below which two places are written alike.
const sameSize = 0.05

// dimension gives every square member its place from the origin, once for each axis:
// x and z in the view from the right, y in the plan; an ordinate stands at the side of
// the view that the member is nearer to.
func (g *drawing) dimension() {
	type ordinate struct {
		view, axis int
		side       sheet.Side
	}
	done := map[ordinate][]float64{}
	box := [3][2]float64{{g.low.X, g.high.X}, {g.low.Y, g.high.Y}, {g.low.Z, g.high.Z}}
	add := func(v, axis int, side sheet.Side, at r2.Vec, value float64) {
		key := ordinate{v, axis, side}
		if value != 0 {
			key.side = sheet.Auto // once in a view
		}
		if slices.ContainsFunc(done[key], func(x float64) bool { return math.Abs(x-value) < sameSize }) {
			return
		}
		done[key] = append(done[key], value)
		kind := sheet.OrdinateX
		if axis == g.views[v].y {
			kind = sheet.OrdinateY
		}
		g.views[v].Entities = append(g.views[v].Entities, sheet.Dimension{Kind: kind, Side: side, B: at})
	}
	inverse := g.frame.Inverse()
	for i := range g.placed {
		p := &g.placed[i]
		var span [3][2]float64
		for _, k := range g.w.Blocks[i].Parts {
			q := g.part(k)
			low, high := solid.Bounds(q.Solid, inverse.Then(q.Place))
			for n, v := range [3][2]float64{{low.X, high.X}, {low.Y, high.Y}, {low.Z, high.Z}} {
				if k == g.w.Blocks[i].Parts[0] {
					span[n] = v
				}
				span[n] = [2]float64{min(span[n][0], v[0]), max(span[n][1], v[1])}
			}
		}
		for axis, v := range [3]int{0, 2, 0} {
			w := &g.views[v]
			across := w.x + w.y - axis
			// The side that the member is nearer to.
			low, high := span[across][0]-box[across][0], box[across][1]-span[across][1]
			side, at, edge := sheet.Below, span[across][0], box[across][0]
			if axis == w.y {
				side = sheet.Leftward
			}
			if high < low-sameSize {
				at, edge = span[across][1], box[across][1]
				if side = sheet.Above; axis == w.y {
					side = sheet.Rightward
				}
			}
			if math.Abs(p.At[axis]) > sameSize {
				b := r2.Vec{X: p.At[axis], Y: at}
				if axis == w.y {
					b = r2.Vec{X: at, Y: p.At[axis]}
				}
				if !p.Square {
					b = r2.Vec{X: p.At[w.x], Y: p.At[w.y]}
				}
				add(v, axis, side, b, p.At[axis])
			}
			// The datum at every side that has ordinates.
			zero := r2.Vec{Y: edge}
			if axis == w.y {
				zero = r2.Vec{X: edge}
			}
			add(v, axis, side, zero, 0)
		}
	}
	for v := range g.views {
		g.views[v].Entities = append(g.views[v].Entities, sheet.CentreMark{Radius: 3 * g.size() / 100})
	}
	// The whole, for reference.
	g.views[0].Entities = append(g.views[0].Entities,
		sheet.Dimension{Kind: sheet.Horizontal, A: r2.Vec{X: g.low.X, Y: g.low.Z}, B: r2.Vec{X: g.high.X, Y: g.low.Z}, Reference: true})
	g.views[1].Entities = append(g.views[1].Entities,
		sheet.Dimension{Kind: sheet.Horizontal, A: r2.Vec{X: g.low.Y, Y: g.low.Z}, B: r2.Vec{X: g.high.Y, Y: g.low.Z}, Reference: true},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: r2.Vec{X: g.high.Y, Y: g.low.Z}, B: r2.Vec{X: g.high.Y, Y: g.high.Z}, Reference: true})
}

// size is the largest extent of the weldment, mm.
func (g *drawing) size() float64 {
	d := r3.Sub(g.high, g.low)
	return max(d.X, d.Y, d.Z)
}

// angles dimensions what lies askew: about one axis of the frame in the view along it,
// about none in a true view of its own.
func (g *drawing) angles() {
	f := &g.frame
	shown := map[string]bool{}
	for i := range g.placed {
		p := g.part(g.placed[i].Part)
		if g.placed[i].Square || len(g.w.Blocks[i].Parts) > 1 {
			continue
		}
		for v := range 3 {
			w := &g.views[v]
			w.Entities = append(w.Entities, sheet.CentreMark{Centre: w.See(p.Place.Point(first(p))), Radius: g.size() / 80})
		}
		long := p.Place.Z
		low, high := solid.Bounds(p.Solid, solid.World())
		reach := (high.Z - low.Z) / 2
		axes := [3]r3.Vec{f.X, f.Y, f.Z}
		along3 := func(v r3.Vec) int {
			return slices.IndexFunc(axes[:], func(a r3.Vec) bool { return along(a, v) })
		}
		// Of the own axes one is the frame's: the view along it shows the angle.
		about := -1
		for _, own := range [3]r3.Vec{p.Place.X, p.Place.Y, p.Place.Z} {
			if k := along3(own); k >= 0 {
				about = k
			}
		}
		if about >= 0 {
			for v := range g.views {
				w := &g.views[v]
				if w.x == about || w.y == about {
					continue
				}
				// The longest of the own axes across.
				for _, own := range [2]struct {
					v    r3.Vec
					half float64
				}{{p.Place.X, (high.X - low.X) / 2}, {p.Place.Y, (high.Y - low.Y) / 2}} {
					if along3(own.v) != about && (along(long, axes[about]) || own.half > reach) {
						long, reach = own.v, max(own.half, reach)
					}
				}
				g.angle(&w.View, w.Scene, p, long, reach)
			}
			continue
		}
		key := g.Item[g.placed[i].Part]
		if shown[key] {
			continue
		}
		shown[key] = true
		g.trueView(i, p, long, reach)
	}
}

// angle dimensions the angle between a direction of a part and the picture's x or y,
// whichever is nearer, at the middle of the part.
func (g *drawing) angle(v *sheet.View, scene *hidden.Scene, p *assembly.Part, dir r3.Vec, reach float64) {
	at := scene.See(p.Place.Point(first(p)))
	u := r2.Sub(scene.See(r3.Add(p.Place.Point(first(p)), dir)), at)
	if r2.Norm(u) < parallel {
		return
	}
	u = r2.Unit(u)
	base := r2.Vec{X: math.Copysign(1, u.X)}
	if math.Abs(u.Y) > math.Abs(u.X) {
		base = r2.Vec{Y: math.Copysign(1, u.Y)}
	}
	if math.Abs(r2.Cross(base, u)) < parallel {
		return
	}
	reach = max(reach, g.size()/20)
	if slices.ContainsFunc(v.Entities, func(e sheet.Entity) bool {
		o, ok := e.(sheet.Dimension)
		return ok && o.Kind == sheet.Angular && math.Abs(math.Sin(o.Value())-math.Abs(r2.Cross(base, u))) < parallel
	}) {
		return // as another one, which lies alike; the table has all
	}
	d := sheet.Dimension{Kind: sheet.Angular, Vertex: at, A: r2.Add(at, r2.Scale(reach, base)), B: r2.Add(at, r2.Scale(reach, u)), Decimals: 2}
	if r2.Cross(base, u) < 0 {
		d.A, d.B = d.B, d.A
	}
	v.Entities = append(v.Entities, sheet.Line{Role: sheet.Thin, A: at, B: r2.Add(at, r2.Scale(reach, base))}, d)
}

// trueView looks square at the plane of a part's own z and the frame's z, with what the
// part is welded to.
func (g *drawing) trueView(block int, p *assembly.Part, long r3.Vec, reach float64) {
	f := &g.frame
	toward := r3.Cross(long, f.Z)
	if r3.Norm(toward) < parallel {
		return
	}
	toward = r3.Unit(toward)
	if r3.Dot(toward, f.Y) > 0 {
		toward = r3.Scale(-1, toward)
	}
	i := g.placed[block].Part
	near := []int{i}
	for _, k := range g.w.Welds {
		switch j := &g.Assembly.Joints[k]; i {
		case j.A:
			near = append(near, j.B)
		case j.B:
			near = append(near, j.A)
		}
	}
	var bodies []hidden.Body
	for _, k := range near {
		bodies = append(bodies, g.Body(k))
	}
	c := hidden.Camera{Right: r3.Cross(f.Z, toward), Up: f.Z, Toward: toward, Origin: f.Origin}
	scene := hidden.NewScene(bodies, c)
	v := view{sheet.View{Title: "True view of " + g.Item[i], Scale: g.scale, Entities: scene.Lines()}, scene, -1, -1}
	g.angle(&v.View, scene, p, long, reach)
	g.views = append(g.views, v)
}

// balloons points at every block once, in the view that shows most of it.
func (g *drawing) balloons() {
	done := map[string]bool{}
	for k := range g.views[0].Bodies {
		item := g.views[0].Bodies[k].Item
		if done[item] {
			continue
		}
		best, spots := -1, []r2.Vec(nil)
		for v := range 3 {
			if s := g.views[v].Spots(k); len(s) > len(spots) {
				best, spots = v, s
			}
		}
		if best < 0 {
			continue
		}
		done[item] = true
		g.views[best].Entities = append(g.views[best].Entities, sheet.Balloon{At: spots[0], Item: item})
	}
}

// members is the table of all members: what they are, where they are from the origin,
// and how those that lie askew are set.
func (g *drawing) members() sheet.Table {
	t := sheet.Table{Title: "Setting out from the datum, " + g.Units.Symbol()}
	askew := slices.ContainsFunc(g.placed, func(p Placing) bool { return !p.Square })
	head := []string{"Item", "<Part", ">Length", ">x", ">y", ">z"}
	if askew {
		head = append(head, ">Plan °", ">Rise °", ">Turn °")
	}
	t.Columns = sheet.Columns(append(head, "<To")...)
	for i := range g.placed {
		p := &g.placed[i]
		part := g.part(p.Part)
		title := part.Title
		if part.Side != assembly.Middle && g.w.Side == assembly.Middle {
			title += ", " + part.Side.String()
		}
		if n := g.w.Blocks[i].Sheet; n > 0 {
			title += ", sheet " + strconv.Itoa(n)
		}
		long := ""
		if l := part.Length(); l > 0 {
			long = g.Units.Figure(l)
		}
		row := []string{g.Item[p.Part], title, long, g.Units.Figure(p.At[0]), g.Units.Figure(p.At[1]), g.Units.Figure(p.At[2])}
		switch {
		case !p.Square:
			row = append(row, sheet.Degrees(p.Plan, 2), sheet.Degrees(p.Rise, 2), sheet.Degrees(p.Turn, 2))
		case askew:
			row = append(row, "", "", "")
		}
		t.Rows = append(t.Rows, append(row, p.to(part.Stock.Form == assembly.Plate)))
	}
	return t
}
