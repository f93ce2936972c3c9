package drive

import (
	"slices"

	"armwright/geometry/linkage"
	"armwright/specs"
)

// Again is a state as designing it anew on a geometry a little away from its own would leave
// it, to first order: gravity and plates as they are there, and a cam that takes up, at the
// middle load, what the arm has come to weigh otherwise. What the drive's parts weigh, and
// where a cam's guide stands, is as before. Where the brief leaves the counterweight open it
// is the same as before or, choosing, the one with the best match; the geometry is given
// it. The errors are those of a linkage that does not close.
func (s *Designer) Again(g *specs.Geometry, d State, choosing bool) (State, error) {
	list := []*specs.Counterweight{g.Counterweight}
	if all := s.counterweights(g); g.Eccentric == nil && (choosing || len(all) == 1) {
		list = all
	}
	var best State
	var chosen *specs.Counterweight
	for i, counter := range list {
		g.Counterweight = counter
		now, err := s.Held(g, d)
		if err != nil {
			return now, err
		}
		s.Weigh(&now, d.Own, d.Dead)
		if g.Cam != nil {
			s.takeUp(g.Cam, &now, d.Gravity)
		}
		if i == 0 || now.worst() < best.worst() {
			best, chosen = now, counter
		}
	}
	g.Counterweight = chosen
	if g.Cam == nil {
		return best, nil
	}
	return best, s.recut(g.Cam, &best, d.MomentArm)
}

// takeUp has a cam's torque at the middle load make up for what gravity has become other
// than it was, N·mm at each angle.
func (s *Designer) takeUp(c *specs.Cam, d *State, was []float64) {
	middle := s.Asked.Resistance.Load.Middle
	each := c.Ratio * s.Tension(1)
	d.Unit, d.MomentArm = slices.Clone(d.Unit), slices.Clone(d.MomentArm)
	for i, v := range d.Gravity {
		by := (v - was[i]) / middle
		d.Unit[i] -= by
		d.MomentArm[i] -= by / each
	}
	s.load(d)
}

// recut gives a state the profile of a cam whose moment arms have become others by what
// turns with the arm, a harmonic.
func (s *Designer) recut(c *specs.Cam, d *State, was []float64) (err error) {
	by := make([]float64, len(was))
	for i := range by {
		by[i] = d.MomentArm[i] - was[i]
	}
	h := linkage.NearestHarmonic(s.Angles, by)
	r := s.Asked.Resistance.Loaded
	cut := *c
	cut.Law = slices.Clone(c.Law)
	for i := range cut.Law {
		cut.Law[i] += h.At(r.From + (r.To-r.From)*float64(i)/float64(len(cut.Law)-1))
	}
	d.Profile, err = camProfile(s.Asked, &cut)
	return err
}
