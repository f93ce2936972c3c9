package report

import (
	"testing"

	"armwright/solver"
	"armwright/solver/explain"
	"armwright/solver/fit"
	"armwright/specs"
)

// A repair is told as a change of the brief's own value, and as the advice of
// the demand that gives way.
func TestRepairsAreTold(t *testing.T) {
	r := &solver.Result{Findings: explain.Findings{
		Conflict: []explain.Conflict{{ID: "posture.seat_positions", Needed: true, Proved: true}, {ID: "posture.pad_slope"}},
		Repairs: []explain.Repair{{Cost: 2, Changes: []explain.Change{
			{Path: "posture.seat_positions", From: "4", To: "6", ID: "posture.seat_positions", By: 2},
		}}},
		Proofs: []fit.Proof{{Demands: []string{"posture.seat_positions", "lean"}, Needed: 98.5, Allowed: 60, Bound: fit.SeatTravel}},
	}}
	if got := repairs(r, specs.Metric); len(got) != 1 || got[0].Sentence != "posture.seat_positions: 4 -> 6" || got[0].Cost != 2 {
		t.Errorf("repairs %+v", got)
	}
	if got := proofs(r); len(got) != 1 || got[0].Needed != 98.5 || got[0].Unit != "mm" {
		t.Errorf("proofs %+v", got)
	}
	c := conflicts(r, specs.Metric)
	if len(c) != 2 || c[0].Advice != "change it from 4 to 6 (posture.seat_positions)" || !c[0].Proved || c[1].Advice == c[0].Advice {
		t.Errorf("conflict %+v", c)
	}
}
