package solid

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Balls is the convex hull of some balls: limbs and trunks of persons.
type Balls []Ball

// Support implements Convex.
func (b Balls) Support(d r3.Vec) r3.Vec {
	length := r3.Norm(d)
	best, at := math.Inf(-1), 0
	for i, v := range b {
		if h := r3.Dot(d, v.Centre) + length*v.Radius; h > best {
			best, at = h, i
		}
	}
	return outward(b[at].Centre, d, b[at].Radius)
}

// Shell returns the boundary: a plane facet for each plane that touches three
// balls or more, a strip of a cone or cylinder between two facets that share two
// balls, and a patch of each ball between its strips. Balls that the others cover
// are left out. A hull whose patches are rings or go more than about halfway
// round, as that of a large ball between two small ones, or so small that rounding
// decides, gives an *Error.
func (b Balls) Shell() (*Shell, error) {
	h := hulled{balls: b.bare()}
	switch len(h.balls) {
	case 0:
		return nil, &Error{Feature: "balls", Defect: "there are none", Hint: "give one at least"}
	case 1:
		return h.balls[0].Shell(), nil
	case 2:
		return roundCone(h.balls[0], h.balls[1]), nil
	}
	h.size = 0
	for _, v := range h.balls {
		h.size = max(h.size, largest(r3.Sub(v.Centre, h.balls[0].Centre))+v.Radius)
	}
	h.facets()
	h.uses, h.joined = make([][]Use, len(h.balls)), map[int]bool{}
	for f := range h.planes {
		if err := h.strips(f); err != nil {
			return nil, err
		}
	}
	for i := range h.balls {
		if err := h.patches(i); err != nil {
			return nil, err
		}
	}
	return &h.Shell, nil
}

// bare returns the balls without those that the others cover, but for what is
// less than written coordinates tell.
func (b Balls) bare() Balls {
	out := slices.Clone(b)
	for i := 0; i < len(out); {
		others := slices.Delete(slices.Clone(out), i, i+1)
		if len(others) > 0 {
			if gap, _, _ := Distance(others, World(), Ball{Centre: out[i].Centre}, World()); -gap >= out[i].Radius-100*touching {
				out = others
				continue
			}
		}
		i++
	}
	return out
}

// hulled is a hull of balls, bare, while its shell is made.
type hulled struct {
	Shell
	balls  Balls
	size   float64
	planes []facetOf
	joined map[int]bool // sides of facets that a strip has
	uses   [][]Use      // for each ball, the arcs that bound its patches
}

// facetOf is a plane that touches balls, in the order round its normal: points
// are the vertices where, sides the edges from each to the next.
type facetOf struct {
	normal               r3.Vec
	balls, points, sides []int
}

// level is the share of the size within which heights are the same.
const level = 1e-9

// highest reports whether no ball reaches farther along n than ball i.
func (h *hulled) highest(i int, n r3.Vec, slack float64) bool {
	own := r3.Dot(h.balls[i].Centre, n) + h.balls[i].Radius
	for _, v := range h.balls {
		if r3.Dot(v.Centre, n)+v.Radius > own+slack {
			return false
		}
	}
	return true
}

// facets finds every plane that touches three balls with all of them below.
func (h *hulled) facets() {
	slack := level * h.size
	for i := range h.balls {
		for j := range i {
			for k := range j {
				for _, n := range tangent(h.balls[i], h.balls[j], h.balls[k]) {
					known := slices.ContainsFunc(h.planes, func(f facetOf) bool { return r3.Norm(r3.Sub(f.normal, n)) < 1e-6 })
					if !known && h.highest(i, n, slack) {
						h.facet(i, n)
					}
				}
			}
		}
	}
}

// tangent returns the normals of the planes that touch three balls from above.
func tangent(a, b, c Ball) []r3.Vec {
	// n·(b-a) = ra-rb and n·(c-a) = ra-rc: a line of vectors, of which two at
	// most are of unit length.
	u, v := r3.Sub(b.Centre, a.Centre), r3.Sub(c.Centre, a.Centre)
	w := r3.Cross(u, v)
	ww := r3.Norm2(w)
	if ww <= flatness*r3.Norm2(u)*r3.Norm2(v) {
		return nil
	}
	p, q := a.Radius-b.Radius, a.Radius-c.Radius
	foot := r3.Scale(1/ww, r3.Add(r3.Scale(p, r3.Cross(v, w)), r3.Scale(q, r3.Cross(w, u))))
	rest := 1 - r3.Norm2(foot)
	if rest <= 0 {
		return nil
	}
	up := r3.Scale(math.Sqrt(rest/ww), w)
	return []r3.Vec{r3.Add(foot, up), r3.Sub(foot, up)}
}

