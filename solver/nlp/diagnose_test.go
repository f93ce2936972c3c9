package nlp_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/solver/nlp"
	"armwright/solver/nlp/testproblems"
)

func mustDiagnose(t *testing.T, p nlp.Problem, x []float64, s *nlp.Settings, w []float64, hard []bool) nlp.Diagnosis {
	t.Helper()
	d, err := nlp.Diagnose(context.Background(), p, x, s, w, hard)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestDiagnose(t *testing.T) {
	for _, c := range testproblems.InfeasibleCases()[:3] {
		t.Run(c.Name, func(t *testing.T) {
			d := mustDiagnose(t, c.Problem, c.X0, nil, nil, nil)
			if d.Feasible || d.Starts != 5 || d.InfeasibleStarts != 5 || !strings.Contains(d.Message, "locally infeasible from 5 of 5 starts") {
				t.Errorf("feasible %v, %q", d.Feasible, d.Message)
			}
			if math.Abs(d.Shared-c.Shared) > 1e-7 {
				t.Errorf("shared violation %v, want %v", d.Shared, c.Shared)
			}
			if math.Abs(d.RepairCost-c.Cost) > 1e-6 {
				t.Errorf("repair costs %v, want %v", d.RepairCost, c.Cost)
			}
			for i, v := range c.Repair {
				if math.Abs(d.Rows[i].Repair-v) > 1e-6 {
					t.Errorf("repair of row %d is %v, want %v", i, d.Rows[i].Repair, v)
				}
			}
			var shares float64
			var fighting []int
			for i, r := range d.Rows {
				shares += r.Share
				if r.Share > 1e-4 {
					fighting = append(fighting, i)
				}
			}
			if math.Abs(shares-1) > 1e-9 || !slices.Equal(fighting, c.Fighting) {
				t.Errorf("rows %v fight, want %v; shares sum to %v", fighting, c.Fighting, shares)
			}
			if !d.Minimal || !slices.Equal(d.Conflict, c.Smallest) {
				t.Errorf("smallest conflict %v (minimal %v), want %v", d.Conflict, d.Minimal, c.Smallest)
			}
			for k, i := range c.Smallest {
				if r := d.Rows[i]; r.Part != nlp.In || !r.AloneEnough || math.Abs(r.Alone-c.Alone[k]) > 1e-6 {
					t.Errorf("row %d: %v, alone %v (%v), want %v", i, r.Part, r.Alone, r.AloneEnough, c.Alone[k])
				}
			}
		})
	}
}

// In the third case each upper bound, moved out by one, ends the whole of the
// shared violation: the sum can then be 3 + 1.
func TestDiagnoseBounds(t *testing.T) {
	c := testproblems.InfeasibleCases()[2]
	d := mustDiagnose(t, c.Problem, c.X0, nil, nil, nil)
	if len(d.Bounds) != 3 {
		t.Fatalf("bounds %+v", d.Bounds)
	}
	for j, b := range d.Bounds {
		if b.Variable != j || !b.Upper || math.Abs(b.Gain-1) > 1e-6 {
			t.Errorf("bound %+v", b)
		}
	}
}

// The area that a 12-gon lacks is a published figure; the shared violation printed
// with it, 0.0857545 with area and nine distances at the limit, is that of a local
// minimum that is beaten here, with 0.0836109, by another with one row more there.
func TestDiagnosePolygon(t *testing.T) {
	c := testproblems.InfeasibleCases()[3]
	d := mustDiagnose(t, c.Problem, c.X0, nil, nil, nil)
	area := c.M - 1
	if d.Feasible || math.Abs(d.RepairCost-c.Cost) > 2e-6 || math.Abs(d.Rows[area].Repair-c.Cost) > 2e-6 {
		t.Errorf("repair costs %v, area row %v, want %v", d.RepairCost, d.Rows[area].Repair, c.Cost)
	}
	if d.Shared > c.Shared+1e-7 {
		t.Errorf("shared violation %v, known %v", d.Shared, c.Shared)
	}
	v := make([]float64, c.M)
	c.Rows(v, d.SharedX)
	fighting, limit := 0, 0
	for i, r := range d.Rows {
		if v[i] < -d.Shared-1e-8 {
			t.Errorf("row %d misses by %v, more than the shared %v", i, -v[i], d.Shared)
		}
		if v[i] < -d.Shared+1e-6 {
			limit++
		}
		if r.Share > 1e-4 {
			fighting++
		}
	}
	if fighting != limit || limit < 10 {
		t.Errorf("%d rows fight, %d are at the limit, want as many, 10 at least", fighting, limit)
	}
	if r := d.Rows[area]; r.Part != nlp.In || !r.AloneEnough || math.Abs(r.Alone-c.Cost) > 2e-6 {
		t.Errorf("area row %+v", r)
	}
	if !d.Minimal {
		t.Error("deletion filter not finished")
	}
}

// Three lines in a triangle of contradiction and two rows apart from it; weights
// and hard marks move the repair about.
func TestDiagnoseWeights(t *testing.T) {
	p := nlp.Problem{
		N: 2, M: 4, Lower: []float64{-10, -10}, Upper: []float64{10, 10},
		Rows: func(c, x []float64) { // x >= 3, x <= 1, y >= -5, x + y <= 8
			c[0], c[1], c[2], c[3] = x[0]-3, 1-x[0], x[1]+5, 8-x[0]-x[1]
		},
	}
	x := []float64{0, 0}
	for _, c := range []struct {
		w      []float64
		hard   []bool
		repair []float64
		shared float64
		shares []float64
	}{
		// Missing row 0 by 2 costs 2/w0, row 1 by 2 costs 2/w1. Shared alike, the
		// gap of 2 is (w0 + w1) t, and shares go as the weights.
		{[]float64{1, 4, 1, 1}, nil, []float64{0, 2}, .4, []float64{.2, .8}},
		{[]float64{4, 1, 1, 1}, nil, []float64{2, 0}, .4, []float64{.8, .2}},
		{nil, []bool{true, false, false, false}, []float64{0, 2}, 2, nil},
		{nil, []bool{false, true, false, false}, []float64{2, 0}, 2, nil},
	} {
		d := mustDiagnose(t, p, x, nil, c.w, c.hard)
		if math.Abs(d.Rows[0].Repair-c.repair[0]) > 1e-6 || math.Abs(d.Rows[1].Repair-c.repair[1]) > 1e-6 {
			t.Errorf("weights %v, hard %v: repair %v, %v", c.w, c.hard, d.Rows[0].Repair, d.Rows[1].Repair)
		}
		if math.Abs(d.Shared-c.shared) > 1e-6 || d.HardConflict {
			t.Errorf("weights %v, hard %v: shared %v, want %v", c.w, c.hard, d.Shared, c.shared)
		}
		for i, s := range c.shares {
			if math.Abs(d.Rows[i].Share-s) > 1e-6 {
				t.Errorf("weights %v: share of row %d is %v, want %v", c.w, i, d.Rows[i].Share, s)
			}
		}
		if !slices.Equal(d.Conflict, []int{0, 1}) || d.Rows[2].Part != nlp.Apart || d.Rows[3].Part != nlp.Apart {
			t.Errorf("weights %v, hard %v: conflict %v", c.w, c.hard, d.Conflict)
		}
		for i := range 2 {
			if hard := c.hard != nil && c.hard[i]; d.Rows[i].AloneEnough == hard || !hard && math.Abs(d.Rows[i].Alone-2) > 1e-6 {
				t.Errorf("weights %v, hard %v: row %d alone %v (%v)", c.w, c.hard, i, d.Rows[i].Alone, d.Rows[i].AloneEnough)
			}
		}
	}
	if d := mustDiagnose(t, p, x, nil, nil, []bool{true, true, false, false}); !d.HardConflict {
		t.Error("contradicting hard rows not reported")
	}
}

// Two separate conflicts, x >= 2 against x <= 0 and y >= 3 against y <= 1: one is
// a smallest set, the rows of the other are maybe.
func TestDiagnoseTwoConflicts(t *testing.T) {
	p := nlp.Problem{
		N: 2, M: 4, Lower: []float64{-10, -10}, Upper: []float64{10, 10},
		Rows: func(c, x []float64) { c[0], c[1], c[2], c[3] = x[0]-2, -x[0], x[1]-3, 1-x[1] },
	}
	d := mustDiagnose(t, p, []float64{0, 0}, nil, nil, nil)
	if math.Abs(d.RepairCost-4) > 1e-6 || math.Abs(d.Shared-1) > 1e-6 {
		t.Errorf("repair %v, shared %v", d.RepairCost, d.Shared)
	}
	if !slices.Equal(d.Conflict, []int{0, 1}) && !slices.Equal(d.Conflict, []int{2, 3}) {
		t.Errorf("conflict %v", d.Conflict)
	}
	for _, r := range d.Rows {
		// No row alone mends both.
		if r.AloneEnough {
			t.Errorf("%+v", r)
		}
	}
}

func TestDiagnoseFeasible(t *testing.T) {
	for _, p := range testproblems.HockSchittkowski() {
		d := mustDiagnose(t, p.Problem, p.X0, nil, nil, nil)
		if !d.Feasible {
			t.Errorf("%s: %s", p.Name, d.Message)
			continue
		}
		c := make([]float64, p.M)
		p.Rows(c, d.X)
		for i, v := range c {
			if p.Equality[i] {
				v = -math.Abs(v)
			}
			if v < -1e-6 {
				t.Errorf("%s: row %d is %v at the point", p.Name, i, v)
			}
		}
	}
}

// Cut short, the diagnosis keeps what it has and says what it did not test.
func TestDiagnoseCutShort(t *testing.T) {
	c := testproblems.InfeasibleCases()[3]
	ctx, cancel := context.WithCancel(context.Background())
	p, calls := c.Problem, 0
	stop := -1
	p.Rows = func(v, x []float64) {
		if calls++; calls == stop {
			cancel()
		}
		c.Rows(v, x)
	}
	s := &nlp.Settings{Starts: 1}
	mustDiagnose(t, p, c.X0, s, nil, nil)
	stop, calls = calls/4, 0 // in the filter, after the shared conflict is known
	d, err := nlp.Diagnose(ctx, p, c.X0, s, nil, nil)
	if !errors.Is(err, context.Canceled) || d.Minimal {
		t.Errorf("%v, minimal %v", err, d.Minimal)
	}
	open := 0
	for _, r := range d.Rows {
		if r.Part == nlp.NotTested {
			open++
		}
	}
	if d.RepairCost == 0 || d.Shared == 0 || open == 0 {
		t.Errorf("repair %v, shared %v, %d rows not tested", d.RepairCost, d.Shared, open)
	}
	var e *nlp.ProblemError
	if _, err := nlp.Diagnose(context.Background(), p, c.X0, nil, []float64{1}, nil); !errors.As(err, &e) {
		t.Errorf("short weights: %v", err)
	}
}
