package page

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"armwright/export/report"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/testdata"
)

// A value that has no control changes nothing: whatever it is set to, the judge says the
// same of the station. Only what lays out sheets, names things, or is left to the tool
// has a place of its own elsewhere.
func TestValuesWithoutControlsChangeNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("judges stations a few hundred times")
	}
	for _, name := range testdata.Few(1, "cam-study", "linkage-study", "arm-pad-station", "reclined-levers") {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			changeNothing(t, name)
		})
	}
}

func changeNothing(t *testing.T, name string) {
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	judged := func(b *specs.Brief) string {
		j, err := judge.New(&b.Asked)
		if err != nil {
			return err.Error()
		}
		r, err := j.Frame(f.Name, f.Geometry)
		if err != nil {
			return err.Error()
		}
		rep := report.New(solver.Judged(r), "", nil)
		rep.Assumptions = nil // they quote the brief
		data, err := json.Marshal(rep)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	b := specs.Brief{Format: "brief/1", Name: f.Name, Asked: f.Asked}
	before := judged(&b)
	all, kinds := map[string]bool{}, require.Kinds()
	groups, err := controls(b, b)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range groups {
		for _, c := range append(g.Main, g.More...) {
			all[c.Path] = true
		}
	}
	for _, l := range specs.Leaves() {
		if all[l.Path] != uses(&b, l.Path, kinds) {
			t.Errorf("%s: %s has a control: %v, and is used: %v", name, l.Path, all[l.Path], uses(&b, l.Path, kinds))
		}
		if all[l.Path] || l.Form == specs.Text || sectionOf(l.Path) == "drawing" || sectionOf(l.Path) == "region" || sectionOf(l.Path) == "kind" {
			continue
		}
		tries := l.Choices
		shares := []float64{0.1, 0.7}
		if !testdata.IsLong() {
			shares, tries = shares[1:], tries[:min(len(tries), 2)] // one of two differs from what it is
		}
		for _, share := range shares {
			v := l.Least + share*(l.Most-l.Least)
			if l.Form == specs.Whole {
				v = math.Round(v)
			}
			if l.Form != specs.Choice {
				tries = append(tries, fmt.Sprintf("%g %s", v, l.Unit))
			}
		}
		for _, v := range tries {
			c := b
			if c.Set(l.Path, v) == nil && judged(&c) != before {
				t.Errorf("%s: %s = %s changes the station and has no control", name, l.Path, v)
			}
		}
	}
}

func sectionOf(path string) string {
	for i := range path {
		if path[i] == '.' {
			return path[:i]
		}
	}
	return path
}
