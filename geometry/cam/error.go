package cam

import (
	"fmt"
	"math"
)

// Kind says which condition of a wrapping cam does not hold.
type Kind string

// The conditions.
const (
	Input     Kind = "input"     // a number that makes no sense
	Range     Kind = "range"     // an angle the law does not reach
	Reach     Kind = "reach"     // the moment arm is too large for the guide's distance
	Turn      Kind = "turn"      // the contact would run back along the cam
	Span      Kind = "span"      // no free cable is left between cam and guide
	Curvature Kind = "curvature" // the cam bends the cable too sharply, or is hollow
	Wrap      Kind = "wrap"      // the cable would wind on itself
	Closing   Kind = "closing"   // no convex outline closes the profile
	Hub       Kind = "hub"       // no room for bore, bolts or anchor
)

// Error reports a condition that a cam does not meet. Theta is the elbow
// flexion, rad, where it fails first or worst, 0 if it concerns no angle;
// Value is what was found and Limit what is asked, in mm, rad or a plain
// number as the message tells; a Limit of 0 is asked of a value at or below it only.
type Error struct {
	Kind         Kind
	Theta        float64
	Value, Limit float64
	What         string // the quantity concerned, with its unit
	Hint         string // what to change
}

func (e *Error) Error() string {
	s := fmt.Sprintf("cam: %s is %.4g", e.What, e.Value)
	if e.Limit != 0 || e.Value <= 0 { // a limit of nothing bounds from below
		s += fmt.Sprintf(", limit %.4g", e.Limit)
	}
	if e.Theta != 0 {
		s += fmt.Sprintf(", at %.1f degrees of flexion", e.Theta*180/math.Pi)
	}
	return s + ": " + e.Hint
}

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
