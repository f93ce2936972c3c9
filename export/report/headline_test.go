package report

import (
	"math"
	"strings"
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
	r := &Report{People: People{Source: "random persons, tall, 50 % women", Sample: 200, Coverage: &all, Low: &low, High: &high, Women: of(100, 70), Men: of(100, 80), Settings: []Band{
		{From: 1500, To: 1550, Women: of(10, 4)},
		{From: 1550, To: 1600, Women: of(40, 36), Men: of(2, 0)}, // too few men to tell
		{From: 1600, To: 1650, Women: of(40, 32), Men: of(20, 18)},
		{From: 1650, To: 1700, Women: of(10, 6), Men: of(20, 20)},
		{From: 1700, To: 1750, Men: of(20, 9)},
	}}}
	const want = "75.0 % of 200 random persons fit (95 % interval 70.0 to 80.0 %). " +
		"Of the women 70 % fit: four in five or more from 1550 mm to 1650 mm, fewer than half below 1550 mm. " +
		"Of the men 80 % fit: four in five or more from 1600 mm to 1700 mm, fewer than half above 1700 mm."
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
		"woman 22 (small, short-legged, long trunk, wide carrying angle)": {"woman 22", "small, short-legged, long trunk, wide carrying angle"},
		"man 01 (middling in all)":                                        {"man 01", "middling in all"},
		"R. (tall)":                                                       {"R. (tall)", ""},
		"seven":                                                           {"seven", ""},
	} {
		if got := [2]string{Short(label), Meaning(label)}; got != want {
			t.Errorf("%s: %q, want %q", label, got, want)
		}
	}
}

// Of several requirements of a kind the one with the least room is told; what balance and
// joints say beside it are the same rows.
func TestHeadlineLeavesNothingOut(t *testing.T) {
	for _, kind := range append(kinds, "base-too-short") {
		r := written(t, kind)
		room := func(id string) float64 {
			if i := indexOf(r.Requirements, id); i >= 0 {
				return r.Requirements[i].Margin / r.Requirements[i].Scale
			}
			return math.Inf(1)
		}
		told := map[string]bool{}
		for _, f := range r.Headline.Figures {
			told[f.Requirement] = true
		}
		for _, s := range leading() {
			least, which := math.Inf(1), ""
			for _, k := range s {
				if v := room(k.id); v < least {
					least, which = v, k.id
				}
			}
			for _, k := range s {
				if told[k.id] && k.id != which {
					t.Errorf("%s: %s is told, %s has less room", kind, k.id, which)
				}
			}
		}
		for _, id := range []string{"tilt-empty", "tilt-occupied", "tilt-entry"} {
			if i := indexOf(r.Requirements, id); i >= 0 {
				if want := r.Units.Figure(r.Requirements[i].Value, "deg"); !strings.Contains(TiltSentence(r), want) {
					t.Errorf("%s: %s of %s is not in %q", kind, want, id, TiltSentence(r))
				}
			}
		}
		for _, c := range r.Strength.Checks {
			if c.Requirement != nil {
				if i := indexOf(r.Requirements, *c.Requirement); i < 0 || r.Requirements[i].Met && !c.Met {
					t.Errorf("%s: %s counts under %s, which is not asked or is met", kind, c.Part, *c.Requirement)
				}
			}
			if told := strings.Contains(r.Headline.Outcome, ": "+c.Part+" at ") || strings.Contains(r.Headline.Outcome, "; "+c.Part+" at "); told != (!c.Met && c.Requirement == nil) {
				t.Errorf("%s: %s, met %v: told %v: %s", kind, c.Part, c.Met, told, r.Headline.Outcome)
			}
		}
		for _, p := range r.Protection {
			if p.Requirement == nil {
				if !p.Met && !strings.Contains(r.Headline.Outcome, "decides no verdict") {
					t.Errorf("%s: %s lies beyond its limit: %s", kind, p.What, r.Headline.Outcome)
				}
				continue
			}
			i := indexOf(r.Requirements, *p.Requirement)
			if i < 0 {
				t.Fatalf("%s: %s is judged by %s, which is not asked", kind, p.What, *p.Requirement)
			}
			if q := r.Requirements[i]; p.Value != q.Value || p.Limit != q.Limit || p.Met != q.Met {
				t.Errorf("%s: %s is %v of %v, %s %v of %v", kind, p.What, p.Value, p.Limit, q.ID, q.Value, q.Limit)
			}
			if strings.Contains(r.Headline.Outcome, p.What) {
				t.Errorf("%s: %s is judged, and told as what decides no verdict: %s", kind, p.What, r.Headline.Outcome)
			}
		}
	}
}
