package fit

import (
	"context"
	"math"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// A trade is what a search with the limit moved finds: the objective falls by
// the multiplier's figure, everybody kept in their setting.
func TestTradesHoldWhenTheLimitMoves(t *testing.T) {
	testdata.Long(t)
	b := solvertest.Brief(t, "reclined-linkage") // whose prices hold
	s, err := NewProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	se := &Search{Program: s, Options: &Options{}, Axes: 4}
	if err := se.run(context.Background()); err != nil {
		t.Fatal(err)
	}
	// finish has trimmed the seat; begin again from a converged point with the
	// settings as they are now.
	again := func(kind int, give float64) float64 {
		kept, guard := judge.Clone(se.Geometry), se.Guard[kind]
		se.Guard[kind] -= give
		for range 3 {
			if err := se.minimise(context.Background()); err != nil {
				t.Fatal(err)
			}
		}
		if !se.Last.Status.Usable() {
			t.Fatalf("status %v", se.Last.Status)
		}
		f := se.Last.F
		se.Geometry, se.Guard[kind] = kept, guard
		return f
	}
	for range 3 {
		if err := se.minimise(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	base := again(0, 0)
	se.free, se.held = se.Geometry, se.Settings
	all := se.trades()
	trades, err := se.holding(context.Background(), all)
	if err != nil {
		t.Fatal(err)
	}
	if len(trades) == 0 {
		t.Fatalf("none of %d trades holds", len(all))
	}
	for _, tr := range trades[:min(3, len(trades))] {
		// By what is worth 1 mm: enough to see past the optimiser's tolerance, and
		// before another limit takes over.
		part := 1 / tr.Worth
		fell := base - again(s.KindOf(tr.ID), part*tr.Step)
		want := part * tr.Worth / floorUnit
		if math.Abs(fell-want) > 0.1*want+3e-4 {
			t.Errorf("%s: objective fell by %.5f, the multiplier says %.5f", tr.ID, fell, want)
		}
	}
}
