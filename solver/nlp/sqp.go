package nlp

import (
	"context"
	"errors"
	"fmt"
	"math"
)

// sqp is one run of sequential quadratic programming in scaled variables.
//
// Rows are hard, or soft at a price: a soft row may be missed at soft[i] a unit.
// With objective false the priced violation alone is minimised; restoration is
// that with every price one.
type sqp struct {
	m         *model
	t         *Settings
	soft      []float64 // price of missing each row, +Inf for hard ones
	objective bool

	cur    *point
	g, jac []float64
	hess   *factor
	dual   *dual
	fresh  bool // hess holds no curvature yet

	restoring    bool
	restorations int
	begun        []float64 // gradient of the objective at the start
	best         *point    // of least objective among those that met the rows, nil for none
	opinions     int       // times that a second measure of violation was asked
	exacting     float64   // share of the tolerances that counts as met
	gamma        float64   // price of hard rows in elastic steps
	elastic      bool      // the last step was elastic
	elasticSteps int       // elastic steps since the violation was elasticFrom
	elasticFrom  float64

	d, bd       []float64 // step and Hessian times step
	lam, zl, zu []float64 // multipliers of the last QP
	active      int
	mu          []float64 // merit weights
	muSet       bool
	warm        []int     // active set of the last QP
	start       []float64 // its multipliers, nil for none

	lo, hi, rhs, caps, y, step, trial, minusBD []float64
	alpha                                      float64
	size                                       float64   // size of the last change of x
	recent                                     []float64 // what counts now at the last iterations, for Settings.Improvement
	stalls                                     int
	first                                      float64 // total violation at the start
	failed                                     error   // from the recorder
}

// Constants of the search: of judgement, chosen by counting what is solved in how
// many evaluations (docs/solver.md).
const (
	sufficient      = 1e-4 // share of the predicted decrease asked of a step (Armijo)
	leastAlpha      = 1e-9 // shorter steps count as failure
	safeWeight      = 1.1  // merit weights over multipliers: at the multipliers themselves the merit is level across the rows
	mostCorrections = 4    // of one trial point for the curvature of the rows
	leastCorrected  = 1e-2 // share of the step below which trial points are not corrected
	mostAstray      = 100  // total violation over that at the start, or 1, that no step may lead to
	firstGamma      = 10   // first price of hard rows in elastic steps, scaled gradient being 1
	gammaGrowth     = 8
	mostGamma       = 1e7
	steering        = 0.1  // share of the linear violation an elastic step must remove
	mostElastic     = 8    // elastic steps without the violation halved
	mostRestores    = 4    // turns to restoration
	leastMending    = 1e-3 // share of the violation that a step from its minimum may promise to remove
	mostSpread      = 1e9  // of the Hessian factor, before it is reset
	mostStalls      = 4    // steps without measurable progress before giving up
	fallsForever    = -1e14
)

func newSQP(p *Problem, t *Settings, x []float64) *sqp {
	m := newModel(p, t, x)
	n := m.n
	v := func(k int) []float64 { return make([]float64, k) }
	s := &sqp{
		m: m, t: t, objective: true, gamma: firstGamma, exacting: 1,
		g: v(n), jac: v(m.m * n), hess: newFactor(n), dual: newDual(n, m.m),
		d: v(n), bd: v(n), lam: v(m.m), zl: v(n), zu: v(n), mu: v(m.m), soft: v(m.m),
		lo: v(n), hi: v(n), rhs: v(m.m), caps: v(m.m), y: v(n), step: v(n), trial: v(n), minusBD: v(n),
	}
	for i := range s.soft {
		s.soft[i] = math.Inf(1)
	}
	return s
}

