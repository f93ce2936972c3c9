package nlp_test

import "armwright/solver/nlp"

// transform describes the same problem in other units and another order: variable
// j of the new problem is variable col[j] of the old one times vs[j], row i is row
// row[i] times rs[i].
type transform struct {
	col, row []int
	vs, rs   []float64
}

// units returns the transform that keeps the order and multiplies variables and
// rows by the given factors, cycled.
func units(p nlp.Problem, vs, rs []float64) transform {
	var t transform
	for j := range p.N {
		t.col, t.vs = append(t.col, j), append(t.vs, vs[j%len(vs)])
	}
	for i := range p.M {
		t.row, t.rs = append(t.row, i), append(t.rs, rs[i%len(rs)])
	}
	return t
}

func (t transform) point(x []float64) []float64 {
	y := make([]float64, len(x))
	for j, k := range t.col {
		y[j] = x[k] * t.vs[j]
	}
	return y
}

func (t transform) back(y []float64) []float64 {
	x := make([]float64, len(y))
	for j, k := range t.col {
		x[k] = y[j] / t.vs[j]
	}
	return x
}

func (t transform) problem(p nlp.Problem) nlp.Problem {
	q := nlp.Problem{N: p.N, M: p.M}
	if p.Lower != nil {
		q.Lower = t.point(p.Lower)
	}
	if p.Upper != nil {
		q.Upper = t.point(p.Upper)
	}
	for _, i := range t.row {
		q.Equality = append(q.Equality, p.Equality != nil && p.Equality[i])
	}
	q.Func = func(y []float64) float64 { return p.Func(t.back(y)) }
	q.Grad = func(g, y []float64) {
		h := make([]float64, p.N)
		p.Grad(h, t.back(y))
		for j, k := range t.col {
			g[j] = h[k] / t.vs[j]
		}
	}
	q.Rows = func(c, y []float64) {
		d := make([]float64, p.M)
		p.Rows(d, t.back(y))
		for i, k := range t.row {
			c[i] = d[k] * t.rs[i]
		}
	}
	q.Jac = func(jac, y []float64) {
		b := make([]float64, p.M*p.N)
		p.Jac(b, t.back(y))
		for i, r := range t.row {
			for j, k := range t.col {
				jac[i*p.N+j] = b[r*p.N+k] * t.rs[i] / t.vs[j]
			}
		}
	}
	return q
}
