package nlp

import "math"

// KKT holds the residuals of the Karush-Kuhn-Tucker conditions at a point. All are
// relative to sizes that neither a constant added to the objective nor a factor
// can change: to the largest slope of the objective, over one scale of a variable,
// that rows and bounds hold up; or, as there are none at a minimum inside, to the
// change of the slope of the Lagrangian over one scale, which makes stationarity the
// way to the minimum in scales. That change is taken along each variable and along
// what is left of the gradient, and what is worse counts.
type KKT struct {
	Stationarity      float64 // largest component of the gradient of the Lagrangian times variable scale, relative
	Violation         float64 // largest miss of a row beyond its rounding, in units of RowScale (nil counts as 1)
	Complementarity   float64 // largest |multiplier times row value|, bounds included, relative
	DualInfeasibility float64 // largest wrong-signed multiplier of an inequality, in stationarity units
}

// within reports whether the residuals are within the tolerances.
func (k *KKT) within(t *Settings) bool {
	return k.Stationarity <= t.Stationarity && k.Violation <= t.Violation &&
		k.Complementarity <= t.Complementarity && k.DualInfeasibility <= t.Stationarity
}

// Check is what CheckKKT found.
type Check struct {
	KKT
	F                                               float64
	Rows                                            []float64
	Multipliers, LowerMultipliers, UpperMultipliers []float64
}

// CheckKKT measures how well x meets the optimality conditions of the problem. It
// shares nothing with the search: it evaluates the problem again (by central
// differences where derivatives are missing) and uses the multipliers of the rows
// that it is given. When multipliers is nil it finds the best ones itself, by
// non-negative least squares over the rows and bounds that hold with equality to
// within activity, a thousandth of a unit. Multipliers of bounds are always its
// own. X must lie within the bounds.
func CheckKKT(p Problem, x, multipliers []float64) (Check, error) {
	if err := p.validate(); err != nil {
		return Check{}, err
	}
	if err := p.validateStart("x", x); err != nil {
		return Check{}, err
	}
	if multipliers != nil && len(multipliers) != p.M {
		return Check{}, &ProblemError{"multipliers", "wrong length", "give one a row, or nil"}
	}
	for j, v := range x {
		if lo, hi := p.bounds(j); v < lo || v > hi {
			return Check{}, &ProblemError{"x", "outside the bounds", "move it inside first"}
		}
	}
	e, err := examine(&p, x)
	if err != nil {
		return Check{}, err
	}
	if multipliers == nil {
		multipliers = e.estimate()
	}
	return e.check(multipliers, true), nil
}

// examination is a problem evaluated at a point.
type examination struct {
	p         *Problem
	x         []float64
	f         float64
	rows      []float64
	grad, jac []float64
	diff      *differencer
	calls     int // model evaluations made

	aheadGrad, aheadJac []float64
}

func examine(p *Problem, x []float64) (*examination, error) {
	e := &examination{
		p: p, x: append([]float64(nil), x...), rows: make([]float64, p.M),
		grad: make([]float64, p.N), jac: make([]float64, p.M*p.N), diff: newDifferencer(p, epsilon),
	}
	e.f = p.evaluate(e.rows, e.x)
	if !finite(e.f) || !finite(e.rows...) {
		return nil, &ProblemError{"x", "the model is not finite there", "choose another point"}
	}
	ok := e.diff.derive(e.grad, e.jac, e.x, e.f, e.rows, Central)
	e.calls = 1 + e.diff.calls
	if !ok {
		return nil, &ProblemError{"x", "derivatives are not finite there", "choose another point"}
	}
	return e, nil
}

// activity is the value of a row, in units of its scale, and the distance of a
// variable from its bound, in units of its own, that count as "held with
// equality" when multipliers are estimated.
const activity = 1e-3

