package sheet

import (
	"math"
	"strings"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// laidView is a view drawn on paper with the model's origin at (0, 0).
type laidView struct {
	prims  []Primitive
	dims   []PlacedDimension
	body   r2.Box // geometry alone
	extent r2.Box // with dimensions, notes and title
}

// viewLayout draws one view.
type viewLayout struct {
	view   View
	scale  Scale
	factor float64
	units  Units
	height float64 // of lettering, mm
	alone  bool    // nothing will be placed round the geometry
	drawn  clearance
	values []valueAt // of ordinates
	out    laidView
}

// layOut draws the view at a scale; caption is written above it.
func (v View) layOut(scale Scale, units Units, height float64, caption string) laidView {
	l := &viewLayout{view: v, scale: scale, factor: scale.Factor(), units: units, height: height}
	l.drawn.extent = boxes.Empty()
	l.out.body = boxes.Empty()
	l.geometry()
	if boxes.IsEmpty(l.out.body) {
		l.out.body = l.drawn.extent
	}
	l.dimensions()
	l.notes()
	l.balloons()
	l.out.extent = l.drawn.extent
	if caption != "" && !boxes.IsEmpty(l.out.extent) {
		at := r2.Vec{X: (l.out.body.Min.X + l.out.body.Max.X) / 2, Y: l.out.extent.Max.Y + 1.2*height}
		l.add(Label{Lettering, at, caption, height, 0, Middle})
		l.out.extent = l.drawn.extent
	}
	return l.out
}

// body is the extent of the view's geometry in model mm.
func (v View) body() r2.Box {
	l := &viewLayout{view: v, scale: Scale{1, 1}, factor: 1, alone: true}
	l.drawn.extent, l.out.body = boxes.Empty(), boxes.Empty()
	l.geometry()
	return l.out.body
}

func (l *viewLayout) add(prims ...Primitive) {
	l.out.prims = append(l.out.prims, prims...)
	if !l.alone {
		l.drawn.add(prims...)
	}
}

func (l *viewLayout) paper(p r2.Vec) r2.Vec { return r2.Scale(l.factor, p) }

func (l *viewLayout) path(in []Vertex) []Vertex {
	out := make([]Vertex, len(in))
	for i, v := range in {
		out[i] = Vertex{l.paper(v.Vec), v.Bulge}
	}
	return out
}

// geometry draws everything that has no choice of place.
func (l *viewLayout) geometry() {
	const past = 3.0 // mm a centre line runs past its feature
	draw := func(prims ...Primitive) {
		l.add(prims...)
		l.out.body = boxes.Union(l.out.body, boxOf(prims))
	}
	for _, e := range l.view.Entities {
		switch e := e.(type) {
		case Line:
			draw(Stroke{Role: e.Role, Path: straight(l.paper(e.A), l.paper(e.B))})
		case Arc:
			draw(Stroke{Role: e.Role, Path: l.path(arcPath(e.Centre, e.Radius, e.Start, e.End))})
		case Circle:
			draw(Stroke{Role: e.Role, Path: circlePath(l.paper(e.Centre), e.Radius*l.factor), Closed: true})
		case Polyline:
			draw(Stroke{Role: e.Role, Path: l.path(e.Vertices), Closed: e.Closed})
		case Hatch:
			loops := make([][]Vertex, len(e.Loops))
			for i, loop := range e.Loops {
				loops[i] = l.path(loop)
			}
			if e.Solid {
				draw(Fill{Hatching, loops})
				continue
			}
			angle, spacing := e.Angle, e.Spacing
			if angle == 0 {
				angle = math.Pi / 4
			}
			if spacing == 0 {
				spacing = defaultHatchSpacing
			}
			without := make([][]Vertex, len(e.Without))
			for i, loop := range e.Without {
				without[i] = l.path(loop)
			}
			draw(hatchLines(loops, without, angle, spacing)...)
		case CentreLine:
			a, b := l.paper(e.A), l.paper(e.B)
			if d := r2.Sub(b, a); r2.Norm(d) > 0 {
				d = r2.Unit(d)
				a, b = along(a, d, -past), along(b, d, past)
			}
			l.add(Stroke{Role: Centre, Path: straight(a, b)})
		case CuttingPlane:
			l.add(l.cuttingPlane(e)...)
		case CentreMark:
			c, r := l.paper(e.Centre), e.Radius*l.factor+past
			role := Centre
			if r < 9 {
				// A chain line needs some length to be seen as one; small
				// circles take a continuous narrow cross.
				role, r = Thin, r-past+1.5
			}
			for _, d := range [...]r2.Vec{{X: r}, {Y: r}} {
				l.add(Stroke{Role: role, Path: straight(r2.Sub(c, d), r2.Add(c, d))})
			}
		case Text:
			h := e.Height
			if h == 0 {
				h = l.height
			}
			down := 0.0
			switch e.V {
			case HalfHeight:
				down = h / 2
			case CapTop:
				down = h
			}
			at := along(l.paper(e.At), left(polar(e.Rotation)), -down)
			l.add(Label{e.Role, at, e.Value, h, e.Rotation, e.H})
		}
	}
}

// settle takes the best alternative of an exploded dimension.
func (l *viewLayout) settle(d Dimension, e exploded) {
	prims := append([]Primitive{}, e.fixed...)
	if len(e.choice) > 0 {
		prims = append(prims, e.choice[l.drawn.best(e.choice)]...)
	}
	l.place(d, e.placed, prims, e.fixed)
}

// place records a dimension drawn by prims; those of them in known have been
// made known to the clearance before.
func (l *viewLayout) place(d Dimension, p PlacedDimension, prims, known []Primitive) {
	p.Dimension, p.Value, p.Text, p.Scale = d, d.Value(), d.Text(l.units), l.scale
	p.A, p.B, p.Vertex, p.TextHeight = l.paper(d.A), l.paper(d.B), l.paper(d.Vertex), l.height
	for _, q := range prims {
		if label, ok := q.(Label); ok {
			p.TextMiddle, p.TextAngle = middleOf(label), label.Rotation
		}
	}
	p.Primitives = prims
	l.drawn.add(prims[len(known):]...)
	l.out.dims = append(l.out.dims, p)
}

// dimensions draws the dimensions in the order of their freedom: those at an
// edge, those along a line, angles, and those on leaders.
func (l *viewLayout) dimensions() {
	var all []Dimension
	for _, e := range l.view.Entities {
		if d, ok := e.(Dimension); ok {
			all = append(all, d)
		}
	}
	start := map[Side]float64{}
	for _, side := range [...]Side{Below, Above, Leftward, Rightward} {
		start[side] = l.ordinates(all, side)
	}
	type pending struct {
		d Dimension
		e exploded
	}
	var lines []pending
	for _, side := range [...]Side{Below, Above, Leftward, Rightward} {
		for _, s := range l.stack(all, side, start[side]) {
			lines = append(lines, pending{s.d, l.atEdge(s)})
		}
	}
	for _, d := range all {
		if d.Kind != Aligned {
			continue
		}
		a, b := l.paper(d.A), l.paper(d.B)
		dir := r2.Vec{X: 1}
		if v := r2.Sub(b, a); r2.Norm(v) > 0 {
			dir = r2.Unit(v)
		}
		offset := d.Offset
		if offset == 0 {
			offset = firstOffset
		}
		lines = append(lines, pending{d, linear(a, b, dir, along(a, left(dir), offset), d.Text(l.units), l.height)})
	}
	// All lines first, so that every text knows what it has to keep clear of.
	for _, p := range lines {
		l.drawn.add(p.e.fixed...)
	}
	// Then the values between their extension lines, which have least freedom.
	for _, between := range [...]bool{true, false} {
		for _, p := range lines {
			if p.e.between == between {
				l.settle(p.d, p.e)
			}
		}
	}
	for _, kind := range [...]DimKind{Angular, Radius, Diameter} {
		for _, d := range all {
			if d.Kind == kind {
				l.free(d)
			}
		}
	}
}

// free draws an angle, radius or diameter where it disturbs least.
func (l *viewLayout) free(d Dimension) {
	a, b, text := l.paper(d.A), l.paper(d.B), d.Text(l.units)
	var options []exploded
	switch d.Kind {
	case Angular:
		radii := []float64{d.Offset}
		if d.Offset == 0 {
			radii = []float64{16, 20, 25, 30, 36, 43, 50, 60, 72, 86}
		}
		for _, r := range radii {
			options = append(options, angular(l.paper(d.Vertex), a, b, d.Value(), r, text, l.height, l.drawn.covers)...)
		}
	case Radius, Diameter:
		radius := r2.Norm(r2.Sub(b, a))
		given := r2.Sub(b, a)
		angles := []float64{math.Atan2(given.Y, given.X)}
		if d.Kind == Diameter {
			angles = append(angles, leaderAngles()...)
		}
		for _, angle := range angles {
			u := polar(angle)
			tip := along(a, u, radius)
			for _, length := range leaderLengths() {
				prims := shelf(Dimensioning, tip, u, length, []string{text}, l.height, false)
				options = append(options, exploded{
					placed: PlacedDimension{Line: tip, Direction: angle}, choice: [][]Primitive{prims},
				})
			}
		}
	}
	choices := make([][]Primitive, len(options))
	for i, o := range options {
		choices[i] = o.choice[0]
	}
	i := l.drawn.best(choices)
	l.place(d, options[i].placed, choices[i], nil)
	if d.Kind == Diameter || d.Kind == Radius {
		// The arrow may have gone round the circle.
		l.out.dims[len(l.out.dims)-1].B = options[i].placed.Line
	}
}

// notes draws leaders and weld symbols.
func (l *viewLayout) notes() {
	for _, e := range l.view.Entities {
		var options [][]Primitive
		switch e := e.(type) {
		case Leader:
			for _, length := range leaderLengths() {
				for _, angle := range leaderAngles() {
					options = append(options, shelf(Thin, l.paper(e.At), polar(angle), length,
						strings.Split(e.Note, "\n"), l.height, e.Dot))
				}
			}
		case Weld:
			for _, length := range leaderLengths() {
				for _, angle := range leaderAngles() {
					options = append(options, l.weld(&e, polar(angle), length))
				}
			}
		default:
			continue
		}
		l.add(options[l.drawn.best(options)]...)
	}
}
