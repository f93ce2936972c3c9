package screen

import (
	"math"
	"slices"

	"armwright/geometry/balance"
	"armwright/solver/drive"

	"gonum.org/v1/gonum/spatial/r3"
)

// dropHeight is how far a load is let fall onto its stops, mm (judgement).
const dropHeight = 50.0

// drop screens stops and buffers when the heaviest load is let fall.
func (s *Screen) drop(r *rig, d *drive.State, out *screening) {
	bar, buffer := r.part(aStop), r.part(aBuffer)
	if bar == nil || buffer == nil {
		return
	}
	energy := 0.0
	if p := r.part(aPlates); p != nil {
		energy = p.Mass * balance.G * dropHeight
	} else if len(d.MomentArm) > 0 {
		// The stack lands on its own buffers, the arm goes on at the speed that the
		// cable had: ½ J ω² with ω² = 2 g h / r².
		arm := r.v.Ratio * slices.Min(d.MomentArm)
		energy = r.inertia * balance.G * dropHeight / (arm * arm)
	}
	across, long := buffer.Stock.Size[0], buffer.Stock.Size[1]
	stiff := rubber(across, long)
	force := math.Sqrt(2 * stiff * energy)
	out.size[stopBar], out.size[stopBuffer] = dropHeight, dropHeight
	out.value[stopBuffer] = force / stiff / long
	// The bar stands out from the inner cheek.
	root := r.planes.InnerCheek - r.thick(anInnerCheek)/2
	lever := root - r3.Dot(r3.Sub(buffer.Centre, r.pivot), r.axis)
	out.value[stopBar] = flat(force*lever, bar.Stock.Size[1], bar.Stock.Size[2]) / s.Steel.Yield

	if p := r.part(aStackBuffer); p != nil {
		across, long := p.Stock.Size[0], p.Stock.Size[1]
		stiff := rubber(across, long)
		energy := s.Asked.Resistance.Load.Heavy * balance.G * dropHeight / 2 // two to a stack
		out.size[stackBuffer] = dropHeight
		out.value[stackBuffer] = math.Sqrt(2*energy/stiff) / long
	}
}

// rubber is the stiffness of a round buffer, N/mm: its area over its length with the
// modulus of rubber of 60 Shore A and its shape factor (handbooks, M).
func rubber(across, long float64) float64 {
	const modulus = 4.0 // N/mm²
	shape := across / (4 * long)
	return modulus * (1 + 2*shape*shape) * math.Pi / 4 * across * across / long
}