// begin evaluates the start and sets scales, Hessian and warm data.
func (s *sqp) begin(x []float64, w *Warm) bool {
	var ok bool
	if s.cur, ok = s.m.at(x); !ok || !s.m.derive(s.g, s.jac, s.cur) {
		return false
	}
	s.m.autoscale(s.g, s.jac, s.cur)
	s.begun = append(s.begun, s.g...)
	s.reset()
	s.first = s.total(s.cur)
	if w == nil {
		return true
	}
	s.warm = append(s.warm, w.Active...)
	for i, l := range w.Multipliers {
		s.mu[i], s.muSet = math.Abs(l)*s.m.row[i]/s.m.fscale, true
	}
	if len(w.factor) == len(s.hess.l) {
		// The factor is that of the unscaled objective.
		for k, l := range w.factor {
			s.hess.l[k] = l / math.Sqrt(s.m.fscale)
		}
		s.fresh = false
	}
	return true
}

// reset forgets the curvature.
func (s *sqp) reset() {
	s.hess.identity(1)
	s.fresh, s.start = true, nil
}

// minimising reports whether the objective counts now.
func (s *sqp) minimising() bool { return s.objective && !s.restoring }

// price returns what missing row i costs now, +Inf for hard rows.
func (s *sqp) price(i int) float64 {
	switch {
	case !s.restoring:
		return s.soft[i]
	case s.required(i):
		return 1
	}
	return 0
}

// required reports whether row i is hard outside restoration.
func (s *sqp) required(i int) bool { return math.IsInf(s.soft[i], 1) }

// hard reports whether row i is hard now.
func (s *sqp) hard(i int) bool { return math.IsInf(s.price(i), 1) }

// run iterates to the end.
func (s *sqp) run(ctx context.Context) Status {
	for {
		if ctx.Err() != nil {
			return Cancelled
		}
		if !s.direction() {
			return StepTooSmall
		}
		stat, vio, comp := s.residuals()
		it := Iteration{
			Number: s.m.stats.Iterations, F: s.cur.F, Violation: vio, Stationarity: stat,
			Step: s.size, Alpha: s.alpha, Promise: -dot(s.g, s.d) * s.m.fscale, Active: s.active, Elastic: s.elastic || s.restoring,
		}
		if vio <= s.t.Violation && s.objective && (s.best == nil || s.cur.F < s.best.F) {
			s.best = s.cur
		}
		if s.t.Recorder != nil {
			if err := s.t.Recorder.Record(it); err != nil {
				if !errors.Is(err, ErrStop) {
					s.failed = fmt.Errorf("nlp: recorder: %w", err)
				}
				return UserStop
			}
		}
		met := stat <= s.exacting*s.t.Stationarity && comp <= s.exacting*s.t.Complementarity
		switch {
		case s.restoring && s.feasible():
			s.restoring, s.muSet = false, false
			s.recent = s.recent[:0]
			s.reset()
			continue
		case s.restoring && met && s.least():
			if s.hopeless(ctx) {
				return Infeasible
			}
			continue
		case !s.objective && s.missNothing():
			return Converged
		case met && vio <= s.t.Violation:
			return Converged
		case s.settled(vio):
			if !s.restoring {
				return Stalled
			}
			if s.hopeless(ctx) {
				return Infeasible
			}
			continue
		case met && s.elastic:
			if !s.restore() && s.hopeless(ctx) {
				return Infeasible
			}
			continue
		case s.stuck(vio) && s.restore():
			continue
		case s.minimising() && s.cur.f-s.m.first < fallsForever && vio <= s.t.Violation:
			return Unbounded
		}
		if s.m.stats.Iterations >= s.t.MaxIterations {
			return IterationLimit
		}
		s.m.stats.Iterations++
		if s.advance() {
			continue
		}
		// Remedies, likeliest first.
		switch {
		case s.m.formula == Forward && !s.m.diff.analytic():
			s.m.formula = Central
			if !s.m.derive(s.g, s.jac, s.cur) {
				return NotFinite
			}
		case !s.fresh:
			s.reset()
		case s.restoring && s.least():
			if s.hopeless(ctx) {
				return Infeasible
			}
		case s.restoring:
			return StepTooSmall
		case vio <= s.t.Violation:
			return Stalled
		case s.restore():
		default:
			return StepTooSmall
		}
	}
}

