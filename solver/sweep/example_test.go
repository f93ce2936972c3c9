package sweep_test

import (
	"context"
	"fmt"

	"armwright/solver/judge"
	"armwright/solver/sweep"
	"armwright/specs"
	"armwright/testdata"
)

// A frame is judged with each of four limits.
func ExampleRun() {
	frame, err := specs.ParseFrame("cam-study.yaml", testdata.Frame("cam-study"))
	if err != nil {
		panic(err)
	}
	judge, err := judge.New(&frame.Asked)
	if err != nil {
		panic(err)
	}
	const path = "limits.torque_match"
	worker, err := sweep.NewEvaluator(frame, judge, []string{path})
	if err != nil {
		panic(err)
	}
	varied, err := specs.Vary(frame, path)
	if err != nil {
		panic(err)
	}
	axis, err := sweep.ParseAxis(varied.Places()[0], "6 %..21 %:4")
	if err != nil {
		panic(err)
	}
	plan, err := sweep.NewPlan(sweep.Grid, []sweep.Axis{axis}, 0, 1)
	if err != nil {
		panic(err)
	}
	all := sweep.Shard{}.Designs(plan.Len(), 0)
	err = sweep.Run(context.Background(), plan, all, []sweep.Worker{worker}, func(design int, o *sweep.Outcome) error {
		fmt.Println(o.Values[0], o.Verdict)
		return nil
	})
	if err != nil {
		panic(err)
	}
	// Output:
	// 6 % not-met
	// 11 % not-met
	// 16 % met
	// 21 % met
}