// facet adds the plane with a normal that touches ball i and others.
func (h *hulled) facet(i int, n r3.Vec) {
	f := facetOf{normal: n}
	own := r3.Dot(h.balls[i].Centre, n) + h.balls[i].Radius
	var middle r3.Vec
	touch := func(k int) r3.Vec { return outward(h.balls[k].Centre, n, h.balls[k].Radius) }
	for k, v := range h.balls {
		if math.Abs(r3.Dot(v.Centre, n)+v.Radius-own) <= 4*level*h.size {
			f.balls = append(f.balls, k)
			middle = r3.Add(middle, touch(k))
		}
	}
	middle = r3.Scale(1/float64(len(f.balls)), middle)
	x := across(n)
	y := r3.Cross(n, x)
	angle := func(k int) float64 {
		d := r3.Sub(touch(k), middle)
		return math.Atan2(r3.Dot(d, y), r3.Dot(d, x))
	}
	slices.SortStableFunc(f.balls, func(a, b int) int { return cmp.Compare(angle(a), angle(b)) })
	for _, k := range f.balls {
		f.points = append(f.points, h.vertex(touch(k)))
	}
	var loop Loop
	for k := range f.points {
		e := h.edge(f.points[k], f.points[(k+1)%len(f.points)], nil)
		f.sides = append(f.sides, e)
		loop = append(loop, Use{e, false})
	}
	h.face(plane(h.Vertices[f.points[0]], n), loop)
	h.planes = append(h.planes, f)
}

// strips adds those that begin at a facet's sides and are not yet there.
func (h *hulled) strips(f int) error {
	from := &h.planes[f]
	for k, i := range from.balls {
		if h.joined[from.sides[k]] {
			continue
		}
		j := from.balls[(k+1)%len(from.balls)]
		u := r3.Unit(r3.Sub(h.balls[j].Centre, h.balls[i].Centre))
		x := r3.Unit(r3.Sub(from.normal, r3.Scale(r3.Dot(u, from.normal), u)))
		y := r3.Cross(u, x)
		// The strip turns about the way from ball to ball, to the next facet that
		// has it the other way round.
		sweep, to, side := math.Inf(1), -1, 0
		for g := range h.planes {
			other := &h.planes[g]
			for n, b := range other.balls {
				if b == j && other.balls[(n+1)%len(other.balls)] == i {
					t := math.Mod(math.Atan2(r3.Dot(other.normal, y), r3.Dot(other.normal, x))+2*math.Pi, 2*math.Pi)
					if t < sweep {
						sweep, to, side = t, g, n
					}
				}
			}
		}
		if to < 0 {
			return h.unsuited()
		}
		end := &h.planes[to]
		h.joined[from.sides[k]], h.joined[end.sides[side]] = true, true
		h.strip(i, j, u, x, sweep, from.sides[k], end.sides[side])
	}
	return nil
}

func (h *hulled) unsuited() error {
	return &Error{Feature: "balls", Defect: "their hull has a patch that is a ring or more than half a ball", Hint: "divide the body in two"}
}

// strip adds the part of a cone between balls i and j over a sweep about u from
// x, between two straight edges: one from i to j, the other back.
func (h *hulled) strip(i, j int, u, x r3.Vec, sweep float64, first, last int) {
	a, b := h.balls[i], h.balls[j]
	sin := (a.Radius - b.Radius) / r3.Norm(r3.Sub(b.Centre, a.Centre))
	cos := math.Sqrt(1 - sin*sin)
	ring := func(v Ball) Placement {
		return Placement{Origin: r3.Add(v.Centre, r3.Scale(v.Radius*sin, u)), X: x, Y: r3.Cross(u, x), Z: u}
	}
	low, high := ring(a), ring(b)
	surface := flankOf(low, high, a.Radius*cos, b.Radius*cos)
	arc := func(at Placement, radius, start, sweep float64) *Ellipse {
		return &Ellipse{Centre: at.Origin, U: r3.Scale(radius, at.X), V: r3.Scale(radius, at.Y), Start: start, Sweep: sweep}
	}
	parts := 1
	if sweep > math.Pi {
		parts = 2
	}
	step := sweep / float64(parts)
	start := Use{first, true} // from j to i
	for n := range parts {
		var end Use // from i to j
		if n == parts-1 {
			end = Use{last, true}
		} else {
			p := arc(low, a.Radius*cos, 0, step).At(1)
			q := arc(high, b.Radius*cos, 0, step).At(1)
			end = Use{h.edge(h.vertex(p), h.vertex(q), nil), false}
		}
		left := h.edge(h.end(start), h.begin(end), arc(low, a.Radius*cos, float64(n)*step, step))
		right := h.edge(h.begin(start), h.end(end), arc(high, b.Radius*cos, float64(n)*step, step))
		h.face(surface, Loop{start, {left, false}, end, {right, true}})
		h.uses[i] = append(h.uses[i], Use{left, true})
		h.uses[j] = append(h.uses[j], Use{right, false})
		start = Use{end.Edge, !end.Back}
	}
}

