package sheet

import (
	"iter"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Primitive is what a renderer has to draw: Stroke, Fill or Label, in paper
// millimetres.
type Primitive interface{ primitive() }

// Stroke is a path of lines and arcs in the width and pattern of its role.
type Stroke struct {
	Role   Role
	Path   []Vertex
	Closed bool
}

// Fill is a filled region, even-odd over its loops.
type Fill struct {
	Role  Role
	Loops [][]Vertex
}

// Label is one line of lettering: its anchor on the baseline, the height of
// its capitals, and the rotation of the baseline.
type Label struct {
	Role     Role
	At       r2.Vec
	Value    string
	Height   float64
	Rotation float64
	H        HAlign
}

func (Stroke) primitive() {}
func (Fill) primitive()   {}
func (Label) primitive()  {}

// Circle reports whether the stroke is a full circle (two half circles), and
// which.
func (s Stroke) Circle() (centre r2.Vec, radius float64, ok bool) {
	if !s.Closed || len(s.Path) != 2 || s.Path[0].Bulge != s.Path[1].Bulge || math.Abs(s.Path[0].Bulge) != 1 {
		return r2.Vec{}, 0, false
	}
	a, b := s.Path[0].Vec, s.Path[1].Vec
	return r2.Scale(0.5, r2.Add(a, b)), r2.Norm(r2.Sub(b, a)) / 2, true
}

// PlacedDimension is a dimension laid out on paper, for renderers that keep
// dimensions as entities of their own. A, B, Vertex and Line are paper points.
type PlacedDimension struct {
	Dimension  Dimension // as asked for, model mm
	Value      float64   // measured: real mm or rad
	Text       string    // with tolerance and symbols
	A, B       r2.Vec    // ends of the measured feature. Radius, Diameter: A centre, B at the arrow. Ordinates: A datum, B feature
	Vertex     r2.Vec    // Angular
	Line       r2.Vec    // a point on the dimension line or arc; ordinates: the end of the line at the text
	Direction  float64   // of the dimension line, rad: 0 horizontal, π/2 vertical, that of A-B when aligned
	TextMiddle r2.Vec    // centre of the text
	TextHeight float64
	TextAngle  float64
	Scale      Scale // of the view
	Primitives []Primitive
}

// Drawing is a sheet laid out on paper.
type Drawing struct {
	Width, Height float64 // trimmed sheet, mm
	Number        int     // of the sheet in its set
	Title         string  // for outlines and document titles
	Description   string
	Views         []PlacedView
	Primitives    []Primitive // all but the dimensions
	Dimensions    []PlacedDimension

	framing int       // how many of the first primitives are frame and margin
	frame   r2.Box    // what everything else stays in
	fields  []Problem // of the title block
}

// PlacedView says where a view went: a model point p is at
// Origin + Scale·p on the paper.
type PlacedView struct {
	Title  string
	Scale  Scale
	Origin r2.Vec
}

// All yields every primitive, the dimensions' own included, in drawing order.
func (d *Drawing) All() iter.Seq[Primitive] {
	return func(yield func(Primitive) bool) {
		for _, p := range d.Primitives {
			if !yield(p) {
				return
			}
		}
		for _, dim := range d.Dimensions {
			for _, p := range dim.Primitives {
				if !yield(p) {
					return
				}
			}
		}
	}
}