// estimate finds row multipliers by non-negative least squares in scaled variables.
func (e *examination) estimate() []float64 {
	p, x, grad, jac := e.p, e.x, e.grad, e.jac
	multipliers := make([]float64, p.M)
	var columns [][]float64
	var owner []int // row number, or -1 for a bound
	var sign []float64
	push := func(i int, s float64, col func(j int) float64) {
		v := make([]float64, p.N)
		for j := range v {
			if !p.fixed(j) {
				v[j] = s * col(j) * p.scale(j, x[j])
			}
		}
		columns, owner, sign = append(columns, v), append(owner, i), append(sign, s)
	}
	for i := range p.M {
		row := func(j int) float64 { return jac[i*p.N+j] }
		unit := p.rowScale(i)
		switch {
		case p.equality(i):
			push(i, 1, row)
			push(i, -1, row)
		case e.rows[i] <= activity*unit:
			push(i, 1, row)
		}
	}
	for k := range p.N {
		lo, hi := p.bounds(k)
		axis := func(j int) float64 {
			if j == k {
				return 1
			}
			return 0
		}
		if x[k]-lo <= activity*p.scale(k, x[k]) {
			push(-1, 1, axis)
		}
		if hi-x[k] <= activity*p.scale(k, x[k]) {
			push(-1, -1, axis)
		}
	}
	target := make([]float64, p.N)
	for j := range target {
		if !p.fixed(j) {
			target[j] = grad[j] * p.scale(j, x[j])
		}
	}
	for k, v := range nnls(columns, target) {
		if owner[k] >= 0 {
			multipliers[owner[k]] += sign[k] * v
		}
	}
	return multipliers
}

// check measures the residuals with the given multipliers of the rows and those of
// the bounds that follow. Without inside, the change of the slope does not count as
// a size, which takes further evaluations to learn.
func (e *examination) check(multipliers []float64, inside bool) Check {
	p, x := e.p, e.x
	c := Check{
		F: e.f, Rows: e.rows, Multipliers: append([]float64(nil), multipliers...),
		LowerMultipliers: make([]float64, p.N), UpperMultipliers: make([]float64, p.N),
	}
	rest := make([]float64, p.N)
	for j := range rest {
		rest[j] = e.slope(e.grad, e.jac, multipliers, j)
	}
	left := make([]float64, p.N) // the gradient that no bound explains, in scales
	for j := range p.N {
		lo, hi := p.bounds(j)
		// What the rows leave over is the multiplier of the bound the variable is
		// nearer to, if it has the sign of one; far from it, complementarity or
		// stationarity tells, whichever is the smaller fault.
		room := x[j] - lo
		multiplier := &c.LowerMultipliers[j]
		if rest[j] < 0 {
			room, multiplier = hi-x[j], &c.UpperMultipliers[j]
		}
		push := math.Abs(rest[j])
		s := p.scale(j, x[j])
		switch {
		case p.fixed(j):
			*multiplier = push
		case room <= activity*s:
			*multiplier = push
			c.Complementarity = math.Max(c.Complementarity, push*room)
		default:
			left[j] = rest[j] * s
		}
	}
	for i, v := range c.Rows {
		l := c.Multipliers[i]
		c.Violation = math.Max(c.Violation, e.miss(i)/p.rowScale(i))
		c.Complementarity = math.Max(c.Complementarity, math.Abs(l*v))
		if l < 0 && !p.equality(i) {
			var steep float64
			for j := range p.N {
				if !p.fixed(j) {
					steep = math.Max(steep, math.Abs(e.jac[i*p.N+j]*p.scale(j, x[j])))
				}
			}
			c.DualInfeasibility = math.Max(c.DualInfeasibility, -l*steep)
		}
	}
	var held float64
	for j, v := range left {
		if !p.fixed(j) {
			held = math.Max(held, math.Abs(e.grad[j]*p.scale(j, x[j])-v))
		}
	}
	var bend []float64
	along := held
	if inside {
		along = math.Max(held, e.curvature(multipliers, left))
		bend = e.curvatures(multipliers)
		var noise float64
		for j, b := range bend {
			noise = math.Max(noise, roundingGrace*b*math.Abs(x[j])/p.scale(j, x[j]))
		}
		if largest(left) <= noise {
			clear(left)
		}
	}
	c.Stationarity = relative(left, bend, held, along)
	if along > 0 { // else they are zero
		c.Complementarity, c.DualInfeasibility = c.Complementarity/along, c.DualInfeasibility/along
	}
	return c
}

