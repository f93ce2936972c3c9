package assembly

import (
	"math"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bore is a round hole of a part: a point of its centreline, its direction and its
// diameter, mm; machine frame, reference pose.
type Bore struct {
	At, Dir  r3.Vec
	Diameter float64
}

// Off is how far a place is from the centreline.
func (b *Bore) Off(at r3.Vec) float64 { return r3.Norm(r3.Cross(r3.Sub(at, b.At), b.Dir)) }

// Bores lists the round holes of a part: those of its outline, with the round ends of
// slots, and those drilled across, or the bore of a turned one.
func (p *Part) Bores() []Bore {
	var out []Bore
	add := func(at, dir r3.Vec, d float64) {
		out = append(out, Bore{p.Place.Point(at), r3.Unit(p.Place.Vector(dir)), d})
	}
	switch s := p.Solid.(type) {
	case solid.Prism:
		for _, h := range s.Profile.Holes() {
			if c, r, ok := h.Round(); ok {
				add(r3.Vec{X: c.X, Y: c.Y, Z: s.From.At(c)}, r3.Vec{Z: 1}, 2*r)
			}
			for _, e := range h.RoundEnds() {
				add(r3.Vec{X: e.Centre.X, Y: e.Centre.Y, Z: s.From.At(e.Centre)}, r3.Vec{Z: 1}, 2*e.Radius)
			}
		}
		for _, b := range s.Bores {
			add(b.At, b.Dir, b.Diameter)
		}
	case solid.Turned:
		if s.Bore > 0 {
			add(r3.Vec{}, r3.Vec{Z: 1}, s.Bore)
		}
	}
	return out
}

// About are those of the round holes of a part that its bolts in a joint may go
// through: by place. A joint's place is among its bolts, or on one of them.
func (p *Part) About(j *Joint) []Bore {
	const near = 5.0 // mm: a place may lie beside the hole
	within := math.Hypot(j.Detail.Pattern[0], j.Detail.Pattern[1]) + near
	if j.Kind == Swivel {
		within = math.Inf(1) // anywhere round the swivel line
	}
	var out []Bore
	for _, b := range p.Bores() {
		if b.Off(j.At) <= within {
			out = append(out, b)
		}
	}
	return out
}
