package specs

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
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
		b.WriteString(Printable(p.File) + ":")
	}
	if p.Line > 0 {
		fmt.Fprintf(&b, "%d:%d:", p.Line, p.Column)
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	b.WriteString(Printable(p.Message))
	if p.Hint != "" {
		b.WriteString("\n  hint: " + Printable(p.Hint))
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

// Printable is a text with what does not print in it replaced, so that a name that
// comes from outside can be shown on a terminal without steering it.
func Printable(text string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) && r != '\t' {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

// longestQuote is how much of a user's text a message repeats.
const longestQuote = 40

// clip shortens text for a message and replaces what does not print.
func clip(text string) string {
	out := []rune(text)
	if len(out) > longestQuote {
		out = append(out[:longestQuote-1], '…')
	}
	return Printable(string(out))
}

func quote(text string) string { return strconv.Quote(clip(text)) }

// nearest returns the word closest to text if it is close enough to be what
// was meant: about a third of the letters wrong at most, the first of equals.
func nearest(text string, words []string) (found string, ok bool) {
	letters := []rune(strings.ToLower(text))
	if len(letters) > longestQuote {
		return "", false
	}
	best := (len(letters)+1)/3 + 1
	for _, w := range words {
		if d := editDistance(letters, []rune(strings.ToLower(w))); d < best {
			best, found, ok = d, w, true
		}
	}
	return found, ok
}

// editDistance counts the insertions, deletions, replacements and swaps of
// neighbours between two words (optimal string alignment; Damerau 1964).
func editDistance(a, b []rune) int {
	before, prev, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := range a {
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			row[j+1] = min(prev[j]+cost, prev[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, prev, row = prev, row, before
	}
	return prev[len(b)]
}
