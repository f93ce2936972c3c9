package report_test

import (
	"fmt"

	"armwright/export/report"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

// A result becomes a report, which the printers of JSON, pages and text take.
func ExampleNew() {
	frame, err := specs.ParseFrame("cam-study.yaml", testdata.Frame("cam-study"))
	if err != nil {
		panic(err)
	}
	result, err := solver.Check(frame)
	if err != nil {
		panic(err)
	}
	r := report.New(result, "armwright", nil)
	fmt.Println(report.VerdictWord(r.Verdict))
	for _, q := range r.Requirements {
		fmt.Println(q.ID, report.Status(q))
	}
	// Output:
	// MET
	// torque-match met
	// cam-bend met
	// cable-factor met
	// stack-travel met
	// fleet-angle met
}
