package judge

import (
	"math"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/specs/stock"
)

// DriveRows adds the requirements of the drive in its station.
func (s *Judge) DriveRows(g *specs.Geometry, d drive.State, st *build.Station, out *require.Rows) {
	for _, v := range []struct {
		name string
		t    drive.Torque
	}{{"light load", d.Light}, {"middle load", d.Middle}, {"heavy load", d.Heavy}} {
		out.Add("torque-match", -1, v.t.RMS).At(v.t.WorstAngle).Named(v.name)
	}
	c := g.Cam
	if c == nil {
		return
	}
	out.Add("cam-bend", -1, d.LeastRadius).Named("cam")
	out.Add("cam-bend", -1, c.GuideR).Named("guide sheave")
	tread := 2 * math.Min(d.LeastRadius, c.GuideR)
	keep := stock.BendStrength(tread / s.Cable.Diameter)
	lifting := math.Pow(s.Asked.Resistance.Efficiency, float64(s.Asked.Resistance.Sheaves))
	out.Add("cable-factor", -1, s.Cable.Breaking*keep*lifting/d.HeavyTension).Named("heavy load, lifting")
	out.Add("stack-travel", -1, d.TakeUp)
	out.Add("fleet-angle", -1, s.Fleet(st)).Named("cable to the cam's plane")
}
