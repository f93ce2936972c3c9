package dxf

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// lettering is the text style of sheets: a font with the widths that the
// layout of the sheet reckons with.
const lettering = "LETTERING"

// Renderer writes drawings as DXF; see [sheet.Renderer].
type Renderer struct{ Version Version } // empty is AC1015

// Extension is ".dxf".
func (Renderer) Extension() string { return ".dxf" }

// Render writes a drawing in the renderer's version; see [Sheet]. In release 12 a plain
// character stands where one says the same.
func (r Renderer) Render(w io.Writer, d *sheet.Drawing) error {
	doc := Sheet(d)
	if r.Version == AC1009 {
		plain(doc.Entities)
	}
	return Write(w, doc, cmp.Or(r.Version, AC1015))
}

// plain puts plain characters into texts and dimensions.
func plain(list []Entity) {
	for i, e := range list {
		switch e := e.(type) {
		case Text:
			e.Value = plainer(e.Value)
			list[i] = e
		case Dimension:
			e.Text = plainer(e.Text)
			plain(e.Picture)
			list[i] = e
		}
	}
}

// Sheet returns the drawing of a sheet at the size of the paper, millimetres,
// lower left corner of the trimmed sheet at the origin: one layer for each
// role, with its width and pattern, and each dimension as a real one, whose
// style has the scale of its view so that it measures the real size.
func Sheet(d *sheet.Drawing) *Document {
	s := sheeter{doc: New(), styles: map[sheet.Scale]string{}}
	s.doc.Comments = []string{sheet.Notice}
	s.doc.TextStyles = []TextStyle{{Name: lettering, Font: "arial.ttf"}}
	s.layers()
	s.doc.Entities = s.primitives(d.Primitives)
	for _, dim := range d.Dimensions {
		s.doc.Add(s.dimension(dim))
	}
	return s.doc
}

type sheeter struct {
	doc    *Document
	styles map[sheet.Scale]string // dimension style of each scale in use
}

func (s *sheeter) layers() {
	known := map[string]bool{key(continuous): true}
	for _, r := range sheet.Roles() {
		style := r.Style()
		if !known[key(style.Linetype)] {
			known[key(style.Linetype)] = true
			s.doc.Linetypes = append(s.doc.Linetypes, pattern(style))
		}
		s.doc.Layers = append(s.doc.Layers, Layer{Name: style.Layer, Color: color(r),
			Linetype: style.Linetype, Lineweight: LineweightOf(style.Width)})
	}
}

// pattern returns the line type of a style: gaps are negative here.
func pattern(style sheet.Style) Linetype {
	t := Linetype{Name: style.Linetype, Pattern: make([]float64, len(style.Dash))}
	for i, v := range style.Dash {
		if t.Pattern[i] = v; i%2 == 1 {
			t.Pattern[i] = -v
		}
	}
	t.Description = strings.ReplaceAll(strings.ToLower(style.Linetype), "_", " ")
	return t
}

// color tells roles apart on the screen, and to pens in release 12.
func color(r sheet.Role) ACI {
	switch r {
	case sheet.Hidden:
		return Yellow
	case sheet.Centre, sheet.Cut:
		return Red
	case sheet.Phantom:
		return Magenta
	case sheet.Dimensioning:
		return Green
	case sheet.Thin, sheet.Hatching:
		return Grey
	case sheet.Etch:
		return Blue
	}
	return White
}

func (s *sheeter) primitives(all []sheet.Primitive) []Entity {
	var out []Entity
	for _, p := range all {
		switch p := p.(type) {
		case sheet.Stroke:
			out = append(out, stroke(p))
		case sheet.Fill:
			for _, c := range solids(p.Loops) {
				out = append(out, Solid{attrOf(p.Role), c})
			}
		case sheet.Label:
			out = append(out, label(p))
		}
	}
	return out
}

func attrOf(r sheet.Role) Attr { return Attr{Layer: r.Style().Layer} }

