package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Distances are found to precision times the size of the task, the largest
// coordinate of one body seen from the other: 1e-6 mm where that is a metre.
const precision = 1e-9

// steps bounds the search. Bodies with corners take about ten; a round face
// pressed against a round face takes the most.
const steps = 100

// corner is a point of the difference of two bodies, a - b, and the points it
// comes from, all in the frame of the first body.
type corner struct{ w, a, b r3.Vec }

// pair is two bodies, the second placed in the frame of the first.
type pair struct {
	a, b   Convex
	sa, sb skinned // not nil where the body has a skin
	at     Placement
	// than ends the search early: a distance between spines of no interest beyond.
	than float64
}

// support returns the farthest point of the difference of the spines along d.
func (p *pair) support(d r3.Vec) corner {
	var c corner
	if p.sa != nil {
		c.a = p.sa.spine(d)
	} else {
		c.a = p.a.Support(d)
	}
	e := r3.Vec{
		X: -(p.at.X.X*d.X + p.at.X.Y*d.Y + p.at.X.Z*d.Z),
		Y: -(p.at.Y.X*d.X + p.at.Y.Y*d.Y + p.at.Y.Z*d.Z),
		Z: -(p.at.Z.X*d.X + p.at.Z.Y*d.Y + p.at.Z.Z*d.Z),
	}
	if p.sb != nil {
		e = p.sb.spine(e)
	} else {
		e = p.b.Support(e)
	}
	c.b = p.at.Point(e)
	c.w = r3.Sub(c.a, c.b)
	return c
}

// Distance returns the distance between two convex bodies, each at its place,
// and the nearest points of both. Where they meet it is negative: the least
// distance by which one would have to be moved to part them, and moving it by
// the way between the points does so. Bodies of no size (a point, a flat plate)
// are allowed.
//
// Bodies apart are right within 1e-9 of the size of the task (1e-6 mm for bodies
// within a metre), or 1e-7 where round faces lie nearly against each other.
// Overlaps of bodies with corners are right within 1e-9 too, of round ones
// within 1e-6; those of rounds on nearly one axis, where every way out is about
// as good, are told at most a thousandth too deep, never too shallow.
//
// The distance is that of the origin from the difference of the bodies (Gilbert,
// Johnson and Keerthi 1988) with signs of areas and volumes to name the nearest
// side (after Montanari, Petrinic and Barbieri 2017); the depth is found by
// expanding a polytope within it (van den Bergen 2001). All from memory.
func Distance(a Convex, pa Placement, b Convex, pb Placement) (gap float64, onA, onB r3.Vec) {
	p, skin := newPair(a, pa, b, pb)
	gap, onA, onB, normal := p.apart()
	gap -= skin
	if p.sa != nil {
		onA = r3.Add(onA, r3.Scale(p.sa.skin(), normal))
	}
	if p.sb != nil {
		onB = r3.Sub(onB, r3.Scale(p.sb.skin(), normal))
	}
	return gap, pa.Point(onA), pa.Point(onB)
}

// Nearer returns the Distance of two bodies where that is less than a limit. Where it
// is not, that is found out with less work: gap lies between the limit and the
// distance. Along the unit vector way, from the first body toward the second, they are
// gap apart: a look along it may save the search after a small move.
func Nearer(a Convex, pa Placement, b Convex, pb Placement, than float64) (gap float64, way r3.Vec) {
	p, skin := newPair(a, pa, b, pb)
	p.than = than + skin
	gap, _, _, way = p.apart()
	return gap - skin, pa.Vector(way)
}

// newPair returns two bodies and how much their skins reach beyond their spines.
func newPair(a Convex, pa Placement, b Convex, pb Placement) (p pair, skin float64) {
	p = pair{a: a, b: b, at: pa.Inverse().Then(pb), than: math.Inf(1)}
	if s, ok := a.(skinned); ok {
		p.sa = s
		skin += s.skin()
	}
	if s, ok := b.(skinned); ok {
		p.sb = s
		skin += s.skin()
	}
	return p, skin
}

// apart returns the signed distance of the spines, the nearest points and the
// unit vector from the first toward the second, in the first's frame.
func (p *pair) apart() (gap float64, onA, onB, normal r3.Vec) {
	var s simplex
	v := r3.Scale(-1, p.at.Origin)
	if v == (r3.Vec{}) {
		v.X = 1
	}
	best, bound := math.Inf(1), math.Inf(-1)
	size := 0.0
	for range steps {
		w := p.support(r3.Scale(-1, v))
		size = max(size, largest(w.w), largest(w.a))
		tolerance := precision * size
		if s.n > 0 { // no point of the difference is nearer along v than w
			bound = max(bound, r3.Dot(v, w.w)/r3.Norm(v))
			if bound > p.than {
				return bound, onA, onB, r3.Scale(-1/r3.Norm(v), v)
			}
		}
		if best-bound <= tolerance || s.has(w.w) {
			break
		}
		next := s
		next.push(w)
		nv, inside := next.reduce()
		length := math.Sqrt(r3.Norm2(nv))
		if bound <= tolerance && (inside || length <= tolerance) {
			return p.depth(&next, tolerance)
		}
		if inside || length >= best { // rounding led astray
			next = s
			next.push(w)
			next.thorough = true
			nv, _ = next.reduce()
			if length = r3.Norm(nv); length >= best {
				break
			}
			next.thorough = false
		}
		s, v, best = next, next.square(nv), length
	}
	onA, onB = s.points()
	return best, onA, onB, r3.Scale(-1/r3.Norm(v), v)
}

func largest(v r3.Vec) float64 { return max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z)) }
