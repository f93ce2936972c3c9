package solver_test

import (
	"errors"
	"fmt"
	"testing"

	"armwright/geometry/cam"
	"armwright/geometry/linkage"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/judge"
)

// Every error that is about a file's values has a place, a message and a hint, also
// within another; any other has none.
func TestFault(t *testing.T) {
	for path, err := range map[string]error{
		"geometry.seat":           &judge.MissingError{Part: "seat", Kind: "arm-pad"},
		"resistance.greatest_arm": &drive.CamError{Reason: "no drive ratio is allowed"},
		"resistance.lever_radius": &drive.LinkageError{ShortLever: true},
		"resistance.loaded":       &drive.LinkageError{},
		"geometry.cam":            &cam.Error{Kind: cam.Input, What: "size", Hint: "another"},
		"geometry.linkage":        &linkage.Error{Kind: linkage.Open, What: "distance", Hint: "longer bars"},
		"geometry":                &judge.NotFiniteError{What: "tilt-empty"},
	} {
		about, ok := solver.Fault(fmt.Errorf("f.yaml: %w", err))
		if !ok || about.Path != path || about.Message == "" || about.Hint == "" {
			t.Errorf("%T: %+v, %v", err, about, ok)
		}
	}
	if about, ok := solver.Fault(errors.New("disk full")); ok {
		t.Errorf("another error: %+v", about)
	}
}
