package draw

import (
	"math"

	"armwright/export/sheet"
	"armwright/export/stroke"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// prism is a convex body: a plane convex polygon moved along a vector. Every
// part of a station is drawn as one: tubes, boards, discs and shafts.
type prism struct {
	base  []r3.Vec // counter-clockwise seen against along
	along r3.Vec
	round bool       // the base stands for a smooth curve: its corners are no edges
	role  sheet.Role // Visible, or Phantom: hides nothing and shows no hidden edges
	bare  bool       // hidden edges are left out
	part  string     // title of its line in the parts list, "" for none
	mark  *r3.Vec    // where a balloon may point; the middle when nil
}

// bar is a rectangular bar of centreline a-b; u is the direction across it in
// which it measures wide, the other side measures deep.
func bar(a, b, u r3.Vec, wide, deep float64) prism {
	along := r3.Sub(b, a)
	v := r3.Unit(r3.Cross(along, u))
	u = r3.Unit(r3.Cross(v, along))
	h, k := r3.Scale(wide/2, u), r3.Scale(deep/2, v)
	return prism{along: along, base: []r3.Vec{
		r3.Sub(r3.Sub(a, h), k), r3.Sub(r3.Add(a, h), k), r3.Add(r3.Add(a, h), k), r3.Add(r3.Sub(a, h), k),
	}}
}

// roundCorners is the number of sides of a polygon that stands for a circle.
const roundCorners = 72

// rod is a round bar of centreline a-b.
func rod(a, b r3.Vec, diameter float64) prism {
	along := r3.Sub(b, a)
	u := r3.Unit(perpendicular(along))
	v := r3.Cross(r3.Unit(along), u)
	p := prism{along: along, round: true, base: make([]r3.Vec, roundCorners)}
	for i := range p.base {
		s, c := math.Sincos(2 * math.Pi * float64(i) / roundCorners)
		p.base[i] = r3.Add(a, r3.Scale(diameter/2, r3.Add(r3.Scale(c, u), r3.Scale(s, v))))
	}
	return p
}

// disc is a rod so thick along a unit axis, on both sides of its centre.
func disc(centre, axis r3.Vec, diameter, thick float64) prism {
	half := r3.Scale(thick/2, axis)
	return rod(r3.Sub(centre, half), r3.Add(centre, half), diameter)
}

// perpendicular returns some vector across v.
func perpendicular(v r3.Vec) r3.Vec {
	if math.Abs(v.Z) <= math.Abs(v.X) && math.Abs(v.Z) <= math.Abs(v.Y) {
		return r3.Cross(v, r3.Vec{Z: 1})
	}
	if math.Abs(v.X) <= math.Abs(v.Y) {
		return r3.Cross(v, r3.Vec{X: 1})
	}
	return r3.Cross(v, r3.Vec{Y: 1})
}

// moved is the prism shifted.
func (p prism) moved(by r3.Vec) prism {
	q := p
	q.base = make([]r3.Vec, len(p.base))
	for i, v := range p.base {
		q.base[i] = r3.Add(v, by)
	}
	if p.mark != nil {
		mark := r3.Add(*p.mark, by)
		q.mark = &mark
	}
	return q
}

// mirrored is the prism on the other side of the x-z plane, without a mark.
func (p prism) mirrored() prism {
	q := p
	q.mark = nil
	flip := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	q.along = flip(p.along)
	q.base = make([]r3.Vec, len(p.base))
	for i, v := range p.base {
		q.base[len(p.base)-1-i] = flip(v)
	}
	return q
}

// middle is the centre of the prism's corners.
func (p prism) middle() r3.Vec {
	var sum r3.Vec
	for _, v := range p.base {
		sum = r3.Add(sum, v)
	}
	return r3.Add(r3.Scale(1/float64(len(p.base)), sum), r3.Scale(0.5, p.along))
}

// plane is a face: n·x <= d inside, n outward.
type plane struct {
	n r3.Vec
	d float64
}

// spot is where a balloon points.
func (p prism) spot() r3.Vec {
	if p.mark != nil {
		return *p.mark
	}
	return p.middle()
}

// faces returns the sides in the order of the base's edges, then the base and
// the face opposite.
func (p prism) faces() []plane {
	n := len(p.base)
	out := make([]plane, 0, n+2)
	for i, a := range p.base {
		normal := r3.Unit(r3.Cross(r3.Sub(p.base[(i+1)%n], a), p.along))
		out = append(out, plane{normal, r3.Dot(normal, a)})
	}
	u := r3.Unit(p.along)
	return append(out,
		plane{r3.Scale(-1, u), -r3.Dot(u, p.base[0])},
		plane{u, r3.Dot(u, r3.Add(p.base[0], p.along))})
}

// camera is a parallel projection: the directions of the picture's x and y and
// the one towards the viewer.
type camera struct{ right, up, toward r3.Vec }

// The three views of a station, and an axonometric one from the front, the
// user's right and above.
func fromRight() camera { return camera{r3.Vec{X: 1}, r3.Vec{Z: 1}, r3.Vec{Y: -1}} }
func fromFront() camera { return camera{r3.Vec{Y: 1}, r3.Vec{Z: 1}, r3.Vec{X: 1}} }
func fromAbove() camera { return camera{r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}} }
func axonometric() camera {
	toward := r3.Unit(r3.Vec{X: 1, Y: -1, Z: 0.8})
	right := r3.Unit(r3.Cross(r3.Vec{Z: 1}, toward))
	return camera{right, r3.Cross(toward, right), toward}
}

