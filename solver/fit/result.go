package fit

import (
	"armwright/geometry/station"
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
	Kind
	Value, Limit, Margin float64 // margin is positive when met
	Met                  bool
	Person               string  // governing person, "" when none
	Angle                float64 // governing flexion, rad
	HasAngle             bool
	Case                 string // governing case in words, "" when none
}

// People is the outcome over the people.
type People struct {
	Boundary  []Person
	Coverage  float64 // share of the random persons who fit
	Low, High float64 // 95 % confidence interval of Coverage (Wilson)
	Sample    int
	TurnedBy  []Count // which requirement turns how many of the sample away
	Crowd     Crowd   // the sample in more detail
}

// Count is how often a requirement turned somebody away.
type Count struct {
	ID string
	N  int
}

// Result is everything known about one station: what the reports print and
// the sheets draw.
type Result struct {
	Frame        specs.Frame
	Verdict      Verdict
	Requirements []Requirement
	People       People
	Resistance   Resistance
	Stability    []StabilityCase
	Least        StabilityCase
	Balance      Balance
	Hazards      Hazards
	Strength     Strength
	Protection   []Protection
	Layout       station.Layout
	Structure    station.Structure
	Rest         station.Rest
	Parts        []Part
	Conflict     []Conflict
	Proofs       []Proof    // contradictions that simple bounds show
	Repairs      []Repair   // of a brief that is not met, cheapest first
	Trades       []Trade    // what holds the design back; nil from Check
	Search       *SearchLog // nil from Check
	Choices      []Choice   // where the brief leaves values to the tool, cheapest first; nil elsewhere
	Notes        []string

	// NoStation is why there is none, nil where there is one: the drive asked for
	// cannot be made. Then only the brief, verdict, conflict, repairs and notes stand.
	NoStation error

	study *study // what the frame was judged with
}

// Judge returns the judge of the frame's brief, made ready already.
func (r *Result) Judge() *Judge { return &Judge{r.study} }

// Requirement returns the requirement of the given id.
func (r *Result) Requirement(id string) (Requirement, bool) {
	for _, q := range r.Requirements {
		if q.ID == id {
			return q, true
		}
	}
	return Requirement{}, false
}
