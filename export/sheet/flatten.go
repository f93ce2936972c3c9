package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Flatten lays the sheet out and draws it on paper. Views without a scale get
// the largest recommended one at which everything fits; the result depends on
// the sheet alone. The error is an *Error: a coordinate that is not finite, a
// view twice in one position, or content that fits at no scale.
func (s *Sheet) Flatten() (*Drawing, error) {
	d, _, err := s.flatten()
	return d, err
}

// arrangement is a solution of the layout.
type arrangement struct {
	views  []laidView
	scales []Scale
	at     []r2.Vec
	tables [][]Primitive // shifted
}

func (s *Sheet) flatten() (*Drawing, []Problem, error) {
	if err := s.valid(); err != nil {
		return nil, nil, err
	}
	a, err := s.arrange()
	if err != nil {
		return nil, nil, err
	}
	width, height := s.Size.Trimmed()
	t := s.TitleBlock
	d := &Drawing{Width: width, Height: height, Number: t.Sheet, Title: t.Title, Description: s.describe()}
	d.Primitives = s.Size.frame()
	d.framing = len(d.Primitives)
	block, problems := s.drawTitleBlock(s.scaleText(a))
	d.Primitives = append(d.Primitives, block...)
	for _, prims := range a.tables {
		d.Primitives = append(d.Primitives, prims...)
	}
	for i, v := range a.views {
		by := a.at[i]
		d.Views = append(d.Views, PlacedView{s.Views[i].Title, a.scales[i], by})
		for _, p := range v.prims {
			d.Primitives = append(d.Primitives, moved(p, by))
		}
		for _, dim := range v.dims {
			d.Dimensions = append(d.Dimensions, dim.moved(by))
		}
	}
	return d, append(problems, t.tooLong()...), nil
}

func (p PlacedDimension) moved(by r2.Vec) PlacedDimension {
	p.A, p.B, p.Vertex = r2.Add(p.A, by), r2.Add(p.B, by), r2.Add(p.Vertex, by)
	p.Line, p.TextMiddle = r2.Add(p.Line, by), r2.Add(p.TextMiddle, by)
	prims := make([]Primitive, len(p.Primitives))
	for i, q := range p.Primitives {
		prims[i] = moved(q, by)
	}
	p.Primitives = prims
	return p
}

// describe puts the title block in words, for readers that cannot see.
func (s *Sheet) describe() string {
	t := s.TitleBlock
	text := fmt.Sprintf("Drawing sheet %d", t.Sheet)
	if t.Sheets > 0 {
		text += fmt.Sprintf(" of %d", t.Sheets)
	}
	text += fmt.Sprintf(", size %s, dimensions in %s.", s.Size, s.Units)
	for i, v := range s.Views {
		if v.Title == "" {
			continue
		}
		if i == 0 {
			text += " Views:"
		}
		text += " " + v.Title + ";"
	}
	return text + " " + Notice
}

// valid rejects what cannot be drawn.
func (s *Sheet) valid() error {
	seen := map[Position]bool{}
	for _, v := range s.Views {
		if v.Position != Free && seen[v.Position] {
			return s.fail(fmt.Sprintf("two views in one position (%q is the second)", v.Title), "make one of them Free")
		}
		seen[v.Position] = true
		if v.Scale.Drawing < 0 || v.Scale.Real < 0 || (v.Scale.Drawing == 0) != (v.Scale.Real == 0) {
			return s.fail(fmt.Sprintf("view %q has scale %s", v.Title, v.Scale), "both numbers of a scale are positive")
		}
		for _, e := range v.Entities {
			if !finite(e) {
				return s.fail(fmt.Sprintf("view %q has a %T whose coordinates are not finite", v.Title, e), "check the geometry it is made of")
			}
			if reason, hint := degenerate(e); reason != "" {
				return s.fail(fmt.Sprintf("view %q has %s", v.Title, reason), hint)
			}
		}
	}
	for p := range seen {
		if p != Free && !seen[Front] {
			return s.fail("aligned views without a front view", "give one view the position Front")
		}
	}
	return nil
}

func (s *Sheet) fail(reason, hint string) error {
	return &Error{Sheet: s.TitleBlock.Title, Reason: reason, Hint: hint}
}

