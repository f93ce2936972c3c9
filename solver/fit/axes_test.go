package fit

import (
	"context"
	"math"
	"reflect"
	"runtime"
	"testing"

	"armwright/specs"
)

// The station, how it was found, and what conflicts do not hang on how much is
// worked on at a time, nor on starts made before their time.
func TestAnswerDoesNotHangOnProcessors(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, b := range []specs.Brief{example(t, "arm-pad-station"), contradictory(t, "height-pivots")} {
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

// More axis positions are tried while they help.
func TestHelped(t *testing.T) {
	for _, c := range []struct {
		misses []float64
		want   bool
	}{
		{[]float64{50, 60}, true},
		{[]float64{50, 60, 40}, true},
		{[]float64{50, 40, 60}, true},
		{[]float64{50, 40, 60, 45}, false},             // the least is two back
		{[]float64{42.2, 44.1, 43.2}, false},           // better than the last, not than the first
		{[]float64{99, 98.5, 98}, false},               // by less than a fiftieth
		{[]float64{0.3, 0.25, 0.22}, false},            // by less than a tenth of a unit
		{[]float64{math.Inf(1), math.Inf(1), 5}, true}, // the first two had no drive
		{[]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, false},
	} {
		var tried []*attempt
		for _, m := range c.misses {
			tried = append(tried, &attempt{miss: m})
		}
		if got := helped(tried); got != c.want {
			t.Errorf("%v: %v", c.misses, got)
		}
	}
}
