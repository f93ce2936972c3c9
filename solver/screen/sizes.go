package screen

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/solver/require"

	"gonum.org/v1/gonum/spatial/r3"
)

// sizes adds the outside dimensions of the station with all its parts, over the
// loaded range and in every axis position. Seat, handle and foot plate stay inside
// these in all their positions.
func (s *Screen) sizes(sc *Scene, out *require.Rows, known Memory) {
	g := sc.Geometry
	if g.Base == nil {
		return
	}
	low, high, top := s.envelope(sc, known)
	out.Add("footprint-length", -1, high.X-low.X)
	out.Add("footprint-width", -1, 2*high.Y)
	out.Add("height", -1, high.Z).At(top)
}

// edge is how far inside the envelope, mm, what is taken for a part of its edge may lie:
// two that tie are both followed.
const edge = 1.0

// envelope is the box of all parts over axis positions and flexions, and the
// flexion of its greatest height. Stations are symmetrical: the left side's parts
// stand where the right one's mirror images do.
func (s *Screen) envelope(sc *Scene, known Memory) (low, high r3.Vec, top float64) {
	a := sc.Station.Assembly
	low, high = r3.Vec{X: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Z: math.Inf(-1)}
	top = s.Angles[0]
	if a == nil {
		far := r3.Vec{X: unbuildable * 10, Y: unbuildable * 10, Z: unbuildable * 10}
		return r3.Scale(-1, far), far, top
	}
	pose := a.Reference
	shop := known.Workshop()
	places := shop.places
	defer func() { shop.places = places }()
	take := func(at outlier) (l, h r3.Vec) {
		p := &a.Parts[at.part]
		l, h = solid.Bounds(p.Solid, places[p.Group].Then(p.Place))
		low = r3.Vec{X: min(low.X, l.X), Y: min(low.Y, l.Y), Z: min(low.Z, l.Z)}
		if h.Z > high.Z {
			top = s.Angles[at.at]
		}
		high = r3.Vec{X: max(high.X, h.X), Y: max(high.Y, h.Y, -l.Y), Z: max(high.Z, h.Z)}
		return l, h
	}
	if shop.follows(sc, known) {
		at := outlier{-1, -1, -1}
		for _, o := range shop.outmost {
			if o.axis != at.axis || o.at != at.at {
				pose.Axis, pose.Flexion = o.axis, [2]float64{s.Angles[o.at], s.Angles[o.at]}
				places = a.At(pose, places)
			}
			at = o
			take(o)
		}
		return low, high, top
	}

	moves, swivels := turning(a), make([]bool, len(a.Groups))
	reference := a.At(pose, nil)
	for i := range sc.Geometry.Pivots.Axes {
		pose.Axis = i
		places = a.At(pose, places)
		for g := range places {
			swivels[g] = swivels[g] || places[g] != reference[g]
		}
	}
	shop.balls = shop.balls[:0]
	for i := range a.Parts {
		shop.balls = append(shop.balls, ballOf(&a.Parts[i]))
	}
	all := shop.taken[:0]
	inside := func(l, h r3.Vec) bool {
		return l.X > low.X && h.X < high.X && l.Y > -high.Y && h.Y < high.Y && h.Z < high.Z
	}
	// look takes a part, but for one that a ball or a box round it shows to lie inside
	// the envelope by a margin.
	look := func(at outlier, margin float64) {
		p := &a.Parts[at.part]
		c, r := places[p.Group].Point(p.Centre), shop.balls[at.part]+margin
		if inside(r3.Sub(c, r3.Vec{X: r, Y: r, Z: r}), r3.Add(c, r3.Vec{X: r, Y: r, Z: r})) {
			return
		}
		box := solid.BoxOf(p.Solid, places[p.Group].Then(p.Place))
		if l, h := box.Bounds(); inside(r3.Sub(l, r3.Vec{X: margin, Y: margin, Z: margin}), r3.Add(h, r3.Vec{X: margin, Y: margin, Z: margin})) {
			return
		}
		l, h := take(at)
		all = append(all, taken{at, l, h})
	}
	pose.Axis = a.Reference.Axis
	places = a.At(pose, places)
	for i := range a.Parts {
		if g := a.Parts[i].Group; !moves[g] && !swivels[g] && a.Parts[i].Side != assembly.Left {
			look(outlier{i, pose.Axis, 0}, edge)
		}
	}
	for axis := range sc.Geometry.Pivots.Axes {
		for k, theta := range s.Angles {
			pose.Axis, pose.Flexion = axis, [2]float64{theta, theta}
			places = a.At(pose, places)
			for i := range a.Parts {
				p := &a.Parts[i]
				if p.Side == assembly.Left || !moves[p.Group] && (k > 0 || !swivels[p.Group]) {
					continue
				}
				look(outlier{i, axis, k}, 0)
			}
		}
	}
	if shop.taken = all; known.Fixed() {
		shop.outmost = shop.outmost[:0]
		for i := range all {
			if v := &all[i]; v.low.X < low.X+edge || v.high.X > high.X-edge || v.high.Z > high.Z-edge || max(v.high.Y, -v.low.Y) > high.Y-edge {
				shop.outmost = append(shop.outmost, v.outlier)
			}
		}
	}
	return low, high, top
}

// ballOf is the radius of a ball round a part's centre that holds the part.
func ballOf(p *assembly.Part) float64 {
	b := solid.BoxOf(p.Solid, p.Place)
	from := r3.Sub(p.Centre, b.Centre)
	far := func(i int) float64 { return math.Abs(r3.Dot(from, b.Axes[i])) + b.Half[i] }
	x, y, z := far(0), far(1), far(2)
	return math.Sqrt(x*x + y*y + z*z)
}
