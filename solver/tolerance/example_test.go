package tolerance_test

import (
	"context"
	"fmt"

	"armwright/solver/judge"
	"armwright/solver/tolerance"
	"armwright/specs"
	"armwright/testdata"
)

// A thousand builds of a station to the tolerances of its sheets: how many meet
// a requirement, and what spreads it most. [TestModelAgreesWithFullBuilds] judges builds
// one by one in full.
func ExampleModel_Run() {
	frame, err := specs.ParseFrame("arm-pad-station.yaml", testdata.Frame("arm-pad-station"))
	if err != nil {
		panic(err)
	}
	judge, err := judge.New(&frame.Asked)
	if err != nil {
		panic(err)
	}
	model, err := tolerance.NewModel(judge, &frame, tolerance.Classes{Machined: "m", Welded: tolerance.WeldedOnSheets})
	if err != nil {
		panic(err)
	}
	r, err := model.Run(context.Background(), tolerance.Options{Builds: 1000, Seed: 1, Times: 1})
	if err != nil {
		panic(err)
	}
	for _, s := range r.Spreads {
		if s.ID == "axis-offset" {
			most := r.Dimensions[s.Causes[0].Dimension]
			fmt.Printf("%s: %.0f %% of the builds meet %.1f mm; most of the spread is of: %s\n", s.ID, 100*s.Met, s.Limit, most.Name)
		}
	}
	// Output:
	// axis-offset: 96 % of the builds meet 15.0 mm; most of the spread is of: offset of a pad
}
