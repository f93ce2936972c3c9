package fit

import (
	"math"
	"testing"
)

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
		var tried []*Attempt
		for _, m := range c.misses {
			tried = append(tried, &Attempt{miss: m})
		}
		if got := helped(tried); got != c.want {
			t.Errorf("%v: %v", c.misses, got)
		}
	}
}
