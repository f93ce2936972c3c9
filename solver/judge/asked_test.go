package judge_test

import (
	"testing"

	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// What the table says a station is held to is what its judgement reports: nothing else,
// and all of it but what a brief has to ask for itself.
func TestRequirementsAreAskedWhereTheTableSays(t *testing.T) {
	for _, name := range testdata.Few(3, "linkage-study", "cam-study", "reclined-levers", "arm-pad-station", "reclined-linkage") {
		f := solvertest.Frame(t, name)
		r, err := judge.Check(f)
		if err != nil {
			t.Fatal(err)
		}
		told := map[string]bool{}
		for _, q := range r.Requirements {
			told[q.ID] = true
		}
		for _, k := range require.Kinds() {
			own := k.ID == "coverage" || k.ID == "torque-range"
			if asked := k.AskedOf(&f.Asked); told[k.ID] != asked && !(own && asked) {
				t.Errorf("%s: %s is reported %v, by the table asked %v", name, k.ID, told[k.ID], asked)
			}
		}
	}
}
