package solid

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Shell is the closed boundary of a body in its own frame. Every edge belongs to
// two faces, which run along it in opposite senses.
type Shell struct {
	Vertices []r3.Vec
	Edges    []Edge
	Faces    []Face
}

// Edge runs from one vertex to another, straight or along an ellipse.
type Edge struct {
	From, To int
	Ellipse  *Ellipse // nil where straight
}

// Ellipse is the curve Centre + U cos t + V sin t for t from Start to Start +
// Sweep. U and V are at right angles, U the longer, equally long for a circle.
// Sweep is positive and at most half a turn.
type Ellipse struct {
	Centre, U, V r3.Vec
	Start, Sweep float64
}

// At returns the point at the share u, 0 to 1, of the sweep.
func (e *Ellipse) At(u float64) r3.Vec {
	s, c := math.Sincos(e.Start + u*e.Sweep)
	return r3.Add(e.Centre, r3.Add(r3.Scale(c, e.U), r3.Scale(s, e.V)))
}

// Use is an edge as part of a loop, Back if run from its To to its From.
type Use struct {
	Edge int
	Back bool
}

// Loop is a closed chain of edges, counter-clockwise round the face's material
// seen from outside the body.
type Loop []Use

// Face is a piece of a surface within an outer loop, which comes first, and
// without what is within the others.
type Face struct {
	Surface Surface
	Loops   []Loop
	Inner   bool // the wall of a hole or a bore, or a blind hole's bottom
}

// Kind is what a surface is.
type Kind int

// The surfaces that bodies have.
const (
	Plane Kind = iota
	Cylinder
	Cone
	Sphere
	Torus
)

// Surface carries a face. The outward normal of the body is At.Z for a plane. It
// points away from the middle of a sphere, which is At.Origin, and from the axis
// of a cylinder or cone, which is At.Z, or toward it where Inward is set. Radius
// is that at At.Origin, and that of a cone grows by Slope, which is positive,
// with each mm along the axis. A face of a sphere does not reach the axis, nor the
// half circle between its ends over At.X: longitudes and latitudes map it whole. The
// middle line of a torus is the circle of Radius about At.Z, and Tube is the radius of
// its section; a face does not reach At.X.
type Surface struct {
	Kind          Kind
	At            Placement
	Radius, Slope float64
	Tube          float64
	Inward        bool
}

// Outward returns the unit normal that points out of the body, at a point of the
// surface.
func (s *Surface) Outward(q r3.Vec) r3.Vec {
	if s.Kind == Plane {
		return s.At.Z
	}
	d := r3.Sub(q, s.At.Origin)
	if s.Kind == Sphere {
		return r3.Unit(d)
	}
	n := r3.Unit(r3.Sub(d, r3.Scale(r3.Dot(d, s.At.Z), s.At.Z)))
	if s.Kind == Torus {
		return r3.Unit(r3.Sub(d, r3.Scale(s.Radius, n)))
	}
	if s.Slope != 0 {
		n = r3.Unit(r3.Sub(n, r3.Scale(s.Slope, s.At.Z)))
	}
	if s.Inward {
		return r3.Scale(-1, n)
	}
	return n
}

// Shell returns the boundary itself, so that it serves where a body does.
func (s *Shell) Shell() *Shell { return s }

func (s *Shell) vertex(q r3.Vec) int {
	s.Vertices = append(s.Vertices, q)
	return len(s.Vertices) - 1
}

func (s *Shell) edge(from, to int, e *Ellipse) int {
	s.Edges = append(s.Edges, Edge{from, to, e})
	return len(s.Edges) - 1
}

func (s *Shell) face(surface Surface, loops ...Loop) int {
	s.Faces = append(s.Faces, Face{Surface: surface, Loops: loops})
	return len(s.Faces) - 1
}

// plane returns the surface with an outward normal through a point.
func plane(through, normal r3.Vec) Surface {
	return Surface{Kind: Plane, At: Along(through, r3.Add(through, normal), r3.Vec{})}
}

// begin and end return the vertices of a use.
func (s *Shell) begin(u Use) int {
	if u.Back {
		return s.Edges[u.Edge].To
	}
	return s.Edges[u.Edge].From
}

func (s *Shell) end(u Use) int { return s.begin(Use{u.Edge, !u.Back}) }

// closed reports whether each edge bounds two faces in opposite senses and all
// faces, each with one loop, make one body without a hole through it (Euler).
func (s *Shell) closed() bool {
	uses := make([][2]int, len(s.Edges))
	for _, f := range s.Faces {
		for _, loop := range f.Loops {
			for _, u := range loop {
				if u.Back {
					uses[u.Edge][1]++
				} else {
					uses[u.Edge][0]++
				}
			}
		}
	}
	open := slices.ContainsFunc(uses, func(n [2]int) bool { return n != [2]int{1, 1} })
	return !open && len(s.Vertices)-len(s.Edges)+len(s.Faces) == 2
}
