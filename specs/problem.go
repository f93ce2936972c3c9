package specs

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"armwright/specs/wording"
)

// Problem is one thing wrong with a file. Line and Column count from 1, in
// characters; they are 0 where the fault has no place in a file.
type Problem struct {
	File    string
	Line    int
	Column  int
	Path    string // keys from the top, "people.shoe"; empty for the file itself
	Message string
	Hint    string // what to do about it, may be empty
}

// String is the problem as one or two lines, "file:line:column: message" and
// the indented hint. What a message repeats of a file is shown as far as it prints.
func (p Problem) String() string {
	var b strings.Builder
	if p.File != "" {
		b.WriteString(wording.Printable(p.File) + ":")
	}
	if p.Line > 0 {
		fmt.Fprintf(&b, "%d:%d:", p.Line, p.Column)
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	b.WriteString(wording.Printable(p.Message))
	if p.Hint != "" {
		b.WriteString("\n  hint: " + wording.Printable(p.Hint))
	}
	return b.String()
}

// Problems are all the things wrong with a file, in the order of their places.
type Problems struct {
	List []Problem
}

// mostPrinted is how many problems a message spells out; a reader mends the
// first few and runs again.
const mostPrinted = 20

func (p *Problems) Error() string {
	var lines []string
	for i, q := range p.List {
		if i == mostPrinted {
			lines = append(lines, fmt.Sprintf("and %d more", len(p.List)-mostPrinted))
			break
		}
		lines = append(lines, q.String())
	}
	return strings.Join(lines, "\n")
}

// asError returns the problems sorted by place, or nil if there are none.
func asError(list []Problem) error {
	if len(list) == 0 {
		return nil
	}
	slices.SortStableFunc(list, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return &Problems{List: list}
}

// fault is a problem that does not know its place yet.
type fault struct {
	message, hint string
}

func (f *fault) Error() string { return f.message }
