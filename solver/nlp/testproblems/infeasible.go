package testproblems

import (
	"math"

	"armwright/solver/nlp"
)

// Infeasible is a problem whose rows contradict each other, with what is known of
// the contradiction (weights one). All figures are D unless said.
type Infeasible struct {
	nlp.Problem
	Name   string
	Source string
	X0     []float64

	Shared   float64   // least largest violation
	Cost     float64   // least sum of violations
	Repair   []float64 // violations in the cheapest repair; nil where it is not unique
	Fighting []int     // rows with a share in the shared conflict
	Smallest []int     // smallest conflicting set
	Alone    []float64 // by how much each row of Smallest must move by itself
}

// InfeasibleCases returns four problems that cannot be met.
func InfeasibleCases() []Infeasible {
	lines := Infeasible{
		Name: "parallel lines", Source: "x+y >= 3 against x+y <= 2: the gap is 1, shared alike 1/2 each", X0: []float64{0, 0},
		Problem: formulas(2, "0", "x1+x2-3", "2-x1-x2"),
		Shared:  .5, Cost: 1, Fighting: []int{0, 1}, Smallest: []int{0, 1}, Alone: []float64{1, 1},
	}
	lines.Lower, lines.Upper = fill(2, -10), fill(2, 10)
	disc := Infeasible{
		// Shared: x = 2-t on the edge x² = 1+t gives t² - 5t + 3 = 0. Cheapest: the
		// sum (2-x) + max(0, x²-1) is least at x = 1. Alone: the line must come to 1,
		// or the disc must grow to radius 2, r² - 1 = 3.
		Name: "disc and line", Source: "x²+y² <= 1 against x >= 2", X0: []float64{.3, .4},
		Problem: formulas(2, "0", "1-x1^2-x2^2", "x1-2"),
		Shared:  (5 - math.Sqrt(13)) / 2, Cost: 1, Repair: []float64{0, 1}, Fighting: []int{0, 1}, Smallest: []int{0, 1}, Alone: []float64{3, 1},
	}
	disc.Lower, disc.Upper = fill(2, -5), fill(2, 5)
	total := Infeasible{
		Name: "sum against bounds", Source: "three variables of at most 1 that must sum to 4", X0: fill(3, .2),
		Problem: formulas(3, "0", "x1+x2+x3-4"),
		Shared:  1, Cost: 1, Repair: []float64{1}, Fighting: []int{0}, Smallest: []int{0}, Alone: []float64{1},
	}
	total.Lower, total.Upper = fill(3, 0), fill(3, 1)

	// The largest 12-gon of unit diameter has area 0.760730 (S), so the area must
	// come down by 0.139270 when the distances hold.
	g := Polygon(12)
	polygon := Infeasible{
		Name: "polygon too large", Source: "12-gon of unit diameter with area 0.9: repair 0.13927, shared 0.0857545 (S)",
		X0: g.X0, Problem: withArea(g.Problem, .9), Shared: .0857545, Cost: .13927,
	}
	return []Infeasible{lines, disc, total, polygon}
}

// withArea turns the objective of a polygon, minus its area, into a last row
// area >= least.
func withArea(p nlp.Problem, least float64) nlp.Problem {
	q := p
	q.M++
	q.Func = nil
	q.Grad = nil
	q.Rows = func(c, x []float64) {
		p.Rows(c[:p.M], x)
		c[p.M] = -p.Func(x) - least
	}
	q.Jac = func(jac, x []float64) {
		p.Jac(jac[:p.M*p.N], x)
		last := jac[p.M*p.N:]
		p.Grad(last, x)
		for j := range last {
			last[j] = -last[j]
		}
	}
	return q
}
