package draw

import "fmt"

// MissingError says that a result lacks what a sheet is drawn from.
type MissingError struct{ Part string }

func (e *MissingError) Error() string {
	return fmt.Sprintf("draw: the station has no %s to draw (%s)", e.Part, e.Hint())
}

// Hint says what to do.
func (e *MissingError) Hint() string { return "draw a result that came from Solve or Check" }
