// Package suppose asks what the boundary persons make of a station if what a brief says
// of their elbows were otherwise: inputs of a model that nobody can measure on a user.
package suppose

import (
	"math"
	"slices"

	"armwright/geometry/elbow"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// Supposition is what the boundary persons make of a station if an input that
// nobody can measure on them had another value than the brief's: each takes the
// positions that suit then. A station is no better known than these lie apart.
type Supposition struct {
	Key      string   // of the input in a brief
	Value    float64  // of a number, inside units
	Word     string   // of a choice
	Asked    bool     // it is the brief's own
	HandPath float64  // worst, mm
	AxisTilt float64  // worst, rad
	Fit, Of  int      // boundary persons who fit, and all
	Fails    []string // ids of requirements that then turn somebody away, in the order of Kinds
}

// supposed is a value of an input, and how a brief takes it.
type supposed struct {
	key   string
	value float64
	word  string
	asked bool // it is the brief's own
	take  func(a *specs.Asked)
}

// suppositions are the inputs and the values between which their sources leave the
// choice (docs/elbow.md), and the brief's own: the axis' share of the carrying angle in
// a model of the arm, of an elbow that folds flat, and as change with flexion has it;
// the rules of grip rotation; the turn of an arm held still, of an axis that wanders,
// and twice that.
func suppositions(own *specs.Asked) []supposed {
	var list []supposed
	for _, share := range with(own.People.AxisShare, 0.35, 0.5, 0.64) {
		list = append(list, supposed{"people.axis_share", share, "", alike(share, own.People.AxisShare), func(a *specs.Asked) { a.People.AxisShare = share }})
	}
	for _, rule := range []elbow.GripRule{elbow.GripNone, elbow.GripLinear} {
		list = append(list, supposed{"people.grip_rule", 0, string(rule), string(rule) == own.People.GripRule, func(a *specs.Asked) { a.People.GripRule = string(rule) }})
	}
	for _, turn := range with(own.Posture.LiftingTurn, 0, seat.WanderingTurn, 2*seat.WanderingTurn) {
		list = append(list, supposed{"posture.lifting_turn", turn, "", alike(turn, own.Posture.LiftingTurn), func(a *specs.Asked) { a.Posture.LiftingTurn = turn }})
	}
	return list
}

// with is the values in order, with another among them unless it is there. Values that
// a frame's file writes alike are one.
func with(own float64, values ...float64) []float64 {
	if !slices.ContainsFunc(values, func(v float64) bool { return alike(v, own) }) {
		values = append(values, own)
		slices.Sort(values)
	}
	return values
}

// alike says whether a frame's file writes two shares or angles alike.
func alike(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// All places the boundary persons again under each supposition, at the peak torque of
// the heaviest load, N·mm. Only what the persons themselves are asked depends on these
// inputs.
func All(s *seat.Placer, g *specs.Geometry, level float64) []Supposition {
	var list []Supposition
	for _, v := range suppositions(s.Asked) {
		a := *s.Asked
		v.take(&a)
		by := s.Supposing(&a)
		one := fare(&by, g, level)
		one.Key, one.Value, one.Word, one.Asked = v.key, v.value, v.word, v.asked
		list = append(list, one)
	}
	return list
}

// fare places the boundary persons, each in the best setting.
func fare(s *seat.Placer, g *specs.Geometry, level float64) Supposition {
	m := drive.NewMachine(g)
	p := seat.Sitter{Level: level}
	own, scratch := &require.Rows{Card: &s.Card, Quiet: true}, &require.Rows{Card: &s.Card, Quiet: true}
	one := Supposition{Of: len(s.Persons)}
	fails := make([]bool, len(s.Kinds))
	for i := range s.Persons {
		p.Take(s, i)
		own.List = own.List[:0]
		r := s.Best(m, &p, own, scratch)
		one.HandPath, one.AxisTilt = math.Max(one.HandPath, r.HandPath), math.Max(one.AxisTilt, r.Tilt)
		fits := true
		for i := range own.List {
			if w := &own.List[i]; s.Scaled(w) < require.Meets {
				fits, fails[w.Kind] = false, true
			}
		}
		if fits {
			one.Fit++
		}
	}
	for k, failed := range fails {
		if failed {
			one.Fails = append(one.Fails, s.Kinds[k].ID)
		}
	}
	return one
}
