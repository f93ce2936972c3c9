package fit

import "armwright/solver/judge"

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
}

// AxesChoice is one number of axis positions with the hand path it leaves.
type AxesChoice struct {
	Positions int
	HandPath  float64 // mm
	Worst     float64 // least scaled margin over all requirements
	Chosen    bool
}

// add takes an attempt into the log, unless it has no drive.
func (l *SearchLog) add(a *Attempt) {
	if a.Err != nil {
		return
	}
	a.choice = len(l.Axes)
	l.Iterations += a.Search.iterations
	l.Evaluations += a.Search.evaluations
	l.Axes = append(l.Axes, AxesChoice{Positions: a.Search.Axes, HandPath: a.path, Worst: a.worst})
}
