package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A polytope inside the difference of two bodies that meet, grown outward until
// one of its faces lies in the difference's surface where that is nearest to the
// origin. Bodies with corners need about twenty faces; a round one is refined
// where it matters.
const (
	polytopeCorners = 128
	polytopeFaces   = 2 * polytopeCorners
)

type polytope struct {
	corners [polytopeCorners]corner
	faces   [polytopeFaces]facet
	nc, nf  int
}

// facet is a triangle of corners, counter-clockwise seen from outside, and its
// plane.
type facet struct {
	i, j, k int
	normal  r3.Vec
	height  float64 // of the plane over the origin, along normal
}

// depth returns what apart does for spines that meet. The simplex is where the
// search for the distance ended.
func (p *pair) depth(s *simplex, tolerance float64) (gap float64, onA, onB, normal r3.Vec) {
	var hull polytope
	if flat, across := p.start(&hull, s, tolerance); flat {
		onA, onB = s.points()
		return 0, onA, onB, across
	}
	least := math.Inf(1)
	low := 0
	for {
		low = 0
		for i := range hull.nf {
			if hull.faces[i].height < hull.faces[low].height {
				low = i
			}
		}
		f := hull.faces[low]
		w := p.support(f.normal)
		// Moving by the support along any normal parts the bodies.
		reach := r3.Dot(f.normal, w.w)
		if reach < least {
			least, normal = reach, f.normal
		}
		if least-f.height <= tolerance {
			break
		}
		if hull.has(w.w, tolerance) { // a sliver, whose normal means nothing
			hull.faces[low].height = math.Inf(1)
			continue
		}
		if !hull.grow(w, low, tolerance*1e-3) {
			break
		}
	}
	if least-hull.faces[low].height > tolerance {
		least, normal = p.descend(least, normal)
	}
	least = max(least, 0)
	// Halfway between the points that the polytope knows, which differ by the
	// depth along the normal but for what the faces lack in number.
	face := hull.nearest(hull.faces[low].height + tolerance)
	onA, onB = face.points()
	middle := r3.Scale(.5, r3.Add(onA, onB))
	half := r3.Scale(least/2, normal)
	return -least, r3.Add(middle, half), r3.Sub(middle, half), normal
}

// descend turns the direction of parting toward less, for round bodies of which
// the polytope runs out of corners. The reach w·n of the difference falls
// fastest toward the part of -w across n.
func (p *pair) descend(reach float64, n r3.Vec) (float64, r3.Vec) {
	const turns = 60
	w := p.support(n).w
	step := 1 / r3.Norm(w)
	for range turns {
		slope := r3.Sub(w, r3.Scale(r3.Dot(w, n), n))
		m := r3.Unit(r3.Sub(n, r3.Scale(step, slope)))
		v := p.support(m).w
		if r := r3.Dot(v, m); r < reach {
			reach, n, w = r, m, v
			step *= 2
		} else {
			step /= 4
		}
	}
	return reach, n
}

// start builds a tetrahedron of some volume from what the simplex has. Where the
// difference is flat, as that of two points or segments is, there is none and
// it returns a unit vector across.
func (p *pair) start(hull *polytope, s *simplex, tolerance float64) (flat bool, normal r3.Vec) {
	for i := range s.n {
		hull.corners[i] = s.at[i]
	}
	n := s.n
	base := hull.corners[0].w
	// farthest tries a direction both ways.
	farthest := func(d r3.Vec) bool {
		for _, d := range [2]r3.Vec{d, r3.Scale(-1, d)} {
			c := p.support(d)
			if math.Abs(r3.Dot(d, r3.Sub(c.w, base))) > tolerance {
				hull.corners[n] = c
				return true
			}
		}
		return false
	}
	edge := func(i int) r3.Vec { return r3.Sub(hull.corners[i].w, base) }
	if n > 1 && r3.Norm(edge(1)) <= tolerance {
		n = 1
	}
	if n == 1 {
		if !farthest(r3.Vec{X: 1}) && !farthest(r3.Vec{Y: 1}) && !farthest(r3.Vec{Z: 1}) {
			return true, r3.Vec{Z: 1}
		}
		n = 2
	}
	u := r3.Unit(edge(1))
	if n > 2 && r3.Norm(r3.Cross(u, edge(2))) <= tolerance {
		n = 2
	}
	if n == 2 {
		a := across(u)
		if !farthest(a) && !farthest(r3.Cross(u, a)) {
			return true, a
		}
		n = 3
	}
	normal = r3.Unit(r3.Cross(u, edge(2)))
	if n > 3 && math.Abs(r3.Dot(normal, edge(3))) <= tolerance {
		n = 3
	}
	if n == 3 && !farthest(normal) {
		return true, normal
	}
	hull.nc = 4
	if r3.Dot(normal, edge(3)) > 0 {
		hull.corners[1], hull.corners[2] = hull.corners[2], hull.corners[1]
	}
	for _, f := range [4][3]int{{0, 1, 2}, {0, 3, 1}, {1, 3, 2}, {2, 3, 0}} {
		hull.face(f[0], f[1], f[2])
	}
	return false, normal
}

