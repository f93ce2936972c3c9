package fit

import (
	"armwright/geometry/assembly"
	"armwright/solver/build"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/aims"
)

// What counts one in the objective: amounts that a user would call noticeable (judgement).
const (
	floorUnit = 200.0              // mm, of the base's length or width
	areaUnit  = floorUnit * 1000.0 // mm²
	massUnit  = 20.0               // kg
	tiltUnit  = 5 * specs.Degree   // elbow axis to machine axis
	turnUnit  = 10 * specs.Degree  // of it about the upper arm
	sideUnit  = 10.0               // mm, elbow beside the axis
	pathUnit  = 15.0               // mm, hand off its path
	footUnit  = 80.0               // mm, sole off footHigh above what it stands on
	footHigh  = 40.0               // mm
	restUnit  = 10 * specs.Degree  // upper arm off its rest
	padUnit   = 100.0              // mm, pad shorter than longPad
	longPad   = 300.0              // mm
	unnamed   = 0.01               // weight of what a brief does not name: it settles what the rest leaves open
	leastHeld = 0.1                // weight of length from which trades are told in it
)

// terms are what the objective is made of, in the order of aims.Terms.
type terms [6]float64

const (
	ofLength = iota
	ofWidth
	ofArea
	ofMass
	ofMisalignment
	ofPosture
)

// Aim sets what a station is to have least of. Terms that the default names count a
// little where the list does not, so that nothing is left to chance.
func (s *Program) Aim(list []aims.Aim) {
	s.weights = terms{ofLength: unnamed, ofWidth: unnamed, ofMisalignment: unnamed, ofPosture: unnamed}
	for i, t := range aims.Terms() {
		for _, a := range list {
			if a.Term == t.Name {
				s.weights[i] = a.Weight
			}
		}
	}
}

// objective is what the station should have least of, once it meets its requirements.
func (s *Program) objective(g *specs.Geometry, sat []seat.Person, st *build.Station) float64 {
	return s.sum(&s.weights, g, sat, st)
}

// sum is the sum of the terms, weighted.
func (s *Program) sum(w *terms, g *specs.Geometry, sat []seat.Person, st *build.Station) float64 {
	b := g.Base
	length := b.Front - b.Rear
	f := (w[ofLength]*length + w[ofWidth]*b.Width) / floorUnit
	if w[ofArea] > 0 {
		f += w[ofArea] * length * b.Width / areaUnit
	}
	if w[ofMass] > 0 {
		f += w[ofMass] * massOf(st.Assembly) / massUnit
	}
	n, ground := float64(len(sat)), s.ground()
	for i := range sat {
		p := &sat[i]
		f += w[ofMisalignment] * squares(p.Tilt/tiltUnit, p.Turn/turnUnit, p.Offset/sideUnit, p.HandPath/pathUnit) / n
		f += w[ofPosture] * squares((s.Sole(p.Person, p.SeatTop)-ground-footHigh)/footUnit) / n
	}
	if s.Reclined() {
		for i := range sat {
			f += w[ofPosture] * squares((sat[i].Pose.ArmSlope-g.Pad.Slope)/restUnit) / n
		}
	} else {
		f += w[ofPosture] * (longPad - g.Pad.Far) / padUnit
	}
	return f
}

// massOf is what a station weighs without what is lifted, kg; 0 where nothing can be built.
func massOf(a *assembly.Assembly) float64 {
	if a == nil {
		return 0
	}
	var sum float64
	for i := range a.Parts {
		if p := &a.Parts[i]; !p.Is(assembly.Load) {
			sum += p.Mass
		}
	}
	return sum
}

// lengthWorth is the length of the base, mm, that counts as much as one of the objective,
// 0 where the length hardly counts.
func (s *Program) lengthWorth() float64 {
	if w := s.weights[ofLength]; w >= leastHeld {
		return floorUnit / w
	}
	return 0
}

// Term is a part of the objective at the station found, see aims.Terms.
type Term struct {
	Name   string
	What   string
	Weight float64
	Value  float64 // in amounts that count one
	Share  float64 // of the objective
}

// termsOf lists the terms of a station, those that count.
func (s *Program) termsOf(g *specs.Geometry, sat []seat.Person, st *build.Station) []Term {
	var list []Term
	sum := s.objective(g, sat, st)
	for i, t := range aims.Terms() {
		if w := s.weights[i]; w > 0 {
			alone := terms{}
			alone[i] = 1
			list = append(list, Term{Name: t.Name, What: t.What, Weight: w, Value: s.sum(&alone, g, sat, st)})
		}
	}
	for i := range list {
		if sum > 0 {
			list[i].Share = list[i].Weight * list[i].Value / sum
		}
	}
	return list
}

// Aims are what the search had least of, with their weights.
func (l *SearchLog) Aims() []aims.Aim {
	var list []aims.Aim
	for _, t := range l.Objective {
		list = append(list, aims.Aim{Term: t.Name, Weight: t.Weight})
	}
	return list
}

// squares is the sum of squares.
func squares(list ...float64) float64 {
	sum := 0.0
	for _, x := range list {
		sum += x * x
	}
	return sum
}
