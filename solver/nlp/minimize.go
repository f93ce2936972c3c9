package nlp

import (
	"context"
	"fmt"
	"math"
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
	q := newSQP(p, t)
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
	status := q.run(ctx)
	r := q.result(status)
	r.verify(p, t)
	if status == Converged && r.Status == Acceptable && q.m.formula == Forward && !q.m.diff.analytic() {
		// The search was content with one-sided differences and the check is not.
		q.m.formula = Central
		if q.m.derive(q.g, q.jac, q.cur) {
			r = q.result(q.run(ctx))
			r.verify(p, t)
		}
	}
	if r.Status == Cancelled {
		return r, ctx.Err()
	}
	return r, q.failed
}

// verifySlack is the factor by which the independent check may exceed the exit
// tolerances: it uses other differences and other scales.
const verifySlack = 10

// verify measures the answer with CheckKKT and takes back a claim it does not bear
// out. Of a run that claims no minimum it measures the violation alone.
func (r *Result) verify(p *Problem, t *Settings) {
	switch r.Status {
	case NotFinite:
		return
	case Infeasible, UserStop: // claim no minimum
		for i, v := range r.Rows {
			r.KKT.Violation = math.Max(r.KKT.Violation, p.violation(i, v)/p.rowScale(i))
		}
		r.Message += fmt.Sprintf("; largest violation %.2g", r.KKT.Violation)
		return
	}
	c, err := CheckKKT(*p, r.X, r.Multipliers)
	if err != nil {
		r.Status = NotFinite
		r.Message, r.Hint = err.Error(), NotFinite.Hint()
		return
	}
	r.KKT = c.KKT
	for j := range r.X {
		if p.fixed(j) {
			r.LowerMultipliers[j], r.UpperMultipliers[j] = c.LowerMultipliers[j], c.UpperMultipliers[j]
		}
	}
	if r.Status == Converged && (c.Stationarity > verifySlack*t.Stationarity || c.Complementarity > verifySlack*t.Complementarity) {
		r.Status, r.Hint = Acceptable, Acceptable.Hint()
		r.Message = "the independent check disagrees with the search"
	}
	switch r.Status {
	case Converged:
	default:
		r.Message += fmt.Sprintf("; stationarity %.2g, violation %.2g, complementarity %.2g, tolerances %.2g, %.2g, %.2g",
			c.Stationarity, c.Violation, c.Complementarity, t.Stationarity, t.Violation, t.Complementarity)
	}
}
