package fit

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
func (l *SearchLog) add(a *attempt) {
	if a.err != nil {
		return
	}
	a.choice = len(l.Axes)
	l.Iterations += a.search.iterations
	l.Evaluations += a.search.evaluations
	l.Axes = append(l.Axes, AxesChoice{Positions: a.search.axes, HandPath: a.path, Worst: a.worst})
}
