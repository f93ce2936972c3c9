// Package balance answers whether a station tips and whether its user stays
// on the seat: support polygon, tilt angle, energy margin, and the equilibrium
// of the seated person. Machine frame, mm, kg, N, rad.
package balance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// G is standard gravity, m/s² (CODATA).
const G = 9.80665

// Edge is one tipping edge of the support polygon with what stands over it.
type Edge struct {
	From, To r2.Vec
	Inside   float64 // horizontal distance of the centre of mass inside the edge, mm; negative outside
	Tilt     float64 // tilt about the edge at which the body tips, rad; negative when it tips on the level
	Energy   float64 // work to tip about the edge, N·mm; 0 when it tips by itself
}

// Edges returns one Edge for each side of the support polygon, given
// counter-clockwise, for a mass (kg) whose centre is at c. The centre must be
// above the floor.
//
// Tilt is atan(d/h); energy is m g (√(h²+d²) − h) after Messuri and Klein
// 1985 (from memory).
func Edges(feet []r2.Vec, mass float64, c r3.Vec) []Edge {
	out := make([]Edge, len(feet))
	for i, a := range feet {
		b := feet[(i+1)%len(feet)]
		e := Edge{From: a, To: b}
		d := r2.Sub(b, a)
		n := r2.Norm(d)
		if n > 0 {
			e.Inside = (d.X*(c.Y-a.Y) - d.Y*(c.X-a.X)) / n
		}
		e.Tilt = math.Atan2(e.Inside, c.Z)
		if e.Inside > 0 {
			e.Energy = mass * G * (math.Hypot(c.Z, e.Inside) - c.Z)
		}
		out[i] = e
	}
	return out
}

// LeastTilt returns the edge over which the body tips first.
func LeastTilt(edges []Edge) Edge {
	least := edges[0]
	for _, e := range edges[1:] {
		if e.Tilt < least.Tilt {
			least = e
		}
	}
	return least
}