// begin and end return the vertices of a use.
func (s *Shell) begin(u Use) int {
	if u.Back {
		return s.Edges[u.Edge].To
	}
	return s.Edges[u.Edge].From
}

func (s *Shell) end(u Use) int { return s.begin(Use{u.Edge, !u.Back}) }

// patches adds the faces of ball i: one for each loop that its arcs make.
func (h *hulled) patches(i int) error {
	left := h.uses[i]
	if len(left) == 0 {
		return h.unsuited()
	}
	for len(left) > 0 {
		loop := Loop{left[0]}
		left = slices.Delete(slices.Clone(left), 0, 1)
		for h.end(loop[len(loop)-1]) != h.begin(loop[0]) {
			next := slices.IndexFunc(left, func(u Use) bool { return h.begin(u) == h.end(loop[len(loop)-1]) })
			if next < 0 {
				return h.unsuited()
			}
			loop = append(loop, left[next])
			left = slices.Delete(left, next, next+1)
		}
		at, ok := h.clear(i, loop)
		if !ok {
			return h.unsuited()
		}
		h.face(Surface{Kind: Sphere, At: at, Radius: h.balls[i].Radius}, loop)
	}
	return nil
}

// clear returns a frame at a ball's middle whose axis and seam, the half circle
// over x, a patch does not reach, or that there is none. The middle of the patch
// is over -x.
func (h *hulled) clear(i int, loop Loop) (Placement, bool) {
	c := h.balls[i].Centre
	var rim []r3.Vec
	var mean, away r3.Vec
	for _, u := range loop {
		for k := range 4 {
			d := r3.Unit(r3.Sub(h.Edges[u.Edge].Ellipse.At((float64(k)+.5)/4), c))
			if !h.highest(i, d, 100*touching) { // balls nearly in line or one nearly within others
				return Placement{}, false
			}
			rim, mean = append(rim, d), r3.Add(mean, d)
		}
	}
	for _, v := range h.balls {
		away = r3.Add(away, r3.Sub(c, v.Centre))
	}
	tries := []r3.Vec{mean}
	if len(loop) == len(h.uses[i]) { // the ball's only patch
		tries = []r3.Vec{away, mean}
	}
	for _, middle := range tries {
		middle = r3.Unit(middle)
		if h.highest(i, middle, 0) {
			if at, ok := h.axis(i, middle, rim); ok {
				return at, true
			}
		}
	}
	return Placement{}, false
}

// axis looks for the axis of a patch about middle with a rim.
func (h *hulled) axis(i int, middle r3.Vec, rim []r3.Vec) (Placement, bool) {
	best, at := math.Inf(1), Placement{}
	x := r3.Scale(-1, middle)
	a := across(middle)
	b := r3.Cross(middle, a)
	const turns = 180
	for k := range turns {
		s, cos := math.Sincos(math.Pi * float64(k) / turns)
		z := r3.Add(r3.Scale(cos, a), r3.Scale(s, b))
		near := 0.0
		for _, d := range rim {
			near = max(near, math.Abs(r3.Dot(d, z)))
		}
		if near < best && h.hidden(i, x, z) {
			best, at = near, Placement{Origin: h.balls[i].Centre, X: x, Y: r3.Cross(z, x), Z: z}
		}
	}
	return at, best < 1
}

// hidden reports whether other balls reach farther than ball i all the way from z
// over x to -z.
func (h *hulled) hidden(i int, x, z r3.Vec) bool {
	const pieces = 36
	for k := range pieces + 1 {
		s, c := math.Sincos(math.Pi * float64(k) / pieces)
		if h.highest(i, r3.Add(r3.Scale(c, z), r3.Scale(s, x)), 0) {
			return false
		}
	}
	return true
}
