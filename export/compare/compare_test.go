package compare

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"armwright/export/report"
	"armwright/export/sheet"
	"armwright/export/terminal"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/testdata"
)

func judged(t *testing.T, name string) *report.Report {
	t.Helper()
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	r, err := solver.CheckPeople(f, judge.Persons{})
	if err != nil {
		t.Fatal(err)
	}
	return report.New(r, "armwright", nil)
}

// A station against itself is alike in everything; against the short frame it
// stands better and takes more floor; what only one has has nothing beside it.
func TestStations(t *testing.T) {
	a, b := judged(t, "arm-pad-station"), judged(t, "base-too-short")
	same := Of(a, a)
	if same.Better != 0 {
		t.Errorf("a station is better than itself: %s", same.Why)
	}
	for _, g := range same.Groups {
		for _, r := range g.Lines {
			if r.Better != 0 || r.Values[0] == nil != (r.Values[1] == nil) || r.Values[0] != nil && *r.Values[0] != *r.Values[1] {
				t.Errorf("a station against itself: %+v", r)
			}
		}
	}
	c := Of(a, b)
	at := map[string]Row{}
	for _, g := range c.Groups {
		for _, r := range g.Lines {
			at[r.What] = r
		}
	}
	if r := at["tilt-occupied"]; r.Better != 1 || *r.Values[0] <= *r.Values[1] || r.Failed != [2]bool{false, true} {
		t.Errorf("tilt: %+v", r)
	}
	if r := at["base length"]; r.Better != 2 || *r.Values[0] <= *r.Values[1] {
		t.Errorf("length: %+v", r)
	}
	if c.Better != 1 || !strings.HasPrefix(c.Why, "It fails in less: 1 misses footprint-width; 2 misses ") {
		t.Errorf("%d is better: %s", c.Better, c.Why)
	}
	for _, g := range Of(a, judged(t, "reclined-levers")).Groups {
		for _, r := range g.Lines {
			if r.What == "arm-slope" && (r.Values[0] != nil || r.Values[1] == nil || r.Better != 0) {
				t.Errorf("arm-slope: %+v", r)
			}
		}
	}
	var data bytes.Buffer
	if err := JSON(&data, c); err != nil {
		t.Fatal(err)
	}
	var back Comparison
	if err := json.Unmarshal(data.Bytes(), &back); err != nil || back.Schema != Schema {
		t.Errorf("%v %q", err, back.Schema)
	}
	for _, columns := range []int{60, 100} {
		var text bytes.Buffer
		if err := Text(&text, c, false, columns); err != nil {
			t.Fatal(err)
		}
		for line := range strings.SplitSeq(text.String(), "\n") {
			if n := terminal.Count(line); n > columns {
				t.Errorf("%d characters: %s", n, line)
			}
			if strings.Contains(line, "*") && strings.Contains(line, "FAILS *") {
				t.Errorf("a star on what fails: %s", line)
			}
		}
		level := strings.Join(strings.Fields(text.String()), " ")
		for _, want := range []string{"1 is better. Their limits differ, and both are held to the stricter: torque-match at most 1.50 % and 3.00 %; footprint-width at most 1450.0 mm and 1100.0 mm. It fails in less: 1 misses footprint-width; 2 misses ", "FAILS", sheet.Notice} {
			if !strings.Contains(level, want) {
				t.Errorf("no %q in\n%s", want, text.String())
			}
		}
	}
}

// Which value has the star, and which station is better: by hand.
func TestBetter(t *testing.T) {
	most := func(id string, value, limit float64) report.Requirement {
		return report.Requirement{ID: id, Value: value, Limit: limit, Scale: 1, Sense: "at most", Met: value <= limit, Margin: limit - value}
	}
	station := func(list ...report.Requirement) *report.Report { return &report.Report{Requirements: list} }
	for _, c := range []struct {
		name   string
		a, b   *report.Report
		row    int // star of the first row
		better int
		why    string
	}{
		{"a laxer limit is no merit", station(most("hand-path", 14, 20)), station(most("hand-path", 12, 13)), 2, 2, "2 meets what is asked, 1 misses hand-path."},
		{"though it is met where the other's is not", station(most("hand-path", 14, 20)), station(most("hand-path", 12, 10)), 0, 0, "Both fail in as many: 1 misses hand-path; 2 misses hand-path."},
		{"both within the stricter", station(most("hand-path", 9, 20)), station(most("hand-path", 8, 10)), 2, 2, "Both meet what is asked; 2 is better in hand-path and worse in nothing."},
		{"the same frame under a looser limit", station(most("hand-path", 12, 10)), station(most("hand-path", 12, 15)), 0, 0, "Both fail in as many: 1 misses hand-path; 2 misses hand-path."},
		{"less than matters", station(most("hand-path", 14, 20)), station(most("hand-path", 14.05, 20)), 0, 0, "Both meet what is asked, and differ in no requirement by what matters."},
		{"fewer failures", station(most("hand-path", 22, 20), most("footprint-width", 1, 2)), station(most("hand-path", 21, 20), most("footprint-width", 3, 2)), 0, 1, "It fails in less: 1 misses hand-path; 2 misses hand-path, footprint-width."},
		{"as many", station(most("hand-path", 22, 20)), station(most("hand-path", 21, 20)), 0, 0, "Both fail in as many: 1 misses hand-path; 2 misses hand-path."},
		{"each its own", station(most("hand-path", 10, 20), most("footprint-width", 2, 5)), station(most("hand-path", 12, 20), most("footprint-width", 1, 5)), 1, 0, "Both meet what is asked; 1 is better in hand-path; 2 is better in footprint-width."},
	} {
		got := Of(c.a, c.b)
		if row := got.Groups[0].Lines[0]; row.Better != c.row {
			t.Errorf("%s: star at %d, want %d", c.name, row.Better, c.row)
		}
		x, y := c.a.Requirements[0].Limit, c.b.Requirements[0].Limit
		if told := got.Limits != ""; told != (x != y) {
			t.Errorf("%s: limits %.0f and %.0f: %q", c.name, x, y, got.Limits)
		}
		if got.Better != c.better || got.Why != c.why {
			t.Errorf("%s: %d, %s; want %d, %s", c.name, got.Better, got.Why, c.better, c.why)
		}
	}
}

// What is told of the two says which lies beyond a limit that protects joints, and a bench
// is no better or worse than a station.
func TestWhyTellsWhatHurtsAndWhatDiffersInKind(t *testing.T) {
	reports := map[string]*report.Report{}
	for _, kind := range []string{"reclined-levers", "reclined-linkage", "cam-study"} {
		reports[kind] = judged(t, kind)
	}
	c := Of(reports["reclined-levers"], reports["reclined-linkage"])
	if !strings.Contains(c.Why, " 1 lies beyond a limit that protects joints: width of the upper arm on its stop pad") {
		t.Errorf("of levers and linkage: %s", c.Why)
	}
	if c := Of(reports["reclined-linkage"], reports["cam-study"]); c.Better != 0 || !strings.HasPrefix(c.Why, "One is a station, the other a bench") {
		t.Errorf("of a station and a bench: %d, %s", c.Better, c.Why)
	}
}
