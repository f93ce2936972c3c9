package fit

import "sort"

// floorUnit is the length of footprint, mm, that counts one in the objective.
const floorUnit = 200.0

// Trade tells what giving way in one requirement would buy.
type Trade struct {
	ID    string
	Unit  Unit
	Step  float64 // by how much the limit gives way: one unit that matters
	Worth float64 // what that is worth, mm of footprint length
}

// leastTrade is the worth, mm of footprint length, below which a requirement
// does not hold the design back.
const leastTrade = 0.5

// trades reads the multipliers of the last run: by how much the objective would
// fall if the limit of a requirement moved by one unit that matters for all its
// rows, told in the footprint length that counts as much. Dearest first. It
// holds for small steps, with everybody in the setting they are in.
func (se *search) trades() []Trade {
	if !se.last.Status.Usable() {
		return nil
	}
	price := make([]float64, len(se.s.kinds))
	_, kinds, _ := se.problem()
	for i, k := range kinds {
		price[k] += se.last.Multipliers[i]
	}
	var out []Trade
	for k, p := range price {
		if worth := p * floorUnit; worth >= leastTrade {
			kind := se.s.kinds[k]
			out = append(out, Trade{ID: kind.ID, Unit: kind.Unit, Step: kind.Scale, Worth: worth})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Worth > out[j].Worth })
	return out
}
