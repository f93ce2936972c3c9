package nlp

import (
	"context"
	"math"
)

// leastViolation minimises the priced violation of the rows of p from x, inside
// the bounds: a row of price +Inf must hold, one of price zero is left out, any
// other may be missed at its price a unit. Where all priced rows can hold, any
// such point will do. The status is Converged at a local minimum and Infeasible
// where the rows that must hold do not.
func leastViolation(ctx context.Context, p *Problem, x []float64, t *Settings, price []float64) Result {
	q := newSQP(rowsOnly(p), t, x)
	q.objective = false
	if !q.begin(x, nil) {
		return q.result(NotFinite)
	}
	var top float64
	for i, v := range price {
		if !math.IsInf(v, 1) {
			top = math.Max(top, v*q.m.row[i])
		}
	}
	for i, v := range price {
		q.soft[i] = v
		if top > 0 && !math.IsInf(v, 1) {
			q.soft[i] = v * q.m.row[i] / top
		}
	}
	if q.m.n == 0 {
		return q.result(Converged)
	}
	return q.result(q.run(ctx))
}

// rowsOnly returns p without its objective.
func rowsOnly(p *Problem) *Problem {
	q := *p
	q.Func, q.Grad, q.Both = nil, nil, nil
	if p.Both != nil {
		q.Rows = func(c, x []float64) { p.Both(c, x) }
	}
	return &q
}

// minimax minimises the largest violation t of the rows of p in units of weights,
// starting at x. Hard rows must hold. The last variable of the result is t and its
// multipliers are those of the rows of p (for equalities with their sign).
func minimax(ctx context.Context, p *Problem, x []float64, t *Settings, weights []float64, hard []bool) (Result, error) {
	rows := rowsOnly(p)
	n, m := p.N, p.M
	// An equality that may be missed is two inequalities; from lists the rows of p
	// behind the rows of q, sign their sense.
	var from []int
	var sign []float64
	q := Problem{N: n + 1}
	for i := range m {
		from, sign = append(from, i), append(sign, 1)
		q.Equality = append(q.Equality, p.equality(i) && hard[i])
		if p.equality(i) && !hard[i] {
			from, sign = append(from, i), append(sign, -1)
			q.Equality = append(q.Equality, false)
		}
	}
	q.M = len(from)
	c := make([]float64, m)
	evaluate := func(x []float64) {
		rows.evaluate(c, x[:n])
	}
	q.Func = func(x []float64) float64 { return x[n] }
	q.Grad = func(g, _ []float64) { clear(g); g[n] = 1 }
	slack := func(k int) float64 {
		if hard[from[k]] {
			return 0
		}
		return weights[from[k]]
	}
	q.Rows = func(v, x []float64) {
		evaluate(x)
		for k, i := range from {
			v[k] = sign[k]*c[i] + slack(k)*x[n]
		}
	}
	diff := newDifferencer(rows, t.Noise)
	grad, jac := make([]float64, n), make([]float64, m*n)
	q.Jac = func(dst, x []float64) {
		evaluate(x)
		if !diff.derive(grad, jac, x[:n], 0, c, t.Difference) {
			jac[0] = math.NaN() // the caller looks for it
		}
		for k, i := range from {
			to := dst[k*(n+1) : (k+1)*(n+1)]
			for j := range n {
				to[j] = sign[k] * jac[i*n+j]
			}
			to[n] = slack(k)
		}
	}
	for j := range n {
		lo, hi := p.bounds(j)
		q.Lower, q.Upper, q.Scale = append(q.Lower, lo), append(q.Upper, hi), append(q.Scale, p.scale(j, x[j]))
	}
	evaluate(x)
	var worst float64
	for i, v := range c {
		if !hard[i] {
			worst = math.Max(worst, p.violation(i, v)/weights[i])
		}
	}
	if !finite(worst) {
		return Result{Status: NotFinite}, nil
	}
	if worst == 0 {
		worst = t.Violation
	}
	q.Lower, q.Upper, q.Scale = append(q.Lower, 0), append(q.Upper, math.Inf(1)), append(q.Scale, worst)
	if len(p.RowScale) > 0 {
		for _, i := range from {
			q.RowScale = append(q.RowScale, p.RowScale[i])
		}
	}
	r, err := minimize(ctx, &q, append(p.clip(x), worst), t)
	if r.Multipliers != nil {
		folded := make([]float64, m)
		for k, i := range from {
			folded[i] += sign[k] * r.Multipliers[k]
		}
		r.Multipliers = folded
	}
	return r, err
}
