package fit

import (
	"sync"

	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// designs remembers the drives that were designed, by all that a design hangs on:
// explaining a brief begins many searches where others began. What it holds is
// shared and not changed.
type designs struct {
	mu    sync.Mutex
	known map[designKey]remembered
}

// designKey is all of brief and geometry that a drive hangs on.
type designKey struct {
	resistance          specs.Resistance
	stock               specs.Stock
	region              string
	match, bend, travel float64 // limits
	wanted              float64 // the strongest person's level
	axis                r3.Vec  // the middle one
	slope               float64 // of the pad
	handle              specs.Handle
}

// remembered is a drive, what of it the geometry holds, and why it cannot be made.
type remembered struct {
	drive     drive
	counter   *specs.Counterweight
	eccentric *specs.Eccentric
	cam       *specs.Cam
	lever     *specs.Lever
	linkage   *specs.Linkage
	err       error
}

// design chooses the drive and the counterweight that the brief asks for: by
// itself the lightest with which the torque match holds at all three loads;
// failing that, the best match.
func (s *study) design(g *specs.Geometry) (drive, error) {
	if g.Linkage != nil { // it is refined
		return s.designAnew(g)
	}
	m := newMachine(g)
	key := designKey{
		resistance: s.asked.Resistance, stock: s.asked.Stock, region: s.asked.Region,
		match: s.limitOf("torque-match"), bend: s.limitOf("cam-bend"), travel: s.limitOf("stack-travel"),
		wanted: s.wantedLevel(), axis: middleAxis(m), slope: m.rest.Slope, handle: g.Handle,
	}
	s.designs.mu.Lock()
	v, ok := s.designs.known[key]
	s.designs.mu.Unlock()
	if !ok {
		trial := *g
		v.drive, v.err = s.designAnew(&trial)
		v.counter, v.eccentric, v.cam, v.lever, v.linkage = trial.Counterweight, trial.Eccentric, trial.Cam, trial.Lever, trial.Linkage
		s.designs.mu.Lock()
		s.designs.known[key] = v
		s.designs.mu.Unlock()
	}
	if v.err != nil {
		return v.drive, v.err
	}
	g.Counterweight, g.Eccentric, g.Cam, g.Lever, g.Linkage = v.counter, v.eccentric, v.cam, v.lever, v.linkage
	if g.Base != nil {
		g.Base.TowerTall = s.towerFor(v.drive)
	}
	return v.drive, nil
}
