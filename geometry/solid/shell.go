package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/contour"
)

// lifted returns the ellipse in an end plane that stands over an arc about c of
// the plane below, from a direction by a sweep, both counter-clockwise.
func lifted(e End, c r2.Vec, radius, from, sweep float64) *Ellipse {
	tilt := r2.Norm(e.Tilt)
	u := r2.Vec{X: 1}
	if tilt > 0 {
		u = r2.Scale(1/tilt, e.Tilt)
	}
	out := &Ellipse{
		Centre: e.over(c),
		U:      r3.Scale(radius, r3.Vec{X: u.X, Y: u.Y, Z: tilt}),
		V:      r3.Scale(radius, r3.Vec{X: -u.Y, Y: u.X}),
		Start:  from - math.Atan2(u.Y, u.X), Sweep: sweep,
	}
	if sweep < 0 {
		out.V, out.Start, out.Sweep = r3.Scale(-1, out.V), -out.Start, -sweep
	}
	return out
}

// Shell implements Solid.
func (p Prism) Shell() *Shell {
	s := &Shell{}
	var bottom, top []Loop
	sides := map[[2]int]int{} // the face over an element of a loop
	for loop := range 1 + len(p.Profile.holes) {
		path, origin := halved(p.Profile.loop(loop))
		n := path.Len()
		low, high, rise := make([]int, n), make([]int, n), make([]int, n)
		for i, v := range path.Vertices {
			low[i], high[i] = s.vertex(p.From.over(v.Point())), s.vertex(p.To.over(v.Point()))
		}
		for i := range n {
			rise[i] = s.edge(low[i], high[i], nil)
		}
		down, up := make(Loop, n), make(Loop, n)
		for i := range n {
			next := (i + 1) % n
			e := path.Element(i)
			over := func(end End) *Ellipse {
				if !e.IsArc() {
					return nil
				}
				return lifted(end, e.Centre, e.Radius, math.Atan2(e.Start.Y-e.Centre.Y, e.Start.X-e.Centre.X), e.Sweep())
			}
			b, t := s.edge(low[i], low[next], over(p.From)), s.edge(high[i], high[next], over(p.To))
			surface := Surface{}
			if e.IsArc() {
				at := World()
				at.Origin = r3.Vec{X: e.Centre.X, Y: e.Centre.Y, Z: p.From.At(e.Centre)}
				surface = Surface{Kind: Cylinder, At: at, Radius: e.Radius, Inward: e.Bulge < 0}
			} else {
				d := r2.Sub(e.End, e.Start)
				surface = plane(s.Vertices[low[i]], r3.Vec{X: d.Y, Y: -d.X})
			}
			face := s.face(surface, Loop{{b, false}, {rise[next], false}, {t, true}, {rise[i], true}})
			s.Faces[face].Inner = loop > 0
			sides[[2]int{loop, origin[i]}] = face
			up[i], down[n-1-i] = Use{t, false}, Use{b, true}
		}
		bottom, top = append(bottom, down), append(top, up)
	}
	middle := p.Profile.Centroid()
	from := s.face(plane(p.From.over(middle), r3.Vec{X: p.From.Tilt.X, Y: p.From.Tilt.Y, Z: -1}), bottom...)
	to := s.face(plane(p.To.over(middle), r3.Vec{X: -p.To.Tilt.X, Y: -p.To.Tilt.Y, Z: 1}), top...)
	open := func(m meeting, l Loop) {
		face := from
		switch m.loop {
		case atFrom:
		case atTo:
			face = to
		default:
			face = sides[[2]int{m.loop, m.element}]
		}
		s.Faces[face].Loops = append(s.Faces[face].Loops, l)
	}
	for _, b := range p.Bores {
		for _, piece := range p.cut(b) {
			enter, out := s.rim(&piece, piece.enter.plane), s.rim(&piece, piece.out.plane)
			s.bore(Surface{Kind: Cylinder, At: piece.at, Radius: piece.radius, Inward: true}, enter, out)
			open(piece.enter, Loop{{enter[0], false}, {enter[1], false}})
			around := Loop{{out[1], true}, {out[0], true}}
			if piece.out.loop == atBottom {
				bottom := s.face(plane(piece.at.Point(piece.out.plane.over(r2.Vec{})), r3.Scale(-1, piece.at.Z)), around)
				s.Faces[bottom].Inner = true
			} else {
				open(piece.out, around)
			}
		}
	}
	return s
}

// halved returns a loop with arcs of more than half a turn cut in two, and which
// element each one comes from.
func halved(p contour.Path) (contour.Path, []int) {
	out := contour.Path{Closed: true}
	var from []int
	for i, v := range p.Vertices {
		e := p.Element(i)
		from = append(from, i)
		if math.Abs(e.Bulge) <= 1+1e-9 {
			out.Vertices = append(out.Vertices, v)
			continue
		}
		half := math.Tan(math.Atan(e.Bulge) / 2)
		q := e.At(.5)
		out.Vertices = append(out.Vertices, contour.Vertex{X: v.X, Y: v.Y, Bulge: half}, contour.Vertex{X: q.X, Y: q.Y, Bulge: half})
		from = append(from, i)
	}
	return out, from
}