// settled reports whether for some time what counts has fallen by too little: the
// objective while the rows hold, and the violation vio while it is being restored.
func (s *sqp) settled(vio float64) bool {
	value := s.cur.F
	switch {
	case s.t.Improvement == 0:
		return false
	case s.restoring:
		value = vio
	case vio > s.t.Violation || !s.minimising():
		s.recent = s.recent[:0]
		return false
	}
	s.recent = append(s.recent, value)
	back := len(s.recent) - 1 - ImprovementOver
	if back < 0 {
		return false
	}
	size := math.Abs(value)
	if !s.restoring {
		size = math.Max(1, size)
	}
	return s.recent[back]-value < s.t.Improvement*size
}

// least reports whether the step promises not to lower the violation by more than
// a thousandth: exit tests met while it does mean only that the violation is small.
func (s *sqp) least() bool {
	var now, then float64
	for i, c := range s.cur.c {
		if s.price(i) > 0 {
			now += s.price(i) * s.m.p.violation(i, c)
			then += s.price(i) * s.linear(i, s.d)
		}
	}
	return now-then <= leastMending*now
}

// stuck reports whether elastic steps have failed to bring the violation vio down
// by half for some time: the objective is then in the way of a verdict.
func (s *sqp) stuck(vio float64) bool {
	if !s.elastic || !s.minimising() || vio < s.elasticFrom/2 {
		s.elasticFrom, s.elasticSteps = vio, 0
		return false
	}
	s.elasticSteps++
	return s.elasticSteps > mostElastic
}

// restore turns to minimising the violation, unless that was tried too often or is
// what is being done.
func (s *sqp) restore() bool {
	if s.restoring || s.restorations == mostRestores {
		return false
	}
	s.restorations++
	s.recent = s.recent[:0]
	s.restoring, s.muSet, s.stalls, s.elasticSteps = true, false, 0, 0
	s.gamma = math.Min(s.gamma*gammaGrowth, mostGamma)
	s.reset()
	return true
}

// room sets the limits of a step from the current point.
func (s *sqp) room() {
	for k, j := range s.m.free {
		lo, hi := s.m.p.bounds(j)
		s.lo[k] = math.Min(0, (lo-s.cur.x[j])/s.m.scale[k])
		s.hi[k] = math.Max(0, (hi-s.cur.x[j])/s.m.scale[k])
	}
}

// direction solves the quadratic program of the current point for step and
// multipliers, elastically where the linearised rows contradict each other.
func (s *sqp) direction() bool {
	m := s.m
	s.room()
	for i, c := range s.cur.c {
		s.rhs[i] = -c
		s.caps[i] = s.price(i)
	}
	if s.hess.spread() > mostSpread {
		s.reset()
	}
	s.elastic = false
	status := s.solve()
	if status == Infeasible {
		s.elastic = true
		status = s.soften()
	}
	if status != Converged && !s.fresh {
		s.reset()
		return s.direction()
	}
	if status != Converged {
		return false
	}
	d := s.dual
	copy(s.d, d.x)
	copy(s.lam, d.lam[:m.m])
	copy(s.zl, d.lam[m.m:m.m+m.n])
	copy(s.zu, d.lam[m.m+m.n:])
	s.active = len(d.act)
	s.warm = append(s.warm[:0], d.act...)
	s.start = append(s.start[:0], d.lam...)
	s.hess.mul(s.bd, s.d)
	return true
}

// solve solves the quadratic program of the objective that counts now.
func (s *sqp) solve() Status {
	if s.minimising() {
		return s.program(s.g, s.start)
	}
	clear(s.y)
	return s.program(s.y, s.start)
}

// program minimises ½ xᵀBx + gᵀx on the current rows, limits and caps.
func (s *sqp) program(g, start []float64) Status {
	d := s.dual
	d.f, d.g, d.a, d.b, d.lower, d.upper, d.warm, d.start = s.hess, g, s.jac, s.rhs, s.lo, s.hi, s.warm, start
	d.equality, d.cap = s.m.p.Equality, s.caps
	status := d.solve()
	s.m.stats.QPIterations += d.steps
	return status
}

