package dxf

import "fmt"

// InvalidError says that a document cannot be written.
type InvalidError struct {
	Where   string // "entity 3 (CIRCLE)", "layer CUT"
	Problem string
	Hint    string // what to do about it; may be empty
}

func (e *InvalidError) Error() string {
	return "dxf: " + e.Where + ": " + e.Problem + hint(e.Hint)
}

// SyntaxError says where a file departs from the format, or holds something
// this package does not read.
type SyntaxError struct {
	Line    int // of the group code, from 1
	Problem string
	Hint    string
}

func (e *SyntaxError) Error() string {
	return fmt.Sprintf("dxf: line %d: %s%s", e.Line, e.Problem, hint(e.Hint))
}

func hint(h string) string {
	if h == "" {
		return ""
	}
	return " (" + h + ")"
}
