package stock

import "math"

// Shaft returns bending, torsional and equivalent (von Mises) stress, N/mm²,
// at the surface of a solid round shaft of diameter d, mm, under a bending
// moment and a torque, N·mm.
func Shaft(d, moment, torque float64) (bending, torsion, equivalent float64) {
	modulus := math.Pi * d * d * d / 32
	bending = moment / modulus
	torsion = torque / (2 * modulus)
	return bending, torsion, math.Sqrt(bending*bending + 3*torsion*torsion)
}

// RoundBar returns the mass, kg, of a round steel bar of diameter d and length, mm.
func RoundBar(d, length float64) float64 { return math.Pi / 4 * d * d * length * SteelDensity }
