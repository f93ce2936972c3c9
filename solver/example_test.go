package solver_test

import (
	"context"
	"fmt"
	"math"

	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

// A brief becomes a station: here the cam of a bench study.
func ExampleSolve() {
	text, err := specs.Examples.ReadFile("examples/cam-study.yaml")
	if err != nil {
		panic(err)
	}
	brief, err := specs.ParseBrief("cam-study.yaml", text)
	if err != nil {
		panic(err)
	}
	r, err := solver.Solve(context.Background(), brief, nil)
	if err != nil {
		panic(err)
	}
	fmt.Println(r.Verdict)
	for _, id := range []string{"torque-match", "cam-bend"} {
		if q, ok := r.Requirement(id); ok {
			fmt.Printf("%s: %.3g, limit %.3g\n", id, q.Value, q.Limit) // a share, mm
		}
	}
	// Output:
	// met
	// torque-match: 0.142, limit 0.2
	// cam-bend: 38.5, limit 38
}

// A frame is judged as it stands, for the people it says it is for.
func ExampleCheck() {
	frame, err := specs.ParseFrame("arm-pad-station.yaml", testdata.Frame("arm-pad-station"))
	if err != nil {
		panic(err)
	}
	frame.Limits.HandPath = 10 // mm
	r, err := solver.Check(frame)
	if err != nil {
		panic(err)
	}
	fmt.Println(r.Verdict)
	for _, q := range r.Requirements {
		if !q.Met {
			fmt.Printf("%s: %.1f mm, limit %.1f mm, %s at %.0f°\n", q.ID, q.Value, q.Limit, q.Person, q.Angle*180/math.Pi)
		}
	}
	// Output:
	// not-met
	// hand-path: 13.8 mm, limit 10.0 mm, man 03 (large) at 130°
}
