package nlp_test

import (
	"errors"
	"math"
	"testing"

	"armwright/solver/nlp"
	"armwright/solver/nlp/testproblems"
)

// The check accepts published minima with multipliers found by itself, finds the
// published multipliers, and refuses points nearby and wrong multipliers.
func TestCheckKKT(t *testing.T) {
	for _, p := range testproblems.HockSchittkowski() {
		m := p.Minima[0]
		// The figures are printed: take them to full accuracy first.
		x := mustMinimize(t, p.Problem, m.X, nil).X
		c, err := nlp.CheckKKT(p.Problem, x, nil)
		if err != nil {
			t.Fatal(err)
		}
		if c.Stationarity > 1e-5 || c.Violation > 1e-8 || c.Complementarity > 1e-5 {
			t.Errorf("%s: %+v at the minimum", p.Name, c.KKT)
		}
		for i, l := range m.Multipliers {
			if math.Abs(c.Multipliers[i]-l) > 1e-3*math.Max(math.Abs(l), .01) {
				t.Errorf("%s: multiplier %d = %v, want %v", p.Name, i+1, c.Multipliers[i], l)
			}
		}
		if p.Name == "HS118" || p.Name == "HS24" {
			continue // a vertex: multipliers absorb any gradient
		}
		y := append([]float64(nil), x...)
		for j := range y {
			y[j] *= .97
			if p.Lower != nil {
				y[j] = math.Max(y[j], p.Lower[j])
			}
		}
		c, err = nlp.CheckKKT(p.Problem, y, nil)
		if err != nil {
			t.Fatal(err)
		}
		if c.Stationarity < 1e-4 && c.Violation < 1e-4 && c.Complementarity < 1e-4 {
			t.Errorf("%s: %+v three per cent off", p.Name, c.KKT)
		}
	}
}

func TestCheckKKTMultipliers(t *testing.T) {
	p := testproblems.HockSchittkowski()[3] // HS43, λ = (1, 0, 2)
	x := []float64{0, 1, 2, -1}
	for _, c := range []struct {
		l    []float64
		want func(k nlp.KKT) bool
	}{
		{[]float64{1, 0, 2}, func(k nlp.KKT) bool {
			return k.Stationarity < 1e-12 && k.Complementarity < 1e-12 && k.DualInfeasibility == 0
		}},
		{[]float64{1, 0, 1.9}, func(k nlp.KKT) bool { return k.Stationarity > 1e-3 }},
		{[]float64{1, .1, 2}, func(k nlp.KKT) bool { return k.Complementarity > 1e-3 }},
		{[]float64{-1, 0, 2}, func(k nlp.KKT) bool { return k.DualInfeasibility > 1e-3 }},
	} {
		r, err := nlp.CheckKKT(p.Problem, x, c.l)
		if err != nil || !c.want(r.KKT) {
			t.Errorf("λ = %v: %+v, %v", c.l, r.KKT, err)
		}
	}
	var e *nlp.ProblemError
	if _, err := nlp.CheckKKT(testproblems.HockSchittkowski()[0].Problem, []float64{-1, 0}, nil); !errors.As(err, &e) {
		t.Errorf("outside the bounds: %v", err)
	}
	if _, err := nlp.CheckKKT(p.Problem, x, []float64{1}); !errors.As(err, &e) {
		t.Errorf("short multipliers: %v", err)
	}
}
