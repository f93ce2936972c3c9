package nlp_test

import (
	"context"
	"math"
	"testing"

	"armwright/solver/nlp"
)

// A model with a kink at its optimum: the gradient never dies away there, and a
// run ends by what it still gains. Minimum 0 at x = (1, 2) by inspection.
func TestImprovementEndsAtAKink(t *testing.T) {
	p := nlp.Problem{
		N: 2, M: 1, Scale: []float64{1, 1},
		Func: func(x []float64) float64 { return math.Abs(x[0]-1) + math.Abs(x[1]-2) + 0.1*(x[0]-1)*(x[0]-1) },
		Rows: func(c, x []float64) { c[0] = 10 - x[0] - x[1] },
	}
	run := func(improvement float64) nlp.Result {
		r, err := nlp.Minimize(context.Background(), p, []float64{4, -3}, &nlp.Settings{Improvement: improvement})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	without, with := run(0), run(1e-2)
	if with.Status != nlp.Stalled || with.F > 0.05 {
		t.Errorf("with: %v, f %g", with.Status, with.F)
	}
	if with.Stats.Evaluations >= without.Stats.Evaluations {
		t.Errorf("%d evaluations, without %d", with.Stats.Evaluations, without.Stats.Evaluations)
	}
}

// Two rows that contradict each other across a kink: the least violation is 1
// each, wherever x stands between them.
func TestImprovementEndsARestoration(t *testing.T) {
	p := nlp.Problem{
		N: 1, M: 2, Scale: []float64{1}, RowScale: []float64{1, 1},
		Func: func(x []float64) float64 { return x[0] },
		Rows: func(c, x []float64) { c[0], c[1] = x[0]-2-0.1*math.Abs(x[0]-1), -x[0] },
	}
	r, err := nlp.Minimize(context.Background(), p, []float64{5}, &nlp.Settings{Improvement: 1e-3})
	if err != nil {
		t.Fatal(err)
	}
	if r.Status != nlp.Infeasible || r.KKT.Violation < 0.9 {
		t.Errorf("%v, violation %g", r.Status, r.KKT.Violation)
	}
}
