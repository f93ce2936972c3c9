package drive

import (
	"fmt"
	"math"
	"slices"

	"armwright/specs"
)

// Design chooses the drive and the counterweight that the brief asks for: by
// itself the lightest with which the torque match holds at all three loads;
// failing that, the best match. Own is what the parts of the drive are taken to
// weigh, N·mm at each angle, as the one designed before showed; nil at first. A cam and
// its guide sheave are placed for a pad whose slope is laid, rad.
func (s *Designer) Design(g *specs.Geometry, own []float64, laid float64) (State, error) {
	with := *s
	with.own, with.laid = own, laid
	d, err := with.recall(g)
	d.Own = own
	return d, err
}

// recall chooses drive and counterweight, or takes over what was chosen before.
func (s *Designer) recall(g *specs.Geometry) (State, error) {
	if g.Linkage != nil { // it is refined
		return s.designAnew(g)
	}
	m := NewMachine(g)
	key := designKey{
		resistance: s.Asked.Resistance, stock: s.Asked.Stock, region: s.Asked.Region,
		match: s.matchGoal(), bend: s.LimitOf("cam-bend"), travel: s.LimitOf("stack-travel"),
		wanted: s.wantedLevel(), axis: m.Geometry.Pivots.MeanAxis(), slope: m.Rest.Slope, laid: s.laid, handle: g.Handle, own: fmt.Sprint(s.own),
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
	return v.drive, nil
}

// matchGoal is the rms difference from the strength curve that will do: just
// inside the limit, and the room that the search is to have.
func (s *Designer) matchGoal() float64 {
	k := s.KindOf("torque-match")
	return (s.Limits[k] - s.RoomOf(k)) * 0.98
}

// designAnew is recall, nothing remembered.
func (s *Designer) designAnew(g *specs.Geometry) (State, error) {
	goal := s.matchGoal()
	try := func(counter *specs.Counterweight) (State, error) {
		g.Counterweight, g.Eccentric = counter, nil
		switch s.Asked.Resistance.Drive {
		case "lever":
			s.designLever(g)
			return s.Evaluate(g)
		case "linkage":
			var err error
			if g.Linkage != nil {
				if g.Linkage, err = s.refineBars(g); err == nil {
					if d, err := s.Evaluate(g); err == nil {
						return d, nil
					}
				}
				// Over another range than they were made for bars may pass a dead point.
			}
			if g.Linkage, err = s.solveBars(g, barSeed); err != nil {
				return State{}, err
			}
			return s.Evaluate(g)
		}
		return s.designCam(g, goal, 0)
	}
	d, err := s.counterChoice(g, goal, try)
	if most := s.Asked.Resistance.Eccentric; err == nil && most > 0 && g.Cam != nil {
		trial := *g
		trial.Counterweight = nil
		e, failed := s.designCam(&trial, goal, most)
		meets := failed == nil && e.worst() <= goal
		if meets && (d.worst() > goal || trial.Cam.Ratio < g.Cam.Ratio) || failed == nil && !meets && e.worst() < d.worst() {
			*g, d = trial, e
		}
	}
	return d, err
}

// counterChoice chooses among the counterweights that the brief allows: the first
// that lets all three loads meet the goal is taken, or else the best.
//
// What the arm's own weight spoils can be told beforehand: were the middle load
// matched exactly, the light and the heavy load would miss the curve by the
// moment of gravity times what they differ from it. Only where a drive
// must be worked out is it: for the first share that promises the goal and, if
// that one breaks its promise, for all.
func (s *Designer) counterChoice(g *specs.Geometry, goal float64, try func(*specs.Counterweight) (State, error)) (State, error) {
	list := s.counterweights(g)
	if s.Asked.Resistance.Drive == "cam" {
		promises := func(c *specs.Counterweight) bool { return s.promise(g, c) <= goal }
		if i := slices.IndexFunc(list, promises); i >= 0 {
			if d, err := try(list[i]); err == nil && d.worst() <= goal {
				return d, nil
			}
		}
	}
	var best State
	var chosen specs.Geometry
	for i, counter := range list {
		d, err := try(counter)
		if err != nil {
			return d, err
		}
		if i == 0 || d.worst() < best.worst()-1e-6 {
			best, chosen = d, *g
		}
		if d.worst() <= goal {
			break
		}
	}
	*g = chosen
	return best, nil
}

// promise is the largest rms difference from the curve over the three loads with
// a counterweight, were the middle load's match perfect and of the wanted level.
func (s *Designer) promise(g *specs.Geometry, counter *specs.Counterweight) float64 {
	bare := *g
	bare.Eccentric, bare.Counterweight = nil, counter
	gravity := s.GravityMoments(&bare)
	load := s.Asked.Resistance.Load
	level := s.wantedLevel() * load.Middle / load.Heavy
	worst := 0.0
	for _, mass := range []float64{load.Light, load.Heavy} {
		k := mass / load.Middle
		t := make([]float64, len(s.Shape))
		for i, v := range s.Shape {
			t[i] = k*(level*v-gravity[i]) + gravity[i]
		}
		worst = math.Max(worst, s.torque(mass, t).RMS)
	}
	return worst
}
