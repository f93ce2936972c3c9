package nlp_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"armwright/solver/nlp"
)

// waves is a random problem full of local minima; about one in ten has rows that
// contradict each other near its start. Outside reports an evaluation beyond the
// bounds, cliff makes the model undefined in a corner of the box.
func waves(seed uint64, cliff bool, outside *bool) (nlp.Problem, []float64) {
	rng := rand.New(rand.NewPCG(seed, 9))
	n, m := 2+rng.IntN(8), rng.IntN(25)
	p := nlp.Problem{N: n, M: m}
	a, w := make([]float64, (m+1)*n), make([]float64, (m+1)*n)
	for i := range a {
		a[i], w[i] = rng.NormFloat64(), 1.5*rng.NormFloat64()
	}
	offset, x0 := make([]float64, m), make([]float64, n)
	for i := range m {
		offset[i] = 1.5 + rng.NormFloat64()
		p.Equality = append(p.Equality, i < n/2 && rng.IntN(12) == 0)
	}
	for j := range n {
		p.Lower, p.Upper = append(p.Lower, -2), append(p.Upper, 2)
		x0[j] = 2*rng.Float64() - 1.5
	}
	p.Both = func(c, x []float64) float64 {
		for _, v := range x {
			*outside = *outside || v < -2 || v > 2
		}
		value := func(i int) float64 {
			if cliff && x[0]+x[1] > 1.5 {
				return math.NaN()
			}
			var s float64
			for j, v := range x {
				s += a[i*n+j]*v + math.Sin(w[i*n+j]*v)*math.Cos(x[(j+1)%n])
			}
			return s
		}
		for i := range c {
			c[i] = offset[i] + value(i)
		}
		return value(m) + .2*x[0]*x[0]
	}
	return p, x0
}

// elasticProblem is the least sum of violations of p with a slack (two for an
// equality) a row as variables, which takes another way than restoration does.
func elasticProblem(p nlp.Problem, x []float64) (nlp.Problem, []float64) {
	c := make([]float64, p.M)
	p.Both(c, x)
	q := nlp.Problem{N: p.N + 2*p.M, M: p.M, Equality: p.Equality}
	start := append([]float64(nil), x...)
	q.Lower, q.Upper = append(q.Lower, p.Lower...), append(q.Upper, p.Upper...)
	for i, v := range c {
		over := math.Inf(1)
		if !p.Equality[i] {
			over = 0
		}
		q.Lower, q.Upper = append(q.Lower, 0, 0), append(q.Upper, math.Inf(1), over)
		start = append(start, math.Max(0, -v), math.Min(math.Max(0, v), over))
	}
	q.Both = func(c, x []float64) float64 {
		p.Both(c, x[:p.N])
		var sum float64
		for i := range c {
			under, over := x[p.N+2*i], x[p.N+2*i+1]
			c[i] += under - over
			sum += under + over
		}
		return sum
	}
	return q, start
}

func TestWaves(t *testing.T) {
	tally := map[nlp.Status]int{}
	for seed := range uint64(120) {
		outside := false
		p, x0 := waves(seed, false, &outside)
		r := mustMinimize(t, p, x0, nil)
		tally[r.Status]++
		if outside {
			t.Fatalf("problem %d: evaluated outside the bounds", seed)
		}
		switch {
		case r.Status == nlp.Infeasible:
			// From there, another method must find no way to miss by less.
			q, start := elasticProblem(p, r.X)
			before := 0.
			for i, v := range r.Rows {
				if p.Equality[i] {
					v = -math.Abs(v)
				}
				before += math.Max(0, -v)
			}
			e := mustMinimize(t, q, start, &nlp.Settings{MaxIterations: 40})
			// Row scales weigh the violations otherwise here: allow a little.
			if e.Status.Usable() && e.F < 1e-6 {
				t.Errorf("problem %d: called infeasible at violation %v, %v is near", seed, before, e.F)
			}
		case !r.Status.Usable():
			t.Errorf("problem %d: %v, %+v", seed, r.Status, r.KKT)
		case r.KKT.Violation > 1e-7 || r.KKT.Stationarity > 1e-4 || r.KKT.Complementarity > 1e-4:
			t.Errorf("problem %d: %v with %+v", seed, r.Status, r.KKT)
		}
	}
	if tally[nlp.Converged] < 90 {
		t.Errorf("outcomes %v", tally)
	}
}

// With a cliff the end may be at its edge, where no exit test can hold, but it
// must be an end, inside, with finite figures.
func TestCliff(t *testing.T) {
	for seed := range uint64(60) {
		outside := false
		p, x0 := waves(seed, true, &outside)
		r := mustMinimize(t, p, x0, nil)
		if outside || math.IsNaN(r.F) || r.Status == nlp.IterationLimit {
			t.Errorf("problem %d: %v, F = %v, outside %v", seed, r.Status, r.F, outside)
		}
		for _, v := range append(append([]float64{}, r.Rows...), r.X...) {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("problem %d: %v in the answer", seed, v)
			}
		}
	}
}

// The practical size: 25 variables, 800 rows, forward differences.
func TestPracticalSize(t *testing.T) {
	p, x0 := bowls(25, 800)
	r := mustMinimize(t, p, x0, nil)
	if r.Status != nlp.Converged || len(r.Active) < 5 {
		t.Fatalf("%v, %d rows active", r.Status, len(r.Active))
	}
	if calls := r.Stats.Evaluations + r.Stats.Differences; calls > 1000 {
		t.Errorf("%d model calls", calls)
	}
	if r.Stats.QPIterations > 60*r.Stats.JacEvaluations {
		t.Errorf("%d QP steps in %d programs", r.Stats.QPIterations, r.Stats.JacEvaluations)
	}
	c, err := nlp.CheckKKT(p, r.X, nil)
	if err != nil || c.Stationarity > 1e-5 || c.Violation > violationBar {
		t.Errorf("%+v, %v", c.KKT, err)
	}
}