// degenerate says what cannot be drawn about an entity, or nothing.
func degenerate(e Entity) (reason, hint string) {
	switch e := e.(type) {
	case Circle:
		if e.Radius <= 0 {
			return "a circle without a radius", "the radius is positive"
		}
	case Arc:
		if e.Radius <= 0 {
			return "an arc without a radius", "the radius is positive"
		}
	case Polyline:
		if len(e.Vertices) < 2 {
			return "a polyline of fewer than two vertices", "leave it out, or give it its end"
		}
	case Hatch:
		if e.Spacing < 0 || (e.Spacing > 0 && e.Spacing < lineGap) {
			return fmt.Sprintf("hatching %g mm apart", e.Spacing), fmt.Sprintf("lines are at least %g mm apart", lineGap)
		}
	case Dimension:
		if (e.Kind == Radius || e.Kind == Diameter) && e.Value() == 0 {
			return "a dimension of a radius of nothing", "B is a point on the arc, A its centre"
		}
	}
	return "", ""
}

// finite reports whether the numbers of an entity are all finite.
func finite(e Entity) bool {
	sum := 0.0
	vec := func(vs ...r2.Vec) {
		for _, v := range vs {
			sum += v.X*0 + v.Y*0
		}
	}
	path := func(vs []Vertex) {
		for _, v := range vs {
			vec(v.Vec)
			sum += v.Bulge * 0
		}
	}
	switch e := e.(type) {
	case Line:
		vec(e.A, e.B)
	case Arc:
		vec(e.Centre, r2.Vec{X: e.Start, Y: e.End})
		sum += e.Radius * 0
	case Circle:
		vec(e.Centre)
		sum += e.Radius * 0
	case Polyline:
		path(e.Vertices)
	case Text:
		vec(e.At, r2.Vec{X: e.Height, Y: e.Rotation})
	case Hatch:
		for _, loop := range e.Loops {
			path(loop)
		}
		vec(r2.Vec{X: e.Angle, Y: e.Spacing})
	case CentreLine:
		vec(e.A, e.B)
	case CentreMark:
		vec(e.Centre)
		sum += e.Radius * 0
	case Leader:
		vec(e.At)
	case Balloon:
		vec(e.At)
	case Dimension:
		vec(e.A, e.B, e.Vertex, r2.Vec{X: e.Tolerance.Plus, Y: e.Tolerance.Minus})
		sum += e.Offset * 0
	}
	return sum == 0 // 0·Inf and 0·NaN are NaN
}

// scaleText is the scale for the title block: that of the front view, else of
// the first view that has one.
func (s *Sheet) scaleText(a *arrangement) string {
	main := s.mainScale(a.scales)
	if main == (Scale{}) {
		return "none"
	}
	return main.String()
}

func (s *Sheet) mainScale(scales []Scale) Scale {
	main := Scale{}
	for i, v := range s.Views {
		if v.NotToScale {
			continue
		}
		if v.Position == Front {
			return scales[i]
		}
		if main == (Scale{}) {
			main = scales[i]
		}
	}
	return main
}

// lettering is the height of dimensions and notes in views.
func (s *Sheet) lettering() float64 {
	switch {
	case s.TextHeight != 0:
		return s.TextHeight
	case s.Size == A1 || s.Size == InchD:
		return 5
	}
	return 3.5
}