// relative returns what is left of a gradient relative to the slopes held up or to
// the curvature, of each variable, if known, and along left. It is one where there
// is nothing to compare with.
func relative(left, bend []float64, held, along float64) (worst float64) {
	over := func(v, size float64) float64 {
		switch {
		case v == 0:
			return 0
		case size <= 0:
			return 1
		}
		return v / size
	}
	worst = over(largest(left), along)
	for j, b := range bend {
		worst = math.Max(worst, over(math.Abs(left[j]), math.Max(held, b)))
	}
	return worst
}

// curvatures returns the second derivative of the Lagrangian along each variable,
// in scales.
func (e *examination) curvatures(multipliers []float64) []float64 {
	bend, axis := make([]float64, e.p.N), make([]float64, e.p.N)
	for j := range bend {
		if !e.p.fixed(j) {
			axis[j] = 1
			bend[j] = e.curvature(multipliers, axis)
			axis[j] = 0
		}
	}
	return bend
}

// slope returns derivative j of the Lagrangian without its bounds.
func (e *examination) slope(grad, jac, multipliers []float64, j int) float64 {
	v := grad[j]
	for i, l := range multipliers {
		v -= l * jac[i*e.p.N+j]
	}
	return v
}

// miss returns by how much row i misses beyond the rounding of its terms.
func (e *examination) miss(i int) float64 {
	miss := e.p.violation(i, e.rows[i])
	if miss == 0 {
		return 0
	}
	var terms float64
	for j, v := range e.x {
		terms += math.Abs(e.jac[i*e.p.N+j] * v)
	}
	if miss <= roundingGrace*terms {
		return 0
	}
	return miss
}

// curvature returns the second derivative of the Lagrangian along dir, both in
// scales: by a difference of derivatives where they are given, else of values, with
// the step where noise over its square meets truncation. It is zero where the model
// is not finite or has no room.
func (e *examination) curvature(multipliers, dir []float64) float64 {
	p := e.p
	length := math.Sqrt(dot(dir, dir))
	if length == 0 {
		return 0
	}
	h := math.Sqrt(math.Sqrt(epsilon))
	if e.diff.analytic() {
		h = math.Sqrt(epsilon)
	}
	// Steps either way, less where the bounds leave less room.
	step := make([]float64, p.N)
	ahead, back := h, h
	for j, v := range dir {
		if v == 0 {
			continue
		}
		step[j] = v / length * p.scale(j, e.x[j])
		lo, hi := p.bounds(j)
		up, down := (hi-e.x[j])/step[j], (lo-e.x[j])/step[j]
		ahead, back = math.Min(ahead, math.Max(up, down)), math.Min(back, -math.Min(up, down))
	}
	at := func(t float64) []float64 {
		x := append([]float64(nil), e.x...)
		for j, v := range step {
			lo, hi := p.bounds(j)
			x[j] = math.Min(math.Max(x[j]+t*v, lo), hi)
		}
		return x
	}
	slope := func(grad, jac []float64) (v float64) {
		for j, t := range step {
			v += t * e.slope(grad, jac, multipliers, j)
		}
		return v
	}
	value := func(t float64) float64 {
		c := make([]float64, p.M)
		v := p.evaluate(c, at(t))
		e.calls++
		for i, l := range multipliers {
			v -= l * c[i]
		}
		return v
	}
	if ahead < back/2 {
		ahead = -back
	} else if back < ahead/2 {
		back = -ahead
	}
	var v float64
	if e.diff.analytic() {
		if e.aheadJac == nil {
			e.aheadGrad, e.aheadJac = make([]float64, p.N), make([]float64, p.M*p.N)
		}
		if !e.diff.derive(e.aheadGrad, e.aheadJac, at(ahead), 0, nil, Central) {
			return 0
		}
		v = (slope(e.aheadGrad, e.aheadJac) - slope(e.grad, e.jac)) / ahead
	} else {
		a, b := ahead, -back
		if a == b { // one-sided: the nearer point half way
			a /= 2
		}
		here := value(0)
		v = 2 * ((value(a)-here)/a - (value(b)-here)/b) / (a - b)
	}
	if !finite(v) {
		return 0
	}
	return v
}