// stroke takes the plainest entity that draws the stroke.
func stroke(p sheet.Stroke) Entity {
	a := attrOf(p.Role)
	if c, r, ok := p.Circle(); ok {
		return Circle{a, pointOf(c), r}
	}
	line := polyline(a, p.Path, p.Closed)
	if v := line.Vertices; len(v) == 2 && !p.Closed {
		if v[0].Bulge == 0 {
			return Line{a, v[0].Point, v[1].Point}
		}
		return arcBetween(a, v[0], v[1].Point)
	}
	return line
}

func polyline(a Attr, path []sheet.Vertex, closed bool) Polyline {
	p := Polyline{Attr: a, Closed: closed, Vertices: make([]Vertex, len(path))}
	for i, v := range path {
		p.Vertices[i] = Vertex{pointOf(v.Vec), v.Bulge}
	}
	return p
}

// label is a text fitted into the width that the layout reckoned with: what a reader
// sets it in is its own choice.
func label(p sheet.Label) Entity {
	width := sheet.TextWidth(p.Value, p.Height)
	sin, cos := math.Sincos(p.Rotation)
	before := 0.0
	switch p.H {
	case sheet.Middle:
		before = width / 2
	case sheet.Right:
		before = width
	}
	start := Point{p.At.X - before*cos, p.At.Y - before*sin}
	return Text{Attr: attrOf(p.Role), At: start, End: Point{start.X + width*cos, start.Y + width*sin}, H: Fit,
		Height: p.Height, Value: signed(p.Value), Rotation: p.Rotation, Style: lettering}
}

// signed writes the letter that stands for the diameter sign before a number
// as the sign itself, which every font of the format has.
func signed(s string) string {
	out := []rune(s)
	for i := range len(out) - 1 {
		if out[i] == 'Ø' && (out[i+1] >= '0' && out[i+1] <= '9' || out[i+1] == '.') {
			out[i] = diameterSign
		}
	}
	return string(out)
}

func (s *sheeter) dimension(p sheet.PlacedDimension) Entity {
	a, b, line := pointOf(p.A), pointOf(p.B), pointOf(p.Line)
	d := Dimension{Attr: attrOf(sheet.Dimensioning), Style: s.style(p), Text: signed(p.Text), Measurement: p.Value,
		TextAt: pointOf(p.TextMiddle), Line: line, First: a, Second: b, Picture: s.primitives(p.Primitives)}
	switch p.Dimension.Kind {
	case sheet.Horizontal, sheet.Vertical:
		d.Kind, d.Angle = Rotated, p.Direction
	case sheet.Aligned:
		d.Kind = Aligned
	case sheet.Angular:
		d.Kind, d.Vertex = Angular, pointOf(p.Vertex)
	case sheet.Radius:
		d.Kind, d.Line, d.First, d.Second = Radius, a, b, Point{}
	case sheet.Diameter:
		d.Kind, d.Line, d.First, d.Second = Diameter, Point{2*a.X - b.X, 2*a.Y - b.Y}, b, Point{}
	case sheet.OrdinateX, sheet.OrdinateY:
		d.Kind, d.XOrdinate = Ordinate, p.Dimension.Kind == sheet.OrdinateX
		d.Line, d.First, d.Second = a, b, line
	}
	return d
}

func pointOf(v r2.Vec) Point { return Point{v.X, v.Y} }

// style returns the dimension style of a scale.
func (s *sheeter) style(p sheet.PlacedDimension) string {
	name, ok := s.styles[p.Scale]
	if !ok {
		name = fmt.Sprintf("SCALE_%d_%d", p.Scale.Drawing, p.Scale.Real)
		s.styles[p.Scale] = name
		s.doc.DimStyles = append(s.doc.DimStyles, DimStyle{Name: name, LinearFactor: 1 / p.Scale.Factor(),
			TextHeight: p.TextHeight, ArrowSize: sheet.ArrowLength, Offset: sheet.ExtensionGap,
			Extension: sheet.ExtensionPast, Decimals: 1, TextStyle: lettering})
	}
	return name
}
