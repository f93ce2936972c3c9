package nlp

import (
	"context"
	"fmt"
)

// Minimize looks for a local minimum of p from x0, which is moved into the bounds
// first. A nil s means default settings.
//
// Numerical outcomes are a Status, never an error. The error is a *ProblemError
// for bad input, the error of the context when it ended (the result then holds the
// last point), or what the recorder returned.
func Minimize(ctx context.Context, p Problem, x0 []float64, s *Settings) (Result, error) {
	t, err := s.resolve()
	if err != nil {
		return Result{}, err
	}
	if err := p.validate(); err != nil {
		return Result{}, err
	}
	w := t.Warm
	if w != nil {
		if w.X != nil {
			x0 = w.X
		}
		if w.Multipliers != nil && len(w.Multipliers) != p.M {
			return Result{}, &ProblemError{"Warm.Multipliers", fmt.Sprintf("%d entries", len(w.Multipliers)), fmt.Sprintf("give %d, or none", p.M)}
		}
	}
	if err := p.validateStart("x0", x0); err != nil {
		return Result{}, err
	}
	x := p.clip(x0)
	clipped := false
	for j := range x {
		clipped = clipped || x[j] != x0[j]
	}
	r, err := minimize(ctx, &p, x, &t)
	r.Clipped = clipped
	return r, err
}

// minimize is Minimize for valid arguments.
func minimize(ctx context.Context, p *Problem, x []float64, t *Settings) (Result, error) {
	q := newSQP(p, t, x)
	if !q.begin(x, t.Warm) {
		return q.result(NotFinite), nil
	}
	if q.m.n == 0 {
		status := Converged
		if !q.feasible() {
			status = Infeasible
		}
		r := q.result(status)
		r.verify(p, t)
		return r, nil
	}
	var r, sure Result // sure is a minimum that was borne out, but looked lopsided
	for {
		status := q.run(ctx)
		r = q.result(status)
		r.verify(p, t)
		q.m.stats.Checks = r.Stats.Checks
		if status != Converged || r.Status == Converged && !q.lopsided() {
			break
		}
		if r.Status == Converged {
			sure = r
		}
		if !q.doubt(&r) {
			break
		}
	}
	switch r.Status {
	case Infeasible, StepTooSmall, IterationLimit:
		if q.best != nil && q.cur != q.best && !q.feasible() {
			q.comeBack(&r)
			r.verify(p, t)
		}
	}
	if sure.Status == Converged && r.Status != Converged && r.Status != Cancelled && r.Status != UserStop {
		sure.Stats = r.Stats
		r = sure
	}
	if r.Status == Cancelled {
		return r, ctx.Err()
	}
	return r, q.failed
}
