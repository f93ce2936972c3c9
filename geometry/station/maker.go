package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/station/values"
)

// Maker builds stations. It remembers shapes from one to the next, so that a
// search that uses one maker builds faster. The zero value is ready; it is for one
// goroutine at a time.
type Maker struct {
	b builder
}

// Build makes the assembly of a station. Where a condition is not met it is built
// as near to it as can be, and the need's slack tells by how much it fails. An
// error is of a value from which nothing can be built: *ValueError. The next Build
// of the same maker overwrites the assembly and the needs.
func (m *Maker) Build(v *values.Station) (*assembly.Assembly, []Need, error) {
	b := &m.b
	b.towerPlan, b.routed = Tower{}, false
	if err := validate(v); err != nil {
		return nil, nil, err
	}
	b.begin(v)

	b.base()
	b.posts()
	b.indexPlate()
	b.bracket()
	b.arm()
	b.armPad()
	b.chestPad()
	b.stops()
	b.counterweight()

	b.seat()
	b.backPad()
	b.footPlate()
	b.tower()
	b.sheaves()
	b.countershaft()
	b.camDrive()
	b.lever()
	b.linkage()
	b.eccentric()
	b.guards()

	if b.failed != nil {
		return nil, nil, b.failed
	}
	return &b.Assembly, b.needs, nil
}

// Route is the cable's way of the station built last; nil where it has none.
func (m *Maker) Route() *cable.Route {
	if !m.b.routed {
		return nil
	}
	r := m.b.route
	return &r
}

// Tower is the tower of the station built last; zero where it has none.
func (m *Maker) Tower() Tower { return m.b.towerPlan }
