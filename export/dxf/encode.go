package dxf

import (
	"fmt"
	"strings"
)

func (l Line) encode(e *encoder, owner handle) {
	e.entity("LINE", owner, l.Attr)
	e.subclass("AcDbLine")
	e.point(10, l.A)
	e.point(11, l.B)
}

func (c Circle) encode(e *encoder, owner handle) {
	e.entity("CIRCLE", owner, c.Attr)
	e.subclass("AcDbCircle")
	e.point(10, c.Centre)
	e.positive(40, c.Radius, "radius")
}

func (a Arc) encode(e *encoder, owner handle) {
	e.entity("ARC", owner, a.Attr)
	e.subclass("AcDbCircle")
	e.point(10, a.Centre)
	e.positive(40, a.Radius, "radius")
	e.subclass("AcDbArc")
	e.angle(50, a.Start)
	e.angle(51, a.End)
}

func (p Polyline) encode(e *encoder, owner handle) {
	if len(p.Vertices) < 2 {
		e.fail("", "polyline of %d vertices, needs two", len(p.Vertices))
	}
	closed := 0
	if p.Closed {
		closed = 1
	}
	if e.r12() {
		p.encodeR12(e, owner, closed)
		return
	}
	e.entity("LWPOLYLINE", owner, p.Attr)
	e.subclass("AcDbPolyline")
	e.int(90, len(p.Vertices))
	e.int(70, closed)
	for _, v := range p.Vertices {
		e.xy(10, v.Point)
		if v.Bulge != 0 {
			e.ratio(42, v.Bulge)
		}
	}
}

// encodeR12 writes the chain of entities that release 12 has for a polyline.
func (p Polyline) encodeR12(e *encoder, owner handle, closed int) {
	e.entity("POLYLINE", owner, p.Attr)
	e.int(66, 1)
	e.point(10, Point{})
	e.int(70, closed)
	for _, v := range p.Vertices {
		e.entity("VERTEX", owner, p.Attr)
		e.point(10, v.Point)
		if v.Bulge != 0 {
			e.ratio(42, v.Bulge)
		}
	}
	e.entity("SEQEND", owner, Attr{Layer: p.Layer})
}

func (t Text) encode(e *encoder, owner handle) {
	if strings.TrimSpace(t.Value) == "" {
		e.fail("leave the text out", "text is blank")
	}
	end := t.At
	if t.H == Fit {
		end = t.End
		if t.End == t.At {
			e.fail("give it room", "text fitted between one point")
		}
	}
	if !t.alignment() {
		e.fail("", "text alignment %d, %d does not exist", t.H, t.V)
	}
	e.entity("TEXT", owner, t.Attr)
	e.subclass("AcDbText")
	e.point(10, t.At)
	e.positive(40, t.Height, "text height")
	e.str(1, t.Value)
	if t.Rotation != 0 {
		e.angle(50, t.Rotation)
	}
	if t.Style != "" {
		e.reference(7, styleKind, t.Style)
	}
	aligned := t.H != Left || t.V != Baseline
	if aligned {
		e.int(72, int(t.H))
		e.point(11, end)
	}
	e.subclass("AcDbText")
	if aligned {
		e.int(73, int(t.V))
	}
}

// alignment reports whether there is one of this kind.
func (t *Text) alignment() bool {
	if t.H == Fit {
		return t.V == Baseline
	}
	return t.H >= Left && t.H <= Right && t.V >= Baseline && t.V <= Top
}

func (s Solid) encode(e *encoder, owner handle) {
	n := len(s.Corners)
	if n < 3 || n > 4 {
		e.fail("", "solid of %d corners, needs 3 or 4", n)
		return
	}
	e.entity("SOLID", owner, s.Attr)
	e.subclass("AcDbTrace")
	// The format goes round in a zigzag: its third corner lies across from the
	// second. A triangle repeats its last corner.
	for k, c := range []Point{s.Corners[0], s.Corners[1], s.Corners[n-1], s.Corners[2]} {
		e.point(10+k, c)
	}
}

