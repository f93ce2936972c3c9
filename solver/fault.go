package solver

import (
	"errors"
	"strings"

	"armwright/geometry/cam"
	"armwright/geometry/linkage"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
)

// Fault tells an error of Solve or Check that says that a brief or frame describes no
// station that could be: the value it is about, what is wrong and what to do. Any
// other error is false.
func Fault(err error) (about specs.Problem, ok bool) {
	var missing *judge.MissingError
	var unmade *drive.CamError
	var none *drive.LinkageError
	var profile *cam.Error
	var bars *linkage.Error
	var number *judge.NotFiniteError
	switch {
	case errors.As(err, &missing):
		return specs.Problem{Path: "geometry." + missing.Part, Message: missing.Error(), Hint: "its keys are those of: armwright schema frame"}, true
	case errors.As(err, &unmade):
		return specs.Problem{Path: "resistance.greatest_arm", Message: unmade.Error(), Hint: unmade.Hint()}, true
	case errors.As(err, &none) && none.ShortLever:
		return specs.Problem{Path: "resistance.lever_radius", Message: none.Error(), Hint: none.Hint()}, true
	case errors.As(err, &none):
		return specs.Problem{Path: "resistance.loaded", Message: none.Error(), Hint: none.Hint()}, true
	case errors.As(err, &profile):
		return specs.Problem{Path: "geometry.cam", Message: strings.TrimSuffix(profile.Error(), ": "+profile.Hint), Hint: profile.Hint}, true
	case errors.As(err, &bars):
		return specs.Problem{Path: "geometry.linkage", Message: strings.TrimSuffix(bars.Error(), ": "+bars.Hint), Hint: bars.Hint}, true
	case errors.As(err, &number):
		return specs.Problem{Path: "geometry", Message: number.Error(), Hint: number.Hint()}, true
	}
	return about, false
}
