package draw

import (
	"math"
	"slices"

	"armwright/export/sheet"
	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// outline is a contour as an entity of a view.
func outline(role sheet.Role, p contour.Path) sheet.Polyline {
	e := sheet.Polyline{Role: role, Closed: p.Closed, Vertices: make([]sheet.Vertex, len(p.Vertices))}
	for i, v := range p.Vertices {
		e.Vertices[i] = sheet.Vertex{Vec: v.Point(), Bulge: v.Bulge}
	}
	return e
}

// offsets dimensions a point from the origin, leaving out what is zero.
func offsets(p r2.Vec, x, y sheet.Side) []sheet.Entity {
	var out []sheet.Entity
	if math.Abs(p.X) > sameSize {
		out = append(out, sheet.Dimension{Kind: sheet.Horizontal, Side: x, B: p})
	}
	if math.Abs(p.Y) > sameSize {
		out = append(out, sheet.Dimension{Kind: sheet.Vertical, Side: y, B: p})
	}
	return out
}

// sameSize is the difference, mm, below which two sizes are written alike.
const sameSize = 0.05

// ordinates adds an ordinate for every place once; end is where they stand across.
func (d *drafter) ordinates(v *sheet.View, kind sheet.DimKind, side sheet.Side, datum r2.Vec, places []float64, end float64) {
	for i, x := range places {
		if slices.ContainsFunc(places[:i], func(y float64) bool { return math.Abs(x-y) < sameSize }) {
			continue
		}
		p := at(x, end)
		if kind == sheet.OrdinateY {
			p = at(end, x)
		}
		v.Entities = append(v.Entities, sheet.Dimension{Kind: kind, Side: side, A: datum, B: p})
	}
}
