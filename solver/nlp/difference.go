package nlp

import "math"

// differencer forms the derivatives of a problem in its own variables: analytic
// where given, else by differences that stay inside the bounds. Steps grow with
// the scale of the variable and the noise of the model.
type differencer struct {
	p     *Problem
	noise float64
	calls int // model evaluations made

	x      []float64
	c1, c2 []float64
}

func newDifferencer(p *Problem, noise float64) *differencer {
	return &differencer{p: p, noise: noise, x: make([]float64, p.N), c1: make([]float64, p.M), c2: make([]float64, p.M)}
}

// analytic reports whether no differences are needed.
func (d *differencer) analytic() bool { return d.gradGiven() && d.jacGiven() }

func (d *differencer) gradGiven() bool {
	return d.p.Grad != nil || d.p.Func == nil && d.p.Both == nil
}

func (d *differencer) jacGiven() bool { return d.p.Jac != nil || d.p.M == 0 }

// derive stores gradient and Jacobian at x, where the values are f and c, and
// reports whether all of them are finite. Fixed variables get zero columns.
func (d *differencer) derive(grad, jac, x []float64, f float64, c []float64, formula Difference) bool {
	p := d.p
	if p.Grad != nil {
		p.Grad(grad, x)
	} else {
		clear(grad)
	}
	if p.Jac != nil {
		p.Jac(jac, x)
	} else {
		clear(jac)
	}
	if !d.analytic() {
		copy(d.x, x)
		for j := range p.N {
			if !p.fixed(j) && !d.column(j, grad, jac, f, c, formula) {
				return false
			}
		}
	}
	return finite(grad...) && finite(jac...)
}

// column forms the derivatives with respect to variable j. With Central it takes
// the second-order one-sided formula where a bound is near. It reports whether it
// found finite values.
func (d *differencer) column(j int, grad, jac []float64, f float64, c []float64, formula Difference) bool {
	x, h := d.x[j], d.step(j, formula)
	defer func() { d.x[j] = x }()
	lo, hi := d.p.bounds(j)
	up, down := hi-x, x-lo // room either way
	type pair struct{ a, b float64 }
	// The offsets to try in turn; b = 0 is the first-order formula. The second
	// and later ones serve bounds and models that are undefined on one side.
	var tries [4]pair
	k := 0
	try := func(a, b float64) {
		if math.Max(a, b) <= up && -math.Min(a, b) <= down {
			tries[k] = pair{a, b}
			k++
		}
	}
	if formula == Central {
		try(h, -h)
		try(h, 2*h)
		try(-h, -2*h)
	}
	if k == 0 {
		try(h, 0)
		try(-h, 0)
	}
	if k == 0 { // the range is narrower than the step
		if up >= down {
			try(up, 0)
		} else {
			try(-down, 0)
		}
	}
	for _, t := range tries[:k] {
		if d.slope(j, t.a, t.b, grad, jac, f, c) {
			return true
		}
	}
	return false
}

// slope stores the derivative at offset zero of the parabola through the values at
// offsets 0, a and b, or of the line through 0 and a when b is zero.
func (d *differencer) slope(j int, a, b float64, grad, jac []float64, f float64, c []float64) bool {
	p := d.p
	fa, a, ok := d.value(d.c1, j, a)
	if !ok {
		return false
	}
	wa, wb := 1/a, 0.0
	fb := f
	if b != 0 {
		if fb, b, ok = d.value(d.c2, j, b); !ok {
			return false
		}
		wa, wb = b/(a*(b-a)), -a/(b*(b-a))
	}
	if !d.gradGiven() {
		grad[j] = wa*(fa-f) + wb*(fb-f)
	}
	if !d.jacGiven() {
		for i := range p.M {
			s := wa * (d.c1[i] - c[i])
			if b != 0 {
				s += wb * (d.c2[i] - c[i])
			}
			jac[i*p.N+j] = s
		}
	}
	return true
}

// value evaluates the model with variable j moved by h; it returns the objective
// and the move that the number format made of h.
func (d *differencer) value(c []float64, j int, h float64) (f, moved float64, ok bool) {
	p, x := d.p, d.x[j]
	lo, hi := p.bounds(j)
	d.x[j] = math.Min(math.Max(x+h, lo), hi)
	moved = d.x[j] - x
	defer func() { d.x[j] = x }()
	d.calls++
	switch {
	case p.Both != nil || !d.gradGiven() && !d.jacGiven():
		f = p.evaluate(c, d.x)
	case !d.jacGiven():
		p.Rows(c, d.x)
	default:
		f = p.Func(d.x)
	}
	ok = moved != 0 && finite(f) && (d.jacGiven() || finite(c...))
	return f, moved, ok
}

// step returns the difference step of variable j: where truncation, which falls
// with the step, meets the noise, which grows with its inverse (Nocedal and Wright
// 2006, 8.1).
func (d *differencer) step(j int, formula Difference) float64 {
	size := math.Max(d.p.scale(j, d.x[j]), math.Abs(d.x[j]))
	if formula == Central {
		return math.Cbrt(d.noise) * size
	}
	return math.Sqrt(d.noise) * size
}
