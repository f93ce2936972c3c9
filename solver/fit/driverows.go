package fit

import (
	"math"

	"armwright/specs"
	"armwright/specs/stock"
)

// driveRows adds the requirements of the drive.
func (s *Judge) driveRows(g *specs.Geometry, d drive, out *rows) {
	for _, v := range []struct {
		name string
		t    Torque
	}{{"light load", d.Light}, {"middle load", d.Middle}, {"heavy load", d.Heavy}} {
		out.add("torque-match", -1, v.t.RMS).at(v.t.WorstAngle).named(v.name)
	}
	c := g.Cam
	if c == nil {
		return
	}
	out.add("cam-bend", -1, d.LeastRadius).named("cam")
	out.add("cam-bend", -1, c.GuideR).named("guide sheave")
	tread := 2 * math.Min(d.LeastRadius, c.GuideR)
	keep := stock.BendStrength(tread / s.cable.Diameter)
	lifting := math.Pow(s.asked.Resistance.Efficiency, float64(s.asked.Resistance.Sheaves))
	out.add("cable-factor", -1, s.cable.Breaking*keep*lifting/d.heavyTension).named("heavy load, lifting")
	out.add("stack-travel", -1, d.TakeUp)
	at, _ := s.fleet(g, d.Profile)
	out.add("fleet-angle", -1, at).named("cable to the cam's plane")
}
