package testproblems

import (
	"math"
	"math/rand/v2"
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
			worst, err := nlp.CheckDerivatives(q, x)
			if err != nil {
				t.Fatal(p.Name, err)
			}
			if len(worst) > 0 && worst[0].Relative > 1e-5 {
				t.Errorf("%s: %+v", p.Name, worst[0])
			}
		}
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
