package report

import (
	"fmt"

	"armwright/export/words"
	"armwright/solver"
	"armwright/specs"
)

// trades tells the trades of a solved station, dearest first.
func trades(r *solver.Result, u specs.Units) []Trade {
	list := []Trade{}
	for _, t := range r.Trades {
		unit := words.Symbol(t.Unit)
		step := outside(t.Step, t.Unit)
		list = append(list, Trade{
			ID: t.ID, Step: step, Unit: unit, Worth: mm(t.Worth),
			Sentence: fmt.Sprintf("%s of %s buys as much as %s of footprint length", u.Figure(step, unit), t.ID, u.Figure(mm(t.Worth), "mm")),
		})
	}
	return list
}

// Unpriced says why a searched station tells no trades; empty of one that does, of one
// that was only checked or misses its brief, and of a bench, which has no footprint.
func Unpriced(r *Report) string {
	if r.Search == nil || r.Verdict != "met" || len(r.Trades) > 0 || r.Footprint.Length == nil {
		return ""
	}
	return "What more room would buy is not told: no limit has a price in footprint length that held when the limit was moved and the station searched again."
}

// buys tells what giving way in a requirement would buy, empty when nothing is
// known of it.
func buys(r *Report, id string) string {
	for _, t := range r.Trades {
		if t.ID == id {
			return fmt.Sprintf("%s is worth %s of footprint length", r.Units.Figure(t.Step, t.Unit), r.Units.Figure(t.Worth, "mm"))
		}
	}
	return ""
}
