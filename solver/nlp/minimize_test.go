package nlp_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"armwright/solver/nlp"
	"armwright/solver/nlp/testproblems"
)

// Acceptance bars for answers, from the collection the problems come from.
const (
	relativeF      = 1e-6 // of the optimum
	violationBar   = 1e-8 // of a row, in its own unit
	evaluationsBar = 100  // from the customary start, analytic derivatives
)

func gap(f, best float64) float64 { return math.Abs(f-best) / math.Max(1, math.Abs(best)) }

func mustMinimize(t *testing.T, p nlp.Problem, x0 []float64, s *nlp.Settings) nlp.Result {
	t.Helper()
	r, err := nlp.Minimize(context.Background(), p, x0, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// confirm holds the answer against what must be true of it whatever the problem.
func confirm(t *testing.T, p nlp.Problem, r nlp.Result) {
	t.Helper()
	borneOut(t, p, &r)
	if r.Status != nlp.Converged {
		t.Errorf("status %v: %s", r.Status, r.Message)
	}
	if f := p.Func(r.X); f != r.F {
		t.Errorf("F = %v but f(X) = %v", r.F, f)
	}
	c, err := nlp.CheckKKT(p, r.X, nil)
	if err != nil {
		t.Fatal(err)
	}
	// Multipliers estimated anew, by another method, certify the point.
	if c.Stationarity > 1e-5 || c.Complementarity > 1e-5 || c.DualInfeasibility > 0 {
		t.Errorf("independent KKT check: %+v", c.KKT)
	}
	if c.Violation > violationBar {
		t.Errorf("violation %g", c.Violation)
	}
}

func TestHockSchittkowski(t *testing.T) {
	for _, p := range append(testproblems.HockSchittkowski(), testproblems.More()...) {
		t.Run(p.Name, func(t *testing.T) {
			r := mustMinimize(t, p.Problem, p.X0, nil)
			if p.Name == "HS26" {
				// The objective is flat to the third order along the row, so that its
				// minimum has no multipliers that others could find.
				borneOut(t, p.Problem, &r)
			} else {
				confirm(t, p.Problem, r)
			}
			m := p.Minima[0]
			if g := gap(r.F, m.F); g > relativeF {
				t.Errorf("F = %.10g, want %.10g (off by %.1g)", r.F, m.F, g)
			}
			if r.Stats.Evaluations > evaluationsBar {
				t.Errorf("%d evaluations", r.Stats.Evaluations)
			}
			for i, l := range m.Multipliers {
				// Printed to six figures or so.
				if d := math.Abs(r.Multipliers[i] - l); d > 2e-4*math.Max(math.Abs(l), .01) {
					t.Errorf("multiplier %d = %.7g, want %.7g", i+1, r.Multipliers[i], l)
				}
			}
			for j, x := range m.X {
				if d := math.Abs(r.X[j] - x); d > m.Digits {
					t.Errorf("x%d = %.8g, want %.8g", j+1, r.X[j], x)
				}
			}
		})
	}
}

// The bound multiplier of HS76 is printed as 1.727273, that is 19/11.
func TestBoundMultiplier(t *testing.T) {
	p := testproblems.HockSchittkowski()[6]
	r := mustMinimize(t, p.Problem, p.X0, nil)
	if got, want := r.LowerMultipliers[2], 19./11; math.Abs(got-want) > 1e-6 {
		t.Errorf("multiplier of x3 >= 0 is %v, want %v", got, want)
	}
}

// HS13 has no multipliers at its minimum: the solver must come close and end.
func TestNoQualification(t *testing.T) {
	p := testproblems.HS13()
	r := mustMinimize(t, p.Problem, p.X0, nil)
	if !r.Clipped {
		t.Error("start outside the bounds not reported")
	}
	if g := gap(r.F, 1); g > 1e-3 || r.KKT.Violation > violationBar {
		t.Errorf("F = %v, violation %v, status %v", r.F, r.KKT.Violation, r.Status)
	}
}

func TestPolygon(t *testing.T) {
	for _, n := range []int{6, 12, 20, 25} {
		p := testproblems.Polygon(n)
		t.Run(p.Name, func(t *testing.T) {
			r := mustMinimize(t, p.Problem, p.X0, nil)
			confirm(t, p.Problem, r)
			// Areas are printed to six places; a larger one is no fault.
			if r.F > p.Minima[0].F+1e-6 {
				t.Errorf("area %.6f, known %.6f", -r.F, -p.Minima[0].F)
			}
			if p.Minima[0].Global && r.F < p.Minima[0].F-1e-6 {
				t.Errorf("area %.6f beats the largest, %.6f", -r.F, -p.Minima[0].F)
			}
		})
	}
}

func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Float64bits(x) == math.Float64bits(y) })
}

