package nlp

import "math"

// KKT holds the residuals of the Karush-Kuhn-Tucker conditions at a point. The
// size of the objective they are relative to is the largest of |f|, the scaled
// gradient of f, and 1.
type KKT struct {
	Stationarity      float64 // largest component of the gradient of the Lagrangian times variable scale, relative
	Violation         float64 // largest miss of a row in units of RowScale (nil counts as 1)
	Complementarity   float64 // largest |multiplier times row value|, bounds included, relative
	DualInfeasibility float64 // largest wrong-signed multiplier of an inequality, in stationarity units
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
	c := Check{
		Rows:             make([]float64, p.M),
		Multipliers:      make([]float64, p.M),
		LowerMultipliers: make([]float64, p.N),
		UpperMultipliers: make([]float64, p.N),
	}
	x = append([]float64(nil), x...)
	c.F = p.evaluate(c.Rows, x)
	if !finite(c.F) || !finite(c.Rows...) {
		return Check{}, &ProblemError{"x", "the model is not finite there", "choose another point"}
	}
	grad, jac := make([]float64, p.N), make([]float64, p.M*p.N)
	if !newDifferencer(&p, epsilon).derive(grad, jac, x, c.F, c.Rows, Central) {
		return Check{}, &ProblemError{"x", "derivatives are not finite there", "choose another point"}
	}
	if multipliers != nil {
		copy(c.Multipliers, multipliers)
	} else {
		c.estimate(&p, x, grad, jac)
	}
	c.measure(&p, x, grad, jac)
	return c, nil
}

// activity is the value of a row, in units of its scale, and the distance of a
// variable from its bound, in units of its own, that count as "held with
// equality" when multipliers are estimated.
const activity = 1e-3

// estimate finds row multipliers by non-negative least squares in scaled variables.
func (c *Check) estimate(p *Problem, x, grad, jac []float64) {
	var columns [][]float64
	var owner []int // row number, or -1 for a bound
	var sign []float64
	push := func(i int, s float64, col func(j int) float64) {
		v := make([]float64, p.N)
		for j := range v {
			if !p.fixed(j) {
				v[j] = s * col(j) * p.scale(j)
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
		case c.Rows[i] <= activity*unit:
			push(i, 1, row)
		}
	}
	for k := range p.N {
		lo, hi := p.bounds(k)
		e := func(j int) float64 {
			if j == k {
				return 1
			}
			return 0
		}
		if x[k]-lo <= activity*p.scale(k) {
			push(-1, 1, e)
		}
		if hi-x[k] <= activity*p.scale(k) {
			push(-1, -1, e)
		}
	}
	target := make([]float64, p.N)
	for j := range target {
		if !p.fixed(j) {
			target[j] = grad[j] * p.scale(j)
		}
	}
	for k, v := range nnls(columns, target) {
		if owner[k] >= 0 {
			c.Multipliers[owner[k]] += sign[k] * v
		}
	}
}

// measure fills in the residuals and the multipliers of the bounds.
func (c *Check) measure(p *Problem, x, grad, jac []float64) {
	size := math.Max(1, math.Abs(c.F))
	for j := range p.N {
		if !p.fixed(j) {
			size = math.Max(size, math.Abs(grad[j]*p.scale(j)))
		}
	}
	for j := range p.N {
		rest := grad[j]
		for i, l := range c.Multipliers {
			rest -= l * jac[i*p.N+j]
		}
		lo, hi := p.bounds(j)
		// What the rows leave over is the multiplier of the bound the variable is
		// nearer to, if it has the sign of one; far from it, complementarity or
		// stationarity tells, whichever is the smaller fault.
		room := x[j] - lo
		multiplier := &c.LowerMultipliers[j]
		if rest < 0 {
			room, multiplier = hi-x[j], &c.UpperMultipliers[j]
		}
		push := math.Abs(rest)
		s := p.scale(j)
		switch {
		case p.fixed(j):
			if rest != 0 {
				*multiplier = push
			}
		case room <= activity*s:
			*multiplier = push
			c.Complementarity = math.Max(c.Complementarity, push*room/size)
		default:
			c.Stationarity = math.Max(c.Stationarity, push*s/size)
		}
	}
	for i, v := range c.Rows {
		l := c.Multipliers[i]
		c.Violation = math.Max(c.Violation, p.violation(i, v)/p.rowScale(i))
		c.Complementarity = math.Max(c.Complementarity, math.Abs(l*v)/size)
		if l < 0 && !p.equality(i) {
			var steep float64
			for j := range p.N {
				if !p.fixed(j) {
					steep = math.Max(steep, math.Abs(jac[i*p.N+j]*p.scale(j)))
				}
			}
			c.DualInfeasibility = math.Max(c.DualInfeasibility, -l*steep/size)
		}
	}
}
