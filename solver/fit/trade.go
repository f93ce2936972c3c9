package fit

import (
	"cmp"
	"context"
	"math"
	"slices"

	"armwright/solver/judge"
)

// leastTrade is the worth, mm of footprint length, below which a requirement
// does not hold the design back.
const leastTrade = 0.5

// mostTrade is the most, mm of footprint length, that a step is told to buy: a
// multiplier holds for small changes, and beyond those others take over.
const mostTrade = 20.0

// trades reads the multipliers of the last run: by how much the objective would
// fall if the limit of a requirement gave way by a small step for all its rows,
// told in the length of the base that counts as much, where that is an aim. Dearest by unit that matters
// first. Everybody keeps the setting they are in.
func (se *Search) trades() []Trade {
	length := se.Program.lengthWorth()
	if !se.Last.Status.Usable() || length == 0 {
		return nil
	}
	price := make([]float64, len(se.Program.Kinds))
	for i, k := range se.kinds {
		price[k] += se.Last.Multipliers[i]
	}
	var dear []int
	for k, p := range price {
		if p*length >= leastTrade && !se.Program.Kinds[k].Kept { // nobody is to give way in safety
			dear = append(dear, k)
		}
	}
	slices.SortStableFunc(dear, func(a, b int) int { return cmp.Compare(price[b], price[a]) })
	out := make([]Trade, len(dear))
	for i, k := range dear {
		kind, part := &se.Program.Kinds[k], 1.0
		for price[k]*length > mostTrade*part {
			part *= 10
		}
		out[i] = Trade{ID: kind.ID, Unit: kind.Unit, Step: kind.Scale / part, Worth: price[k] * length / part}
	}
	return out
}

// told is how many trades are told, and tradeError by how much of its worth a trade
// may miss when it is made.
const (
	told       = 3
	again      = 2 // runs of the optimiser: the first ends short of the minimum at times
	tradeError = 0.2
)

// holding makes each of the dearest trades and keeps those that bring what their
// multiplier says: short of a minimum that can be shown, multipliers may be no
// prices. The search itself is left as it is.
func (se *Search) holding(ctx context.Context, list []Trade) ([]Trade, error) {
	reached := func(kind int, give float64) (float64, error) {
		s := *se
		s.Geometry, s.Settings, s.Guard = judge.Clone(se.free), slices.Clone(se.held), slices.Clone(se.Guard)
		if give > 0 {
			s.Guard[kind] -= give
		}
		for range again {
			if err := s.minimise(ctx); err != nil {
				return 0, err
			}
		}
		return s.Last.F, nil
	}
	var out []Trade
	if len(list) == 0 {
		return nil, nil
	}
	list = list[:min(told, len(list))]
	part := func(t *Trade) float64 { return min(1, 1/t.Worth) } // by what is worth 1 mm: before another limit takes over
	n := len(list)
	found, failed := make([]float64, n+1), make([]error, n+1) // the last with nothing given
	ShareOut(n+1, func(i int) {
		if i == n {
			found[n], failed[n] = reached(0, 0)
			return
		}
		t := &list[i]
		found[i], failed[i] = reached(se.Program.KindOf(t.ID), part(t)*t.Step)
	})
	for _, err := range failed {
		if err != nil {
			return nil, err
		}
	}
	for i := range list {
		t := &list[i]
		want := part(t) * t.Worth / se.Program.lengthWorth()
		if math.Abs(found[n]-found[i]-want) <= tradeError*want {
			out = append(out, *t)
		}
	}
	return out, nil
}
