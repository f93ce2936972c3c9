package judge

import (
	"armwright/geometry/posture"
	"armwright/solver/build"
	"armwright/solver/contact"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/solver/suppose"
	"armwright/specs"
)

// Verdict says whether the requirements hold.
type Verdict string

const (
	Met        Verdict = "met"
	NotMet     Verdict = "not-met"
	Infeasible Verdict = "infeasible"
)

// Requirement is the outcome of one requirement over all persons, angles and
// cases: the row with the least margin. Inside units by Unit.
type Requirement struct {
	require.Kind
	Value, Limit, Margin float64 // margin is positive when met
	Met                  bool
	Person               string  // governing person, "" when none
	Angle                float64 // governing flexion, rad
	HasAngle             bool
	Case                 require.Phrase // governing case, without words when none
}

// People is the outcome over the people.
type People struct {
	Boundary  []seat.Person
	Coverage  float64 // share of the random persons who fit
	Low, High float64 // 95 % confidence interval of Coverage (Wilson)
	Sample    int
	TurnedBy  []Count // which requirement turns how many of the sample away
	Crowd     Crowd   // the sample in more detail
}

// Result is everything known about one station as it stands.
type Result struct {
	Frame        specs.Frame
	Verdict      Verdict
	Requirements []Requirement
	People       People
	Resistance   drive.Resistance
	Stability    []screen.StabilityCase
	Least        screen.StabilityCase
	Balance      screen.Balance
	Seated       []contact.Curve // what holds some of the persons
	Hazards      screen.Hazards
	Strength     screen.Strength
	Protection   []screen.Protection
	Station      build.Station // what it is built of; its assembly is nil for a bench
	Rest         posture.Rest
	TurnTold     float64               // turn of the upper arm for which persons' Turning is told, rad
	Suppositions []suppose.Supposition // nil where no coverage was asked for
}

// Requirement returns the requirement of the given id.
func (r *Result) Requirement(id string) (Requirement, bool) {
	for _, q := range r.Requirements {
		if q.ID == id {
			return q, true
		}
	}
	return Requirement{}, false
}
