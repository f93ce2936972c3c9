package nlp

import (
	"fmt"
	"math"
)

// lopsided reports whether a variable of which neither scale nor both bounds are
// told has hardly been touched: what is left of the slope along it is small beside
// the others, but not beside what it was at the start, nor beside what the rows make
// of it. That is asked once.
func (s *sqp) lopsided() bool {
	if len(s.m.p.Scale) > 0 || s.exacting < 1 {
		return false
	}
	for k, v := range s.bd {
		if lo, hi := s.m.p.bounds(s.m.free[k]); !math.IsInf(hi-lo, 1) {
			continue
		}
		size := math.Abs(s.begun[k])
		for i, l := range s.lam {
			size = math.Max(size, math.Abs(l*s.jac[i*s.m.n+k]))
		}
		if v != 0 && math.Abs(v) > untouched*size {
			return true
		}
	}
	return false
}

// untouched is the share of the slope at the start that counts as much of it.
const untouched = 1e-2

// doubt makes the search begin again where it is, after the check has not borne
// out its claim: more exacting, with better derivatives if there are any, and with
// the curvature of each variable measured. It reports false when it has become as
// exacting as it can.
func (s *sqp) doubt(r *Result) bool {
	if s.m.formula == Forward && !s.m.diff.analytic() {
		s.m.formula = Central
		return s.m.derive(s.g, s.jac, s.cur)
	}
	first := s.exacting == 1
	s.exacting *= stricter
	s.stalls = 0
	if !first {
		return s.exacting >= mostExacting
	}
	e, err := examine(s.m.p, s.cur.x)
	if err != nil {
		return false
	}
	bend := e.curvatures(r.Multipliers)
	s.m.stats.Checks += e.calls
	least := math.Inf(1)
	for k, j := range s.m.free {
		t := s.m.scale[k] / s.m.p.scale(j, s.cur.x[j])
		s.y[k] = bend[j] * t * t / s.m.fscale
		if s.y[k] > 0 {
			least = math.Min(least, s.y[k])
		}
	}
	if finite(least) {
		for k := range s.y {
			s.y[k] = math.Max(s.y[k], least)
		}
		s.reset()
		s.hess.setDiagonal(s.y)
		s.fresh = false
	}
	return true
}

// comeBack goes back to the best point that met the rows, after the search has left
// it for nothing.
func (s *sqp) comeBack(r *Result) {
	s.cur = s.best
	status := r.Status
	if status != IterationLimit {
		status = Stalled
	}
	*r = s.result(status)
	r.Multipliers = nil // they belong elsewhere
}

// Tolerances are taken stricter times what was asked each time that the check
// finds more than the search did, down to mostExacting.
const (
	stricter     = 0.01
	mostExacting = 1e-12
)

// verify measures the answer with CheckKKT: a claim is taken back that it does not
// bear out, and made where rows hold and the residuals are those of a minimum. Of a
// run that claims neither minimum nor stall it measures the violation alone.
func (r *Result) verify(p *Problem, t *Settings) {
	switch r.Status {
	case NotFinite:
		return
	case Infeasible, UserStop:
		for i, v := range r.Rows {
			r.KKT.Violation = math.Max(r.KKT.Violation, p.violation(i, v)/p.rowScale(i))
		}
		r.Message += fmt.Sprintf("; largest violation %.2g", r.KKT.Violation)
		return
	}
	e, err := examine(p, r.X)
	if err != nil {
		r.Status = NotFinite
		r.Message, r.Hint = err.Error(), NotFinite.Hint()
		return
	}
	if r.Multipliers == nil {
		r.Multipliers = e.estimate()
	}
	c := e.check(r.Multipliers, false)
	if !c.within(t) && r.Status == Converged {
		c = e.check(r.Multipliers, true)
	}
	r.Stats.Checks += e.calls
	r.KKT = c.KKT
	r.LowerMultipliers, r.UpperMultipliers = c.LowerMultipliers, c.UpperMultipliers
	minimum, rows := c.within(t), c.Violation <= t.Violation
	switch {
	case r.Status == Stalled && minimum:
		r.end(Converged)
	case r.Status == Converged && minimum:
		return
	case r.Status == Converged && rows:
		r.end(Stalled)
	case (r.Status == Converged || r.Status == Stalled) && !rows:
		r.end(StepTooSmall)
	}
	if r.Status != Converged {
		r.Message += fmt.Sprintf("; stationarity %.2g, violation %.2g, complementarity %.2g, tolerances %.2g, %.2g, %.2g",
			c.Stationarity, c.Violation, c.Complementarity, t.Stationarity, t.Violation, t.Complementarity)
	}
}

// end sets the status and what belongs to it.
func (r *Result) end(s Status) {
	r.Status, r.Message, r.Hint = s, s.Message(), s.Hint()
}
