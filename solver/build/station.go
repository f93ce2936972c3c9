package build

import (
	"armwright/geometry/assembly"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"
)

// Station is what a geometry is built of: the one list of parts and joints from
// which balance, gaps, strength, drawings and lists are worked out.
type Station struct {
	Values   station.Values
	Assembly *assembly.Assembly
	Needs    []station.Need // what must hold so that it can be made as it is meant; short of it where Slack is negative
	Tower    station.Tower
	Route    *station.Route // of the right arm's cable; nil without one
	Fault    error          // a *station.ValueError of values from which nothing can be built; then there is no assembly
}

// Mass is that of all parts, kg; 0 without an assembly.
func (s *Station) Mass() float64 {
	if s.Assembly == nil {
		return 0
	}
	return s.Assembly.Mass()
}

// Station builds a geometry with its resistance. With a maker, which the next
// build uses again, what is returned lasts until then; without one it stays. A
// bench has no station: there are values, but its assembly is nil, and so is that
// of what cannot be built.
func (s *Builder) Station(g *specs.Geometry, d *drive.State, maker *station.Maker) Station {
	if s.Bench() {
		return Station{Values: s.Values(g, d)}
	}
	if maker == nil {
		maker = new(station.Maker)
	}
	out := Station{Values: s.Values(g, d)}
	out.Assembly, out.Needs, out.Fault = maker.Build(&out.Values)
	out.Tower, out.Route = maker.Tower(), maker.Route()
	return out
}