// arrange finds scales and places. It tries the recommended scales from the
// largest down; free views may be up to two steps smaller than the main one
// before that gives way.
func (s *Sheet) arrange() (*arrangement, error) {
	all := Scales()
	type key struct {
		view    int
		scale   Scale
		caption string
	}
	cache := map[key]laidView{}
	lay := func(i int, scale Scale, main Scale) laidView {
		v := s.Views[i]
		caption := v.Title
		if !v.NotToScale && scale != main {
			if caption != "" {
				caption += " "
			}
			caption += "(" + scale.String() + ")"
		}
		k := key{i, scale, caption}
		laid, ok := cache[k]
		if !ok {
			laid = v.layOut(scale, s.Units, s.lettering(), caption)
			cache[k] = laid
		}
		return laid
	}
	bodies := make([]r2.Box, len(s.Views))
	for i, v := range s.Views {
		bodies[i] = v.body()
	}
	tried := map[string]bool{}
	for m := range all {
		for step := 0; step <= 2; step++ {
			scales := s.scales(all[m], all[min(m+step, len(all)-1)])
			if id := fmt.Sprint(scales); tried[id] {
				continue
			} else {
				tried[id] = true
			}
			if s.hopeless(bodies, scales) {
				continue
			}
			if m > 0 && illegible(bodies, scales) {
				break
			}
			main := s.mainScale(scales)
			views := make([]laidView, len(s.Views))
			for i := range views {
				views[i] = lay(i, scales[i], main)
			}
			if a := s.pack(views, scales); a != nil {
				return a, nil
			}
		}
	}
	return nil, s.fail("the views, tables and notes do not fit on size "+s.Size.String(),
		"take a larger size, or move a view or a table to another sheet")
}

// scales gives each view its scale: its own, or main for the aligned views
// and for all if there are none, or free.
func (s *Sheet) scales(main, free Scale) []Scale {
	aligned := false
	own := Scale{}
	for _, v := range s.Views {
		if v.Position != Free {
			aligned = true
			if v.Scale != (Scale{}) {
				own = v.Scale
			}
		}
	}
	if own != (Scale{}) {
		main = own
	}
	out := make([]Scale, len(s.Views))
	for i, v := range s.Views {
		switch {
		case v.NotToScale:
			out[i] = Scale{1, 1}
		case v.Position != Free:
			out[i] = main
		case v.Scale != (Scale{}):
			out[i] = v.Scale
		case aligned:
			out[i] = free
		default:
			out[i] = main
		}
	}
	return out
}

// hopeless tells at little expense that the bare geometry of a view is larger
// than the drawing space at its scale.
func (s *Sheet) hopeless(bodies []r2.Box, scales []Scale) bool {
	_, _, w, h := s.Size.Space()
	for i, body := range bodies {
		bw, bh := size(body)
		if f := scales[i].Factor(); !isEmpty(body) && (bw*f > w || bh*f > h) {
			return true
		}
	}
	return false
}

// illegible tells that all geometry has shrunk to a spot.
func illegible(bodies []r2.Box, scales []Scale) bool {
	const spot = 8.0 // mm
	any := false
	for i, body := range bodies {
		if isEmpty(body) {
			continue
		}
		any = true
		if w, h := size(body); math.Max(w, h)*scales[i].Factor() >= spot {
			return false
		}
	}
	return any
}

// pack places everything at given scales, or returns nil if it does not fit.
func (s *Sheet) pack(views []laidView, scales []Scale) *arrangement {
	x, y, w, h := s.Size.Space()
	room := r2.Box{
		Min: r2.Vec{X: x + frameGap, Y: y + frameGap},
		Max: r2.Vec{X: x + w - frameGap, Y: y + h - frameGap},
	}
	title := r2.Box{
		Min: r2.Vec{X: x + w - TitleBlockWidth, Y: y},
		Max: r2.Vec{X: x + w, Y: y + stackHeight},
	}
	for _, corner := range [...][2]float64{{1, -1}, {-1, -1}, {1, 1}, {-1, 1}} {
		f := &floor{room: room, taken: []r2.Box{title}}
		a := &arrangement{views: views, scales: scales, at: make([]r2.Vec, len(views))}
		if s.packTables(f, a, f.corner(corner[0], corner[1])) && s.packViews(f, a) {
			return a
		}
	}
	f := &floor{room: room, taken: []r2.Box{title}}
	a := &arrangement{views: views, scales: scales, at: make([]r2.Vec, len(views))}
	if s.packViews(f, a) && s.packTables(f, a, f.corner(-1, -1)) {
		return a
	}
	return nil
}

