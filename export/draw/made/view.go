package made

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The room on paper, mm, that the picture of a part takes at most.
const (
	roomWide = 200.0
	roomTall = 120.0
	tiny     = 30.0 // what is drawn at twice its size
)

// scale is the largest recommended one at which a part has room: 1:1 or less, or 2:1
// for what is tiny.
func (p *Part) scale() sheet.Scale {
	if max(p.size.X, p.size.Y) <= tiny {
		return sheet.Scale{Drawing: 2, Real: 1}
	}
	return sheet.Fitting(p.size, r2.Vec{X: roomWide, Y: roomTall}, sheet.Scale{Drawing: 1, Real: 1})
}

// caption tells what is drawn: its item, how many, and what it is made from.
func (p *Part) caption() string {
	s := fmt.Sprintf("%d  %s: %d, %s", p.Item, p.Title, p.Count, p.Stock)
	if p.Opposite > 0 {
		s = fmt.Sprintf("%d  %s: %d as drawn, %d opposite hand, %s", p.Item, p.Title, p.Count-p.Opposite, p.Opposite, p.Stock)
	}
	return s
}

// drawer draws one part.
type drawer struct {
	*Part
	view sheet.View
}

func (d *drawer) add(e ...sheet.Entity) { d.view.Entities = append(d.view.Entities, e...) }

// chord is how far, mm, a straight line may stand off a curve.
const chord = 0.1

// draw is the picture of a part with its dimensions.
func (p *Part) draw() sheet.View {
	d := &drawer{Part: p, view: sheet.View{Title: p.caption(), Scale: p.scale()}}
	s, prism := p.Drawn.Solid.(solid.Prism)
	switch {
	case p.shape == plate && len(s.Bores) == 0:
		d.face(s)
	default:
		bare := p.Form == assembly.Tube || prism && p.shape == bar && p.Form != assembly.Round
		body := hidden.Body{Shape: hidden.NewShape(p.Drawn.Solid, chord), Place: solid.World(), Role: sheet.Visible, Bare: bare}
		d.add(hidden.NewScene([]hidden.Body{body}, p.look).Lines()...)
	}
	if p.shape == plate {
		d.plateSizes(s)
	} else {
		d.barSizes(s, prism)
	}
	d.holes()
	return d.view
}

// face draws a plate by its outlines.
func (d *drawer) face(s solid.Prism) {
	origin := r2.Vec{X: d.look.Origin.X, Y: d.look.Origin.Y}
	add := func(p contour.Path) {
		e := sheet.Polyline{Role: sheet.Visible, Closed: true, Vertices: make([]sheet.Vertex, len(p.Vertices))}
		for i, v := range p.Vertices {
			e.Vertices[i] = sheet.Vertex{Vec: r2.Sub(v.Point(), origin), Bulge: v.Bulge}
		}
		d.add(e)
	}
	for _, t := range d.traces {
		role := sheet.Thin
		if t.Far {
			role = sheet.Hidden
		}
		d.add(sheet.Line{Role: role, A: r2.Sub(t.A, origin), B: r2.Sub(t.B, origin)})
	}
	add(s.Profile.Outer())
	for _, h := range s.Profile.Holes() {
		if centre, radius, ok := h.Round(); ok {
			d.add(sheet.Circle{Role: sheet.Visible, Centre: r2.Sub(centre, origin), Radius: radius})
			continue
		}
		add(h)
	}
}

// plateSizes dimensions an outline: over all, and its corners where no cut file has them.
func (d *drawer) plateSizes(s solid.Prism) {
	w, h := d.size.X, d.size.Y
	outer := s.Profile.Outer()
	if centre, radius, ok := outer.Round(); ok {
		c := d.look.See(r3.Vec{X: centre.X, Y: centre.Y, Z: d.look.Origin.Z})
		d.add(sheet.CentreMark{Centre: c, Radius: radius}, sheet.Dimension{Kind: sheet.Diameter, A: c, B: r2.Add(c, r2.Scale(radius*math.Sqrt2/2, r2.Vec{X: 1, Y: 1}))})
		return
	}
	d.add(sheet.Dimension{Kind: sheet.Horizontal, A: r2.Vec{}, B: r2.Vec{X: w}},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: r2.Vec{X: w}, B: r2.Vec{X: w, Y: h}})
	if d.cut() {
		return
	}
	var xs, ys []float64
	var radii []float64
	for i := range outer.Len() {
		e := outer.Element(i)
		q := d.look.See(r3.Vec{X: e.Start.X, Y: e.Start.Y, Z: d.look.Origin.Z})
		if e.IsArc() {
			if !slices.ContainsFunc(radii, func(r float64) bool { return math.Abs(r-e.Radius) < same }) {
				radii = append(radii, e.Radius)
				c := d.look.See(r3.Vec{X: e.Centre.X, Y: e.Centre.Y, Z: d.look.Origin.Z})
				on := e.At(0.5)
				d.add(sheet.Dimension{Kind: sheet.Radius, A: c, B: d.look.See(r3.Vec{X: on.X, Y: on.Y, Z: d.look.Origin.Z})})
			}
		}
		xs, ys = append(xs, q.X), append(ys, q.Y)
	}
	if plain := len(outer.Vertices) == 4 || len(outer.Vertices) == 8 && len(radii) == 1; plain && d.Form != assembly.Plate {
		return
	}
	d.ordinates(sheet.OrdinateX, sheet.Above, xs, h)
	d.ordinates(sheet.OrdinateY, sheet.Leftward, ys, 0)
}

