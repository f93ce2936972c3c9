package report

import (
	"strings"

	"armwright/export/words"
	"armwright/solver"
)

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

// Picking names what the values of combinations are.
func Picking(list []Choice) string {
	var words []string
	for _, v := range list[0].Values {
		words = append(words, v.Path)
	}
	return strings.Join(words, ", ")
}
