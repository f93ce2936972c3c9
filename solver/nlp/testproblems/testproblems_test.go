package testproblems

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"armwright/solver/nlp"
)

// point returns x0 moved a little, inside the bounds, off kinks and corners.
func point(p nlp.Problem, x0 []float64, rng *rand.Rand) []float64 {
	x := make([]float64, len(x0))
	for j, v := range x0 {
		lo, hi := v-.5, v+.5
		if p.Lower != nil {
			lo = math.Max(lo, p.Lower[j]+1e-2)
		}
		if p.Upper != nil {
			hi = math.Min(hi, p.Upper[j]-1e-2)
		}
		x[j] = lo + rng.Float64()*math.Max(0, hi-lo)
	}
	return x
}

// Derivatives of every problem agree with differences at the start and near it.
func TestDerivatives(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	list := append(HockSchittkowski(), More()...)
	list = append(list, Polygon(5), Polygon(12))
	for _, set := range Sets()[1:5] {
		list = append(list, set.Problems...)
	}
	for _, c := range InfeasibleCases() {
		list = append(list, Problem{Name: c.Name, Problem: c.Problem, X0: c.X0})
	}
	for _, p := range list {
		for range 3 {
			// The differences that the check makes grow with the scale, the bounds
			// of some problems being a thousand times the size of their terms.
			q := p.Problem
			x := point(q, p.X0, rng)
			for _, v := range x {
				q.Scale = append(q.Scale, math.Max(.1, .1*math.Abs(v)))
			}
			if worst := farthest(&q, x); worst.relative > 1e-5 {
				t.Errorf("%s: %+v", p.Name, worst)
			}
		}
	}
}

// derivative is one that a problem gives beside its differences; row -1 is the objective.
type derivative struct {
	row, variable               int
	given, difference, relative float64
}

// farthest is the derivative that lies farthest from central differences, extrapolated
// once (Richardson), over the larger of the two and of what differences cannot tell from
// zero. Variables without room for the step on both sides are left out.
func farthest(p *nlp.Problem, x []float64) derivative {
	x = slices.Clone(x)
	grad, jac := make([]float64, p.N), make([]float64, p.M*p.N)
	if p.Grad != nil {
		p.Grad(grad, x)
	}
	if p.Jac != nil {
		p.Jac(jac, x)
	}
	sample := func(j int, h float64) []float64 {
		c := make([]float64, p.M+1)
		keep := x[j]
		x[j] = keep + h
		if p.Both != nil {
			c[p.M] = p.Both(c[:p.M], x)
		}
		if p.Rows != nil {
			p.Rows(c[:p.M], x)
		}
		if p.Func != nil {
			c[p.M] = p.Func(x)
		}
		x[j] = keep
		return c
	}
	var worst derivative
	const epsilon = 0x1p-52
	for j := range p.N {
		// Extrapolation leaves an error of order h⁴ beside noise over h: h ~ ε^(1/5).
		h := math.Pow(epsilon, 0.2) * math.Max(p.Scale[j], math.Abs(x[j]))
		if p.Lower != nil {
			h = min(h, x[j]-p.Lower[j])
		}
		if p.Upper != nil {
			h = min(h, p.Upper[j]-x[j])
		}
		if h <= 4*epsilon*math.Abs(x[j]) {
			continue
		}
		a, b, c, d := sample(j, h), sample(j, -h), sample(j, h/2), sample(j, -h/2)
		for i := range p.M + 1 {
			e := derivative{row: i, variable: j}
			switch {
			case i == p.M && p.Grad != nil:
				e.row, e.given = -1, grad[j]
			case i < p.M && p.Jac != nil:
				e.given = jac[i*p.N+j]
			default:
				continue
			}
			wide, narrow := (a[i]-b[i])/(2*h), (c[i]-d[i])/h
			e.difference = (4*narrow - wide) / 3
			resolution := math.Abs(narrow-wide)*1e-3 + 1e6*epsilon*math.Max(math.Abs(c[i]), math.Abs(d[i]))/h
			gap := math.Abs(e.given - e.difference)
			e.relative = gap / max(math.Abs(e.given), math.Abs(e.difference), resolution, math.SmallestNonzeroFloat64)
			if !(e.relative <= worst.relative) {
				worst = e
			}
		}
	}
	return worst
}

// A derivative that is spoilt is the farthest.
func TestFarthest(t *testing.T) {
	p := Polygon(6)
	q := p.Problem
	q.Scale = slices.Repeat([]float64{0.1}, q.N)
	if w := farthest(&q, p.X0); w.relative > 1e-6 {
		t.Errorf("sound ones: %+v", w)
	}
	q.Jac = func(jac, x []float64) {
		p.Jac(jac, x)
		jac[5*q.N+9] += 1e-3
	}
	if w := farthest(&q, p.X0); w.row != 5 || w.variable != 9 {
		t.Errorf("an entry of the rows spoilt: %+v", w)
	}
	q = p.Problem
	q.Scale = slices.Repeat([]float64{0.1}, q.N)
	q.Grad = func(g, x []float64) { p.Grad(g, x); g[4] = -g[4] }
	if w := farthest(&q, p.X0); w.row != -1 || w.variable != 4 {
		t.Errorf("an entry of the gradient spoilt: %+v", w)
	}
}

// Values at the published minima are the published ones.
func TestMinima(t *testing.T) {
	list := append(HockSchittkowski(), Maratos()...)
	for _, set := range Sets()[2:] {
		list = append(list, set.Problems...)
	}
	for _, p := range list {
		for _, m := range p.Minima {
			if m.X == nil {
				continue
			}
			f := p.Func(m.X)
			grad := make([]float64, p.N)
			p.Grad(grad, m.X)
			// X is printed to a few figures: allow their effect on F.
			tol := 2e-6 * math.Max(1, math.Abs(m.F))
			if math.Abs(f-m.F) > tol {
				t.Errorf("%s: f(X) = %v, printed %v", p.Name, f, m.F)
			}
		}
	}
}

// HS117 is the dual of HS86: equal and opposite optima.
func TestColvilleDuality(t *testing.T) {
	a, b := colville1(), colville2()
	if a.Minima[0].F+b.Minima[0].F != 0 {
		t.Errorf("%v and %v", a.Minima[0].F, b.Minima[0].F)
	}
	// Value at the start of HS117: b7 = -40 against x7 = 60 gives 2400 and the
	// remaining terms are of order 1e-3 (D).
	if f := b.Func(b.X0); math.Abs(f-2400.1) > .1 {
		t.Errorf("f(x0) = %v", f)
	}
}

func TestParse(t *testing.T) {
	x := []float64{2, 3}
	for text, want := range map[string]float64{
		"x1+x2*2":             8,
		"-x1^2+x2":            -1,
		"2-(x1-x2)":           3,
		"x2/x1/2":             .75,
		"x1^-.5*exp(0)":       1 / math.Sqrt2,
		"1e-2*x1 + log(x2/3)": .02,
		"-(-3)*x1":            6,
	} {
		if got := parse(text, nil).value(x); math.Abs(got-want) > 1e-15 {
			t.Errorf("%s = %v, want %v", text, got, want)
		}
	}
	for _, text := range []string{"x1+", "2**x1", "(x1", "y1", "x1 x2)"} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%q read without complaint", text)
				}
			}()
			parse(text, nil)
		}()
	}
}
