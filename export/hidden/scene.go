package hidden

import (
	"cmp"
	"math"
	"slices"

	"armwright/export/sheet"
	"armwright/export/stroke"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Body is a shape in its place.
type Body struct {
	*Shape
	Place solid.Placement
	Role  sheet.Role // Visible, or Phantom: hides nothing and shows no hidden edges
	Bare  bool       // hidden edges and those of holes' far sides are left out
	Item  string     // its number in the parts list, "" for none
}

// Camera is a parallel projection: the directions of the picture's x and y and
// the one towards the viewer, about a place that is the picture's origin.
type Camera struct{ Right, Up, Toward, Origin r3.Vec }

// FromRight, FromFront and FromAbove are the three views of a station, Axonometric
// is from the front, the user's right and above.
func FromRight() Camera { return Camera{Right: r3.Vec{X: 1}, Up: r3.Vec{Z: 1}, Toward: r3.Vec{Y: -1}} }
func FromFront() Camera { return Camera{Right: r3.Vec{Y: 1}, Up: r3.Vec{Z: 1}, Toward: r3.Vec{X: 1}} }
func FromAbove() Camera { return Camera{Right: r3.Vec{X: 1}, Up: r3.Vec{Y: 1}, Toward: r3.Vec{Z: 1}} }
func Axonometric() Camera {
	toward := r3.Unit(r3.Vec{X: 1, Y: -1, Z: 0.8})
	right := r3.Unit(r3.Cross(r3.Vec{Z: 1}, toward))
	return Camera{Right: right, Up: r3.Cross(toward, right), Toward: toward}
}

// Onto looks along a frame's z, from its outer side, with its x to the right.
func Onto(p solid.Placement) Camera { return Camera{p.X, p.Y, p.Z, p.Origin} }

// See is a place in the picture.
func (c Camera) See(p r3.Vec) r2.Vec {
	q := r3.Sub(p, c.Origin)
	return r2.Vec{X: r3.Dot(q, c.Right), Y: r3.Dot(q, c.Up)}
}

// frame is the place of a body as the camera has it: x right, y up, z to the viewer.
func (c Camera) frame(p solid.Placement) solid.Placement {
	turn := func(v r3.Vec) r3.Vec {
		return r3.Vec{X: r3.Dot(v, c.Right), Y: r3.Dot(v, c.Up), Z: r3.Dot(v, c.Toward)}
	}
	return solid.Placement{Origin: turn(r3.Sub(p.Origin, c.Origin)), X: turn(p.X), Y: turn(p.Y), Z: turn(p.Z)}
}

func at(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

// facing is how much a face must turn to the viewer to be seen.
const facing = 1e-6

// edge is a straight edge that may be seen, as the camera has it.
type edge struct {
	a, b r3.Vec
	own  bool // the body's own pieces may hide it
}

// edges returns the edges with a face towards the viewer, and the contours of round
// faces.
func (b *Body) edges(p *solid.Placement) []edge {
	var out []edge
	up := r3.Vec{X: p.X.Z, Y: p.Y.Z, Z: p.Z.Z} // towards the viewer in the own frame
	shows := func(n r3.Vec, inner bool) bool {
		return !(inner && b.Bare) && r3.Dot(n, up) > facing
	}
	for i := range b.ridges {
		r := &b.ridges[i]
		one, two := shows(r.n[0], r.inner[0]), shows(r.n[1], r.inner[1])
		if !one && !two || one && two && r3.Dot(r.n[0], r.n[1]) > smooth {
			continue
		}
		out = append(out, edge{p.Point(r.a), p.Point(r.b), b.hollow})
	}
	for i := range b.rounds {
		r := &b.rounds[i]
		if r.inner && b.Bare {
			continue
		}
		x, y := r3.Dot(r.x, up), r3.Dot(r.y, up)
		across := math.Hypot(x, y)
		share := r.slope * r3.Dot(r.z, up) / across
		if across < 1e-9 || math.Abs(share) >= 1 {
			continue
		}
		middle, aside := math.Atan2(y, x), math.Acos(share)
		for _, angle := range [2]float64{middle - aside, middle + aside} {
			s, c := math.Sincos(angle)
			dir := r3.Add(r3.Scale(c, r.x), r3.Scale(s, r.y))
			low, ok := r.on(0, dir)
			high, too := r.on(1, dir)
			if ok && too {
				out = append(out, edge{p.Point(low), p.Point(high), b.hollow})
			}
		}
	}
	return out
}

// skin is the depth, mm, to which a body must cover an edge to hide it, so
// that parts that touch keep their common edges.
const skin = 0.05

// work is room for the corners of two strips, kept from one question to the next.
type work [2][]r2.Vec

// hides returns the part of an edge, as shares of its length, that lies behind
// a convex piece. This is Roberts' test (Machine Perception of Three-Dimensional
// Solids, 1963): the points of the edge from which the line of sight meets a
// convex body form one interval. It is found by clipping the strip of edge and
// line of sight by the body's faces.
func (w *work) hides(faces []plane, e *edge) (from, to float64, ok bool) {
	const far = 1e5
	d := r3.Sub(e.b, e.a)
	// Points a + t d + s toward with 0 <= t <= 1, skin <= s. Every face adds at
	// most one corner.
	strip := append(w[0][:0], r2.Vec{X: 0, Y: skin}, r2.Vec{X: 1, Y: skin}, r2.Vec{X: 1, Y: far}, r2.Vec{X: 0, Y: far})
	spare := w[1][:0]
	for i := range faces {
		f := &faces[i]
		kt, ks := r3.Dot(f.n, d), f.n.Z
		k0 := f.d - skin - r3.Dot(f.n, e.a)
		clipped := clip(spare[:0], strip, k0, kt, ks)
		if len(clipped) == 0 {
			return 0, 0, false
		}
		strip, spare = clipped, strip
		w[0], w[1] = strip, spare
	}
	from, to = 1, 0
	for _, p := range strip {
		from, to = min(from, p.X), max(to, p.X)
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

// around is the box round two boxes.
func around(a, b r2.Box) r2.Box {
	return r2.Box{
		Min: at(math.Min(a.Min.X, b.Min.X), math.Min(a.Min.Y, b.Min.Y)),
		Max: at(math.Max(a.Max.X, b.Max.X), math.Max(a.Max.Y, b.Max.Y)),
	}
}

// cover is a convex piece as the camera has it.
type cover struct {
	body   int
	planes []plane
	box    r2.Box
	front  float64 // towards the viewer, of its nearest point
}

// Scene is bodies with what the test for hidden lines needs of them.
type Scene struct {
	Bodies []Body
	camera Camera
	places []solid.Placement
	covers []cover  // those with the largest pictures first
	boxes  []r2.Box // of each body
}

// NewScene prepares bodies for a view.
func NewScene(bodies []Body, c Camera) *Scene {
	s := &Scene{Bodies: bodies, camera: c, places: make([]solid.Placement, len(bodies)), boxes: make([]r2.Box, len(bodies))}
	n := 0
	for i := range bodies {
		for k := range bodies[i].pieces {
			n += len(bodies[i].pieces[k].planes)
		}
	}
	pool := make([]plane, 0, n)
	for i := range bodies {
		b := &bodies[i]
		p := c.frame(b.Place)
		s.places[i] = p
		s.boxes[i] = r2.Box{Min: at(math.Inf(1), math.Inf(1)), Max: at(math.Inf(-1), math.Inf(-1))}
		for k := range b.pieces {
			v := cover{body: i, front: math.Inf(-1)}
			v.box = r2.Box{Min: at(math.Inf(1), math.Inf(1)), Max: at(math.Inf(-1), math.Inf(-1))}
			for _, q := range b.pieces[k].corners {
				q = p.Point(q)
				v.box.Min.X, v.box.Max.X = min(v.box.Min.X, q.X), max(v.box.Max.X, q.X)
				v.box.Min.Y, v.box.Max.Y = min(v.box.Min.Y, q.Y), max(v.box.Max.Y, q.Y)
				v.front = max(v.front, q.Z)
			}
			s.boxes[i] = around(s.boxes[i], v.box)
			if b.Role == sheet.Phantom {
				continue
			}
			from := len(pool)
			for _, f := range b.pieces[k].planes {
				m := p.Vector(f.n)
				pool = append(pool, plane{m, f.d + r3.Dot(m, p.Origin)})
			}
			v.planes = pool[from:len(pool):len(pool)]
			s.covers = append(s.covers, v)
		}
	}
	area := func(b *r2.Box) float64 { return (b.Max.X - b.Min.X) * (b.Max.Y - b.Min.Y) }
	slices.SortStableFunc(s.covers, func(a, b cover) int { return cmp.Compare(area(&b.box), area(&a.box)) })
	return s
}

// Extent is the box round all bodies, phantoms among them if moved.
func (s *Scene) Extent(moved bool) r2.Box {
	box := r2.Box{Min: at(math.Inf(1), math.Inf(1)), Max: at(math.Inf(-1), math.Inf(-1))}
	for i := range s.Bodies {
		if moved || s.Bodies[i].Role != sheet.Phantom {
			box = around(box, s.boxes[i])
		}
	}
	return box
}

// behind returns the parts of an edge of body i that pieces hide, in no order.
func (s *Scene) behind(i int, e *edge, w *work, out stroke.Spans) stroke.Spans {
	left, right := min(e.a.X, e.b.X), max(e.a.X, e.b.X)
	low, high := min(e.a.Y, e.b.Y), max(e.a.Y, e.b.Y)
	back := min(e.a.Z, e.b.Z) + skin
	for k := range s.covers {
		c := &s.covers[k]
		if c.front <= back || right < c.box.Min.X || left > c.box.Max.X || high < c.box.Min.Y || low > c.box.Max.Y || c.body == i && !e.own {
			continue
		}
		if from, to, ok := w.hides(c.planes, e); ok {
			out = append(out, stroke.Span{From: from, To: to})
			if from <= 0 && to >= 1 {
				return append(out[:0], stroke.Span{From: 0, To: 1})
			}
		}
	}
	return out
}

// picture projects bodies and sorts their edges into seen, hidden and phantom
// lines.
func (s *Scene) picture() []stroke.Line {
	var out []stroke.Line
	var spans stroke.Spans
	var w work
	for i := range s.Bodies {
		b := &s.Bodies[i]
		for _, e := range b.edges(&s.places[i]) {
			p, q := at(e.a.X, e.a.Y), at(e.b.X, e.b.Y)
			if r2.Norm(r2.Sub(q, p)) < skin {
				continue
			}
			spans = s.behind(i, &e, &w, spans[:0])
			behind := spans.Union()
			along := func(t float64) r2.Vec { return r2.Add(p, r2.Scale(t, r2.Sub(q, p))) }
			for _, v := range (stroke.Spans{{From: 0, To: 1}}).Minus(behind) {
				out = append(out, stroke.Line{A: along(v.From), B: along(v.To), Role: b.Role})
			}
			if b.Role == sheet.Phantom || b.Bare {
				continue
			}
			for _, v := range behind {
				out = append(out, stroke.Line{A: along(v.From), B: along(v.To), Role: sheet.Hidden})
			}
		}
	}
	return out
}

// Lines are the lines of the scene.
func (s *Scene) Lines() []sheet.Entity { return stroke.Join(stroke.Tidy(s.picture())) }

// sees reports whether nothing lies between a place on body i and the viewer.
func (s *Scene) sees(i int, q r3.Vec) bool {
	for k := range s.covers {
		c := &s.covers[k]
		if c.front <= q.Z+skin || q.X < c.box.Min.X || q.X > c.box.Max.X || q.Y < c.box.Min.Y || q.Y > c.box.Max.Y {
			continue
		}
		from, to := skin, math.Inf(1)
		for j := range c.planes {
			f := &c.planes[j]
			room := f.d - skin - r3.Dot(f.n, q)
			switch {
			case f.n.Z > 1e-12:
				to = min(to, room/f.n.Z)
			case f.n.Z < -1e-12:
				from = max(from, room/f.n.Z)
			case room < 0:
				to = math.Inf(-1)
			}
		}
		if to > from {
			return false
		}
	}
	return true
}

// Sees reports whether nothing lies between a place and the viewer.
func (s *Scene) Sees(place r3.Vec) bool {
	q := r3.Sub(place, s.camera.Origin)
	return s.sees(-1, r3.Vec{X: r3.Dot(q, s.camera.Right), Y: r3.Dot(q, s.camera.Up), Z: r3.Dot(q, s.camera.Toward)})
}

// See is a place in the picture.
func (s *Scene) See(place r3.Vec) r2.Vec { return s.camera.See(place) }

// Spots are the places of a body that can be seen, as the camera has them.
func (s *Scene) Spots(i int) []r2.Vec {
	var out []r2.Vec
	p := &s.places[i]
	const most, turned = 12, 0.2 // enough to choose from; how far a face looks to the viewer
	for _, q := range s.Bodies[i].spots() {
		if p.Vector(q.n).Z < turned {
			continue
		}
		if v := p.Point(q.at); s.sees(i, v) {
			if out = append(out, at(v.X, v.Y)); len(out) == most {
				break
			}
		}
	}
	return out
}
