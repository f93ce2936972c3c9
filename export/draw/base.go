package draw

import (
	"math"
	"slices"
	"strings"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/export/words"
	"armwright/geometry/assembly"
	"armwright/solver/screen"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// baseSheet is sheet 06: the frame from above with its feet and the centres of mass
// of all cases within them, and what stands on it from the right and from the front.
func (d *drafter) baseSheet() sheet.Sheet {
	s := d.sheet(large, "Base and feet", "Detail drawing")
	floor := d.bodies(d.chosen(func(p *assembly.Part) bool { return d.floorPart(p) }), d.reference(), sheet.Visible, true)
	frame := d.bodies(d.chosen(func(p *assembly.Part) bool { return d.framePart(p) }), d.reference(), sheet.Visible, true)
	v, plan := show("Base from above", sheet.FromAbove, floor, hidden.FromAbove())
	side, right := show("Frame from the user's right", sheet.Front, frame, hidden.FromRight())
	ahead, front := show("Frame from the front", sheet.FromRight, frame, hidden.FromFront())
	plan.view, right.view, front.view = &v, &side, &ahead
	d.baseSizes(&v)
	d.frameSizes(&side, &ahead)
	d.balloons(shown{plan.Scene, &v})
	d.balloons(shown{right.Scene, &side}, shown{front.Scene, &ahead})
	plot, cases := d.envelope()
	s.Views = []sheet.View{side, ahead, v, plot, pictorial(frame)}
	s.Tables = []sheet.Table{cases}
	s.Notes = []string{
		"Ordinates count from the pivots: x = 0, and from the floor.",
		"The base tips over the edges of the box round the feet. In the plot the closed line within it holds the centres of mass of all cases: empty and with every person, all loads and angles, both arms and one. The spot is the case with the least tilt; a case tips when the base leans by its tilt over the edge named.",
		"Weld all joints of tubes all round; general tolerance of welded parts ISO 13920-B. Level the feet; edges that users touch are rounded to " + d.measure(2.5) + " at least.",
	}
	if b := d.r.Balance; b.Anchored {
		s.Notes = append(s.Notes, "Bolt the feet to the floor: balance rests on the anchors. One of two along an edge is pulled with up to "+
			d.reads().Size(math.Ceil(b.AnchorPull/10)*10, "N")+", no load factor, when the base leans by the limit of its tilt.")
	}
	return s
}

// floorPart tells the parts of the base: its rails, cross members and feet.
func (m *machine) floorPart(p *assembly.Part) bool {
	switch p.Item {
	case "rail", "rail-cap", "foot", "foot-seat":
		return true
	}
	return strings.HasPrefix(p.Item, "cross-")
}

// framePart tells what is welded or bolted to the base and stands still: posts, tower,
// sleeves.
func (m *machine) framePart(p *assembly.Part) bool {
	if m.floorPart(p) {
		return true
	}
	switch p.Item {
	case "pivot-post", "post-cap", "pivot-stub", "index-plate", "seat-sleeve", "back-strut", "back-strut-cap", "back-bracket", "foot-guide", "guide-post", "guide-stub", "sheave-rail-foot", "sheave-tower-foot",
		"tower-upright", "tower-cap", "tower-top", "tower-top-cap", "rod-bar", "guide-rod", "stack-foot", "stack-buffer":
		return true
	}
	return false
}

// baseSizes dimensions the base from above.
func (d *drafter) baseSizes(v *sheet.View) {
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	b := d.base()
	add(sheet.CentreLine{A: at(b.Min.X, 0), B: at(b.Max.X, 0)}, sheet.CentreMark{Radius: 12},
		sheet.Dimension{Kind: sheet.Horizontal, A: b.Min, B: at(b.Max.X, b.Min.Y)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: b.Min, B: at(b.Min.X, b.Max.Y)})
	if rail := d.part("rail-right"); rail != nil {
		low, high := span(rail, r3.Vec{}, r3.Vec{Y: 1})
		add(sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(b.Max.X, low), B: at(b.Max.X, high)})
	}
	xs := []float64{0, b.Min.X, b.Max.X}
	for _, i := range d.chosen(func(p *assembly.Part) bool { return strings.HasPrefix(p.Item, "cross-") }) {
		low, high := span(&d.a.Parts[i], r3.Vec{}, r3.Vec{X: 1})
		xs = append(xs, (low+high)/2)
	}
	for _, i := range d.ofItems(true, "foot") {
		xs = append(xs, d.a.Parts[i].Place.Origin.X)
	}
	d.ordinates(v, sheet.OrdinateX, sheet.Above, r2.Vec{}, xs, b.Max.Y)
}

