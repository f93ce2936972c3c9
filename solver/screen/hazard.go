package screen

import (
	"math"

	"armwright/solver/build"
	"armwright/solver/screen/crush"
)

// Hazards is what could crush or shear while the arms move, and what keeps
// hands away. Screening by the tables of standards; it proves no conformity.
type Hazards struct {
	Pairs       []HazardPair
	GuardHeight float64    // to which the moving weights must be covered, mm; 0 without a stack
	GuardReach  float64    // gap to keep behind a guard with slots of GuardOpening, mm
	Stops       [2]float64 // flexion at which the arms meet their stops, rad
}

// HazardPair is a moving and another part with the least gap between them over
// the motion and over all positions of axis and handle.
type HazardPair struct {
	Moving, Fixed string
	Gap           float64 // mm
	Angle         float64 // flexion of the least gap, rad
	Axis          int     // axis position of the least gap
	Closing       bool    // the gap changes: it can crush; otherwise it can only shear
	Part          crush.Part
	Required      float64 // least gap for that part, mm
	Admits        string  // the largest part of the body the gap leaves whole, "" for none
	Met           bool
}

const (
	// closing is the change of a gap, mm, above which it counts as one that
	// closes (own choice: what play in the bearings may give).
	closing = 2.0
	// GuardOpening is the width of the slots of a guard, mm: a common mesh (own
	// choice).
	GuardOpening = 8.0
)

// enters is the part of the body that can be between a moving and another
// part: a hand is on the grip and follows it to whatever is hard, a foot may stand
// under what comes down to the floor, and elsewhere a finger may be put in. Foam
// gives way by more than what a hand is thicker than a finger's gap (judgement; the
// standard knows no foam).
func enters(moving, fixed string, soft bool) crush.Part {
	switch {
	case fixed == floorName:
		return crush.Foot
	case fixed == otherName: // both hands are on their grips
		return crush.Finger
	case moving == build.GripName && !soft:
		return crush.Hand
	}
	return crush.Finger
}

const (
	floorName   = "the floor"
	otherName   = "the other arm"
	bearingName = "its bearing"
)

// Hazards lists every pair with its least gap.
func (s *Screen) Hazards(sc *Scene) Hazards {
	v := &sc.Station.Values
	if sc.Station.Assembly == nil {
		return Hazards{}
	}
	type key struct{ moving, fixed string }
	index := map[key]int{}
	var list []HazardPair
	var most []float64
	none := func(*meeting) float64 { return math.Inf(1) }
	s.sweep(sc, none, func(m *meeting, gap float64, at int) {
		k := key{m.moving, m.fixed}
		i, ok := index[k]
		if !ok {
			i = len(list)
			index[k] = i
			part := m.part
			need := max(part.LeastGap(), s.LimitOf("crush-gap"))
			if part != crush.Finger {
				need = part.LeastGap() * s.LimitOf("entry-gap")
			}
			list = append(list, HazardPair{Moving: m.moving, Fixed: m.fixed, Gap: math.Inf(1), Part: part, Required: need})
			most = append(most, math.Inf(-1))
		}
		if gap < list[i].Gap {
			list[i].Gap, list[i].Angle, list[i].Axis = gap, s.Angles[at], m.axis
		}
		most[i] = max(most[i], gap)
	})
	for i := range list {
		p := &list[i]
		p.Closing = most[i]-p.Gap > closing
		p.Met = p.Gap >= p.Required-gapRounding
		if part, ok := crush.Admits(p.Gap + gapRounding); ok {
			p.Admits = part.String()
		}
	}
	reach, _ := crush.SafetyDistance(crush.Slot, GuardOpening) // 8 mm is in the table
	out := Hazards{Pairs: list, GuardReach: reach, Stops: [2]float64{s.Angles[0], s.Angles[len(s.Angles)-1]}}
	if v.HasStack() {
		out.GuardHeight = crush.GuardHeight(sc.Station.Tower.StackTop + v.Tower.Lift)
	}
	return out
}

// gapRounding is what a gap may fall short of its limit by rounding, mm: the
// frame file holds 1e-4 mm.
const gapRounding = 1e-3