func TestBitIdentical(t *testing.T) {
	for _, p := range append(testproblems.HockSchittkowski(), testproblems.Polygon(12)) {
		a := mustMinimize(t, p.Problem, p.X0, nil)
		b := mustMinimize(t, p.Problem, p.X0, nil)
		if !same(a.X, b.X) || !same(a.Multipliers, b.Multipliers) || !same(a.LowerMultipliers, b.LowerMultipliers) || a.Stats != b.Stats || a.KKT != b.KKT {
			t.Errorf("%s: reruns differ", p.Name)
		}
	}
}

func TestUnitsDoNotMatter(t *testing.T) {
	const k = 1000
	for _, c := range []struct {
		name   string
		vs, rs []float64
		scaled bool // scales told, as mixed units need
	}{
		{"variables up", []float64{k}, []float64{1}, false},
		{"variables down", []float64{1. / k}, []float64{1}, false},
		{"rows up", []float64{1}, []float64{k}, false},
		{"rows down", []float64{1}, []float64{1. / k}, false},
		{"rows mixed", []float64{1}, []float64{k, 1. / k, 1}, false},
		{"all", []float64{1. / k}, []float64{k}, false},
		{"variables mixed", []float64{k, 1. / k, 1}, []float64{1}, true},
		{"all mixed", []float64{k, 1. / k}, []float64{1. / k, k, 1}, true},
	} {
		for _, p := range testproblems.HockSchittkowski() {
			t.Run(c.name+" "+p.Name, func(t *testing.T) {
				tr := units(p.Problem, c.vs, c.rs)
				q := tr.problem(p.Problem)
				if c.scaled {
					for j := range q.N {
						s := 1.
						if p.Upper != nil {
							s = p.Upper[j] - p.Lower[j]
						}
						q.Scale = append(q.Scale, s*tr.vs[j])
					}
				}
				r := mustMinimize(t, q, tr.point(p.X0), nil)
				if g := gap(r.F, p.Minima[0].F); g > relativeF || !r.Status.Usable() {
					t.Errorf("%v: F = %.10g, want %.10g", r.Status, r.F, p.Minima[0].F)
				}
				if r.Stats.Evaluations > evaluationsBar {
					t.Errorf("%d evaluations", r.Stats.Evaluations)
				}
				for i, l := range p.Minima[0].Multipliers {
					if got := r.Multipliers[i] * tr.rs[i]; math.Abs(got-l) > 2e-3*math.Max(math.Abs(l), .01) {
						t.Errorf("multiplier %d = %v, want %v", i+1, got, l)
					}
				}
			})
		}
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, p := range testproblems.HockSchittkowski() {
		for range 3 {
			tr := units(p.Problem, []float64{1}, []float64{1})
			tr.col, tr.row = rng.Perm(p.N), rng.Perm(p.M)
			r := mustMinimize(t, tr.problem(p.Problem), tr.point(p.X0), nil)
			if g := gap(r.F, p.Minima[0].F); g > relativeF || r.Status != nlp.Converged || r.Stats.Evaluations > evaluationsBar {
				t.Errorf("%s: %v after %d evaluations, F = %.10g, want %.10g", p.Name, r.Status, r.Stats.Evaluations, r.F, p.Minima[0].F)
			}
			for i, l := range p.Minima[0].Multipliers {
				k := slices.Index(tr.row, i)
				if math.Abs(r.Multipliers[k]-l) > 2e-4*math.Max(math.Abs(l), .01) {
					t.Errorf("%s: multiplier %d = %v, want %v", p.Name, i+1, r.Multipliers[k], l)
				}
			}
		}
	}
}

// Differences must reach the same optima, and the model must never be evaluated
// outside the bounds, not even by a difference step.
func TestDifferences(t *testing.T) {
	for _, formula := range []nlp.Difference{nlp.Forward, nlp.Central} {
		for _, p := range append(testproblems.HockSchittkowski(), testproblems.More()...) {
			q := p.Problem
			inside := func(x []float64) {
				for j, v := range x {
					if q.Lower != nil && v < q.Lower[j] || q.Upper != nil && v > q.Upper[j] {
						t.Fatalf("%s: evaluated outside the bounds: x%d = %v", p.Name, j+1, v)
					}
				}
			}
			calls := 0
			q.Func, q.Rows, q.Grad, q.Jac = nil, nil, nil, nil
			q.Both = func(c, x []float64) float64 {
				inside(x)
				calls++
				p.Rows(c, x)
				return p.Func(x)
			}
			r := mustMinimize(t, q, p.X0, &nlp.Settings{Difference: formula})
			if g := gap(r.F, p.Minima[0].F); g > relativeF || !r.Status.Usable() {
				t.Errorf("%s: %v, F = %.10g, want %.10g", p.Name, r.Status, r.F, p.Minima[0].F)
			}
			if got := r.Stats.Evaluations + r.Stats.Differences + r.Stats.Checks; calls != got {
				t.Errorf("%s: %d model calls, %d counted", p.Name, calls, got)
			}
		}
	}
}

// The linearised rows contradict each other at the start (0, 1): the second has no
// slope there. A case of the regression tests of a well-known SLSQP (S).
func TestInconsistentStart(t *testing.T) {
	p := nlp.Problem{
		N: 2, M: 2, Equality: []bool{true, false}, Lower: []float64{-10, -10}, Upper: []float64{10, 10},
		Func: func(x []float64) float64 { return (x[0]-1)*(x[0]-1) + (x[1]-2.5)*(x[1]-2.5) },
		Rows: func(c, x []float64) { c[0], c[1] = x[0]+x[1]-2, x[0]*x[0]-1 },
	}
	r := mustMinimize(t, p, []float64{0, 1}, nil)
	confirm(t, p, r)
	// On the line, f = (x-1)² + (x+.5)² rises on either side of .25, so that the
	// row picks x = 1 (f = 2.25) or, from the left, x = -1 (f = 4.25).
	if gap(r.F, 2.25) > relativeF && gap(r.F, 4.25) > relativeF {
		t.Errorf("F = %v at %v", r.F, r.X)
	}
}

// Contradicting rows must never be reported as solved.
func TestInfeasible(t *testing.T) {
	for _, c := range testproblems.InfeasibleCases() {
		r := mustMinimize(t, c.Problem, c.X0, nil)
		if r.Status != nlp.Infeasible || r.Status.Usable() || r.Hint == "" {
			t.Errorf("%s: %v", c.Name, r.Status)
		}
	}
	pair := nlp.Problem{
		N: 2, M: 2, Equality: []bool{true, false},
		Func: func(x []float64) float64 { return x[0] * x[0] },
		Rows: func(c, x []float64) { c[0], c[1] = x[0]+x[1]-1, -x[0]-x[1]-1 },
	}
	if r := mustMinimize(t, pair, []float64{5, 5}, nil); r.Status != nlp.Infeasible {
		t.Errorf("equality against inequality: %v", r.Status)
	}
}

func TestFixedVariables(t *testing.T) {
	p := testproblems.HockSchittkowski()[3] // HS43, minimum (0, 1, 2, -1)
	q := p.Problem
	q.Lower, q.Upper = []float64{-5, 1, -5, -5}, []float64{5, 1, 5, 5}
	r := mustMinimize(t, q, p.X0, nil)
	if gap(r.F, -44) > relativeF || r.X[1] != 1 || !r.Clipped {
		t.Errorf("F = %v at %v", r.F, r.X)
	}
	q.Lower, q.Upper = []float64{0, 1, 2, -1}, []float64{0, 1, 2, -1}
	if r := mustMinimize(t, q, p.X0, nil); r.Status != nlp.Converged || r.F != -44 {
		t.Errorf("all fixed, rows met: %v, F = %v", r.Status, r.F)
	}
	q.Lower, q.Upper = []float64{3, 3, 3, 3}, []float64{3, 3, 3, 3}
	if r := mustMinimize(t, q, p.X0, nil); r.Status != nlp.Infeasible {
		t.Errorf("all fixed, rows missed: %v", r.Status)
	}
}

// A model that is undefined for x > 1.5 must only shorten steps. The minimum of
// -log(1.5-x) - ... lies inside; at the start the full step leads out.
func TestUndefinedRegion(t *testing.T) {
	p := nlp.Problem{
		N: 1, M: 1,
		Func: func(x []float64) float64 { return -math.Sqrt(1.5-x[0]) - 2*x[0] },
		Rows: func(c, x []float64) { c[0] = 1 - x[0]*x[0]*math.Sqrt(1.5-x[0]) },
	}
	r := mustMinimize(t, p, []float64{-3}, nil)
	if !r.Status.Usable() && r.Status != nlp.Infeasible && r.Status != nlp.StepTooSmall {
		t.Errorf("status %v", r.Status)
	}
	if math.IsNaN(r.F) || math.IsNaN(r.Rows[0]) {
		t.Errorf("not finite: %v %v", r.F, r.Rows)
	}
	r = mustMinimize(t, p, []float64{2}, nil)
	if r.Status != nlp.NotFinite {
		t.Errorf("undefined start: %v", r.Status)
	}
}

func TestUnbounded(t *testing.T) {
	p := nlp.Problem{N: 2, Func: func(x []float64) float64 { return x[0] - 3*x[1] },
		Grad: func(g, _ []float64) { g[0], g[1] = 1, -3 }}
	if r := mustMinimize(t, p, []float64{0, 0}, nil); r.Status != nlp.Unbounded {
		t.Errorf("status %v after %d iterations", r.Status, r.Stats.Iterations)
	}
}

type recorder struct {
	list []nlp.Iteration
	err  error
	last int
}

func (r *recorder) Record(i nlp.Iteration) error {
	r.list = append(r.list, i)
	if len(r.list) >= r.last {
		return r.err
	}
	return nil
}

func TestRecorder(t *testing.T) {
	p := testproblems.HockSchittkowski()[8]
	rec := recorder{}
	r := mustMinimize(t, p.Problem, p.X0, &nlp.Settings{Recorder: &rec})
	if len(rec.list) != r.Stats.Iterations+1 {
		t.Errorf("%d records of %d iterations", len(rec.list), r.Stats.Iterations)
	}
	if last := rec.list[len(rec.list)-1]; last.F != r.F || last.Violation > violationBar || last.Active != 2 {
		t.Errorf("last record %+v", last)
	}
	r = mustMinimize(t, p.Problem, p.X0, &nlp.Settings{Recorder: &recorder{err: nlp.ErrStop, last: 3}})
	if r.Status != nlp.UserStop || r.Stats.Iterations != 2 {
		t.Errorf("%v after %d iterations", r.Status, r.Stats.Iterations)
	}
	full := errors.New("disk full")
	if _, err := nlp.Minimize(context.Background(), p.Problem, p.X0, &nlp.Settings{Recorder: &recorder{err: full, last: 1}}); !errors.Is(err, full) {
		t.Errorf("error %v", err)
	}
}

func TestCancel(t *testing.T) {
	p := testproblems.Polygon(25)
	ctx, cancel := context.WithCancel(context.Background())
	q, calls := p.Problem, 0
	q.Func = func(x []float64) float64 {
		if calls++; calls == 5 {
			cancel()
		}
		return p.Func(x)
	}
	r, err := nlp.Minimize(ctx, q, p.X0, nil)
	if !errors.Is(err, context.Canceled) || r.Status != nlp.Cancelled || len(r.X) != q.N || r.Stats.Evaluations > 8 {
		t.Errorf("%v, %v after %d evaluations", err, r.Status, r.Stats.Evaluations)
	}
	if _, err := nlp.Diagnose(ctx, p.Problem, p.X0, nil, nil, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("diagnose: %v", err)
	}
}

// A run from the last answer, as after a small change of one limit, costs a small
// part of a cold one.
func TestWarmStart(t *testing.T) {
	for _, p := range []testproblems.Problem{testproblems.Polygon(12), testproblems.HockSchittkowski()[10]} {
		cold := mustMinimize(t, p.Problem, p.X0, nil)
		again := mustMinimize(t, p.Problem, p.X0, &nlp.Settings{Warm: cold.Warm()})
		if again.Stats.Iterations > 1 || gap(again.F, cold.F) > 1e-9 {
			t.Errorf("%s: %d iterations from the answer", p.Name, again.Stats.Iterations)
		}
		q := p.Problem
		q.Rows = func(c, x []float64) {
			p.Rows(c, x)
			c[0] -= .01
		}
		cold2 := mustMinimize(t, q, p.X0, nil)
		warm := mustMinimize(t, q, p.X0, &nlp.Settings{Warm: cold.Warm()})
		if warm.Status != nlp.Converged || warm.Stats.Iterations > cold2.Stats.Iterations {
			t.Errorf("%s: %v, %d iterations warm, %d cold", p.Name, warm.Status, warm.Stats.Iterations, cold2.Stats.Iterations)
		}
	}
}

// Multipliers tell trades: the optimum moves by the multiplier times the change of
// a limit, to first order.
func TestMultiplierIsTrade(t *testing.T) {
	for _, k := range []int{3, 9, 10} { // HS43, HS106, HS113
		p := testproblems.HockSchittkowski()[k]
		base := mustMinimize(t, p.Problem, p.X0, nil)
		for i, l := range base.Multipliers {
			if l == 0 {
				continue
			}
			h := 1e-4 / math.Max(1e-4, l) // shifts F by about 1e-4
			q := p.Problem
			q.Rows = func(c, x []float64) {
				p.Rows(c, x)
				c[i] -= h
			}
			r := mustMinimize(t, q, p.X0, nil)
			if got := (r.F - base.F) / h; math.Abs(got-l) > .02*l {
				t.Errorf("%s: row %d trades %v, multiplier %v", p.Name, i+1, got, l)
			}
		}
	}
}

// From points spread over the bounds several runs find a global minimum, of which this
// problem has four, pairs of signs flipped; equal seeds give equal points, others not.
func TestSpread(t *testing.T) {
	p := testproblems.HockSchittkowski()[1].Problem // HS29
	p.Lower, p.Upper = []float64{-10, -10, -10}, []float64{10, 10, 10}
	points := p.Spread([]float64{1, 1, 1}, 12, 7)
	agreed := 0
	for _, x := range points {
		r, err := nlp.Minimize(context.Background(), p, x, nil)
		if err != nil {
			t.Fatal(err)
		}
		if r.Status.Usable() && gap(r.F, -16*math.Sqrt2) <= relativeF {
			agreed++
		}
	}
	if agreed < 4 {
		t.Errorf("%d of %d find a minimum", agreed, len(points))
	}
	again, other := p.Spread([]float64{1, 1, 1}, 12, 7), p.Spread([]float64{1, 1, 1}, 12, 8)
	if len(points) != 12 || !same(points[0], []float64{1, 1, 1}) || !same(points[5], again[5]) || same(points[5], other[5]) {
		t.Errorf("%v, again %v, by another seed %v", points[5], again[5], other[5])
	}
}

func TestBadInput(t *testing.T) {
	ok := testproblems.HockSchittkowski()[5] // HS71
	for name, spoil := range map[string]func(p *nlp.Problem, x *[]float64, s *nlp.Settings){
		"no variables":      func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.N = 0 },
		"rows without func": func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.Rows = nil },
		"short bounds":      func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.Lower = p.Lower[:2] },
		"crossed bounds":    func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.Lower = []float64{1, 1, 6, 1} },
		"bound not finite":  func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.Upper = []float64{5, 5, math.NaN(), 5} },
		"zero scale":        func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.Scale = []float64{1, 0, 1, 1} },
		"zero row scale":    func(p *nlp.Problem, _ *[]float64, _ *nlp.Settings) { p.RowScale = []float64{1, 0} },
		"short start":       func(_ *nlp.Problem, x *[]float64, _ *nlp.Settings) { *x = (*x)[:3] },
		"start not finite":  func(_ *nlp.Problem, x *[]float64, _ *nlp.Settings) { *x = []float64{1, 1, 1, math.Inf(1)} },
		"tolerance":         func(_ *nlp.Problem, _ *[]float64, s *nlp.Settings) { s.Violation = -1 },
		"warm multipliers":  func(_ *nlp.Problem, _ *[]float64, s *nlp.Settings) { s.Warm = &nlp.Warm{Multipliers: []float64{1}} },
	} {
		p, x, s := ok.Problem, slices.Clone(ok.X0), nlp.Settings{}
		spoil(&p, &x, &s)
		_, err := nlp.Minimize(context.Background(), p, x, &s)
		var e *nlp.ProblemError
		if !errors.As(err, &e) || e.Hint == "" {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

func TestStatusTable(t *testing.T) {
	for s := nlp.NotStarted; s <= nlp.UserStop; s++ {
		if s.String() == "" || s.Message() == "" || s.Usable() != (s == nlp.Converged || s == nlp.Stalled) {
			t.Errorf("%d: %q %q usable %v", int(s), s, s.Message(), s.Usable())
		}
	}
	if nlp.Status(99).String() != "status(99)" || nlp.Status(-1).Usable() {
		t.Error("unknown status")
	}
}
