package dxf

import "armwright/geometry/contour"

// Layers of a drawing for a cutting machine.
const (
	CutLayer  = "CUT"  // outlines and holes, each one closed loop
	EtchLayer = "ETCH" // marks
)

// Outline returns a path as a polyline, arcs as bulges.
func Outline(a Attr, p contour.Path) Polyline {
	out := Polyline{Attr: a, Closed: p.Closed, Vertices: make([]Vertex, len(p.Vertices))}
	for i, v := range p.Vertices {
		out.Vertices[i] = Vertex{Point{v.X, v.Y}, v.Bulge}
	}
	return out
}

// Path returns the polyline as a path.
func (p Polyline) Path() contour.Path {
	out := contour.Path{Closed: p.Closed, Vertices: make([]contour.Vertex, len(p.Vertices))}
	for i, v := range p.Vertices {
		out.Vertices[i] = contour.Vertex{X: v.X, Y: v.Y, Bulge: v.Bulge}
	}
	return out
}
