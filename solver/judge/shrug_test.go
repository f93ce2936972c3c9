package judge

import (
	"testing"

	"armwright/solver/require"
)

// Misses in their slacks add up: 3 of 5 mm and 4 of 10 mm are just 1, a little more is
// too much, and a hard limit is never shrugged at.
func TestShrugs(t *testing.T) {
	slack := []float64{5, 10, 0}
	for _, c := range []struct {
		rows []require.Row
		away uint64
		want bool
	}{
		{nil, 0, true},
		{[]require.Row{{Kind: 0, Margin: -3}, {Kind: 1, Margin: -4}}, 0b11, true},
		{[]require.Row{{Kind: 0, Margin: -3}, {Kind: 1, Margin: -4.5}}, 0b11, false},
		{[]require.Row{{Kind: 0, Margin: -1}, {Kind: 0, Margin: -6}}, 0b1, false},
		{[]require.Row{{Kind: 2, Margin: -0.1}}, 0b100, false},
	} {
		if got := shrugs(slack, c.rows, c.away); got != c.want {
			t.Errorf("%+v: %v", c.rows, got)
		}
	}
}
