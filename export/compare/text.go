package compare

import (
	"fmt"
	"io"
	"strings"

	"armwright/export/report"
	"armwright/export/terminal"
)

// Text writes the comparison for a terminal, with its colours and width. A star stands at the better value.
func Text(w io.Writer, c Comparison, colour bool, columns int) error {
	t := &terminal.Text{Colour: colour, Columns: columns}
	for i := range c.Names {
		t.Words("", t.In(terminal.Bold, fmt.Sprintf("%d: %s", i+1, c.Names[i]))+", "+report.VerdictWord(c.Met[i]))
	}
	verdict := "Neither is better as a whole. "
	if c.Better > 0 {
		verdict = fmt.Sprintf("%d is better. ", c.Better)
	}
	t.Words("", t.In(terminal.Bold, strings.TrimSpace(verdict))+" "+strings.TrimSpace(c.Limits+" "+c.Why))
	for _, g := range c.Groups {
		if len(g.Lines) == 0 {
			continue
		}
		t.Heading(g.Title)
		table := terminal.Table{Head: []string{"", "1", "2"}, Right: []bool{false, true, true}}
		for _, r := range g.Lines {
			if r.Values[0] == nil && r.Values[1] == nil {
				continue
			}
			var cell [2]string
			for i, v := range r.Values {
				cell[i] = "-"
				switch {
				case v == nil:
				case r.counts:
					cell[i] = c.Units.Whole(*v, r.Unit)
				default:
					cell[i] = c.Units.Figure(*v, r.Unit)
				}
				switch {
				case r.Failed[i] && g.Title == "Joints":
					cell[i] = t.In(terminal.Red, "BEYOND") + " " + cell[i]
				case r.Failed[i]:
					cell[i] = t.In(terminal.Red, "FAILS") + " " + cell[i]
				case r.Better == i+1:
					cell[i] = "* " + cell[i]
				}
			}
			table.Add(r.What, cell[0], cell[1])
		}
		t.Table(table)
	}
	t.Line("")
	t.Words("  ", "* the better value; FAILS: beyond what is asked, by the stricter limit where the two differ; BEYOND: a limit that protects a joint")
	t.Paragraph(c.Notice)
	_, err := t.WriteTo(w)
	return err
}
