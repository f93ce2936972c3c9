package nlp

import "math"

// model is a problem as the search sees it: fixed variables taken out, variables
// and rows divided by their scales, evaluations counted.
type model struct {
	p       *Problem
	n, m    int
	free    []int     // variables that move
	scale   []float64 // of the free variables
	row     []float64 // row values are divided by these
	unit    []float64 // violations are tolerated in these
	fscale  float64   // the objective is divided by this
	first   float64   // objective at the start, scaled
	diff    *differencer
	formula Difference
	stats   Stats

	grad, jac []float64 // unscaled, all variables
}

// point is an evaluated point: unscaled values, and the scaled ones beside them.
type point struct {
	x []float64 // all variables, unscaled
	F float64
	C []float64
	f float64
	c []float64
}

func newModel(p *Problem, t *Settings, x []float64) *model {
	m := &model{
		p: p, m: p.M, formula: t.Difference, fscale: 1,
		row: make([]float64, p.M), unit: make([]float64, p.M),
		diff: newDifferencer(p, t.Noise),
		grad: make([]float64, p.N), jac: make([]float64, p.M*p.N),
	}
	for j := range p.N {
		if !p.fixed(j) {
			m.free = append(m.free, j)
			m.scale = append(m.scale, p.scale(j, x[j]))
		}
	}
	m.n = len(m.free)
	for i := range m.row {
		m.row[i] = p.rowScale(i)
		m.unit[i] = m.row[i]
	}
	return m
}

// at evaluates the model at x, which it keeps, and reports whether it is finite.
func (m *model) at(x []float64) (*point, bool) {
	q := &point{x: x, C: make([]float64, m.m), c: make([]float64, m.m)}
	m.stats.Evaluations++
	q.F = m.p.evaluate(q.C, x)
	m.fill(q)
	return q, finite(q.F) && finite(q.C...)
}

// fill derives the scaled values of q from the unscaled ones.
func (m *model) fill(q *point) {
	q.f = q.F / m.fscale
	for i, v := range q.C {
		q.c[i] = v / m.row[i]
	}
}

// move returns q.x + alpha d, with d in scaled free variables, kept in the bounds.
func (m *model) move(q *point, alpha float64, d []float64) []float64 {
	x := append([]float64(nil), q.x...)
	for k, j := range m.free {
		lo, hi := m.p.bounds(j)
		x[j] = math.Min(math.Max(x[j]+alpha*d[k]*m.scale[k], lo), hi)
	}
	return x
}

// derive stores the scaled gradient and Jacobian of the free variables at q.
func (m *model) derive(g, jac []float64, q *point) bool {
	m.stats.JacEvaluations++
	ok := m.diff.derive(m.grad, m.jac, q.x, q.F, q.C, m.formula)
	m.stats.Differences = m.diff.calls
	m.gather(g, jac)
	return ok
}

// gather scales the derivatives last formed.
func (m *model) gather(g, jac []float64) {
	for k, j := range m.free {
		g[k] = m.grad[j] * m.scale[k] / m.fscale
	}
	for i := range m.m {
		from, to := m.jac[i*m.p.N:(i+1)*m.p.N], jac[i*m.n:(i+1)*m.n]
		for k, j := range m.free {
			to[k] = from[j] * m.scale[k] / m.row[i]
		}
	}
}

// Scales stay within these, so that a gradient that happens to vanish at the start
// does not blow a row up, nor a single steep one silence it.
const (
	leastScale = 1e-6
	mostScale  = 1e8
)

// autoscale sets the scale of the objective, and of the rows where none was given,
// from values and derivatives at the start q, and scales q, g and jac anew.
func (m *model) autoscale(g, jac []float64, q *point) {
	clamp := func(s float64) float64 { return math.Min(math.Max(s, leastScale), mostScale) }
	if s := largest(g); s > 0 {
		m.fscale = clamp(s)
	}
	if len(m.p.RowScale) == 0 {
		for i := range m.row {
			if s := math.Max(largest(jac[i*m.n:(i+1)*m.n]), math.Abs(q.C[i])); s > 0 {
				m.row[i] = clamp(s)
			}
			m.unit[i] = math.Min(1, m.row[i])
		}
	}
	m.fill(q)
	m.first = q.f
	m.gather(g, jac)
}

// violation returns the largest violation at q in tolerance units over the rows
// that count. Rows are granted the rounding of their own value, estimated from
// their scaled derivatives jac.
func (m *model) violation(q *point, jac []float64, counts func(i int) bool) (worst float64) {
	for i, v := range q.C {
		miss := m.p.violation(i, v)
		if miss == 0 || !counts(i) || miss/m.unit[i] <= worst {
			continue
		}
		var terms float64
		for k, j := range m.free {
			terms += math.Abs(jac[i*m.n+k]*q.x[j]) / m.scale[k]
		}
		if miss > roundingGrace*terms*m.row[i] {
			worst = miss / m.unit[i]
		}
	}
	return worst
}

// roundingGrace is the relative rounding error granted to the value of a row: some
// tens of operations.
const roundingGrace = 32 * epsilon
