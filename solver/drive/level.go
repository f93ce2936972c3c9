package drive

import (
	"math"

	"armwright/specs"
	"armwright/specs/strength"
)

// Levels are the weakest and the strongest boundary person's. The curve's peak
// is linear in the load, since the torque is.
func (s *Designer) Levels(d *State) []Level {
	if len(s.Persons) == 0 {
		return nil
	}
	light := s.Peak(&d.Light)
	slope := s.perMass(d)
	weak, strong := 0, 0
	for i, p := range s.Persons {
		if p.ElbowStrength() < s.Persons[weak].ElbowStrength() {
			weak = i
		}
		if p.ElbowStrength() > s.Persons[strong].ElbowStrength() {
			strong = i
		}
	}
	var list []Level
	for _, i := range []int{weak, strong} {
		p := &s.Persons[i]
		most, mean := p.ElbowStrength(), p.ElbowStrength()/(1+p.Stronger)
		load := func(torque float64) float64 { return math.Max(0, d.Light.Load+(torque-light)/slope) }
		spread := s.Asked.People.StrengthSpread
		low, high := mean*(1+strength.Stronger(0.05, spread)), mean*(1+strength.Stronger(0.95, spread))
		list = append(list, Level{p.Label, most, p.MovingStrength(), load(most), [2]float64{low, high}, [2]float64{load(low), load(high)}})
	}
	return list
}

// Peak is the torque at the peak of the curve that fits best, N·mm.
func (s *Designer) Peak(t *Torque) float64 { return t.peak(s.Shape) }

// perMass is what 1 kg of load adds at the curve's peak, N·mm.
func (s *Designer) perMass(d *State) float64 {
	return (s.Peak(&d.Heavy) - s.Peak(&d.Light)) / (d.Heavy.Load - d.Light.Load)
}

// Steps are the smallest step of the load and, of a stack, a whole plate.
func (s *Designer) Steps(d *State) []Step {
	masses := []float64{s.Asked.Resistance.Step}
	if s.Asked.Resistance.Drive == "cam" && s.Plate.Mass > masses[0] {
		masses = append(masses, s.Plate.Mass)
	}
	var list []Step
	for _, m := range masses {
		step := Step{Mass: m, Share: m * s.perMass(d) / s.Peak(&d.Light)}
		if len(d.Levels) > 0 {
			step.Weak = m * s.perMass(d) / d.Levels[0].Range[0]
		}
		list = append(list, step)
	}
	return list
}

// LimbOf is the middle user's forearm on a geometry, with the axis in its middle
// position, and the match with it, which is the machine's own where it is counted.
func (s *Designer) LimbOf(g *specs.Geometry, d *State) Limb {
	var l Limb
	mass, moment := 0.0, 0.0
	for _, v := range s.limbs {
		mass, moment = mass+v.mass, moment+v.mass*v.centre
	}
	l.Mass, l.Centre = mass/2, moment/mass
	axis := g.Pivots.MeanAxis()
	sum := s.limbMoment(armDirection(NewMachine(g), axis), axis)
	for _, theta := range s.Angles {
		l.Moment = append(l.Moment, sum.At(theta))
	}
	if s.CountsLimb() {
		l.RMS = [3]float64{d.Light.RMS, d.Middle.RMS, d.Heavy.RMS}
		return l
	}
	for i, t := range []*Torque{&d.Light, &d.Middle, &d.Heavy} {
		with := make([]float64, len(t.Delivered))
		for k, v := range t.Delivered {
			with[k] = v + l.Moment[k]
		}
		l.RMS[i] = s.torque(t.Load, with).RMS
	}
	return l
}

// Shoulder compares with the curve at a shoulder's flexion, rad, held to the 0 to 90
// degrees that models know; ok is false for a curve that does not know the shoulder.
func (s *Designer) Shoulder(d *State, flexion float64) (curve, match float64, ok bool) {
	r := s.Asked.Resistance
	if !strength.KnowsShoulder(r.Curve) {
		return 0, 0, false
	}
	r.Shoulder = math.Max(0, math.Min(math.Pi/2, flexion))
	c, err := r.StrengthCurve()
	if err != nil {
		return 0, 0, false
	}
	at := Designer{Angles: s.Angles}
	for _, theta := range s.Angles {
		at.Shape = append(at.Shape, c.At(theta))
	}
	return at.torque(0, s.Shape).RMS, at.torque(0, d.Middle.Delivered).RMS, true
}
