package judge

import (
	"math/bits"

	"armwright/solver/require"
)

// slacks are the slacks of soft limits by kind, 0 of what is hard.
func slacks(c *require.Card) []float64 {
	list := make([]float64, len(c.Kinds))
	for _, s := range require.Softs() {
		list[c.KindOf(s.ID)] = s.Slack
	}
	return list
}

// shrugs says whether a person stays who misses the requirements of away, as bits: none,
// or soft ones alone by so little that the worst miss of each, in its slack, adds up to
// one at most.
func shrugs(slack []float64, own []require.Row, away uint64) bool {
	sum := 0.0
	for ; away != 0; away &= away - 1 {
		k := bits.TrailingZeros64(away)
		if slack[k] == 0 {
			return false
		}
		miss := 0.0
		for i := range own {
			if own[i].Kind == k {
				miss = max(miss, -own[i].Margin)
			}
		}
		sum += miss / slack[k]
	}
	return sum <= 1
}