// soften prices the hard rows, more and more until the step removes a fair share
// of the linearised violation (steering: Byrd, Nocedal and Waltz 2008).
func (s *sqp) soften() Status {
	var now float64
	for i, c := range s.cur.c {
		if s.hard(i) {
			now += s.m.p.violation(i, c)
		}
	}
	for {
		for i := range s.caps {
			s.caps[i] = math.Min(s.price(i), s.gamma)
		}
		status := s.solve()
		if status != Converged || s.gamma >= mostGamma {
			return status
		}
		var then float64
		for i := range s.caps {
			if s.hard(i) {
				then += s.linear(i, s.dual.x)
			}
		}
		if then <= (1-steering)*now {
			return status
		}
		s.gamma *= gammaGrowth
	}
}

// linear returns the violation of row i after step d to first order.
func (s *sqp) linear(i int, d []float64) float64 {
	return s.m.p.violation(i, s.cur.c[i]+dot(s.jac[i*s.m.n:(i+1)*s.m.n], d))
}

// residuals measures the current point with the multipliers of the last QP, as KKT
// does but for curvature, which is that of the Hessian: the gradient of the
// Lagrangian is minus the Hessian times the step.
func (s *sqp) residuals() (stationarity, violation, complementarity float64) {
	held := 1.0
	if s.minimising() {
		held = 0
		for k, v := range s.g {
			held = math.Max(held, math.Abs(v+s.bd[k]))
		}
	}
	for k := range s.y {
		s.y[k] = s.hess.diagonal(k)
	}
	along := math.Max(held, s.hess.along(s.bd))
	stationarity = relative(s.bd, s.y, held, along)
	violation = s.m.violation(s.cur, s.jac, s.required)
	for i, c := range s.cur.c {
		slack := s.lam[i] * c
		if !s.hard(i) && s.m.p.violation(i, c) > 0 {
			slack = (s.price(i) - math.Abs(s.lam[i])) * c
		} else if s.elastic && math.Abs(s.lam[i]) >= s.gamma {
			slack = 0
		}
		complementarity = math.Max(complementarity, math.Abs(slack))
	}
	for k := range s.zl {
		if s.zl[k] > 0 {
			complementarity = math.Max(complementarity, -s.zl[k]*s.lo[k])
		}
		if s.zu[k] > 0 {
			complementarity = math.Max(complementarity, s.zu[k]*s.hi[k])
		}
	}
	if along > 0 { // else there are no multipliers either
		complementarity /= along
	}
	return stationarity, violation, complementarity
}

// feasible reports whether all rows that are hard outside restoration hold.
func (s *sqp) feasible() bool {
	return s.m.violation(s.cur, s.jac, s.required) <= s.t.Violation
}

// missNothing reports whether all rows hold that count at all.
func (s *sqp) missNothing() bool {
	counts := func(i int) bool { return s.soft[i] > 0 }
	return s.m.violation(s.cur, s.jac, counts) <= s.t.Violation
}

// result returns the outcome in the units of the problem.
func (s *sqp) result(status Status) Result {
	m := s.m
	r := Result{
		Multipliers:      make([]float64, m.m),
		LowerMultipliers: make([]float64, m.p.N),
		UpperMultipliers: make([]float64, m.p.N),
		Status:           status,
		Message:          status.Message(),
		Hint:             status.Hint(),
		Stats:            m.stats,
	}
	if s.cur != nil {
		r.X, r.F, r.Rows = s.cur.x, s.cur.F, s.cur.C
	}
	if status == NotFinite {
		return r
	}
	price := 1.0
	if s.minimising() {
		price = m.fscale
	}
	for i, l := range s.lam {
		r.Multipliers[i] = l * price / m.row[i]
	}
	for k, j := range m.free {
		r.LowerMultipliers[j] = s.zl[k] * price / m.scale[k]
		r.UpperMultipliers[j] = s.zu[k] * price / m.scale[k]
	}
	r.Active = s.dual.activeRows(nil)
	if s.minimising() && !s.fresh {
		r.factor = append([]float64(nil), s.hess.l...)
		for k := range r.factor {
			r.factor[k] *= math.Sqrt(m.fscale)
		}
	}
	return r
}
