package stock

import "math"

// Cantilever returns deflection, mm, of the free end and bending stress,
// N/mm², at the fixed end of a beam of the given length, mm, second moment of
// area, mm⁴, and section modulus, mm³, under a load at the free end, N.
func Cantilever(load, length, second, modulus float64) (deflection, stress float64) {
	return load * length * length * length / (3 * YoungsModulus * second), load * length / modulus
}

// SimpleSpan returns deflection, mm, and bending stress, N/mm², in the middle
// of a beam carried at both ends, under a load in its middle; units as
// Cantilever's.
func SimpleSpan(load, length, second, modulus float64) (deflection, stress float64) {
	return load * length * length * length / (48 * YoungsModulus * second), load * length / (4 * modulus)
}

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
