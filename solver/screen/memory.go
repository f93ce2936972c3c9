package screen

import (
	"math"

	"armwright/geometry/person"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/solver/require"
	"armwright/solver/screen/crush"

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

// Workshop is where stations are built and persons stood beside them, again and
// again in the same memory. The zero value is ready; it is for one goroutine at a
// time.
type Workshop struct {
	maker  station.Maker
	around person.Surroundings
	slots  slots // of needs

	// Of the last station that was looked at whole.
	parts   int              // how many it has
	nearest []person.Closest // to each boundary person
	outmost []outlier        // parts at the edges of its envelope
	taken   []taken          // scratch: parts that were looked at for them
	balls   []float64        // and how far each reaches from its centre
	places  []solid.Placement
}

// Maker is what builds the station.
func (w *Workshop) Maker() *station.Maker { return &w.maker }

// looked takes note of the station that was looked at.
func (w *Workshop) looked(sc *Scene, known Memory) {
	if !known.Near() {
		w.parts = sc.parts()
	}
}

// follows says whether a station differs so little from the last that was looked at
// whole that what governed there is all that need be looked at.
func (w *Workshop) follows(sc *Scene, known Memory) bool {
	return known.Near() && w.parts > 0 && w.parts == sc.parts()
}

// Least is the least gap of some, or the least share of what is needed.
type Least struct {
	value         float64
	at            int
	moving, fixed string // empty where there is none below the value
	pair
	part crush.Part // that a share is of
}

// pair is a meeting by the places of its parts: mover among the movers, other
// an obstacle's part or one of the constants below.
type pair struct{ axis, mover, other int }

// outlier is a part at an axis position and a flexion, by its place among the angles.
type outlier struct{ part, axis, at int }

// taken is an outlier that was looked at.
type taken struct {
	outlier
	low, high r3.Vec
}

// slots are the places of needs, in the order in which they were first told of.
type slots struct {
	ids   []string
	order []int // place of each need of the station before
}
