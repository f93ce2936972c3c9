package report

import (
	"fmt"
	"strings"

	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/fit"
	"armwright/specs"
)

// Choice is one combination of values that the brief leaves to the tool.
type Choice struct {
	Values []Picked `json:"values" doc:"one of each value left to the tool"`
	Fate   string   `json:"fate" enum:"chosen|missed|excluded|passed over|dearer" doc:"what became of it: taken; solved, and requirements are missed; shown to be impossible by a bound; not solved because a failed one shares what it failed for; not looked at because a cheaper one serves"`
	Reason string   `json:"reason" doc:"why it was not taken, empty for the one that was"`
	Mass   *float64 `json:"mass" doc:"of the parts of its station, kg; null where none was solved"`
	Length *float64 `json:"length" doc:"of its base, mm; null where none was solved"`
	Width  *float64 `json:"width" doc:"of its base, mm; null where none was solved"`
	Worst  *float64 `json:"worst" doc:"least margin over all requirements, in differences that matter; null where no station was solved"`
}

// Picked is one value of a combination.
type Picked struct {
	Path  string `json:"path" doc:"where the value stands in a brief"`
	Value string `json:"value" doc:"as it stands there"`
}

func choices(r *solver.Result) []Choice {
	list := []Choice{}
	for i := range r.Choices {
		c := &r.Choices[i]
		out := Choice{Fate: string(c.Fate), Reason: words.Why(c, r.Frame.Drawing.Reads()), Values: []Picked{}}
		for _, v := range c.Values {
			out.Values = append(out.Values, Picked(v))
		}
		if c.Solved() {
			out.Mass, out.Worst = some(kg(c.Mass)), some(round(c.Worst, decimals))
			if c.Length > 0 {
				out.Length, out.Width = some(mm(c.Length)), some(mm(c.Width))
			}
		}
		list = append(list, out)
	}
	return list
}

// Picks lists the values of a combination.
func (c Choice) Picks() string {
	var words []string
	for _, v := range c.Values {
		words = append(words, v.Value)
	}
	return strings.Join(words, ", ")
}

// picking names what the values of combinations are.
func picking(list []Choice) string {
	var words []string
	for _, v := range list[0].Values {
		words = append(words, v.Path)
	}
	return strings.Join(words, ", ")
}

// shownChoices is how many combinations the terminal shows of those that were not
// solved.
const shownChoices = 12

func (t *text) choices(r *Report) {
	if len(r.Choices) == 0 {
		return
	}
	t.Heading("What was left to the tool, cheapest first: " + picking(r.Choices))
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
func cost(u specs.Units, c Choice) string {
	var words []string
	if c.Mass != nil && *c.Mass > 0 {
		words = append(words, u.Figure(*c.Mass, "kg"))
	}
	if c.Length != nil {
		words = append(words, fmt.Sprintf("base %s x %s", u.Figure(*c.Length, "mm"), u.Figure(*c.Width, "mm")))
	}
	return strings.Join(words, ", ")
}
