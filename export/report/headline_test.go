package report

import (
	"testing"
)

// Every leading figure is that of its requirement, word for word.
func TestHeadlineIsTheRequirements(t *testing.T) {
	for _, kind := range append(kinds, "base-too-short") {
		r := written(t, kind)
		if n := len(r.Headline.Figures); n < 3 || n > mostFigures {
			t.Errorf("%s: %d figures", kind, n)
		}
		for _, f := range r.Headline.Figures {
			i := indexOf(r.Requirements, f.Requirement)
			if i < 0 {
				t.Fatalf("%s: a figure of no requirement: %+v", kind, f)
			}
			if q := r.Requirements[i]; f.Value != q.Value || f.Limit != q.Limit || f.Unit != q.Unit || f.Sense != q.Sense || f.Met != q.Met {
				t.Errorf("%s: %+v is not %+v", kind, f, q)
			}
		}
	}
}

func TestServed(t *testing.T) {
	of := func(n, fit int) *Covered { return &Covered{Persons: n, Fit: fit, Coverage: float64(fit) / float64(n)} }
	all, low, high := 0.75, 0.7, 0.8
	r := &Report{People: People{Source: "random persons", Sample: 200, Coverage: &all, Low: &low, High: &high, Women: of(100, 70), Men: of(100, 80), Settings: []Band{
		{From: 1500, To: 1550, Women: of(10, 4)},
		{From: 1550, To: 1600, Women: of(40, 36), Men: of(2, 0)}, // too few men to tell
		{From: 1600, To: 1650, Women: of(40, 32), Men: of(20, 18)},
		{From: 1650, To: 1700, Women: of(10, 6), Men: of(20, 20)},
		{From: 1700, To: 1750, Men: of(20, 9)},
	}}}
	const want = "75.0 % of 200 persons fit (random persons; 95 % interval 70.0 to 80.0 %): " +
		"70 % of the women (four in five or more from 1550 mm to 1650 mm, under half below 1550 mm) and " +
		"80 % of the men (four in five or more from 1600 mm to 1700 mm, under half above 1700 mm)."
	if got := served(r); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	r.People.Coverage = nil
	r.People.Boundary = []Person{{Fits: true}, {}}
	if got := served(r); got != "1 of 2 boundary persons fit." {
		t.Error(got)
	}
}

func TestNames(t *testing.T) {
	for label, want := range map[string][2]string{
		"woman 22 (-size -length +trunk +carrying)": {"woman 22", "small, short-legged, long trunk, wide carrying angle"},
		"man 01 (centre)": {"man 01", "middling in all"},
		"R. (tall)":       {"R. (tall)", ""},
		"seven":           {"seven", ""},
	} {
		if got := [2]string{Short(label), Meaning(label)}; got != want {
			t.Errorf("%s: %q, want %q", label, got, want)
		}
	}
	key := Key([]string{"man 03 (+size)", "woman 02 (-size)", "man 03 (+size)", "seven"})
	if len(key) != 2 || key[0] != "man 03: large" || key[1] != "woman 02: small" {
		t.Errorf("%q", key)
	}
}
