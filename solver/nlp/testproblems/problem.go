// Package testproblems holds constrained minimisation problems with known answers
// for the tests of package nlp and of whatever else minimises.
//
// The marks of sources are S (seen in a text or program), M (from memory) and D
// (derived); a problem marked M was kept only where the Karush-Kuhn-Tucker
// conditions, measured at its answer, bear out what was remembered.
package testproblems

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"armwright/solver/nlp"
)

// Problem is a problem with its customary start and what is known of its minima.
type Problem struct {
	nlp.Problem
	Name   string
	Source string
	X0     []float64
	Minima []Minimum
}

// Minimum is a known minimum. Absent fields are nil: several points may share F.
type Minimum struct {
	F           float64
	X           []float64
	Digits      float64   // absolute accuracy of the figures in X
	Multipliers []float64 // of the rows
	Global      bool
}

// formulas makes a problem of n variables from the text of its objective and of
// its rows, each of which is >= 0, or = 0 where it ends in "=0".
func formulas(n int, objective string, rows ...string) nlp.Problem {
	return definitions(n, nil, objective, rows...)
}

// definitions is formulas with quantities that the formulas share, each defined as
// "name=formula" by what comes before it.
func definitions(n int, quantities []string, objective string, rows ...string) nlp.Problem {
	s := system{n: n}
	names := map[string]int{}
	for _, q := range quantities {
		name, text, _ := strings.Cut(q, "=")
		s.defined = append(s.defined, parse(text, names))
		names[name] = n + len(names)
	}
	f := parse(objective, names)
	p := nlp.Problem{N: n, M: len(rows)}
	c := make([]expression, len(rows))
	for i, r := range rows {
		r, equal := strings.CutSuffix(r, "=0")
		c[i] = parse(r, names)
		p.Equality = append(p.Equality, equal)
	}
	p.Func = func(x []float64) float64 { return f.value(s.all(x)) }
	p.Grad = func(g, x []float64) { s.gradient(g, f, s.all(x)) }
	p.Rows = func(v, x []float64) {
		all := s.all(x)
		for i, e := range c {
			v[i] = e.value(all)
		}
	}
	p.Jac = func(jac, x []float64) {
		all := s.all(x)
		for i, e := range c {
			s.gradient(jac[i*n:(i+1)*n], e, all)
		}
	}
	return p
}

// system is n variables and quantities defined by them, one after another.
type system struct {
	n       int
	defined []expression
}

// all returns x followed by the defined quantities.
func (s *system) all(x []float64) []float64 {
	if len(s.defined) == 0 {
		return x
	}
	x = append(make([]float64, 0, s.n+len(s.defined)), x...)
	for _, e := range s.defined {
		x = append(x, e.value(x))
	}
	return x
}

// gradient stores the gradient of e with respect to the variables in g.
func (s *system) gradient(g []float64, e expression, all []float64) {
	w := make([]float64, len(all))
	e.gradient(w, all, 1)
	for k := len(s.defined) - 1; k >= 0; k-- {
		s.defined[k].gradient(w, all, w[s.n+k])
	}
	copy(g, w)
}

// Starts returns the customary start and k-1 more, drawn evenly up to as far from
// it as it is from zero, or one, or half way across the bounds, whichever is least
// but for the one, in the bounds and where the problem is defined.
func (p *Problem) Starts(k int) [][]float64 {
	rng := rand.New(rand.NewPCG(1981, uint64(p.N)))
	list := [][]float64{p.X0}
	c := make([]float64, p.M)
	for len(list) < k {
		x := make([]float64, p.N)
		for j, v := range p.X0 {
			lo, hi := -inf, inf
			if len(p.Lower) > 0 {
				lo = p.Lower[j]
			}
			if len(p.Upper) > 0 {
				hi = p.Upper[j]
			}
			reach := math.Min(math.Max(1, math.Abs(v)), (hi-lo)/2)
			x[j] = math.Min(math.Max(v+reach*(2*rng.Float64()-1), lo), hi)
		}
		p.Rows(c, x)
		if defined(p.Func(x)) && defined(c...) {
			list = append(list, x)
		}
	}
	return list
}

func defined(v ...float64) bool {
	return !slices.ContainsFunc(v, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
}

// fill returns n copies of v.
func fill(n int, v float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = v
	}
	return x
}

var inf = math.Inf(1)

// Set is a group of problems, and from how many starts each is to be tried.
type Set struct {
	Name     string
	Starts   int
	Problems []Problem
}

// Sets returns all problems with a minimum.
func Sets() []Set {
	return []Set{
		{"Hock-Schittkowski, small", 4, append(HockSchittkowski()[:7:7], More()[:18]...)},
		{"Hock-Schittkowski, larger", 4, Larger()},
		{"steep curved rows", 1, append(Maratos(), Valleys()...)},
		{"degenerate", 4, Degenerate()},
		{"complementarity", 4, Complementarity()},
		{"badly scaled", 1, BadlyScaled()},
	}
}
