// Package testproblems holds constrained minimisation problems with known answers
// for the tests of package nlp and of whatever else minimises.
//
// The marks of sources are S (seen in a text or program), M (from memory) and D
// (derived); a problem marked M was kept only where the Karush-Kuhn-Tucker
// conditions, measured at its answer, bear out what was remembered.
package testproblems

import (
	"math"

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
	f := parse(objective)
	p := nlp.Problem{N: n, M: len(rows)}
	c := make([]expression, len(rows))
	for i, r := range rows {
		equal := false
		if k := len(r) - 2; k > 0 && r[k:] == "=0" {
			r, equal = r[:k], true
		}
		c[i] = parse(r)
		p.Equality = append(p.Equality, equal)
	}
	p.Func = f.value
	p.Grad = func(g, x []float64) { clear(g); f.gradient(g, x, 1) }
	p.Rows = func(v, x []float64) {
		for i, e := range c {
			v[i] = e.value(x)
		}
	}
	p.Jac = func(jac, x []float64) {
		clear(jac)
		for i, e := range c {
			e.gradient(jac[i*n:(i+1)*n], x, 1)
		}
	}
	return p
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
