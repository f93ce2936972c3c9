package nlp

import (
	"cmp"
	"math"
	"slices"
)

// DerivativeError compares one derivative with differences.
type DerivativeError struct {
	Row        int // -1 for the objective
	Variable   int
	Given      float64
	Difference float64
	Relative   float64 // |Given-Difference| over the larger of the two and of Resolution
	Resolution float64 // what the differences cannot tell from zero
	Step       float64 // the step that was used, in units of the variable
}

// CheckDerivatives compares the analytic derivatives of p at x with central
// differences extrapolated once (Richardson), and returns the entries that differ
// most, largest relative error first, at most DerivativesListed of them. Sound
// derivatives stay below about 1e-6. The list is empty where neither Grad nor Jac
// is given. Variables without room for the step on both sides are left out.
func CheckDerivatives(p Problem, x []float64) ([]DerivativeError, error) {
	if err := p.validate(); err != nil {
		return nil, err
	}
	if err := p.validateStart("x", x); err != nil {
		return nil, err
	}
	x = p.clip(x)
	grad, jac := make([]float64, p.N), make([]float64, p.M*p.N)
	if p.Grad != nil {
		p.Grad(grad, x)
	}
	if p.Jac != nil {
		p.Jac(jac, x)
	}
	rows := p.M + 1 // values: rows, then the objective
	sample := func(j int, h float64) []float64 {
		c := make([]float64, rows)
		keep := x[j]
		x[j] = keep + h
		c[p.M] = p.evaluate(c[:p.M], x)
		x[j] = keep
		return c
	}
	var list []DerivativeError
	for j := range p.N {
		lo, hi := p.bounds(j)
		// Extrapolation leaves an error of order h⁴ beside noise over h: h ~ ε^(1/5).
		h := math.Pow(epsilon, 0.2) * math.Max(p.scale(j, x[j]), math.Abs(x[j]))
		h = math.Min(h, math.Min(hi-x[j], x[j]-lo))
		if h <= 4*epsilon*math.Abs(x[j]) {
			continue
		}
		a, b, c, d := sample(j, h), sample(j, -h), sample(j, h/2), sample(j, -h/2)
		for i := range rows {
			e := DerivativeError{Row: i, Variable: j, Step: h}
			switch {
			case i == p.M && p.Grad != nil:
				e.Row, e.Given = -1, grad[j]
			case i < p.M && p.Jac != nil:
				e.Given = jac[i*p.N+j]
			default:
				continue
			}
			wide, narrow := (a[i]-b[i])/(2*h), (c[i]-d[i])/h
			e.Difference = (4*narrow - wide) / 3
			e.Resolution = math.Abs(narrow-wide)*1e-3 + 1e6*epsilon*math.Max(math.Abs(c[i]), math.Abs(d[i]))/h
			gap := math.Abs(e.Given - e.Difference)
			e.Relative = gap / max(math.Abs(e.Given), math.Abs(e.Difference), e.Resolution, math.SmallestNonzeroFloat64)
			if math.IsNaN(e.Relative) {
				e.Relative = math.Inf(1)
			}
			list = append(list, e)
		}
	}
	slices.SortStableFunc(list, func(a, b DerivativeError) int { return cmp.Compare(b.Relative, a.Relative) })
	return list[:min(len(list), DerivativesListed)], nil
}

// DerivativesListed is the most entries CheckDerivatives returns.
const DerivativesListed = 20
