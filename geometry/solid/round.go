package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Shell returns the boundary as faces and edges.
func (b Ball) Shell() *Shell {
	s := &Shell{}
	at := Shift(b.Centre)
	ring := s.rim(&stretch{at: at, radius: b.Radius}, End{})
	s.dome(at, b.Radius, ring, 1)
	s.dome(at, b.Radius, ring, -1)
	return s
}

// Shell returns the boundary as faces and edges. A and B must be apart.
func (c Capsule) Shell() *Shell {
	s := &Shell{}
	low := Along(c.A, c.B, r3.Vec{})
	high := low
	high.Origin = c.B
	a := s.rim(&stretch{at: low, radius: c.Radius}, End{})
	b := s.rim(&stretch{at: high, radius: c.Radius}, End{})
	seam := [2]int{
		s.edge(s.Edges[a[0]].From, s.Edges[b[0]].From, nil),
		s.edge(s.Edges[a[1]].From, s.Edges[b[1]].From, nil),
	}
	for k := range 2 {
		s.face(Surface{Kind: Cylinder, At: low, Radius: c.Radius}, Loop{{a[k], false}, {seam[1-k], false}, {b[k], true}, {seam[k], true}})
	}
	s.dome(low, c.Radius, a, -1)
	s.dome(high, c.Radius, b, 1)
	return s
}

// dome adds the half of a sphere about at that is above a ring for side 1 and
// below it for side -1: two faces, each between half the ring and a half circle
// over the top. The surface's own axis and seam are put where no face is.
func (s *Shell) dome(at Placement, radius float64, ring [2]int, side float64) {
	top := r3.Scale(side, at.Z)
	from, to := s.Edges[ring[0]].From, s.Edges[ring[0]].To
	over := s.edge(from, to, &Ellipse{
		Centre: at.Origin, U: r3.Scale(radius, at.X), V: r3.Scale(radius, top), Sweep: math.Pi,
	})
	for k := range 2 {
		out := r3.Scale(float64(1-2*k), at.Y) // the middle of the half ring
		z := r3.Unit(r3.Sub(out, top))
		x := r3.Scale(-1, r3.Unit(r3.Add(out, top)))
		surface := Surface{Kind: Sphere, At: Placement{Origin: at.Origin, X: x, Y: r3.Cross(z, x), Z: z}, Radius: radius}
		above := side > 0
		s.face(surface, Loop{{ring[k], !above}, {over, above == (k == 0)}})
	}
}