// cut reports whether a plate's outline is cut from a file: it is as thick as its stock.
func (d *Part) cut() bool {
	s, ok := d.Drawn.Solid.(solid.Prism)
	if !ok || d.shape != plate || len(s.Bores) > 0 || d.Form != assembly.Plate && d.Form != assembly.Sheet {
		return false
	}
	return math.Abs(d.thick-d.Drawn.Stock.Size[2]) < 0.05
}

// ordinates dimensions places from the datum, each once, where there are some between.
func (d *drawer) ordinates(kind sheet.DimKind, side sheet.Side, places []float64, across float64) {
	places = slices.Clone(places)
	slices.Sort(places)
	places = slices.CompactFunc(places, func(a, b float64) bool { return math.Abs(a-b) < 0.05 })
	const most = 18 // corners of an outline; holes are told however many there are
	tooMany := d.shape == plate && len(places) > most
	if tooMany || len(places) < 3 { // what is over all has a dimension
		return
	}
	for _, x := range places {
		at := r2.Vec{X: x, Y: across}
		datum := r2.Vec{Y: across}
		if kind == sheet.OrdinateY {
			at, datum = r2.Vec{X: across, Y: x}, r2.Vec{X: across}
		}
		d.add(sheet.Dimension{Kind: kind, Side: side, A: datum, B: at, Decimals: 2})
	}
}

// barSizes dimensions what lies along the picture: its length from long point to long
// point, mitres, diameters.
func (d *drawer) barSizes(s solid.Prism, prism bool) {
	l, half := d.size.X, d.size.Y/2
	add := d.add
	add(sheet.CentreLine{A: r2.Vec{}, B: r2.Vec{X: l}})
	// The ends of the upper and the lower side.
	var ends [2][2]float64
	ends[1][0], ends[1][1] = l, l
	if prism {
		for i, e := range [2]solid.End{s.From, s.To} {
			slope := r3.Dot(r3.Vec{X: e.Tilt.X, Y: e.Tilt.Y}, d.look.Up)
			middle := e.At(r2.Vec{X: d.look.Origin.X, Y: d.look.Origin.Y}) - d.look.Origin.Z
			aside := math.Abs(r3.Dot(r3.Vec{X: e.Tilt.X, Y: e.Tilt.Y}, d.look.Toward)) * d.thick / 2
			ends[i] = [2]float64{middle - slope*half - (1-2*float64(i))*aside, middle + slope*half - (1-2*float64(i))*aside}
		}
	}
	low := func(i int, x [2]float64) (long, short r2.Vec) { // of an end: left 0, right 1
		a, b := r2.Vec{X: x[0], Y: -half}, r2.Vec{X: x[1], Y: half}
		if (a.X < b.X) == (i == 0) || a.X == b.X {
			return a, b
		}
		return b, a
	}
	a, shortA := low(0, ends[0])
	b, shortB := low(1, ends[1])
	add(sheet.Dimension{Kind: sheet.Horizontal, A: a, B: b})
	if math.Abs(ends[0][0]-ends[0][1]) > same || math.Abs(ends[1][0]-ends[1][1]) > same {
		add(sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Below, A: shortA, B: shortB, Reference: true})
	}
	for _, e := range [2][2]r2.Vec{{a, shortA}, {b, shortB}} {
		long, short := e[0], e[1]
		if math.Abs(long.X-short.X) < same {
			continue
		}
		sq := r2.Vec{X: long.X, Y: short.Y}
		add(sheet.Line{Role: sheet.Thin, A: long, B: sq})
		angle := sheet.Dimension{Kind: sheet.Angular, Vertex: long, A: sq, B: short, Decimals: 2}
		if r2.Cross(r2.Sub(sq, long), r2.Sub(short, long)) < 0 {
			angle.A, angle.B = short, sq
		}
		add(angle)
	}
	if !d.round() {
		add(sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: r2.Vec{X: ends[1][0], Y: -half}, B: r2.Vec{X: ends[1][1], Y: half}, Reference: true})
	} else {
		d.diameters()
	}
	var xs []float64
	for _, f := range d.Features {
		if f.Kind == Hole && !f.Inside && math.Abs(f.Dir.Z) < 0.5 || f.Kind == Screw {
			xs = append(xs, d.look.See(f.At).X)
		}
	}
	if len(xs) > 0 {
		d.ordinates(sheet.OrdinateX, sheet.Above, append(xs, 0, l), half)
	}
	for _, f := range d.Features {
		if f.Kind == Keyway && !f.Inside {
			d.keyway(&f)
		}
	}
}

