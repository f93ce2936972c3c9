// Package terminal lays out text for a terminal: paragraphs broken between words, and
// tables whose columns give way where the terminal is narrow. Widths are in characters;
// codes of colour (ECMA-48) take none.
package terminal

import (
	"strings"
	"unicode/utf8"
)

// Widths that text is laid out for: what a terminal must have, what is still read with
// ease, and what is taken where nobody knows.
const (
	Least = 60
	Most  = 200
	Usual = 100
)

// Width is what to lay out for on a terminal of so many columns, 0 for not known.
func Width(columns int) int {
	if columns <= 0 {
		return Usual
	}
	return max(Least, min(Most, columns))
}

// Count is the number of characters that a text shows.
func Count(s string) int {
	n := utf8.RuneCountInString(s)
	for rest := s; ; {
		_, after, found := strings.Cut(rest, "\x1b[")
		if !found {
			return n
		}
		code, text, _ := strings.Cut(after, "m")
		n -= len("\x1b[m") + utf8.RuneCountInString(code)
		rest = text
	}
}

// Wrap breaks text between words so that lines stay within a width; a word that is
// longer stands alone. A number keeps its unit beside it.
func Wrap(s string, width int) []string {
	var lines []string
	line, n := "", 0
	words := strings.Fields(s)
	for i := 0; i < len(words); i++ {
		word := words[i]
		if i+1 < len(words) && isNumber(word) && isUnit(words[i+1]) {
			word += " " + words[i+1]
			i++
		}
		k := Count(word)
		if n > 0 && n+1+k > width {
			lines, line, n = append(lines, line), "", 0
		}
		if n > 0 {
			line, n = line+" ", n+1
		}
		line, n = line+word, n+k
	}
	return append(lines, line)
}

// isNumber tells a number, also in brackets.
func isNumber(word string) bool {
	word = strings.TrimLeft(word, "([+-±")
	return word != "" && strings.Trim(word, "0123456789.") == ""
}

// isUnit tells the sign of a unit, also with what ends a clause behind it.
func isUnit(word string) bool {
	switch strings.TrimRight(word, ",.;:)") {
	case "%", "mm", "deg", "kg", "N", "N·m", "J", "in", "lb", "lbf", "lbf·ft":
		return true
	}
	return false
}

// Indent puts a text before the first of some lines, and as much space before the others.
func Indent(first string, lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		if i > 0 {
			first = strings.Repeat(" ", Count(first))
		}
		out[i] = strings.TrimRight(first+l, " ")
	}
	return out
}

// Fill breaks the paragraphs of a text anew that are too wide for a terminal of so many
// columns, 0 for not known; indented lines stay as they are.
func Fill(text string, columns int) string {
	if columns <= 0 {
		return text
	}
	width := Width(columns)
	var out, block []string
	wide := false
	flush := func() {
		if wide {
			block = Wrap(strings.Join(block, " "), width)
		}
		out, block, wide = append(out, block...), nil, false
	}
	for line := range strings.SplitSeq(text, "\n") {
		if line == "" || strings.HasPrefix(line, " ") {
			flush()
			out = append(out, line)
			continue
		}
		block = append(block, line)
		wide = wide || Count(line) > width
	}
	flush()
	return strings.Join(out, "\n")
}
