package page

import (
	"errors"

	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

// errGone says that a brief or a station is no longer kept.
var errGone = errors.New("what the page shows is no longer kept")

// troubleOf tells an error to the page. A value that cannot be used is part of playing
// with a brief; anything else but what is gone is our fault.
func troubleOf(err error) *Trouble {
	if errors.Is(err, errGone) {
		return &Trouble{Gone: true, Problems: []Problem{{Message: errGone.Error(), Hint: "solve again"}}}
	}
	var bad *specs.Problems
	if errors.As(err, &bad) {
		t := &Trouble{Problems: []Problem{}}
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
		return &Trouble{Solve: true, Problems: []Problem{{Message: err.Error(), Hint: "solve: the station shown was made for another drive"}}}
	case errors.As(err, &hint):
		one.Hint = hint.Hint()
	}
	_, known := solver.Fault(err)
	return &Trouble{Problems: []Problem{one}, Fault: !known}
}

// Failed is a step that tells what went wrong.
func Failed(err error) Step {
	return Step{Trouble: troubleOf(err)}
}
