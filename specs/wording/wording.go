// Package wording repeats what a user wrote, as messages tell it.
package wording

import (
	"strconv"
	"strings"
	"unicode"
)

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

// Clip shortens text for a message and replaces what does not print.
func Clip(text string) string {
	out := []rune(text)
	if len(out) > longestQuote {
		out = append(out[:longestQuote-1], '…')
	}
	return Printable(string(out))
}

// Quote is a shortened text in quotes.
func Quote(text string) string { return strconv.Quote(Clip(text)) }

// Nearest returns the word closest to text if it is close enough to be what
// was meant: about a third of the letters wrong at most, the first of equals.
func Nearest(text string, words []string) (found string, ok bool) {
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

// CutLast splits a pair before its last word.
func CutLast(pair string) (before, last string) {
	i := strings.LastIndexAny(pair, " \t")
	if i < 0 {
		return "", pair
	}
	return strings.TrimSpace(pair[:i]), pair[i+1:]
}
