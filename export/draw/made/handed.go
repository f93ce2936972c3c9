package made

import (
	"math"

	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// same is the distance, mm, below which two places are one.
const same = 1e-3

// handed reports whether no turning makes a body its own mirror image: then right and
// left parts are made opposite. Of the mirrorings that could do it, those in the
// planes and the point through the middle of its box are tried.
func handed(s solid.Solid) bool {
	p, ok := s.(solid.Prism)
	if !ok {
		return false
	}
	for _, flip := range [...]r3.Vec{{X: -1, Y: 1, Z: 1}, {X: 1, Y: -1, Z: 1}, {X: 1, Y: 1, Z: -1}, {X: -1, Y: -1, Z: -1}} {
		if falls(p, flip) {
			return false
		}
	}
	return true
}

// falls reports whether a prism falls on itself when it is flipped about the middle of
// its box.
func falls(p solid.Prism, flip r3.Vec) bool {
	box := p.Profile.Outer().Bounds()
	middle := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	centre := r3.Vec{X: middle.X, Y: middle.Y, Z: (p.From.At(middle) + p.To.At(middle)) / 2}
	vector := func(v r3.Vec) r3.Vec { return r3.Vec{X: flip.X * v.X, Y: flip.Y * v.Y, Z: flip.Z * v.Z} }
	point := func(q r3.Vec) r3.Vec { return r3.Add(centre, vector(r3.Sub(q, centre))) }

	from, to := p.From.Tilt, p.To.Tilt
	turned := func(t r2.Vec) r2.Vec { return r2.Vec{X: flip.Z * flip.X * t.X, Y: flip.Z * flip.Y * t.Y} }
	if flip.Z < 0 {
		from, to = to, from
	}
	if r2.Norm(r2.Sub(turned(from), p.From.Tilt)) > square || r2.Norm(r2.Sub(turned(to), p.To.Tilt)) > square {
		return false
	}
	for _, b := range p.Bores {
		if !bored(p.Bores, solid.Bore{At: point(b.At), Dir: vector(b.Dir), Diameter: b.Diameter, Depth: b.Depth}) {
			return false
		}
	}
	on := func(loop contour.Path, loops []contour.Path) bool {
		for _, q := range loop.Points(1) {
			f := point(r3.Vec{X: q.X, Y: q.Y})
			near := math.Inf(1)
			for _, o := range loops {
				gap, _ := o.Distance(r2.Vec{X: f.X, Y: f.Y})
				near = min(near, gap)
			}
			if near > same {
				return false
			}
		}
		return true
	}
	outer := p.Profile.Outer()
	if !on(outer, []contour.Path{outer}) {
		return false
	}
	for _, h := range p.Profile.Holes() {
		if !on(h, p.Profile.Holes()) {
			return false
		}
	}
	return true
}

// bored reports whether a bore is among others.
func bored(list []solid.Bore, b solid.Bore) bool {
	for _, o := range list {
		along := r3.Dot(r3.Unit(b.Dir), r3.Unit(o.Dir))
		if math.Abs(b.Diameter-o.Diameter) > same || math.Abs(b.Depth-o.Depth) > same || math.Abs(along) < 1-1e-9 {
			continue
		}
		if b.Depth > 0 && along < 0 {
			continue
		}
		if r3.Norm(r3.Cross(r3.Sub(b.At, o.At), r3.Unit(o.Dir))) < same {
			return true
		}
	}
	return false
}
