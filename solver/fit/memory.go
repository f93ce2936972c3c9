package fit

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// memory is what a search remembers of the station that it looked at last, so that
// on one that differs a little only what has changed is worked out again.
type memory interface {
	// Recall appends the rows of a group where they still stand, and says whether
	// they do. Person is -1 for a group of the station as a whole.
	Recall(of group, person int, out *rows) bool
	// Keep takes note of the rows of a group that was worked out anew.
	Keep(of group, person int, list []row)
	// Carried is where a person's centres of mass stand, and whether they are to be
	// worked out into it first.
	Carried(person int) (centres *carriage, anew bool)
	// BodyGap is what a person's gap to the moving arm is thought to lie below, and
	// from where on it need not be known; +Inf for nothing known.
	BodyGap(person int) (below, enough float64)
	// Gaps are the least gaps that were kept, if they are to be followed on a station
	// that hardly differs; else what the row of each is thought to lie below, nil for
	// nothing known.
	Gaps() (known []least, follow bool, below func(i int) float64)
	// KeepGaps takes note of the least gaps, searched for anew.
	KeepGaps(list []least)
}

// group is a group of rows that go together.
type group int

const (
	ofEmpty group = iota
	ofEntry
	ofMembers
	ofGaps
	groups // of the station as a whole so far, of each person from here on
	ofTilt
	ofBodyGap
)

// carriage is a person's centre of mass by way of use and angle, machine frame, mm.
type carriage = [waysOfUse][]r3.Vec

// afresh remembers nothing.
type afresh struct{ centres carriage }

func (*afresh) Recall(group, int, *rows) bool            { return false }
func (*afresh) Keep(group, int, []row)                   {}
func (a *afresh) Carried(int) (*carriage, bool)          { return &a.centres, true }
func (*afresh) BodyGap(int) (below, enough float64)      { return math.Inf(1), math.Inf(1) }
func (*afresh) Gaps() ([]least, bool, func(int) float64) { return nil, false, nil }
func (*afresh) KeepGaps([]least)                         {}