// rim adds the two half ellipses, and the vertices between them, where a bore
// goes through a plane. They run counter-clockwise about the travel.
func (s *Shell) rim(b *stretch, e End) [2]int {
	place := func(l *Ellipse) *Ellipse {
		l.Centre, l.U, l.V = b.at.Point(l.Centre), b.at.Vector(l.U), b.at.Vector(l.V)
		return l
	}
	v := s.vertex(b.at.Point(e.over(r2.Vec{X: b.radius})))
	w := s.vertex(b.at.Point(e.over(r2.Vec{X: -b.radius})))
	return [2]int{
		s.edge(v, w, place(lifted(e, r2.Vec{}, b.radius, 0, math.Pi))),
		s.edge(w, v, place(lifted(e, r2.Vec{}, b.radius, math.Pi, math.Pi))),
	}
}

// bore adds the two half faces of a hole between two rims.
func (s *Shell) bore(surface Surface, enter, out [2]int) {
	seam := [2]int{
		s.edge(s.Edges[enter[0]].From, s.Edges[out[0]].From, nil),
		s.edge(s.Edges[enter[1]].From, s.Edges[out[1]].From, nil),
	}
	for k := range 2 {
		wall := s.face(surface, Loop{{enter[k], true}, {seam[k], false}, {out[k], false}, {seam[1-k], true}})
		s.Faces[wall].Inner = true
	}
}

// Shell implements Solid.
func (t Turned) Shell() *Shell {
	s := &Shell{}
	n := len(t.Outline)
	at := func(z float64) Placement { return Shift(r3.Vec{Z: z}) }
	// A ring's half circles, or a tip's one vertex.
	type ring struct {
		half [2]int
		tip  int
	}
	circle := func(q r2.Vec) ring {
		if q.X == 0 {
			return ring{tip: s.vertex(r3.Vec{Z: q.Y})}
		}
		b := stretch{at: at(q.Y), radius: q.X}
		return ring{half: s.rim(&b, End{}), tip: -1}
	}
	// start returns the vertex where a ring's half begins.
	start := func(r ring, k int) int {
		if r.tip >= 0 {
			return r.tip
		}
		return s.Edges[r.half[k]].From
	}
	forward := func(r ring) Loop { return Loop{{r.half[0], false}, {r.half[1], false}} }
	back := func(r ring) Loop { return Loop{{r.half[1], true}, {r.half[0], true}} }
	up, down := r3.Vec{Z: 1}, r3.Vec{Z: -1}

	rings := make([]ring, n)
	for i, q := range t.Outline {
		rings[i] = circle(q)
	}
	for i := range n - 1 {
		a, b := t.Outline[i], t.Outline[i+1]
		low, high := rings[i], rings[i+1]
		if a.Y == b.Y {
			if b.X > a.X {
				s.face(plane(r3.Vec{Z: a.Y}, down), back(high), forward(low))
			} else {
				s.face(plane(r3.Vec{Z: a.Y}, up), forward(low), back(high))
			}
			continue
		}
		surface := flankOf(at(a.Y), at(b.Y), a.X, b.X)
		seam := [2]int{s.edge(start(low, 0), start(high, 0), nil), s.edge(start(low, 1), start(high, 1), nil)}
		for k := range 2 {
			var l Loop
			if low.tip < 0 {
				l = append(l, Use{low.half[k], false})
			}
			l = append(l, Use{seam[1-k], false})
			if high.tip < 0 {
				l = append(l, Use{high.half[k], true})
			}
			s.face(surface, append(l, Use{seam[k], true}))
		}
	}
	var inner [2][]Loop
	if t.Bore > 0 {
		low, high := circle(r2.Vec{X: t.Bore / 2, Y: t.Outline[0].Y}), circle(r2.Vec{X: t.Bore / 2, Y: t.Outline[n-1].Y})
		s.bore(Surface{Kind: Cylinder, At: at(t.Outline[0].Y), Radius: t.Bore / 2, Inward: true}, low.half, high.half)
		inner = [2][]Loop{{forward(low)}, {back(high)}}
	}
	if first := t.Outline[0]; first.X > 0 {
		s.face(plane(r3.Vec{Z: first.Y}, down), append([]Loop{back(rings[0])}, inner[0]...)...)
	}
	if last := t.Outline[n-1]; last.X > 0 {
		s.face(plane(r3.Vec{Z: last.Y}, up), append([]Loop{forward(rings[n-1])}, inner[1]...)...)
	}
	return s
}
