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
// balls or more, strips of cones and cylinders that touch two, and patches of the
// balls. Balls that the others cover are left out. Where all middles lie in one
// plane, faces are cut along it.
//
// A hull with a patch that is a ring, or so small that rounding decides about it,
// gives an *Error; where the middles lie in one plane there are no rings.
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
	for _, v := range h.balls {
		h.size = max(h.size, largest(r3.Sub(v.Centre, h.balls[0].Centre))+v.Radius)
	}
	h.halve()
	h.facets()
	for side := range h.uses {
		h.uses[side] = make([][]Use, len(h.balls))
	}
	h.stops = make([][]stop, len(h.balls))
	for j := range h.balls {
		for i := range j {
			h.strips(i, j)
		}
	}
	for i := range h.balls {
		h.seams(i)
	}
	for side := range h.uses {
		for i := range h.balls {
			if err := h.patches(side, i); err != nil {
				return nil, err
			}
		}
	}
	if !h.closed() {
		return nil, h.unsuited()
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
	// cut is the normal of the plane that all middles lie in, zero if there is
	// none; stops are the vertices on each ball where strips are cut along it.
	cut   r3.Vec
	stops [][]stop
	// uses are the edges that bound each ball's patches, those on the far side of
	// the cut first, then those on its normal's.
	uses [2][][]Use
}

// stop is a vertex on a ball in the plane of the cut, at an angle about its
// normal.
type stop struct {
	angle  float64
	vertex int
}

// facetOf is a plane that touches balls, in the order round its normal: points
// are the vertices where, sides the edges from each to the next.
type facetOf struct {
	normal               r3.Vec
	balls, points, sides []int
}

func (h *hulled) unsuited() error {
	return &Error{Feature: "balls", Defect: "their hull has a patch that is a ring or next to nothing", Hint: "divide the body in two, or leave the ball out that hardly shows"}
}

