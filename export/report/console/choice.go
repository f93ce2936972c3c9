package console

import (
	"fmt"
	"strings"

	"armwright/export/report"
	"armwright/solver/fit"
	"armwright/specs"
)

// shownChoices is how many combinations the terminal shows of those that were not
// solved.
const shownChoices = 12

func (t *text) choices(r *report.Report) {
	if len(r.Choices) == 0 {
		return
	}
	t.Heading("What was left to the tool, cheapest first: " + report.Picking(r.Choices))
	left := 0
	for _, c := range r.Choices {
		if c.Worst == nil {
			if left++; left > shownChoices {
				continue
			}
		}
		t.Words(fmt.Sprintf("  %-2s ", chosen(c.Fate == string(fit.Chosen))), fmt.Sprintf("%s: %s, %s", c.Picks(), c.Fate, cost(r.Units, c)))
		if c.Reason != "" && c.Fate != string(fit.Dearer) {
			t.Words("      ", c.Reason)
		}
	}
	if left > shownChoices {
		t.Words("  ", fmt.Sprintf("and %d more that were not solved, in report.html", left-shownChoices))
	}
}

// cost is what the station of a combination takes, empty where none was solved.
func cost(u specs.Units, c report.Choice) string {
	var words []string
	if c.Mass != nil && *c.Mass > 0 {
		words = append(words, u.Figure(*c.Mass, "kg"))
	}
	if c.Length != nil {
		words = append(words, fmt.Sprintf("base %s x %s", u.Figure(*c.Length, "mm"), u.Figure(*c.Width, "mm")))
	}
	return strings.Join(words, ", ")
}
