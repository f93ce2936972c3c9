package dxf

import "armwright/geometry/contour"

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

// loopOf returns the closed path of an entity that is a whole loop by itself.
func loopOf(e Entity) (contour.Path, bool) {
	switch v := e.(type) {
	case Circle:
		return contour.Circle(v.Centre.vec(), v.Radius), true
	case Polyline:
		return v.Path(), v.Closed
	}
	return contour.Path{}, false
}
