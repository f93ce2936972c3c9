package answer

import (
	"strings"
	"testing"

	"armwright/export/terminal"
	"armwright/solver/judge"
)

// The line is one line on every terminal, says the figures, and names as many reasons
// as there is room for.
func TestText(t *testing.T) {
	a := Of("women under 1.60 m", &judge.Crowd{
		Source:   judge.Source{Population: "civilian", Women: 0.5},
		All:      judge.Group{N: 1000, Fits: 600, Share: 0.6, Low: 0.569, High: 0.630},
		Shrug:    judge.Group{N: 1000, Fits: 700, Share: 0.7},
		TurnedBy: []judge.Turned{{ID: "hand-path", N: 210}, {ID: "handle-reach", N: 120}, {ID: "lean", N: 70}},
	})
	for _, c := range []struct {
		columns int
		want    string
	}{
		{60, "60 % of women under 1.60 m fit (57-63 %, 1000 persons)"},
		{80, "60 % of women under 1.60 m fit (57-63 %, 1000 persons), 70 % with a shrug"},
		{110, "60 % of women under 1.60 m fit (57-63 %, 1000 persons), 70 % with a shrug; turned away by hand-path 21 %"},
		{200, "60 % of women under 1.60 m fit (57-63 %, 1000 persons), 70 % with a shrug; turned away by hand-path 21 %, handle-reach 12 %, lean 7 %"},
	} {
		var b strings.Builder
		if err := a.Text(&b, c.columns); err != nil {
			t.Fatal(err)
		}
		line, ok := strings.CutSuffix(b.String(), "\n")
		if !ok || line != c.want || terminal.Count(line) > c.columns {
			t.Errorf("%d columns: %q, want %q", c.columns, b.String(), c.want)
		}
	}
}