// round reports whether a bar is.
func (p *Part) round() bool {
	return slices.ContainsFunc(p.Features, func(f Feature) bool { return f.Kind == Step })
}

// diameters dimensions the steps of a turned part: those that can be seen past from an
// end beside it, others on a leader; and where each ends.
func (d *drawer) diameters() {
	var steps []Feature
	for _, f := range d.Features {
		if f.Kind == Step {
			steps = append(steps, f)
		}
	}
	at := func(f *Feature, share float64) float64 { return d.look.See(f.At).X + share*f.Depth }
	dim := func(f *Feature, side sheet.Side, x float64) {
		d.add(sheet.Dimension{Kind: sheet.Vertical, Side: side, A: r2.Vec{X: x, Y: -f.Size / 2}, B: r2.Vec{X: x, Y: f.Size / 2}, Prefix: "Ø", Decimals: 2})
	}
	left, right := 0, len(steps)
	for left < right && steps[left].Deep == 0 && (left == 0 || steps[left].Size > steps[left-1].Size) && left < 2 && (left == 0 || len(steps) > 2) {
		dim(&steps[left], sheet.Leftward, at(&steps[left], 0))
		left++
	}
	for n := 0; right > left && steps[right-1].Deep == 0 && (n == 0 || steps[right-1].Size > steps[right].Size) && n < 2; n++ {
		right--
		dim(&steps[right], sheet.Rightward, at(&steps[right], 1))
	}
	seen := map[string]bool{}
	for _, f := range steps[left:right] {
		note := "Ø" + strconv.FormatFloat(f.Size, 'f', -1, 64)
		if f.Deep == 0 && !seen[note] {
			seen[note] = true
			dim(&f, sheet.Rightward, at(&f, 1))
		}
	}
	var xs []float64
	for i := range steps {
		xs = append(xs, at(&steps[i], 0), at(&steps[i], 1))
	}
	if len(steps) > 1 {
		d.ordinates(sheet.OrdinateX, sheet.Above, xs, d.size.Y/2)
	}
}

// keyway draws a keyway on the middle of a shaft.
func (d *drawer) keyway(f *Feature) {
	x, r := d.look.See(f.At).X, f.Size/2
	v := func(x, y, bulge float64) sheet.Vertex { return sheet.Vertex{Vec: r2.Vec{X: x, Y: y}, Bulge: bulge} }
	d.add(sheet.Polyline{Role: sheet.Visible, Closed: true, Vertices: []sheet.Vertex{
		v(x+r, -r, 0), v(x+f.Depth-r, -r, 1), v(x+f.Depth-r, r, 0), v(x+r, r, 1),
	}},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: r2.Vec{Y: d.size.Y / 2}, B: r2.Vec{X: x, Y: d.size.Y / 2}},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: r2.Vec{X: x, Y: d.size.Y / 2}, B: r2.Vec{X: x + f.Depth, Y: d.size.Y / 2}})
}

// holes marks what is drilled towards or away from the viewer, and dimensions each size
// once.
func (d *drawer) holes() {
	type group struct {
		n    int
		size float64
		at   r2.Vec
	}
	var groups []group
	for _, f := range d.Features {
		if f.Kind != Hole || math.Abs(r3.Dot(f.Dir, d.look.Toward)) < 0.5 {
			continue
		}
		c := d.look.See(f.At)
		if f.Asked {
			role := sheet.Visible
			if r3.Dot(f.Dir, d.look.Toward) > 0 {
				role = sheet.Hidden
			}
			d.add(sheet.Circle{Role: role, Centre: c, Radius: f.Size / 2})
		}
		d.add(sheet.CentreMark{Centre: c, Radius: f.Size / 2})
		i := slices.IndexFunc(groups, func(g group) bool { return math.Abs(g.size-f.Size) < 0.02 })
		if i < 0 {
			groups = append(groups, group{1, f.Size, c})
			continue
		}
		groups[i].n++
	}
	for _, g := range groups {
		dim := sheet.Dimension{Kind: sheet.Diameter, A: g.at, B: r2.Add(g.at, r2.Scale(g.size/2*math.Sqrt2/2, r2.Vec{X: 1, Y: 1})), Decimals: 2}
		if g.n > 1 {
			dim.Prefix = strconv.Itoa(g.n) + "x "
		}
		d.add(dim)
	}
}
