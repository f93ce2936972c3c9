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
	s.dome(at, b, ring, 1)
	s.dome(at, b, ring, -1)
	return s
}

// roundCone returns the boundary of the hull of two balls, neither within the
// other: a cylinder or cone that touches both along a ring, and a dome on each.
func roundCone(a, b Ball) *Shell {
	s := &Shell{}
	at := Along(a.Centre, b.Centre, r3.Vec{})
	length := r3.Norm(r3.Sub(b.Centre, a.Centre))
	sin := (a.Radius - b.Radius) / length // of the flank's normal over the rings
	cos := math.Sqrt(1 - sin*sin)
	ring := func(ball Ball) (Placement, [2]int) {
		p := at
		p.Origin = r3.Add(ball.Centre, r3.Scale(ball.Radius*sin, at.Z))
		return p, s.rim(&stretch{at: p, radius: ball.Radius * cos}, End{})
	}
	lowAt, low := ring(a)
	highAt, high := ring(b)
	seam := [2]int{
		s.edge(s.Edges[low[0]].From, s.Edges[high[0]].From, nil),
		s.edge(s.Edges[low[1]].From, s.Edges[high[1]].From, nil),
	}
	flank := flankOf(lowAt, highAt, a.Radius*cos, b.Radius*cos)
	for k := range 2 {
		s.face(flank, Loop{{low[k], false}, {seam[1-k], false}, {high[k], true}, {seam[k], true}})
	}
	s.dome(at, a, low, -1)
	s.dome(at, b, high, 1)
	return s
}

// flankOf returns the cylinder or cone through two rings, of which the first has
// its axis toward the second.
func flankOf(low, high Placement, lowRadius, highRadius float64) Surface {
	length := r3.Norm(r3.Sub(high.Origin, low.Origin))
	out := Surface{Kind: Cone, At: low, Radius: lowRadius, Slope: (highRadius - lowRadius) / length}
	switch {
	case math.Abs(highRadius-lowRadius) < touching:
		out.Kind, out.Slope = Cylinder, 0
	case highRadius < lowRadius: // its axis points to where it widens
		out.At = Placement{Origin: high.Origin, X: high.X, Y: r3.Scale(-1, high.Y), Z: r3.Scale(-1, high.Z)}
		out.Radius, out.Slope = highRadius, -out.Slope
	}
	return out
}

// dome adds what is of a ball above a ring round at's z for side 1, and below it
// for side -1: two faces, each between half the ring and an arc over the top. The
// surface's own axis and seam are put where no face is.
func (s *Shell) dome(at Placement, b Ball, ring [2]int, side float64) {
	from, to := s.Edges[ring[0]].From, s.Edges[ring[0]].To
	pole := r3.Scale(side, at.Z)
	top := s.vertex(r3.Add(b.Centre, r3.Scale(b.Radius, pole)))
	// Of the arc's two halves the angle is that of the ring from the pole.
	d := r3.Sub(s.Vertices[from], b.Centre)
	angle := math.Atan2(r3.Dot(d, at.X), r3.Dot(d, pole))
	over := [2]int{
		s.edge(from, top, &Ellipse{Centre: b.Centre, U: r3.Scale(b.Radius, at.X), V: r3.Scale(b.Radius, pole), Start: math.Pi/2 - angle, Sweep: angle}),
		s.edge(top, to, &Ellipse{Centre: b.Centre, U: r3.Scale(b.Radius, pole), V: r3.Scale(-b.Radius, at.X), Sweep: angle}),
	}
	for k := range 2 {
		out := r3.Scale(float64(1-2*k), at.Y) // the middle of the half ring
		z := r3.Unit(r3.Sub(out, pole))
		x := r3.Scale(-1, r3.Unit(r3.Add(out, pole)))
		surface := Surface{Kind: Sphere, At: Placement{Origin: b.Centre, X: x, Y: r3.Cross(z, x), Z: z}, Radius: b.Radius}
		above := side > 0
		if above == (k == 0) {
			s.face(surface, Loop{{ring[k], !above}, {over[1], true}, {over[0], true}})
		} else {
			s.face(surface, Loop{{ring[k], !above}, {over[0], false}, {over[1], false}})
		}
	}
}