func (c camera) see(p r3.Vec) r2.Vec { return r2.Vec{X: r3.Dot(p, c.right), Y: r3.Dot(p, c.up)} }

// edge is a straight edge of a body that may be seen.
type edge struct{ a, b r3.Vec }

// facing is how much a face must turn to the viewer to be seen.
const facing = 1e-6

// edges returns the edges with a face towards the viewer: corners of the
// body, and the contour of a round one.
func (p prism) edges(c camera) []edge {
	f := p.faces()
	n := len(p.base)
	seen := func(i int) bool { return r3.Dot(f[i].n, c.toward) > facing }
	var out []edge
	for i, a := range p.base {
		b := p.base[(i+1)%n]
		if seen(i) || seen(n) {
			out = append(out, edge{a, b})
		}
		if seen(i) || seen(n+1) {
			out = append(out, edge{r3.Add(a, p.along), r3.Add(b, p.along)})
		}
		before := seen((i + n - 1) % n)
		if before != seen(i) || before && !p.round {
			out = append(out, edge{a, r3.Add(a, p.along)})
		}
	}
	return out
}

// skin is the depth, mm, to which a body must cover an edge to hide it, so
// that parts that touch keep their common edges.
const skin = 0.05

// hides returns the part of an edge, as shares of its length, that lies behind
// the body. This is Roberts' test (Machine Perception of Three-Dimensional
// Solids, 1963): the points of the edge from which the line of sight meets a
// convex body form one interval. It is found by clipping the strip of edge and
// line of sight by the body's faces.
func hides(faces []plane, e edge, toward r3.Vec) (from, to float64, ok bool) {
	const far = 1e5
	d := r3.Sub(e.b, e.a)
	// Points a + t d + s toward with 0 <= t <= 1, skin <= s. Every face adds at
	// most one corner.
	var buffers [2][96]r2.Vec
	strip := append(buffers[0][:0], r2.Vec{X: 0, Y: skin}, r2.Vec{X: 1, Y: skin}, r2.Vec{X: 1, Y: far}, r2.Vec{X: 0, Y: far})
	spare := buffers[1][:0]
	for _, f := range faces {
		kt, ks := r3.Dot(f.n, d), r3.Dot(f.n, toward)
		k0 := f.d - skin - r3.Dot(f.n, e.a)
		clipped := clip(spare[:0], strip, k0, kt, ks)
		if len(clipped) == 0 {
			return 0, 0, false
		}
		strip, spare = clipped, strip
	}
	from, to = 1, 0
	for _, p := range strip {
		from, to = math.Min(from, p.X), math.Max(to, p.X)
	}
	return from, to, to-from > 1e-9
}

