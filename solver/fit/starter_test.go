package fit

import (
	"context"
	"testing"

	"armwright/specs"
	"armwright/testdata"
)

// The brief that a new user begins with is met as it stands, of every kind and in every
// region.
func TestStartersAreMet(t *testing.T) {
	testdata.Long(t)
	for _, kind := range []string{"arm-pad", "reclined", "cam-study"} {
		for _, region := range []string{"iso", "us"} {
			b, err := specs.ParseBrief(kind, specs.ShortStarter(kind, region))
			if err != nil {
				t.Fatal(err)
			}
			r, err := Solve(context.Background(), b, &Options{Terse: true})
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range r.Requirements {
				if !q.Met {
					t.Errorf("%s, %s: %s %g, limit %g", kind, region, q.ID, q.Value, q.Limit)
				}
			}
		}
	}
}
