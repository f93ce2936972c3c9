package report

import (
	"fmt"

	"armwright/solver"
	"armwright/specs"
)

// trades tells the trades of a solved station, dearest first.
func trades(r *solver.Result, u specs.Units) []Trade {
	list := []Trade{}
	for _, t := range r.Trades {
		unit := t.Unit.Symbol()
		step := outside(t.Step, t.Unit)
		list = append(list, Trade{
			ID: t.ID, Step: step, Unit: unit, Worth: mm(t.Worth),
			Sentence: fmt.Sprintf("%s of %s buys as much as %s of footprint length", u.Figure(step, unit), t.ID, u.Figure(mm(t.Worth), "mm")),
		})
	}
	return list
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
