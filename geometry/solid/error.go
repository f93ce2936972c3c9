package solid

import "fmt"

// touching is the distance, mm, below which two points or faces are one: a
// hundredth of the 1e-4 mm to which coordinates are written.
const touching = 1e-6

// Error tells why a body cannot be made as given.
type Error struct {
	Feature string // "profile", "hole", "bore", "ends", "outline"
	Index   int    // of the hole, bore or corner; 0 where there is one only
	Defect  string // what is wrong
	Hint    string // what to do about it
	Cause   error  // what a part of it says, or nil
}

func (e *Error) Error() string {
	s := fmt.Sprintf("solid: %s %d: %s: %s", e.Feature, e.Index, e.Defect, e.Hint)
	if e.Cause != nil {
		s += ": " + e.Cause.Error()
	}
	return s
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Cause }
