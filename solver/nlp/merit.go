package nlp

import "math"

// advance moves along the current step to a point of lower merit and updates the
// Hessian. It reports false when no such point was found or progress has stopped;
// the current point then stands.
//
// The merit is objective plus weighted violation (L1, exact for weights above the
// multipliers). Weights of hard rows follow the multipliers as in Powell 1978.
func (s *sqp) advance() bool {
	s.weigh()
	slope := s.slope()
	if !(slope < 0) {
		return false
	}
	before := s.merit(s.cur)
	next, alpha := s.search(before, slope)
	if next == nil {
		return false
	}
	if before-s.merit(next) <= 4*epsilon*math.Abs(before) {
		if s.stalls++; s.stalls > mostStalls {
			s.stalls = 0
			return false
		}
	} else {
		s.stalls = 0
	}
	return s.accept(next, alpha)
}

// weigh sets the merit weights from the multipliers.
func (s *sqp) weigh() {
	for i, l := range s.lam {
		l = safeWeight * math.Abs(l)
		switch {
		case !s.hard(i):
			s.mu[i] = s.price(i)
		case s.elastic:
			s.mu[i] = s.gamma
		case s.muSet:
			s.mu[i] = math.Max(l, (s.mu[i]+l)/2)
		default:
			s.mu[i] = l
		}
	}
	s.muSet = true
}

// merit returns the merit of q.
func (s *sqp) merit(q *point) float64 {
	var v float64
	if s.minimising() {
		v = q.f
	}
	for i, c := range q.c {
		if s.mu[i] > 0 {
			v += s.mu[i] * s.m.p.violation(i, c)
		}
	}
	return v
}

// slope returns the change of the merit that the linearised problem predicts for
// the whole step, which bounds its directional derivative from above.
func (s *sqp) slope() float64 {
	var v float64
	if s.minimising() {
		v = dot(s.g, s.d)
	}
	for i, c := range s.cur.c {
		if s.mu[i] > 0 {
			v += s.mu[i] * (s.linear(i, s.d) - s.m.p.violation(i, c))
		}
	}
	return v
}

// search backtracks along the step from one, until the merit falls by enough. A
// point that misses its rows by more than before is first corrected for their
// curvature. It returns nil when no step of at least leastAlpha will do.
func (s *sqp) search(before, slope float64) (*point, float64) {
	noise := 8 * epsilon * math.Abs(before)
	missed := s.missed(s.cur)
	for alpha := 1.0; alpha >= leastAlpha; {
		q, ok := s.m.at(s.m.move(s.cur, alpha, s.d))
		if !ok || s.astray(q) {
			alpha /= 4 // the model is not defined there: the step is too long
			continue
		}
		enough := before + sufficient*alpha*slope + noise
		gain := s.merit(q) - before
		if s.merit(q) <= enough {
			return q, alpha
		}
		if alpha >= leastCorrected && s.missed(q) > missed {
			if c := s.correct(q, alpha, enough); c != nil {
				return c, alpha
			}
		}
		// Minimum of the parabola through value and slope here and the value there.
		t := -slope * alpha / (2 * (gain - slope*alpha))
		alpha *= math.Min(math.Max(t, 0.1), 0.5)
	}
	return nil, 0
}

// astray reports whether q misses the rows by so much more than the start and the
// current point do that the step cannot have been meant.
func (s *sqp) astray(q *point) bool {
	return s.total(q) > math.Max(mostAstray*math.Max(1, s.first), s.total(s.cur))
}

// total returns the violation at q of the rows that must hold, in their scales.
func (s *sqp) total(q *point) (v float64) {
	for i, c := range q.c {
		if s.required(i) {
			v += s.m.p.violation(i, c)
		}
	}
	return v
}

// missed returns the weighted violation at q.
func (s *sqp) missed(q *point) float64 {
	var v float64
	for i, c := range q.c {
		if s.mu[i] > 0 {
			v += s.mu[i] * s.m.p.violation(i, c)
		}
	}
	return v
}

// correct brings the end q of the share alpha of the step back towards the rows,
// with the derivatives at hand and the rows as they are there: second-order
// corrections, which keep the merit from refusing good steps along curved rows (the
// Maratos effect; Fletcher 1982). After the whole step the quadratic program is
// solved again; after a part of it the nearest point is sought. It returns a point
// with the merit enough, or nil when corrections no longer halve the violation.
func (s *sqp) correct(q *point, alpha, enough float64) *point {
	d, g, n := s.trial, s.minusBD, s.m.n
	for k, v := range s.d {
		d[k], g[k] = alpha*v, -alpha*s.bd[k]
	}
	for range mostCorrections {
		for i := range s.rhs {
			s.rhs[i] = dot(s.jac[i*n:(i+1)*n], d) - q.c[i]
		}
		var status Status
		if alpha == 1 {
			status = s.solve()
		} else {
			status = s.program(g, nil)
		}
		if status != Converged {
			return nil
		}
		copy(d, s.dual.x)
		c, ok := s.m.at(s.m.move(s.cur, 1, d))
		if !ok {
			return nil
		}
		if s.merit(c) <= enough {
			return c
		}
		if s.missed(c) > s.missed(q)/2 {
			return nil
		}
		q = c
	}
	return nil
}

// accept makes next the current point and updates the Hessian with the change of
// the gradient of the Lagrangian.
func (s *sqp) accept(next *point, alpha float64) bool {
	m := s.m
	s.alpha, s.size = alpha, 0
	for k, j := range m.free {
		s.step[k] = (next.x[j] - s.cur.x[j]) / m.scale[k]
		s.size = math.Max(s.size, math.Abs(s.step[k]))
	}
	clear(s.y)
	s.lagrangian(s.y, -1)
	previous := s.cur
	s.cur = next
	if !m.derive(s.g, s.jac, next) {
		s.cur = previous
		m.derive(s.g, s.jac, previous)
		return false
	}
	s.lagrangian(s.y, 1)
	if s.fresh {
		// Give the first Hessian the size of the curvature just met
		// (Nocedal and Wright 2006, eq. 6.20).
		if sy := dot(s.step, s.y); sy > 0 {
			if b := dot(s.y, s.y) / sy; finite(b) && b > 0 {
				s.hess.identity(b)
			}
		}
		s.fresh = false
	}
	s.hess.update(s.step, s.y)
	return true
}

// lagrangian adds sign times the gradient of the Lagrangian to dst, leaving out
// the bounds, which have no curvature.
func (s *sqp) lagrangian(dst []float64, sign float64) {
	if s.minimising() {
		axpy(dst, sign, s.g)
	}
	n := s.m.n
	for i, l := range s.lam {
		axpy(dst, -sign*l, s.jac[i*n:(i+1)*n])
	}
}
