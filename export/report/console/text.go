package console

import (
	"armwright/export/report"
	"armwright/export/terminal"
)

// text is a report being laid out for a terminal.
type text struct{ terminal.Text }

// verdict writes the station's name with its verdict.
func (t *text) verdict(r *report.Report) {
	colour := terminal.Red
	if r.Verdict == "met" {
		colour = terminal.Green
	}
	t.Words("", t.In(terminal.Bold, r.Name)+": "+t.In(colour, report.VerdictWord(r.Verdict)))
}
