package dxf

import (
	"fmt"
	"math"
)

// DimKind is the kind of a dimension, with the values of group 70.
type DimKind int

const (
	Rotated  DimKind = 0 // distance along a fixed direction
	Aligned  DimKind = 1 // distance between two points
	Diameter DimKind = 3
	Radius   DimKind = 4
	Angular  DimKind = 5 // angle at a vertex between two points
	Ordinate DimKind = 6 // coordinate from a datum
)

func (k DimKind) String() string {
	switch k {
	case Rotated:
		return "rotated"
	case Aligned:
		return "aligned"
	case Diameter:
		return "diameter"
	case Radius:
		return "radius"
	case Angular:
		return "angular"
	case Ordinate:
		return "ordinate"
	}
	return fmt.Sprintf("kind %d", int(k))
}

// Dimension is a real dimension: the points it measures, what it says, and
// the lines that show it. Readers differ in which of the two they draw, so
// both are always given.
//
// Points by kind:
//
//	Rotated, Aligned  First, Second: what is measured; Line: on the dimension line
//	Radius            Line: centre; First: on the arc
//	Diameter          Line, First: opposite points of the circle
//	Angular           Vertex; First, Second: on the sides, the angle counted
//	                  counter-clockwise from First to Second; Line: on the arc
//	Ordinate          Line: datum; First: the feature; Second: end of the leader
type Dimension struct {
	Attr
	Kind        DimKind
	Style       string // dimension style; empty means Standard
	Text        string // what is printed, not blank
	Measurement float64
	TextAt      Point // middle of the text
	Line        Point
	First       Point
	Second      Point
	Vertex      Point
	Angle       float64  // Rotated: direction of measuring, radians
	XOrdinate   bool     // Ordinate: measures x, otherwise y
	Picture     []Entity // lines, arrowheads and text; no dimensions
}

// Measure returns what the points measure: the drawn length times the linear
// factor of the dimension style, or the angle in radians, [0, 2π). Only an
// ordinate has a sign.
func (d Dimension) Measure(factor float64) float64 {
	switch d.Kind {
	case Rotated:
		s, c := math.Sincos(d.Angle)
		v := d.Second.sub(d.First)
		return abs(v.X*c+v.Y*s) * factor
	case Aligned:
		return d.First.dist(d.Second) * factor
	case Radius, Diameter:
		return d.First.dist(d.Line) * factor
	case Ordinate:
		if d.XOrdinate {
			return (d.First.X - d.Line.X) * factor
		}
		return (d.First.Y - d.Line.Y) * factor
	}
	a, b := d.First.sub(d.Vertex), d.Second.sub(d.Vertex)
	return turn(math.Atan2(b.Y, b.X) - math.Atan2(a.Y, a.X))
}

// slack returns how far the points, quantised to step, may let Measure stray
// from the value meant: half a step in each of four coordinates, by length or
// seen from the shorter side of an angle.
func (d Dimension) slack(step, factor float64) float64 {
	const corners = 2 * math.Sqrt2 // two points, each off by a half diagonal, twice over for the measurement's own rounding
	if d.Kind != Angular {
		return corners * step * max(factor, 1)
	}
	side := min(d.First.dist(d.Vertex), d.Second.dist(d.Vertex))
	return angleStep + corners*step/max(side, step)
}

func (d Dimension) bound(b *box, blocks map[string]box) {
	b.add(d.Line, d.First)
	if d.Kind == Rotated || d.Kind == Aligned || d.Kind == Angular || d.Kind == Ordinate {
		b.add(d.Second)
	}
	for _, e := range d.Picture {
		e.bound(b, blocks)
	}
}

func (d Dimension) style() string {
	if d.Style == "" {
		return standard
	}
	return d.Style
}
