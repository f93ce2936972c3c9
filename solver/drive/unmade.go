package drive

import (
	"errors"
	"fmt"

	"armwright/geometry/linkage"
)

// CamError says that no cam can be made at a drive ratio, or at any when Ratio
// is 0.
type CamError struct {
	Ratio  float64
	Reason string
}

func (e *CamError) Error() string {
	if e.Ratio == 0 {
		return "no cam can be made at any allowed drive ratio: " + e.Reason
	}
	return fmt.Sprintf("no cam can be made at drive ratio %.3g: %s", e.Ratio, e.Reason)
}

// Hint says what to change.
func (e *CamError) Hint() string {
	return "raise resistance.greatest_arm, lower resistance.least_arm, choose a thinner cable, a smaller shaft or another stock.hub"
}

// LinkageError says that no four-bar linkage was found.
type LinkageError struct {
	ShortLever bool // resistance.lever_radius leaves no plate between the lever's bores
}

func (e *LinkageError) Error() string {
	if e.ShortLever {
		return "a plate lever within resistance.lever_radius is too short for its two bores"
	}
	return "no four-bar linkage was found that keeps its dead points out of the loaded range"
}

// Hint says what to change.
func (e *LinkageError) Hint() string {
	if e.ShortLever {
		return "raise the end of resistance.lever_radius, or use a thinner shaft or cam_plate"
	}
	return "narrow resistance.loaded, or use a cam"
}

// Unmade says whether an error means that the drive asked for cannot be made.
func Unmade(err error) bool {
	var cam *CamError
	var bars *LinkageError
	var stuck *linkage.Error // the best bars there are do not move through the range
	return errors.As(err, &cam) || errors.As(err, &bars) || errors.As(err, &stuck)
}
