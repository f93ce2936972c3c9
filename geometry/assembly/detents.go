package assembly

import (
	"math"
	"slices"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Detents are the holes of a slide whose positions are nearer to each other than two
// pin diameters: the holes of the inner tube are Every pitches apart, and the outer
// tube has Every pin holes, so that each position has one that fits, as on a vernier.
type Detents struct {
	pitch     float64
	positions int
	Every     int
}

// NewDetents are those of a slide with positions a pitch apart, mm, and a pin of a
// diameter.
func NewDetents(pitch float64, positions int, pin float64) Detents {
	if positions == 1 {
		return Detents{pitch, 1, 1}
	}
	return Detents{pitch, positions, max(1, int(math.Ceil(2*pin/pitch-1e-9)))}
}

// Outer is how far the outer tube's hole for a position is from its first one.
func (d Detents) Outer(hole int) float64 { return float64(hole*(d.Every+1)) * d.pitch }

// Hole is which of the outer tube's holes serves a position.
func (d Detents) Hole(position int) int { return (d.Every - position%d.Every) % d.Every }

// Inner returns how far the holes of the inner tube are from the outer tube's first
// one at the first position, each once.
func (d Detents) Inner() []float64 {
	out := make([]float64, 0, d.positions)
	for k := range d.positions {
		at := float64(k+d.Hole(k)*(d.Every+1)) * d.pitch
		if !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	return out
}

// PinMotion moves the pin along the outer tube to the hole that serves a position;
// way is from the outer tube's first hole to the next. It is nil where there is one
// hole.
func (d Detents) PinMotion(s Setting, way r3.Vec) Motion {
	if d.Every == 1 {
		return nil
	}
	p := &Positions{Setting: s, Places: make([]solid.Placement, d.positions)}
	for k := range p.Places {
		p.Places[k] = solid.Shift(r3.Scale(d.Outer(d.Hole(k)), way))
	}
	return p
}
