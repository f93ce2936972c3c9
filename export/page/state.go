package page

import (
	"errors"
	"maps"
	"math"
	"slices"

	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

// State is what a question holds.
type State struct {
	Brief   string            `json:"brief"`   // number of the brief opened; empty for the page's own
	Station string            `json:"station"` // number of the station whose geometry is meant
	Changes map[string]string `json:"changes"` // value of the brief by its path
	Shown   string            `json:"shown"`   // mark of the scene the page shows already
	Views   bool              `json:"views"`   // whether it shows the views drawn in lines, too
}

// asked is the brief that a state means, valid. The error is a *specs.Problems, or
// errGone.
func (p *Page) asked(s State) (specs.Brief, error) {
	b, ok := p.brief(s.Brief)
	if !ok {
		return b, errGone
	}
	bad := change(&b, s.Changes)
	if len(bad.List) > 0 {
		return b, bad
	}
	b = b.Quantised()
	if err := b.Validate(); err != nil {
		return b, err
	}
	return b, refuse(b)
}

// change makes changes in a brief, all that can be made, and tells the others.
func change(b *specs.Brief, changes map[string]string) *specs.Problems {
	bad := &specs.Problems{}
	for _, path := range slices.Sorted(maps.Keys(changes)) {
		var one *specs.Problems
		if err := b.Set(path, changes[path]); errors.As(err, &one) {
			bad.List = append(bad.List, one.List...)
		}
	}
	return bad
}

// errGone says that a brief or a station is no longer kept.
var errGone = errors.New("what the page shows is no longer kept")

// refuse tells what a valid brief may not ask of a page.
func refuse(b specs.Brief) error {
	if specs.IsCurveFile(b.Resistance.Curve) {
		return &specs.Problems{List: []specs.Problem{{
			Path: "resistance.curve", Message: "resistance.curve: a page opens no files", Hint: "write the points into resistance.curve_table, with curve: table",
		}}}
	}
	return nil
}

// Trouble is the answer to what cannot be done.
type Trouble struct {
	Problems []Problem `json:"problems"`
	Gone     bool      `json:"gone,omitempty"`  // brief or station is no longer kept
	Solve    bool      `json:"solve,omitempty"` // nothing is wrong, but the station at hand is of another drive
	Fault    bool      `json:"-"`               // ours, not the brief's
}

// Problem is one thing that is wrong, with the place in the brief it is about, if any.
type Problem struct {
	Path    string `json:"path"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}

// troubleOf tells an error to the page. A value that cannot be used is part of playing
// with a brief; anything else but what is gone is our fault.
func troubleOf(err error) Trouble {
	if errors.Is(err, errGone) {
		return Trouble{Gone: true, Problems: []Problem{{Message: errGone.Error(), Hint: "solve again"}}}
	}
	var bad *specs.Problems
	if errors.As(err, &bad) {
		t := Trouble{Problems: []Problem{}}
		for _, q := range bad.List {
			t.Problems = append(t.Problems, Problem{q.Path, q.Message, q.Hint})
		}
		return t
	}
	one := Problem{Message: err.Error()}
	var missing *judge.MissingError
	var hint interface{ Hint() string }
	switch {
	case errors.As(err, &missing):
		return Trouble{Solve: true, Problems: []Problem{{Message: err.Error(), Hint: "solve: the station shown was made for another drive"}}}
	case errors.As(err, &hint):
		one.Hint = hint.Hint()
	}
	_, known := solver.Fault(err)
	return Trouble{Problems: []Problem{one}, Fault: !known}
}

func failed(err error) Step {
	t := troubleOf(err)
	return Step{Trouble: &t}
}

// present is a station's geometry under a changed brief: moved into the ranges
// that the brief now gives, as far as one number does it.
func present(g specs.Geometry, b *specs.Brief) specs.Geometry {
	into := func(x float64, r specs.Range) float64 { return math.Min(math.Max(x, r.From), r.To) }
	g.Pivots.Height = into(g.Pivots.Height, b.Posture.PivotHeight)
	g.Pivots.Spacing = into(g.Pivots.Spacing, b.Posture.PivotSpacing)
	if g.Pad != nil && b.Kind == "arm-pad" {
		pad := *g.Pad
		pad.Slope = into(pad.Slope, b.Posture.PadSlope)
		g.Pad = &pad
	}
	if g.Seat != nil {
		seat := *g.Seat
		seat.Pitch, seat.Positions = b.Posture.SeatPitch, min(seat.Positions, b.Posture.SeatPositions)
		g.Seat = &seat
	}
	if g.Back != nil {
		back := *g.Back
		back.Angle = into(back.Angle, b.Posture.BackAngle)
		g.Back = &back
	}
	if g.Lever != nil {
		lever := *g.Lever
		lever.Radius = into(lever.Radius, b.Resistance.LeverRadius)
		g.Lever = &lever
	}
	return g
}
