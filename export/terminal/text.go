package terminal

import (
	"bytes"
	"strings"
)

// Text is text being laid out for a terminal. The zero value has no colours and the
// usual width.
type Text struct {
	bytes.Buffer
	Colour  bool // ANSI colours; words and signs stay the same
	Columns int  // of the terminal, 0 where nobody knows, see [Width]
}

// Colours, which carry nothing that the words do not say, for [Text.In].
const (
	Bold  = "\x1b[1m"
	Green = "\x1b[32m"
	Red   = "\x1b[31m"
	Plain = "\x1b[0m"
)

// Width is what the text is laid out for.
func (t *Text) Width() int { return Width(t.Columns) }

// In is a word in a colour, where there are colours.
func (t *Text) In(colour, s string) string {
	if !t.Colour {
		return s
	}
	return colour + s + Plain
}

// Line writes a line as it stands.
func (t *Text) Line(s string) { t.WriteString(strings.TrimRight(s, " ") + "\n") }

// Lines writes lines as they stand.
func (t *Text) Lines(list []string) {
	for _, l := range list {
		t.Line(l)
	}
}

// Count is the number of lines so far.
func (t *Text) Count() int { return bytes.Count(t.Bytes(), []byte("\n")) }

// Heading writes a heading after an empty line.
func (t *Text) Heading(s string) {
	t.Line("")
	for _, l := range Wrap(s, t.Width()) {
		t.Line(t.In(Bold, l))
	}
}

// Words writes text behind an indent, broken into lines.
func (t *Text) Words(indent, s string) {
	t.Lines(Indent(indent, Wrap(s, t.Width()-Count(indent))))
}

// Paragraph writes text after an empty line.
func (t *Text) Paragraph(s string) {
	t.Line("")
	t.Words("", s)
}

// Table writes a table behind an indent of two.
func (t *Text) Table(table Table) {
	for _, l := range table.Lines(t.Width() - 2) {
		t.Line("  " + l)
	}
}