// across returns a unit vector at right angles to a unit vector.
func across(u r3.Vec) r3.Vec {
	a := r3.Vec{X: 1}
	if math.Abs(u.X) > .7 {
		a = r3.Vec{Y: 1}
	}
	return r3.Unit(r3.Cross(u, a))
}

func (h *polytope) face(i, j, k int) {
	a := h.corners[i].w
	n := r3.Cross(r3.Sub(h.corners[j].w, a), r3.Sub(h.corners[k].w, a))
	f := facet{i: i, j: j, k: k, height: math.Inf(1)}
	// A face without area is never the nearest and hides nothing.
	if length := r3.Norm(n); length > 0 {
		f.normal = r3.Scale(1/length, n)
		f.height = r3.Dot(f.normal, a)
	}
	h.faces[h.nf] = f
	h.nf++
}

func (h *polytope) has(w r3.Vec, tolerance float64) bool {
	for i := range h.nc {
		if largest(r3.Sub(h.corners[i].w, w)) <= tolerance {
			return true
		}
	}
	return false
}

// grow takes in a corner outside a face: that face goes, with the faces round it
// that the corner sees too, and the edge round them is joined to the corner. It
// reports whether there was room.
//
// Only what hangs together goes. Among faces nearly in one plane rounding may
// have the corner see one far off, and a second hole would turn faces inside out.
func (h *polytope) grow(c corner, from int, tolerance float64) bool {
	if h.nc == polytopeCorners {
		return false
	}
	var sees, gone [polytopeFaces]bool
	for n := range h.nf {
		f := &h.faces[n]
		sees[n] = r3.Dot(f.normal, c.w)-f.height > tolerance
	}
	var rim [polytopeFaces][2]int
	edges, went := 0, 0
	take := func(n int) {
		gone[n], sees[n] = true, false
		went++
		f := &h.faces[n]
		for _, e := range [3][2]int{{f.i, f.j}, {f.j, f.k}, {f.k, f.i}} {
			rim[edges] = e
			edges++
		}
	}
	take(from)
	for e := 0; e < edges; {
		i, j := rim[e][0], rim[e][1]
		within := -1 // the edge met again, the other way round
		for k := e + 1; k < edges && within < 0; k++ {
			if rim[k] == [2]int{j, i} {
				within = k
			}
		}
		if within >= 0 {
			rim[within] = rim[edges-1]
			rim[e] = rim[edges-2]
			edges -= 2
			continue
		}
		beyond := -1
		for n := range h.nf {
			if sees[n] && h.faces[n].runs(j, i) {
				beyond = n
				break
			}
		}
		if beyond < 0 {
			e++
			continue
		}
		if edges+3 > len(rim) {
			return false
		}
		take(beyond)
	}
	if h.nf-went+edges > polytopeFaces {
		return false
	}
	kept := 0
	for n := range h.nf {
		if !gone[n] {
			h.faces[kept] = h.faces[n]
			kept++
		}
	}
	h.nf = kept
	h.corners[h.nc] = c
	h.nc++
	for _, e := range rim[:edges] {
		h.face(e[0], e[1], h.nc-1)
	}
	return true
}

// runs reports whether the facet has the edge from i to j.
func (f *facet) runs(i, j int) bool {
	return f.i == i && f.j == j || f.j == i && f.k == j || f.k == i && f.i == j
}

// nearest returns the point of the polytope's surface nearest to the origin, on a
// face no higher than asked. Where several faces lie in one plane, it is on the
// one that the origin is under.
func (h *polytope) nearest(height float64) simplex {
	var best simplex
	least := math.Inf(1)
	for _, f := range h.faces[:h.nf] {
		if f.height > height {
			continue
		}
		s := simplex{at: [4]corner{h.corners[f.i], h.corners[f.j], h.corners[f.k]}, n: 3}
		s.share = s.onTriangle(0, 1, 2)
		if d := r3.Norm2(s.point(&s.share)); d < least {
			best, least = s, d
		}
	}
	return best
}