// halve looks for the plane of all middles.
func (h *hulled) halve() {
	o := h.balls[0].Centre
	u := r3.Sub(h.balls[1].Centre, o)
	n := r3.Vec{}
	for _, v := range h.balls[2:] {
		if w := r3.Cross(u, r3.Sub(v.Centre, o)); r3.Norm(w) > r3.Norm(n) {
			n = w
		}
	}
	if r3.Norm(n) <= level*h.size*h.size {
		n = across(r3.Unit(u))
	}
	n = r3.Unit(n)
	for _, v := range h.balls {
		if math.Abs(r3.Dot(n, r3.Sub(v.Centre, o))) > level*h.size {
			return
		}
	}
	h.cut = n
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
					if h.cut != (r3.Vec{}) && math.Abs(r3.Dot(h.cut, n)) < 1e-6 {
						continue // touches three along a line, which strips see to
					}
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

// strips adds the faces that touch balls i and j. The normals of planes that
// touch both make a circle about the way from one to the other. It is parted
// where facets are and where the cut goes, and a part belongs to the hull if no
// other ball reaches beyond.
func (h *hulled) strips(i, j int) {
	a, b := h.balls[i], h.balls[j]
	way := r3.Sub(b.Centre, a.Centre)
	u := r3.Unit(way)
	sin := (a.Radius - b.Radius) / r3.Norm(way)
	cos := math.Sqrt(1 - sin*sin)
	x := h.cut
	if x == (r3.Vec{}) {
		x = across(u)
	}
	y := r3.Cross(u, x)
	normal := func(t float64) r3.Vec {
		s, c := math.Sincos(t)
		return r3.Add(r3.Scale(sin, u), r3.Scale(cos, r3.Add(r3.Scale(c, x), r3.Scale(s, y))))
	}
	type parting struct {
		angle float64
		line  Use // from i to j
	}
	var partings []parting
	for _, f := range h.planes {
		for k, ball := range f.balls {
			next := f.balls[(k+1)%len(f.balls)]
			if ball == i && next == j || ball == j && next == i {
				partings = append(partings, parting{math.Atan2(r3.Dot(f.normal, y), r3.Dot(f.normal, x)), Use{f.sides[k], ball == j}})
			}
		}
	}
	if h.cut != (r3.Vec{}) {
		for _, t := range [2]float64{-math.Pi / 2, math.Pi / 2} {
			if n := normal(t); h.highest(i, n, level*h.size) && !h.between(i, j, n) {
				l := Use{h.edge(h.halt(i, n), h.halt(j, n), nil), false}
				partings = append(partings, parting{t, l})
			}
		}
	}
	slices.SortStableFunc(partings, func(a, b parting) int { return cmp.Compare(a.angle, b.angle) })
	ring := func(v Ball) Placement {
		return Placement{Origin: r3.Add(v.Centre, r3.Scale(v.Radius*sin, u)), X: x, Y: y, Z: u}
	}
	low, high := ring(a), ring(b)
	flank := flankOf(low, high, a.Radius*cos, b.Radius*cos)
	add := func(from, to parting, sweep float64) {
		arc := func(at Placement, radius float64) *Ellipse {
			return &Ellipse{Centre: at.Origin, U: r3.Scale(radius, at.X), V: r3.Scale(radius, at.Y), Start: from.angle, Sweep: sweep}
		}
		start := Use{from.line.Edge, !from.line.Back}
		left := h.edge(h.end(start), h.begin(to.line), arc(low, a.Radius*cos))
		right := h.edge(h.begin(start), h.end(to.line), arc(high, b.Radius*cos))
		h.face(flank, Loop{start, {left, false}, to.line, {right, true}})
		side := h.side(normal(from.angle + sweep/2))
		h.uses[side][i] = append(h.uses[side][i], Use{left, true})
		h.uses[side][j] = append(h.uses[side][j], Use{right, false})
	}
	for k, from := range partings {
		to := partings[(k+1)%len(partings)]
		sweep := to.angle - from.angle
		if k == len(partings)-1 {
			sweep += 2 * math.Pi
		}
		if !h.highest(i, normal(from.angle+sweep/2), level*h.size) {
			continue
		}
		if sweep <= math.Pi+level {
			add(from, to, sweep)
			continue
		}
		middle := parting{angle: from.angle + sweep/2}
		n := normal(middle.angle)
		middle.line.Edge = h.edge(h.vertex(outward(a.Centre, n, a.Radius)), h.vertex(outward(b.Centre, n, b.Radius)), nil)
		add(from, middle, sweep/2)
		add(middle, to, sweep/2)
	}
}

// between reports whether another ball touches the line along which a plane with
// normal n touches balls i and j, between them.
func (h *hulled) between(i, j int, n r3.Vec) bool {
	touch := func(k int) r3.Vec { return outward(h.balls[k].Centre, n, h.balls[k].Radius) }
	from := touch(i)
	way := r3.Sub(touch(j), from)
	for k := range h.balls {
		if k == i || k == j {
			continue
		}
		d := r3.Sub(touch(k), from)
		if u := r3.Dot(d, way) / r3.Norm2(way); u > 0 && u < 1 && math.Abs(r3.Dot(d, n)) <= 4*level*h.size {
			return true
		}
	}
	return false
}

// halt returns the vertex of ball i in the plane of the cut at a normal: two
// strips may meet in one.
func (h *hulled) halt(i int, n r3.Vec) int {
	at := stop{angle: h.about(n)}
	k := slices.IndexFunc(h.stops[i], func(s stop) bool { return math.Abs(s.angle-at.angle) < 1e-6 })
	if k >= 0 {
		at = h.stops[i][k]
	} else {
		at.vertex = h.vertex(outward(h.balls[i].Centre, n, h.balls[i].Radius))
	}
	h.stops[i] = append(h.stops[i], at)
	return at.vertex
}

// about returns the angle of a direction about the normal of the cut.
func (h *hulled) about(n r3.Vec) float64 {
	x := across(h.cut)
	return math.Atan2(r3.Dot(n, r3.Cross(h.cut, x)), r3.Dot(n, x))
}

// side returns 0 for a direction on the far side of the cut, and 1 otherwise.
func (h *hulled) side(n r3.Vec) int {
	if r3.Dot(n, h.cut) < 0 {
		return 0
	}
	return 1
}

// seams adds the edges along the cut between the patches of ball i on its sides.
func (h *hulled) seams(i int) {
	b, stops := h.balls[i], h.stops[i]
	slices.SortStableFunc(stops, func(a, b stop) int { return cmp.Compare(a.angle, b.angle) })
	if len(stops) == 0 {
		return
	}
	x := across(h.cut)
	circle := Ellipse{Centre: b.Centre, U: r3.Scale(b.Radius, x), V: r3.Scale(b.Radius, r3.Cross(h.cut, x))}
	add := func(from, to int, start, sweep float64) {
		arc := circle
		arc.Start, arc.Sweep = start, sweep
		e := h.edge(from, to, &arc)
		h.uses[1][i] = append(h.uses[1][i], Use{e, false})
		h.uses[0][i] = append(h.uses[0][i], Use{e, true})
	}
	for k, from := range stops {
		to := stops[(k+1)%len(stops)]
		sweep := to.angle - from.angle
		if k == len(stops)-1 {
			sweep += 2 * math.Pi
		}
		if sweep == 0 {
			continue
		}
		whole := circle
		whole.Start, whole.Sweep = from.angle, sweep
		middle := whole.At(.5)
		if !h.highest(i, r3.Unit(r3.Sub(middle, b.Centre)), level*h.size) {
			continue
		}
		if sweep <= math.Pi+level {
			add(from.vertex, to.vertex, from.angle, sweep)
			continue
		}
		v := h.vertex(middle)
		add(from.vertex, v, from.angle, sweep/2)
		add(v, to.vertex, from.angle+sweep/2, sweep/2)
	}
}

// patches adds the faces of ball i on one side: one for each loop of its edges.
func (h *hulled) patches(side, i int) error {
	left := h.uses[side][i]
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
		at, ok := h.clear(side, i, loop)
		if !ok {
			return h.unsuited()
		}
		h.face(Surface{Kind: Sphere, At: at, Radius: h.balls[i].Radius}, loop)
	}
	return nil
}

