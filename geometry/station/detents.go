package station

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// detents are the holes of a slide whose positions are nearer to each other than two
// pin diameters: the holes of the inner tube are Every pitches apart, and the outer
// tube has Every pin holes, so that each position has one that fits, as on a vernier.
type detents struct {
	pitch     float64
	positions int
	every     int
}

func newDetents(pitch float64, positions int, pin float64) detents {
	if positions == 1 {
		return detents{pitch, 1, 1}
	}
	return detents{pitch, positions, max(1, int(math.Ceil(2*pin/pitch-1e-9)))}
}

// outer is how far the outer tube's hole for a position is from its first one.
func (d detents) outer(hole int) float64 { return float64(hole*(d.every+1)) * d.pitch }

// hole is which of the outer tube's holes serves a position.
func (d detents) hole(position int) int { return (d.every - position%d.every) % d.every }

// inner returns how far the holes of the inner tube are from the outer tube's first
// one at the first position, each once.
func (d detents) inner() []float64 {
	out := make([]float64, 0, d.positions)
	for k := range d.positions {
		at := float64(k+d.hole(k)*(d.every+1)) * d.pitch
		if !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	return out
}

// pinMotion moves the pin along the outer tube to the hole that serves a position;
// way is from the outer tube's first hole to the next. It is nil where there is one
// hole.
func (d detents) pinMotion(s assembly.Setting, way r3.Vec) assembly.Motion {
	if d.every == 1 {
		return nil
	}
	p := &assembly.Positions{Setting: s, Places: make([]solid.Placement, d.positions)}
	for k := range p.Places {
		p.Places[k] = solid.Shift(r3.Scale(d.outer(d.hole(k)), way))
	}
	return p
}
