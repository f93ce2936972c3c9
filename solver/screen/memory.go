package screen

import (
	"math"

	"armwright/solver/require"

	"gonum.org/v1/gonum/spatial/r3"
)

// Memory is what a search remembers of the station that it looked at last, so that
// on one that differs a little only what has changed is worked out again.
type Memory interface {
	// Workshop is where this station is built.
	Workshop() *Workshop
	// Fixed says whether the number of rows must be the same for every station.
	Fixed() bool
	// Near says whether this station hardly differs from the one looked at last that did:
	// what governed there governs here too, but for ties.
	Near() bool
	// Recall appends the rows of a group where they still stand, and says whether
	// they do. Person is -1 for a group of the station as a whole.
	Recall(of Group, person int, out *require.Rows) bool
	// Keep takes note of the rows of a group that was worked out anew.
	Keep(of Group, person int, list []require.Row)
	// Carried is where a person's centres of mass stand, and whether they are to be
	// worked out into it first.
	Carried(person int) (centres *Carriage, anew bool)
	// BodyGap is what a person's gap to the moving arm is thought to lie below, and
	// from where on it need not be known; +Inf for nothing known.
	BodyGap(person int) (below, enough float64)
	// Gaps are the least gaps that were kept, if they are to be followed on a station
	// that hardly differs; else what the row of each is thought to lie below, nil for
	// nothing known.
	Gaps() (known []Least, follow bool, below func(i int) float64)
	// KeepGaps takes note of the least gaps, searched for anew.
	KeepGaps(list []Least)
}

// Group is a group of rows that go together.
type Group int

const (
	ofEmpty Group = iota
	ofEntry
	ofMembers
	OfGaps
	Groups // of the station as a whole so far, of each person from here on
	OfTilt
	OfBodyGap
	OfBodyFrame
)

// Carriage is a person's centre of mass by way of use and angle, machine frame, mm.
type Carriage = [waysOfUse][]r3.Vec

// Afresh remembers nothing.
type Afresh struct {
	Same    bool // rows are to be as many for every station
	centres Carriage
	shop    Workshop
}

func (a *Afresh) Fixed() bool         { return a.Same }
func (*Afresh) Near() bool            { return false }
func (a *Afresh) Workshop() *Workshop { return &a.shop }

func (*Afresh) Recall(Group, int, *require.Rows) bool    { return false }
func (*Afresh) Keep(Group, int, []require.Row)           {}
func (a *Afresh) Carried(int) (*Carriage, bool)          { return &a.centres, true }
func (*Afresh) BodyGap(int) (below, enough float64)      { return math.Inf(1), math.Inf(1) }
func (*Afresh) Gaps() ([]Least, bool, func(int) float64) { return nil, false, nil }
func (*Afresh) KeepGaps([]Least)                         {}
