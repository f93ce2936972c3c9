package fit

import (
	"armwright/solver/judge"
	"armwright/solver/require"
)

// Solution is the station that a search ended at, and how it got there.
type Solution struct {
	judge.Result
	Search  *SearchLog // nil of a frame that was only judged
	Trades  []Trade    // what holds the design back
	Choices []Choice   // where the brief leaves values to the tool, cheapest first; nil elsewhere

	// NoStation is why there is none, nil where there is one: the drive asked for
	// cannot be made. Then only frame, verdict and notes stand.
	NoStation error
}

// SearchLog tells how the search went.
type SearchLog struct {
	Status      string
	Message     string
	Starts      int // of the optimiser, see Options.Starts
	Agreed      int // of them that led to the same station
	Iterations  int
	Evaluations int
	Axes        []AxesChoice
	Objective   []Term // what the station has least of, at the station found; nil of a bench
}

// AxesChoice is one number of axis positions with the hand path it leaves.
type AxesChoice struct {
	Positions int
	HandPath  float64 // mm
	Worst     float64 // least scaled margin over all requirements
	Chosen    bool
}

// Choice is one combination of the values that a brief leaves to the tool, and
// how it came out.
type Choice struct {
	Values []Picked
	Fate   Fate
	Why    Why // it was not taken; zero for the one that was

	// Of the station, where one was solved; 0 elsewhere.
	Mass   float64 // of its parts, kg
	Length float64 // of its base, mm
	Width  float64
	Worst  float64 // least margin over all requirements, in units that matter
}

// Picked is one value of a combination.
type Picked struct{ Path, Value string }

// Fate says what became of a combination.
type Fate string

// The fates, as far as a combination came.
const (
	Excluded Fate = "excluded"    // a bound shows that no station can meet the brief with it
	Passed   Fate = "passed over" // what failed with another combination depends on values that this one shares
	Missed   Fate = "missed"      // solved, and requirements are missed
	Dearer   Fate = "dearer"      // not looked at: one that costs less meets everything
	Chosen   Fate = "chosen"
)

// Why tells why a combination was not taken.
type Why struct {
	Stopped bool     // the search was, before it came to this one
	Before  int      // how many before it miss something that depends on nothing left to the tool; 0 for another reason
	Shared  []Picked // its values that a combination shares which misses what it would
	OnLast  bool     // what is missed was looked at on the last station solved
	Missed  []Miss
	Unmade  error  // why there is no station with it
	Bound   *Proof // what excludes it
}

// Miss is a requirement that is not met.
type Miss struct {
	ID           string
	Value, Limit float64 // inside units
	Unit         require.Unit
}

// Solved says whether a station was solved for the combination.
func (c *Choice) Solved() bool { return c.Fate == Missed || c.Fate == Chosen }

// Trade tells what giving way in one requirement would buy.
type Trade struct {
	ID    string
	Unit  require.Unit
	Step  float64 // by how much the limit gives way: one unit that matters, or a tenth, a hundredth of it
	Worth float64 // what that is worth, mm of footprint length
}
