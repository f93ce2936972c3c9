package sheet

import (
	"fmt"
	"strings"
)

// Error says why a sheet cannot be laid out, and what would help.
type Error struct {
	Sheet  string // title of the sheet
	Reason string
	Hint   string
}

func (e *Error) Error() string {
	return fmt.Sprintf("sheet %q: %s (%s)", e.Sheet, e.Reason, e.Hint)
}

// Fault is the kind of a Problem.
type Fault string

// What Check looks for.
const (
	Overlap     Fault = "text covers text"
	Struck      Fault = "text lies on an outline"
	Outside     Fault = "reaches outside the frame"
	TooLong     Fault = "does not fit its field"
	Unprintable Fault = "has characters outside the font"
)

// Problem is a defect of a drawing that has been laid out.
type Problem struct {
	Fault Fault
	Text  string  // the text concerned, or the role of a line
	X, Y  float64 // where, paper mm; 0, 0 for a field of the title block
}

func (p Problem) String() string {
	return fmt.Sprintf("%q %s at (%.1f, %.1f)", p.Text, p.Fault, p.X, p.Y)
}

// CheckError lists the problems of a drawing.
type CheckError struct {
	Sheet    string
	Problems []Problem
}

func (e *CheckError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.String()
	}
	return fmt.Sprintf("sheet %q: %s", e.Sheet, strings.Join(lines, "; "))
}
