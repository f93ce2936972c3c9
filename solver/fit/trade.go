package fit

import (
	"cmp"
	"slices"

	"armwright/solver/require"
)

// floorUnit is the length of footprint, mm, that counts one in the objective.
const floorUnit = 200.0

// Trade tells what giving way in one requirement would buy.
type Trade struct {
	ID    string
	Unit  require.Unit
	Step  float64 // by how much the limit gives way: one unit that matters, or a tenth, a hundredth of it
	Worth float64 // what that is worth, mm of footprint length
}

// leastTrade is the worth, mm of footprint length, below which a requirement
// does not hold the design back.
const leastTrade = 0.5

// mostTrade is the most, mm of footprint length, that a step is told to buy: a
// multiplier holds for small changes, and beyond those others take over.
const mostTrade = 20.0

// trades reads the multipliers of the last run: by how much the objective would
// fall if the limit of a requirement gave way by a small step for all its rows,
// told in the footprint length that counts as much. Dearest by unit that matters
// first. Everybody keeps the setting they are in.
func (se *Search) trades() []Trade {
	if !se.Last.Status.Usable() {
		return nil
	}
	price := make([]float64, len(se.Program.Kinds))
	_, kinds, _ := se.Problem()
	for i, k := range kinds {
		price[k] += se.Last.Multipliers[i]
	}
	var dear []int
	for k, p := range price {
		if p*floorUnit >= leastTrade {
			dear = append(dear, k)
		}
	}
	slices.SortStableFunc(dear, func(a, b int) int { return cmp.Compare(price[b], price[a]) })
	out := make([]Trade, len(dear))
	for i, k := range dear {
		kind, part := &se.Program.Kinds[k], 1.0
		for price[k]*floorUnit > mostTrade*part {
			part *= 10
		}
		out[i] = Trade{ID: kind.ID, Unit: kind.Unit, Step: kind.Scale / part, Worth: price[k] * floorUnit / part}
	}
	return out
}
