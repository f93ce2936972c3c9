// Package console prints a report on a terminal: what to know first in a few lines, or
// everything, as wide as the terminal.
package console

import (
	"io"

	"armwright/export/report"
	"armwright/export/terminal"
)

// Options steer Write. The zero value is plain text of [terminal.Usual] width that
// says the main thing.
type Options struct {
	Colour bool // ANSI colours; words and signs stay the same
	Width  int  // of the terminal, characters, see [terminal.Width]; 0 where nobody knows
	Full   bool // all that there is to tell, instead of what to know first
}

// Write writes a report for a terminal: in at most [ShortLines] lines what to know
// first, or everything.
func Write(w io.Writer, r *report.Report, o Options) error {
	t := &text{terminal.Text{Colour: o.Colour, Columns: o.Width}}
	if o.Full {
		t.full(r)
	} else {
		t.short(r)
	}
	_, err := t.WriteTo(w)
	return err
}
