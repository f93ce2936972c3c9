package explain

import (
	"context"
	"slices"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// A brief whose drive cannot be made is infeasible: it is told which of its wishes
// conflict, and each repair told leads to a station that meets everything.
func TestDriveThatCannotBeMade(t *testing.T) {
	testdata.Long(t)
	for _, c := range []struct {
		name   string
		set    map[string]string // of the cam study
		needed string            // in the smallest conflict
	}{
		// No pair of wheels of stock has such a ratio, and the shaft itself has 1.
		{"ratio", map[string]string{"resistance.ratio": "1.02..1.05"}, "resistance.ratio"},
		// The pitch curve's radius of curvature H + H'' cannot stay at the cable's 36 mm
		// over 125 degrees where H lies between 27 and 30 mm: see proveCam.
		{"window", map[string]string{"resistance.ratio": "1..1", "resistance.least_arm": "27 mm", "resistance.greatest_arm": "30 mm"}, "resistance.least_arm"},
		// Over ten degrees at least 110 mm of moment arm: what closes the outline around
		// the rest of the turn reaches the guide sheave 300 mm away.
		{"guide", map[string]string{"resistance.ratio": "1..1", "resistance.least_arm": "110 mm", "resistance.greatest_arm": "145 mm", "resistance.loaded": "115.2 deg..125 deg", "resistance.curve": "men-measured",
			"resistance.load.light": "2.5 kg", "resistance.load.middle": "10 kg", "resistance.load.heavy": "20 kg"}, "resistance.least_arm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := solvertest.Brief(t, "cam-study")
			for path, value := range c.set {
				if err := b.Set(path, value); err != nil {
					t.Fatal(err)
				}
			}
			r, err := explained(context.Background(), b, nil)
			if err != nil {
				t.Fatal(err)
			}
			if r.Verdict != judge.Infeasible || r.NoStation == nil {
				t.Fatalf("verdict %s, %v", r.Verdict, r.NoStation)
			}
			if !slices.ContainsFunc(r.Conflict, func(v Conflict) bool { return v.ID == c.needed && v.Needed }) {
				t.Errorf("%s is not needed for the conflict %+v", c.needed, r.Conflict)
			}
			if len(r.Repairs) == 0 {
				t.Fatal("no repair")
			}
			for _, way := range r.Repairs {
				mended := b
				if err := way.Apply(&mended); err != nil {
					t.Fatal(err)
				}
				again, err := explained(context.Background(), mended, nil)
				if err != nil {
					t.Fatal(err)
				}
				if again.Verdict != judge.Met || again.Frame.Geometry.Cam == nil {
					t.Errorf("%+v leaves the brief %s", way.Changes, again.Verdict)
				}
			}
		})
	}
}
