package nlp

import (
	"context"
	"math"
)

// hopeless reports whether the rows that must hold cannot be met near here, the
// search having come to a least sum of violations. Such a point may lie where one
// row's gain is another's greater loss and a third way out, so that a second
// measure is asked: the sum of squares. Where that leads to less, the search goes
// on from there.
func (s *sqp) hopeless(ctx context.Context) bool {
	if !s.objective || s.opinions == mostOpinions {
		return true
	}
	s.opinions++
	before := s.total(s.cur)
	at := s.cur
	s.leastSquares(ctx)
	if ctx.Err() != nil {
		return false // cancelled, which is seen at once
	}
	if s.total(s.cur) > worthGoing*before && !s.feasible() {
		s.cur = at
		return true
	}
	s.restoring, s.muSet, s.stalls, s.elasticSteps = !s.feasible(), false, 0, 0
	s.recent = s.recent[:0]
	s.reset()
	return false
}

// Constants of the second measure.
const (
	mostOpinions  = 2
	worthGoing    = 0.9 // share of the violation that must be left for the verdict to stand
	mostMarquardt = 20
	leastSquared  = 0.05 // share of the sum that a step must take off for another
	firstRidge    = 1e-2
	mostRidge     = 1e6
)

// leastSquares minimises the sum of the squared violations of the rows that must
// hold, inside the bounds, by the method of Levenberg and Marquardt (Nocedal and
// Wright 2006, 10.3).
func (s *sqp) leastSquares(ctx context.Context) {
	n, m := s.m.n, s.m.m
	a, hess, zero := make([]float64, 0, m*n), newFactor(n), make([]float64, m)
	ridge := firstRidge
	for range mostMarquardt {
		if ctx.Err() != nil || s.feasible() || s.m.stats.Iterations >= s.t.MaxIterations {
			return
		}
		s.m.stats.Iterations++
		a = a[:0]
		clear(s.y)
		var sum float64
		for i, c := range s.cur.c {
			if v := s.m.p.violation(i, c); v > 0 && s.required(i) {
				row := s.jac[i*n : (i+1)*n]
				a = append(a, row...)
				axpy(s.y, c, row)
				sum += v * v
			}
		}
		s.room()
		d := s.dual
		for ; ridge <= mostRidge; ridge *= 10 {
			hess.qr(a, len(a)/n, ridge*math.Max(largest(a), math.SmallestNonzeroFloat64))
			d.f, d.g, d.a, d.b, d.lower, d.upper, d.warm, d.start = hess, s.y, s.jac, s.rhs, s.lo, s.hi, nil, nil
			d.equality, d.cap = s.m.p.Equality, zero // no row takes part but by its square
			if d.solve() != Converged {
				continue
			}
			s.m.stats.QPIterations += d.steps
			q, ok := s.m.at(s.m.move(s.cur, 1, d.x))
			if ok && s.squares(q) < sum*(1-sufficient) {
				if !s.m.derive(s.g, s.jac, q) {
					s.m.derive(s.g, s.jac, s.cur)
					continue
				}
				s.cur = q
				break
			}
		}
		if ridge > mostRidge {
			return
		}
		if ridge /= 10; s.squares(s.cur) > sum*(1-leastSquared) {
			return
		}
	}
}

// squares returns the sum of the squared violations at q.
func (s *sqp) squares(q *point) float64 {
	var sum float64
	for i, c := range q.c {
		if s.required(i) {
			v := s.m.p.violation(i, c)
			sum += v * v
		}
	}
	return sum
}
