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
// columns, 0 for not known. Of indented lines each is broken by itself, see [Fold].
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
		line = strings.ReplaceAll(line, "\t", "  ")
		if line == "" || strings.HasPrefix(line, " ") {
			flush()
			out = append(out, Fold(line, width)...)
			continue
		}
		block = append(block, line)
		wide = wide || Count(line) > width
	}
	flush()
	return strings.Join(out, "\n")
}

// Fold breaks an indented line that is too wide. What stands after a gap of two spaces
// and more, as in a list of names, goes on below itself; a command line of
// this program goes on as a shell reads it, after a backslash.
func Fold(line string, width int) []string {
	if Count(line) <= width {
		return []string{line}
	}
	body := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(body)]
	if name, rest, found := strings.Cut(body, "  "); found {
		text := strings.TrimLeft(rest, " ")
		before := indent + name + strings.Repeat(" ", 2+len(rest)-len(text))
		if room := width - Count(before); room >= Least/4 {
			return Indent(before, Wrap(text, room))
		}
		return append([]string{indent + name}, Indent(indent+"    ", Wrap(text, width-len(indent)-4))...)
	}
	if !strings.HasPrefix(body, "armwright ") || !strings.Contains(body, " -") {
		return Indent(indent, Wrap(body, width-len(indent)))
	}
	var out []string
	now := indent
	for _, word := range arguments(body) {
		if strings.TrimSpace(now) != "" {
			word = " " + word
		}
		if strings.TrimSpace(now) != "" && Count(now)+Count(word)+len(` \`) > width {
			out, now, word = append(out, now+` \`), indent+"    ", word[1:]
		}
		now += word
	}
	return append(out, now)
}

// takesNext says whether a word of a command line keeps the one after it: a flag its
// value, a redirection its file.
func takesNext(word, rest string) bool {
	return word == ">" || strings.HasPrefix(word, "--") && !strings.Contains(word, " ") && !strings.HasPrefix(rest, "-") && !strings.HasPrefix(rest, ">")
}

// arguments cuts a command line at spaces outside of quotes.
func arguments(line string) []string {
	var out []string
	quote := rune(0)
	start := 0
	for i, c := range line {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == ' ' && !takesNext(line[start:i], line[i+1:]):
			out, start = append(out, line[start:i]), i+1
		}
	}
	return append(out, line[start:])
}