func (i Insert) encode(e *encoder, owner handle) {
	e.entity("INSERT", owner, i.Attr)
	e.subclass("AcDbBlockReference")
	e.reference(2, blockKind, i.Block)
	e.point(10, i.At)
	if i.Scale != 0 {
		for code := 41; code <= 43; code++ {
			e.ratio(code, i.Scale)
		}
	}
	if i.Rotation != 0 {
		e.angle(50, i.Rotation)
	}
}

// Flags of group 70 of a dimension.
const (
	dimFlag      = 32 // the block belongs to this dimension alone
	dimXOrdinate = 64
	dimKindMask  = 7
)

func (d Dimension) encode(e *encoder, owner handle) {
	e.dimBlock++
	e.checkDimension(d)
	e.entity("DIMENSION", owner, d.Attr)
	e.subclass("AcDbDimension")
	e.name(2, dimBlockName(e.dimBlock))
	e.point(10, d.Line)
	e.point(11, d.TextAt)
	flags := int(d.Kind)
	if !e.r12() {
		flags |= dimFlag
	}
	if d.XOrdinate {
		flags |= dimXOrdinate
	}
	e.int(70, flags)
	e.str(1, d.Text)
	if !e.r12() {
		e.int(71, 5) // middle centre
		if d.Kind == Angular {
			e.ratio(42, d.Measurement)
		} else {
			e.length(42, d.Measurement)
		}
	}
	e.reference(3, dimStyleKind, d.style())
	switch d.Kind {
	case Rotated, Aligned:
		e.subclass("AcDbAlignedDimension")
		e.point(13, d.First)
		e.point(14, d.Second)
		if d.Kind == Rotated {
			e.angle(50, d.Angle)
			e.subclass("AcDbRotatedDimension")
		}
	case Diameter, Radius:
		if d.Kind == Diameter {
			e.subclass("AcDbDiametricDimension")
		} else {
			e.subclass("AcDbRadialDimension")
		}
		e.point(15, d.First)
		e.length(40, 0)
	case Angular:
		e.subclass("AcDb3PointAngularDimension")
		e.point(13, d.First)
		e.point(14, d.Second)
		e.point(15, d.Vertex)
	case Ordinate:
		e.subclass("AcDbOrdinateDimension")
		e.point(13, d.First)
		e.point(14, d.Second)
	}
}

func (e *encoder) checkDimension(d Dimension) {
	switch d.Kind {
	case Rotated, Aligned, Diameter, Radius, Angular, Ordinate:
	default:
		e.fail("", "%v is not a dimension of this package", d.Kind)
		return
	}
	switch {
	case strings.TrimSpace(d.Text) == "":
		e.fail("some readers show 0 when they must work it out", "dimension without text")
	case len(d.Picture) == 0:
		e.fail("strict readers refuse it", "dimension without a picture")
	case d.XOrdinate && d.Kind != Ordinate:
		e.fail("", "only an ordinate dimension measures x or y")
	}
	factor := e.factors[key(d.style())]
	if got := d.Measure(factor); abs(got-d.Measurement) > d.slack(e.step(), factor) {
		e.fail("set LinearFactor of the dimension style to the inverse of the scale",
			"measurement %g, but its points and style %s give %g", d.Measurement, d.style(), got)
	}
}

// dimBlockName returns the name of the n-th dimension's picture, from 1.
func dimBlockName(n int) string { return fmt.Sprintf("*D%d", n) }

// NameOf names the type of an entity, for messages.
func NameOf(v Entity) string {
	switch v.(type) {
	case Line:
		return "LINE"
	case Circle:
		return "CIRCLE"
	case Arc:
		return "ARC"
	case Polyline:
		return "polyline"
	case Text:
		return "TEXT"
	case Solid:
		return "SOLID"
	case Insert:
		return "INSERT"
	case Dimension:
		return "DIMENSION"
	}
	return "entity"
}
