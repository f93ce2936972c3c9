package dxf

import "math"

// Entity is one of [Line], [Circle], [Arc], [Polyline], [Text], [Solid],
// [Insert] and [Dimension].
type Entity interface {
	attr() Attr
	bound(b *box, blocks map[string]box)
	encode(e *encoder, owner handle)
}

// Attr is what all entities share. Its zero value is layer 0 with everything
// else taken from the layer.
type Attr struct {
	Layer      string // empty means layer 0
	Linetype   string // empty means by layer
	Color      ACI
	Lineweight Lineweight // AC1015 only
}

func (a Attr) attr() Attr { return a }

// LayerOf is the layer that an entity lies on.
func LayerOf(e Entity) string { return e.attr().layer() }

func (a Attr) layer() string {
	if a.Layer == "" {
		return "0"
	}
	return a.Layer
}

// Line is a straight segment.
type Line struct {
	Attr
	A, B Point
}

// Circle is a full circle.
type Circle struct {
	Attr
	Centre Point
	Radius float64 // > 0
}

// Arc runs counter-clockwise from angle Start to angle End, radians.
type Arc struct {
	Attr
	Centre     Point
	Radius     float64 // > 0
	Start, End float64
}

// Vertex is a corner of a polyline and the bulge of the segment that leaves
// it: tan of a quarter of the arc's sweep, counter-clockwise positive, zero
// for a straight segment.
type Vertex struct {
	Point
	Bulge float64
}

// Polyline is a chain of lines and arcs with at least two vertices. A closed
// one returns to its first vertex, which is not repeated.
type Polyline struct {
	Attr
	Closed   bool
	Vertices []Vertex
}

// HAlign is the horizontal place of the anchor on a text (group 72).
type HAlign int

const (
	Left HAlign = iota
	Center
	Right

	// Fit sets the text between At and End, both on the baseline: a reader makes it as
	// wide as that, whatever its font. V is Baseline.
	Fit HAlign = 5
)

// VAlign is the vertical place of the anchor on a text (group 73).
type VAlign int

const (
	Baseline VAlign = iota
	Bottom
	Middle
	Top
)

// Text is a single line of text. Any character may be used: the file is ASCII
// and holds the others as escapes.
type Text struct {
	Attr
	At       Point
	End      Point   // of a fitted text, not At
	Height   float64 // of capitals, > 0
	Value    string  // one line, not blank
	Rotation float64 // radians
	H        HAlign
	V        VAlign
	Style    string // empty means Standard
}

// Solid is a filled triangle or quadrangle, such as an arrowhead. It has
// three or four corners in order round its edge.
type Solid struct {
	Attr
	Corners []Point
}

// Insert places a block with its base point at At.
type Insert struct {
	Attr
	Block    string
	At       Point
	Scale    float64 // zero means 1
	Rotation float64 // radians
}

func (l Line) bound(b *box, _ map[string]box) { b.add(l.A, l.B) }

func (c Circle) bound(b *box, _ map[string]box) {
	b.add(Point{c.Centre.X - c.Radius, c.Centre.Y - c.Radius},
		Point{c.Centre.X + c.Radius, c.Centre.Y + c.Radius})
}

func (a Arc) bound(b *box, _ map[string]box) {
	b.addArc(a.Centre, a.Radius, a.Start, turn(a.End-a.Start))
}

func (p Polyline) bound(b *box, _ map[string]box) {
	p.segments(func(a, z Vertex) {
		b.add(a.Point, z.Point)
		if a.Bulge != 0 && a.Point != z.Point {
			b.addBulge(a.Point, z.Point, a.Bulge)
		}
	})
}

func (t Text) bound(b *box, _ map[string]box)  { b.add(t.At) }
func (s Solid) bound(b *box, _ map[string]box) { b.add(s.Corners...) }

func (i Insert) bound(b *box, blocks map[string]box) {
	in, ok := blocks[key(i.Block)]
	if !ok || in.empty() {
		b.add(i.At)
		return
	}
	sin, cos := math.Sincos(i.Rotation)
	s := i.scale()
	for _, p := range []Point{in.lo, {in.hi.X, in.lo.Y}, in.hi, {in.lo.X, in.hi.Y}} {
		b.add(Point{i.At.X + s*(p.X*cos-p.Y*sin), i.At.Y + s*(p.X*sin+p.Y*cos)})
	}
}

func (i Insert) scale() float64 {
	if i.Scale == 0 {
		return 1
	}
	return i.Scale
}

// segments calls f for each segment with its two end vertices.
func (p Polyline) segments(f func(a, b Vertex)) {
	for k := 1; k < len(p.Vertices); k++ {
		f(p.Vertices[k-1], p.Vertices[k])
	}
	if n := len(p.Vertices); p.Closed && n > 1 {
		f(p.Vertices[n-1], p.Vertices[0])
	}
}

// pieces returns the lines and arcs that the polyline is made of.
func (p Polyline) pieces() []Entity {
	var out []Entity
	p.segments(func(a, b Vertex) {
		if a.Bulge == 0 {
			out = append(out, Line{p.Attr, a.Point, b.Point})
		} else if a.Point != b.Point {
			out = append(out, arcBetween(p.Attr, a, b.Point))
		}
	})
	return out
}

// arcBetween returns the arc that leaves vertex a for b. Its bulge is not zero.
func arcBetween(attr Attr, a Vertex, b Point) Arc {
	c, r, start, sweep := ArcFromBulge(a.Point, b, a.Bulge)
	if sweep < 0 {
		start, sweep = start+sweep, -sweep
	}
	return Arc{attr, c, r, turn(start), turn(start + sweep)}
}
