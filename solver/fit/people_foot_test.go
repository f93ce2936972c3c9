package fit

import (
	"math"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// With a foot plate asked for, the example is still met, every boundary person
// has a step or the floor within the limit, and the plate's steps are used:
// somebody stands on the lowest and somebody on the highest. Without it the
// short hang 80-120 mm and more above the floor (D, design card). The lowest step
// passes over the base: foot 28, tube 60, 5 clear, bearer 40, tread 6, and 1 to spare.
// So much higher, the post of the guide sheave needs the better steel.
func TestFootPlate(t *testing.T) {
	testdata.Long(t)
	b := solvertest.Brief(t, "arm-pad-station")
	b.Posture.FootPlate, b.Stock.Steel = "steps", "S355"
	r := solve(t, b)
	if r.Verdict != judge.Met {
		for _, q := range r.Requirements {
			if !q.Met {
				t.Errorf("%s: %g, limit %g", q.ID, q.Value, q.Limit)
			}
		}
	}
	plate := r.Frame.Geometry.FootPlate
	if plate == nil {
		t.Fatal("no foot plate")
	}
	if plate.Lowest < 140 || plate.Lowest > 160 {
		t.Errorf("lowest step %g mm", plate.Lowest)
	}
	least, most, hung := plate.Positions, -1, 0.0
	for _, p := range r.People.Boundary {
		if math.Abs(p.FootGap) > b.Limits.FootGap && p.Foot >= 0 {
			t.Errorf("%s: sole %g mm off", p.Person.Label, p.FootGap)
		}
		if p.Foot >= 0 {
			least, most = min(least, p.Foot), max(most, p.Foot)
		}
		hung = math.Max(hung, p.SeatTop-p.Person.PoplitealHeight-b.People.Shoe)
	}
	if least != 0 || most != plate.Positions-1 {
		t.Errorf("steps %d to %d used of %d", least+1, most+1, plate.Positions)
	}
	if hung < 80 {
		t.Errorf("without it nobody would hang more than %.0f mm", hung)
	}
	if q, ok := r.Requirement("foot-gap"); !ok || !q.Met {
		t.Errorf("foot-gap %+v", q)
	}
}
