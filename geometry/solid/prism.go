package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Prism is a profile carried along its own z from the plane From up to the plane
// To, with holes drilled across: tubes with mitred ends, plates (their holes
// belong to the profile), boards, rounds. The planes do not meet over the
// profile.
type Prism struct {
	Profile  *Profile
	From, To End
	Bores    []Bore
}

// Straight returns the prism of a profile from z = 0 to a length.
func Straight(p *Profile, length float64) Prism { return Prism{Profile: p, To: Flat(length)} }

func (p Prism) bulk() bulk {
	m := p.Profile.areas().bulk(p.From, p.To)
	for i := range p.Bores {
		for _, piece := range p.cut(p.Bores[i]) {
			m.less(piece.bulk(), piece.at)
		}
	}
	return m
}

func (p Prism) moments() moments {
	m := p.Profile.moments().between(p.From, p.To)
	for i := range p.Bores {
		for _, piece := range p.cut(p.Bores[i]) {
			m.less(piece.moments(), piece.at)
		}
	}
	return m
}

// Volume implements Solid.
func (p Prism) Volume() float64 { return p.bulk().volume }

// Centroid implements Solid.
func (p Prism) Centroid() r3.Vec { return p.bulk().centroid() }

// Inertia implements Solid.
func (p Prism) Inertia() Tensor { return p.moments().inertia() }

// Hull implements Solid.
func (p Prism) Hull() Convex { return p.convex(p.Profile.edge()) }

// Pieces implements Solid.
func (p Prism) Pieces() []Convex {
	pieces := p.Profile.pieces()
	out := make([]Convex, len(pieces))
	for i, r := range pieces {
		out[i] = p.convex(r)
	}
	return out
}

// convex carries a convex area between the prism's ends.
func (p Prism) convex(r rim) Convex {
	flat := p.From.Tilt == r2.Vec{} && p.To.Tilt == r2.Vec{}
	if low, high, upright := r.rectangle(); flat && upright {
		return &brick{r3.Vec{X: low.X, Y: low.Y, Z: p.From.Z}, r3.Vec{X: high.X, Y: high.Y, Z: p.To.Z}}
	}
	return &column{rim: r, from: p.From, to: p.To}
}

func (p Prism) box() (low, high r3.Vec) {
	b := p.Profile.Bounds()
	low, high = r3.Vec{X: b.Min.X, Y: b.Min.Y, Z: math.Inf(1)}, r3.Vec{X: b.Max.X, Y: b.Max.Y, Z: math.Inf(-1)}
	for _, x := range [2]float64{b.Min.X, b.Max.X} {
		for _, y := range [2]float64{b.Min.Y, b.Max.Y} {
			low.Z = min(low.Z, p.From.Z+p.From.Tilt.X*x+p.From.Tilt.Y*y)
			high.Z = max(high.Z, p.To.Z+p.To.Tilt.X*x+p.To.Tilt.Y*y)
		}
	}
	return low, high
}

func (p Prism) mirrored() Solid {
	q := Prism{Profile: p.Profile.Mirrored(), From: p.From.mirrored(), To: p.To.mirrored()}
	if len(p.Bores) > 0 {
		q.Bores = make([]Bore, len(p.Bores))
		for i, b := range p.Bores {
			q.Bores[i] = b.mirrored()
		}
	}
	return q
}