// clip appends to out the part of a convex polygon where k0 - kt x - ks y is
// not negative (Sutherland and Hodgman 1974).
func clip(out, polygon []r2.Vec, k0, kt, ks float64) []r2.Vec {
	p := polygon[len(polygon)-1]
	fp := k0 - kt*p.X - ks*p.Y
	for _, q := range polygon {
		fq := k0 - kt*q.X - ks*q.Y
		if fp >= 0 != (fq >= 0) {
			out = append(out, r2.Add(p, r2.Scale(fp/(fp-fq), r2.Sub(q, p))))
		}
		if fq >= 0 {
			out = append(out, q)
		}
		p, fp = q, fq
	}
	return out
}

// extent is the box of the body's picture.
func (p prism) extent(c camera) r2.Box {
	first := c.see(p.base[0])
	box := r2.Box{Min: first, Max: first}
	for _, v := range p.base {
		for _, q := range [...]r2.Vec{c.see(v), c.see(r3.Add(v, p.along))} {
			box = around(box, r2.Box{Min: q, Max: q})
		}
	}
	return box
}

// around is the box round two boxes.
func around(a, b r2.Box) r2.Box {
	return r2.Box{
		Min: at(math.Min(a.Min.X, b.Min.X), math.Min(a.Min.Y, b.Min.Y)),
		Max: at(math.Max(a.Max.X, b.Max.X), math.Max(a.Max.Y, b.Max.Y)),
	}
}

// clear reports whether the segment p-q passes outside the box on one side.
func clear(box r2.Box, p, q r2.Vec) bool {
	return math.Max(p.X, q.X) < box.Min.X || math.Min(p.X, q.X) > box.Max.X ||
		math.Max(p.Y, q.Y) < box.Min.Y || math.Min(p.Y, q.Y) > box.Max.Y
}

// scene is bodies with what the test for hidden lines needs of them.
type scene struct {
	bodies []prism
	faces  [][]plane
	boxes  []r2.Box
	front  []float64 // distance towards the viewer of each body's nearest point
	camera camera
}

func newScene(bodies []prism, c camera) scene {
	s := scene{bodies: bodies, camera: c}
	for _, b := range bodies {
		s.faces = append(s.faces, b.faces())
		s.boxes = append(s.boxes, b.extent(c))
		s.front = append(s.front, b.nearest(c.toward))
	}
	return s
}

// nearest is how far the body reaches in a direction.
func (p prism) nearest(toward r3.Vec) float64 {
	most := math.Inf(-1)
	for _, v := range p.base {
		most = math.Max(most, r3.Dot(v, toward))
	}
	return most + math.Max(0, r3.Dot(p.along, toward))
}

// behind returns the parts of an edge of body i that other bodies hide.
func (s scene) behind(i int, e edge) stroke.Spans {
	p, q := s.camera.see(e.a), s.camera.see(e.b)
	back := math.Min(r3.Dot(e.a, s.camera.toward), r3.Dot(e.b, s.camera.toward))
	var out stroke.Spans
	for k := range s.bodies {
		if k == i || s.bodies[k].role == sheet.Phantom || s.front[k] <= back || clear(s.boxes[k], p, q) {
			continue
		}
		if from, to, ok := hides(s.faces[k], e, s.camera.toward); ok {
			out = append(out, stroke.Span{From: from, To: to})
		}
	}
	return out.Union()
}

// picture projects bodies and sorts their edges into seen, hidden and phantom
// lines.
func (s scene) picture() []stroke.Line {
	var out []stroke.Line
	for i, b := range s.bodies {
		for _, e := range b.edges(s.camera) {
			p, q := s.camera.see(e.a), s.camera.see(e.b)
			if r2.Norm(r2.Sub(q, p)) < skin {
				continue
			}
			behind := s.behind(i, e)
			along := func(t float64) r2.Vec { return r2.Add(p, r2.Scale(t, r2.Sub(q, p))) }
			for _, v := range (stroke.Spans{{From: 0, To: 1}}).Minus(behind) {
				out = append(out, stroke.Line{A: along(v.From), B: along(v.To), Role: b.role})
			}
			if b.role == sheet.Phantom || b.bare {
				continue
			}
			for _, v := range behind {
				out = append(out, stroke.Line{A: along(v.From), B: along(v.To), Role: sheet.Hidden})
			}
		}
	}
	return out
}

// drawn are the lines of bodies in one view.
func drawn(bodies []prism, c camera) []sheet.Entity {
	return stroke.Join(stroke.Tidy(newScene(bodies, c).picture()))
}
