package report

import (
	"html/template"
	"strings"
	"testing"

	"armwright/solver"
	"armwright/solver/explain"
	"armwright/solver/fit"
	"armwright/solver/judge"
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

// What a change does for coverage is told on paper and on a terminal, with the share that
// fits then and the gain, and whether that is enough.
func TestBuysAreTold(t *testing.T) {
	r := &solver.Result{}
	r.Buys = []explain.Buy{
		{Changes: []explain.Change{{Path: "limits.hand_path", From: "15 mm", To: "20 mm"}}, Served: judge.Group{Share: 0.913}, Gain: 0.104, Met: true},
		{Changes: []explain.Change{{Path: "posture.axis_positions", From: "3", To: "4"}}, Served: judge.Group{Share: 0.85}, Gain: 0.041},
	}
	list := coverageBuys(r, specs.Metric)
	want := []string{
		"limits.hand_path: 15 mm -> 20 mm: 91.3 % fit then, 10.4 % more, as many as are asked for",
		"posture.axis_positions: 3 -> 4: 85.0 % fit then, 4.1 % more",
	}
	rep := infeasible(t)
	rep.Buys = list
	page := rendered(t, rep)
	for i, b := range list {
		if b.Sentence != want[i] {
			t.Errorf("%q, want %q", b.Sentence, want[i])
		}
		if !strings.Contains(page, template.HTMLEscapeString(b.Sentence)) {
			t.Errorf("the page does not tell %q", b.Sentence)
		}
	}
}