// clear returns a frame at a ball's middle whose axis and seam, the half circle
// over x, a patch does not reach, or that there is none.
func (h *hulled) clear(side, i int, loop Loop) (Placement, bool) {
	c := h.balls[i].Centre
	var rim []r3.Vec
	for _, u := range loop {
		for k := range 4 {
			d := r3.Unit(r3.Sub(h.Edges[u.Edge].Ellipse.At((float64(k)+.5)/4), c))
			if !h.highest(i, d, 100*touching) { // rounding has decided
				return Placement{}, false
			}
			rim = append(rim, d)
		}
	}
	outside := func(n r3.Vec) bool {
		return !h.highest(i, n, 0) || h.cut != r3.Vec{} && r3.Dot(n, h.cut)*float64(2*side-1) < -level
	}
	// Directions evenly over half the sphere, on a spiral.
	const directions, turns, pieces = 200, 24, 36
	type axis struct {
		z    r3.Vec
		near float64 // the cosine of the rim's least angle from it
	}
	var found []axis
	for k := range directions {
		height := (float64(k) + .5) / directions
		s, c := math.Sincos(float64(k) * math.Pi * (3 - math.Sqrt(5)))
		r := math.Sqrt(1 - height*height)
		z := r3.Vec{X: r * c, Y: r * s, Z: height}
		if outside(z) && outside(r3.Scale(-1, z)) {
			a := axis{z: z}
			for _, d := range rim {
				a.near = max(a.near, math.Abs(r3.Dot(d, z)))
			}
			found = append(found, a)
		}
	}
	slices.SortStableFunc(found, func(a, b axis) int { return cmp.Compare(a.near, b.near) })
	const tried = 10 // of those farthest from the rim
	for _, a := range found[:min(tried, len(found))] {
		p := across(a.z)
		q := r3.Cross(a.z, p)
		for k := range turns {
			s, c := math.Sincos(2 * math.Pi * float64(k) / turns)
			x := r3.Add(r3.Scale(c, p), r3.Scale(s, q))
			free := true
			for n := 1; n < pieces && free; n++ {
				s, c := math.Sincos(math.Pi * float64(n) / pieces)
				free = outside(r3.Add(r3.Scale(c, a.z), r3.Scale(s, x)))
			}
			if free {
				return Placement{Origin: h.balls[i].Centre, X: x, Y: r3.Cross(a.z, x), Z: a.z}, true
			}
		}
	}
	return Placement{}, false
}
