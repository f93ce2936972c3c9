package explain

import (
	"context"
	"reflect"
	"runtime"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// The station, how it was found, and what conflicts do not depend on how much is
// worked on at a time, nor on starts made before their time.
func TestAnswerDoesNotHangOnProcessors(t *testing.T) {
	testdata.Long(t)
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, b := range []specs.Brief{solvertest.Brief(t, "arm-pad-station"), contradictory(t, "height-pivots")} {
		var found []*told
		for _, n := range []int{1, 4} {
			runtime.GOMAXPROCS(n)
			r, err := explained(context.Background(), b, nil)
			if err != nil {
				t.Fatal(err)
			}
			found = append(found, r)
		}
		one, more := found[0], found[1]
		for _, v := range []struct {
			what string
			a, b any
		}{
			{"frame", one.Frame, more.Frame},
			{"search", one.Search, more.Search},
			{"requirements", one.Requirements, more.Requirements},
			{"conflict", one.Conflict, more.Conflict},
			{"repairs", one.Repairs, more.Repairs},
		} {
			if !reflect.DeepEqual(v.a, v.b) {
				t.Errorf("%s: %s on one processor %+v, on four %+v", b.Name, v.what, v.a, v.b)
			}
		}
	}
}