// frameSizes dimensions what stands on the base: places along it, heights, and
// distances across.
func (d *drafter) frameSizes(side, front *sheet.View) {
	b := d.base()
	middle := func(item string, along r3.Vec) (float64, bool) {
		parts := d.ofItems(true, item)
		if len(parts) == 0 {
			return 0, false
		}
		low, high := span(&d.a.Parts[parts[0]], r3.Vec{}, along)
		return (low + high) / 2, true
	}
	xs := []float64{0}
	for _, item := range [...]string{"pivot-post", "seat-sleeve", "tower-upright", "guide-post"} {
		if x, ok := middle(item, r3.Vec{X: 1}); ok {
			xs = append(xs, x)
		}
	}
	top := 0.0
	zs := []float64{0}
	for _, item := range [...]string{"rail", "pivot-post", "seat-sleeve", "tower-top", "guide-post", "rod-bar"} {
		if _, high, ok := d.reach(d.ofItems(true, item), r3.Vec{}, r3.Vec{Z: 1}); ok {
			zs, top = append(zs, high), max(top, high)
		}
	}
	side.Entities = append(side.Entities, sheet.CentreMark{Centre: at(0, d.pivot.Z), Radius: 12}, sheet.Line{Role: sheet.Thin, A: at(b.Min.X, 0), B: at(b.Max.X, 0)})
	d.ordinates(side, sheet.OrdinateX, sheet.Above, at(0, top), xs, top)
	d.ordinates(side, sheet.OrdinateY, sheet.Rightward, at(b.Max.X, 0), append(zs, d.pivot.Z), b.Max.X)
	front.Entities = append(front.Entities, sheet.CentreLine{A: at(0, 0), B: at(0, top)})
	var ys []float64
	for _, item := range [...]string{"pivot-post", "tower-upright", "guide-post"} {
		y, ok := middle(item, r3.Vec{Y: 1})
		if ok && !slices.ContainsFunc(ys, func(x float64) bool { return math.Abs(x-y) < sameSize }) {
			ys = append(ys, y)
			front.Entities = append(front.Entities, sheet.Dimension{Kind: sheet.Horizontal, A: at(y, 0), B: at(-y, 0)})
		}
	}
}

// envelope plots the hull of the centres of mass within the box round the feet, and
// lists the cases with the least tilt.
func (d *drafter) envelope() (sheet.View, sheet.Table) {
	v := sheet.View{Title: "Centres of mass within the feet, from above"}
	t := sheet.Table{Title: "Centres of mass, the least tilts", Columns: sheet.Columns("<Case", "<Person", ">"+d.reads().Symbol("kg"), ">x", ">y", ">z", ">Tilt °", "<Over the")}
	const listed = 8
	cases := d.r.Stability
	closed := func(role sheet.Role, points ...r2.Vec) {
		line := sheet.Polyline{Role: role, Closed: true}
		for _, p := range points {
			line.Vertices = append(line.Vertices, sheet.Vertex{Vec: p})
		}
		v.Entities = append(v.Entities, line)
	}
	feet := d.feet()
	closed(sheet.Phantom, feet.Min, at(feet.Max.X, feet.Min.Y), feet.Max, at(feet.Min.X, feet.Max.Y))
	v.Entities = append(v.Entities, sheet.CentreLine{A: at(feet.Min.X, 0), B: at(feet.Max.X, 0)}, sheet.CentreMark{Radius: 12},
		sheet.Dimension{Kind: sheet.Horizontal, A: feet.Min, B: at(feet.Max.X, feet.Min.Y)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(feet.Max.X, feet.Min.Y), B: feet.Max})
	if hull := d.r.Balance.Envelope; len(hull) > 2 {
		closed(sheet.Thin, hull...)
		low, high := hull[0], hull[0]
		for _, p := range hull {
			low, high = at(min(low.X, p.X), min(low.Y, p.Y)), at(max(high.X, p.X), max(high.Y, p.Y))
		}
		d.ordinates(&v, sheet.OrdinateX, sheet.Above, r2.Vec{}, []float64{0, feet.Min.X, feet.Max.X, low.X, high.X}, feet.Max.Y)
	}
	for _, i := range leastTilts(cases, listed) {
		c := cases[i]
		t.Rows = append(t.Rows, []string{words.Phrase(c.Case, d.reads()), c.Person, d.reads().Whole(c.Mass, "kg"),
			d.length(c.X), d.length(c.Y), d.length(c.Z), sheet.Degrees(c.Tilt, 1), c.Edge})
	}
	if len(cases) > 0 {
		p := at(d.r.Least.X, d.r.Least.Y)
		const r = 4
		v.Entities = append(v.Entities,
			sheet.Hatch{Solid: true, Loops: [][]sheet.Vertex{{{Vec: r2.Add(p, at(r, 0)), Bulge: 1}, {Vec: r2.Sub(p, at(r, 0)), Bulge: 1}}}},
			sheet.Leader{At: p, Note: "least tilt " + sheet.Degrees(d.r.Least.Tilt, 1) + "°", Dot: true})
	}
	return v, t
}

// feet is the box round the places where the feet stand.
func (m *machine) feet() r2.Box {
	feet := m.chosen(func(p *assembly.Part) bool { return p.Is(assembly.Ground) })
	box := r2.Box{Min: at(math.Inf(1), math.Inf(1)), Max: at(math.Inf(-1), math.Inf(-1))}
	for _, i := range feet {
		q := m.a.Parts[i].Place.Origin
		box.Min, box.Max = at(min(box.Min.X, q.X), min(box.Min.Y, q.Y)), at(max(box.Max.X, q.X), max(box.Max.Y, q.Y))
	}
	return box
}

// leastTilts returns the indices of the n cases with the least tilt, one for
// each kind of case, in rising order.
func leastTilts(cases []screen.StabilityCase, n int) []int {
	var out []int
	taken := map[string]bool{}
	for len(out) < n {
		best := -1
		for i, c := range cases {
			if !taken[c.Case.Words] && (best < 0 || c.Tilt < cases[best].Tilt) {
				best = i
			}
		}
		if best < 0 || math.IsNaN(cases[best].Tilt) {
			break
		}
		taken[cases[best].Case.Words] = true
		out = append(out, best)
	}
	return out
}
