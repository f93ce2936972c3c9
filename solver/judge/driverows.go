package judge

import (
	"math"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/stock"
)

// DriveRows adds the requirements of the drive in its station.
func (s *Judge) DriveRows(g *specs.Geometry, d drive.State, st *build.Station, sat []seat.Person, out *require.Rows) {
	s.StandingRows(g, &d, st, sat, out)
	c := g.Cam
	if c == nil {
		return
	}
	out.Add("cam-bend", -1, d.LeastRadius).Named("cam")
	out.Add("cam-bend", -1, c.GuideR).Named("guide sheave")
	keep := stock.BendStrength(s.Cable.TreadRatio(math.Min(d.LeastRadius, c.GuideR)))
	lifting := math.Pow(s.Asked.Resistance.Efficiency, float64(s.Asked.Resistance.Sheaves))
	out.Add("cable-factor", -1, s.Cable.Breaking*keep*lifting/d.HeavyTension).Named("heavy load, lifting")
	out.Add("stack-travel", -1, d.TakeUp)
}

// StandingRows adds those of them that depend on how the station stands, with the drive as
// it is. The torque is judged in the middle axis position, and by how much worse it is in
// each other that one of the seated persons uses: in all where nobody is seated.
func (s *Judge) StandingRows(g *specs.Geometry, d *drive.State, st *build.Station, sat []seat.Person, out *require.Rows) {
	for _, v := range []struct {
		name string
		t    *drive.Torque
	}{{"light load", &d.Light}, {"middle load", &d.Middle}, {"heavy load", &d.Heavy}} {
		out.Add("torque-match", -1, v.t.RMS).At(v.t.WorstAngle).Named(v.name)
	}
	others := Others(sat, len(d.Positions))
	for i := range d.Positions {
		if others(i) {
			s.positionRows(d, i, out)
		}
	}
	if t := s.Asked.Resistance.Torque; t.To > 0 {
		if t.From > 0 {
			out.Add("torque-range", -1, s.Peak(&d.Light)/t.From).Named("light load")
		}
		out.Add("torque-range", -1, t.To/s.Peak(&d.Heavy)).Named("heavy load")
	}
	if g.Cam != nil {
		out.Add("fleet-angle", -1, s.Fleet(st)).Named("cable to the cam's plane")
	}
}

// UsesAxis reports whether one of the persons has an axis position for an arm, and so
// whether the torque in it is judged: where nobody is seated, it is in all.
func UsesAxis(sat []seat.Person, position int) bool {
	for i := range sat {
		if sat[i].Axis == position || sat[i].Left.Axis == position {
			return true
		}
	}
	return len(sat) == 0
}

// Others tells of n axis positions those beside the middle one in which the torque is
// judged: of an even number all, since the cable is laid between the two in the middle.
func Others(sat []seat.Person, n int) func(position int) bool {
	return func(i int) bool { return (n%2 == 0 || i != n/2) && UsesAxis(sat, i) }
}

// positionRows adds the torque in one axis position. One in which no cable can be led
// misses by all of the peak. There are as many rows one way as the other.
func (s *Judge) positionRows(d *drive.State, position int, out *require.Rows) {
	t := &d.Positions[position]
	for _, v := range []struct {
		name    string
		t, from *drive.Torque
	}{{"light load", &t.Light, &d.Light}, {"middle load", &t.Middle, &d.Middle}, {"heavy load", &t.Heavy, &d.Heavy}} {
		if t.Fault != nil {
			out.Named(out.Add("torque-swing", -1, 1), "axis position %d, where the cable cannot be led", position+1)
			continue
		}
		out.Named(out.Add("torque-swing", -1, math.Max(0, v.t.RMS-v.from.RMS)).At(v.t.WorstAngle), "%s, axis position %d", v.name, position+1)
	}
}
