package tolerance

import (
	"math"
	"testing"

	"armwright/solver/require"
)

// Of margins 0, 1 … 199 less 20, by counting: 10 of the 200 lie below the value that
// 5 % stay below, 190 below that of 95 %.
func TestSpreadByCounting(t *testing.T) {
	m := &Model{Kinds: []require.Kind{{ID: "hand-path", Scale: 1}}, limits: []float64{15}, nominal: []float64{80}}
	list := make([]float64, 200)
	for i := range list {
		list[i] = float64(i - 20)
	}
	s := m.spread(0, list)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"low", s.Low, -10}, {"middle", s.Middle, 80}, {"high", s.High, 170}, {"mean", s.Mean, 79.5},
		{"deviation", s.Deviation, math.Sqrt((200*200 - 1) / 12.0)}, // of n numbers in a row
		{"met", s.Met, 180.0 / 200}, {"near", s.Near, 181.0 / 200}, {"tighten", s.Tighten, 10},
		{"from", s.From, -20}, {"to", s.To, 179},
	} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%s %g, want %g", c.what, c.got, c.want)
		}
	}
	sum := 0
	for _, n := range s.Histogram {
		sum += n
		if n < 200/Bins-1 || n > 200/Bins+2 {
			t.Errorf("bins of an even list: %v", s.Histogram)
			break
		}
	}
	if sum != 200 {
		t.Errorf("%d of 200 in the bins", sum)
	}
}
