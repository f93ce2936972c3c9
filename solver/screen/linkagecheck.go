package screen

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"
)

// linkageChecks screens what a linkage adds: output shaft with its bearings,
// pins, the welds of bars on shafts, and the bar that carries the output shaft.
// Each is at the heaviest load with the factors of frameLoads.
func (s *Screen) linkageChecks(g *specs.Geometry, l station.Layout, level float64, add func(id, part, what string, value, limit float64, unit, source, mark string) *StrengthCheck) {
	of := func(id string) float64 { return s.Limits[s.Index[id]] }
	state := s.LinkageState(g)
	weight := dynamicFactor * l.PlatesEachArm * balance.G
	force := dynamicFactor * state.PinForce
	const strength = "2.5 times the load, bright bar of the tubes' grade"

	over := l.PlatePlane() - l.BearingPlane() - drive.BearingApart/2
	_, _, equivalent := stock.Shaft(s.Asked.Stock.Shaft, weight*over+force*(l.CamPlane()-l.BearingPlane()-drive.BearingApart/2), weight*g.Linkage.Radius)
	add("member-stress", "output shaft", "bending with torsion (von Mises)", loadFactor*equivalent/s.Steel.Yield, of("member-stress"), "%", strength, "M")
	// The pin stands in the input or output bar and carries the coupler beside it.
	bend := force * (l.CouplerPlane() - l.CamPlane())
	_, _, equivalent = stock.Shaft(station.PinAcross(l.BarThick), bend, 0)
	add("member-stress", "coupler pins", "bending, coupler beside its bar", loadFactor*equivalent/s.Steel.Yield, of("member-stress"), "%", strength, "M")
	// A fillet round the hub of a bar: shear by the torque over its ring.
	ring := math.Pi * (s.Asked.Stock.Shaft * s.Asked.Stock.Shaft) / 2 * throat
	torque := dynamicFactor * math.Max(level, l.PlatesEachArm*balance.G*g.Linkage.Radius)
	add("member-stress", "welds of the bars on their shafts", "throat of "+s.Size(3)+" all round", loadFactor*torque/ring/s.Steel.WeldStrength(), of("member-stress"), "%",
		"EN 1993-1-8 simplified method, gamma M2 1.25", "S")
	carrier := combined(s.Arm, weight*g.Linkage.Ground, 0, weight*(l.PlatePlane()-l.BearingPlane()))
	add("member-stress", "bar to the output shaft", "bending with torsion under the plates", loadFactor*carrier/s.Steel.Yield, of("member-stress"), "%",
		"2.5 times the load (EN 957-2 5.2); yield strength of the grade", "M")
	load := weight*(1+over/drive.BearingApart) + force
	add("bearing-static", "output shaft's bearing next to the plates", "static rating over the load", s.Bearing.StaticFactor(load), of("bearing-static"), "", "ISO 76, oscillating pivots", "M")
}
