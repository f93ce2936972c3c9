// Package stationtest hands judged stations to the tests of what is made of them.
package stationtest

import (
	"strings"
	"sync"
	"testing"

	"armwright/solver"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// checked holds what was judged before: that takes a test most of its time.
var checked sync.Map // of *solver.Result by name

// Result is a kept frame, judged, which no test may change; its coverage, on which nothing
// that is drawn or listed hangs, is that of few persons. After a comma the name may ask for
// a form of the station: "foot plate", "own cables", "split hub" or "thirty chest positions".
func Result(t testing.TB, name string) *solver.Result {
	t.Helper()
	if r, ok := checked.Load(name); ok {
		return r.(*solver.Result)
	}
	frame, form, _ := strings.Cut(name, ", ")
	f := solvertest.Frame(t, frame)
	f.People.Sample = 100
	switch form {
	case "":
	case "foot plate":
		f.Posture.FootPlate = "steps"
		f.Geometry.FootPlate = &specs.FootPlate{Lowest: 180, Pitch: 50, Positions: 3}
	case "own cables":
		f.Resistance.Stack = "pair"
	case "split hub":
		f.Stock.Hub = "clamp"
	case "thirty chest positions":
		f.Geometry.ChestPad.Positions = 30
	default:
		t.Fatalf("no form %q of a station", form)
	}
	r, err := solver.Check(f)
	if err != nil {
		t.Fatal(err)
	}
	checked.Store(name, r)
	return r
}