func (s *Sheet) packViews(f *floor, a *arrangement) bool {
	aligned := map[Position]laidView{}
	for i, v := range s.Views {
		if v.Position != Free {
			aligned[v.Position] = a.views[i]
		}
	}
	if len(aligned) > 0 {
		off := offsets(s.Projection, aligned)
		var c cluster
		for i, v := range s.Views {
			if v.Position != Free {
				c.boxes = append(c.boxes, shift(a.views[i].extent, off[v.Position]))
			}
		}
		by, ok := f.put(c, blockGap, f.airy)
		if !ok {
			return false
		}
		for i, v := range s.Views {
			if v.Position != Free {
				a.at[i] = r2.Add(by, off[v.Position])
			}
		}
	}
	for i, v := range s.Views {
		if v.Position != Free || isEmpty(a.views[i].extent) {
			continue
		}
		by, ok := f.put(cluster{[]r2.Box{a.views[i].extent}}, blockGap, f.airy)
		if !ok {
			return false
		}
		a.at[i] = by
	}
	return true
}

// packTables places tables and notes, each in as few parts as fit.
func (s *Sheet) packTables(f *floor, a *arrangement, cost func(r2.Box, float64) float64) bool {
	const mostParts = 8
	put := func(prims []Primitive) bool {
		by, ok := f.put(cluster{[]r2.Box{boxOf(prims)}}, blockGap, cost)
		if !ok {
			return false
		}
		placed := make([]Primitive, len(prims))
		for i, p := range prims {
			placed[i] = moved(p, by)
		}
		a.tables = append(a.tables, placed)
		return true
	}
	for _, t := range s.Tables {
		ok := false
		for parts := 1; parts <= mostParts && !ok && parts <= max(1, len(t.Rows)); parts++ {
			ok = put(t.draw(parts))
		}
		if !ok {
			return false
		}
	}
	return len(s.Notes) == 0 || put(drawNotes(s.Notes))
}

// Check lays the sheet out and looks for defects: texts that cover each other
// or lie on an outline, anything outside the frame, values that do not fit
// their field, characters that the font does not have. The error is the
// *Error of Flatten, or a *CheckError that lists the problems.
func (s *Sheet) Check() error {
	d, problems, err := s.flatten()
	if err != nil {
		return err
	}
	x, y, w, h := s.Size.Space()
	frame := r2.Box{Min: r2.Vec{X: x, Y: y}, Max: r2.Vec{X: x + w, Y: y + h}}
	problems = append(problems, d.check(frame)...)
	if len(problems) > 0 {
		return &CheckError{s.TitleBlock.Title, problems}
	}
	return nil
}

// check looks for defects of the drawing inside a frame. Marks of the frame
// itself are exempt.
func (d *Drawing) check(frame r2.Box) []Problem {
	const tolerance = 0.01 // mm
	var out []Problem
	var labels []Label
	var blocks []block
	var outlines []segment
	n := 0
	for p := range d.All() {
		n++
		box := primitiveBox(p)
		text := ""
		switch p := p.(type) {
		case Label:
			text = p.Value
			labels, blocks = append(labels, p), append(blocks, p.block())
			if !Printable(p.Value) {
				out = append(out, Problem{Unprintable, p.Value, p.At.X, p.At.Y})
			}
		case Stroke:
			text = p.Role.String()
			if p.Role == Visible || p.Role == Cut {
				pts := flatten(p.Path, p.Closed, clearChord)
				for i := 1; i < len(pts); i++ {
					outlines = append(outlines, segment{pts[i-1], pts[i], p.Role})
				}
			}
		case Fill:
			text = p.Role.String()
		}
		outside := box.Min.X < frame.Min.X-tolerance || box.Min.Y < frame.Min.Y-tolerance ||
			box.Max.X > frame.Max.X+tolerance || box.Max.Y > frame.Max.Y+tolerance
		if outside && n > d.framing {
			out = append(out, Problem{Outside, text, box.Min.X, box.Min.Y})
		}
	}
	for i := range blocks {
		at := labels[i].At
		for k := i + 1; k < len(blocks); k++ {
			if blocks[i].padded(-tolerance).overlaps(blocks[k].padded(-tolerance)) {
				out = append(out, Problem{Overlap, labels[i].Value + " / " + labels[k].Value, at.X, at.Y})
			}
		}
		for _, s := range outlines {
			if blocks[i].padded(-math.Min(0.2, labels[i].Height/10)).crosses(s.a, s.b) {
				out = append(out, Problem{Struck, labels[i].Value, at.X, at.Y})
				break
			}
		}
	}
	return out
}
