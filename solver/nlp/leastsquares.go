package nlp

import (
	"fmt"
	"math"
)

// QPResult is the answer to the strictly convex quadratic program
//
//	minimise ½ xᵀHx + gᵀx  subject to  A x >= B (or = B), Lower <= x <= Upper
//
// Multipliers have the signs of Result.
type QPResult struct {
	X                                               []float64
	F                                               float64 // ½ xᵀHx + gᵀx
	Multipliers, LowerMultipliers, UpperMultipliers []float64
	Active                                          []int // rows held with equality, ascending
	Status                                          Status

	// Conflict is, when Status is Infeasible, a set of rows that contradict each
	// other (with the bounds, where ConflictBounds is true): a certificate, as the
	// normals have a non-negative combination that vanishes while its right-hand
	// side is positive.
	Conflict       []int
	ConflictBounds bool

	Iterations int
}

// LeastSquares minimises ‖a x − b‖² over n variables subject to rows·x >= lo, or
// = lo where equality (nil for none) says so. a is len(b)×n and rows len(lo)×n,
// both row-major. A ridge of LeastSquaresRidge times the root mean square column
// norm of a makes the minimiser unique where a alone does not; it moves a
// well-determined answer by a relative amount of about its square times the
// square of the condition of a. Multipliers are those of half the objective. Rows
// of warm are tried first, as from the Active of an earlier answer.
func LeastSquares(n int, a, b, rows, lo []float64, equality []bool, warm []int) (QPResult, error) {
	f, err := normalFactor(n, a)
	if err != nil {
		return QPResult{}, err
	}
	if len(a) != len(b)*n {
		return QPResult{}, sizeError("b", len(b), len(a)/n)
	}
	if !finite(b...) {
		return QPResult{}, &ProblemError{"b", "an entry is not finite", "give finite entries"}
	}
	m := len(lo)
	switch {
	case len(rows) != m*n:
		return QPResult{}, sizeError("rows", len(rows), m*n)
	case equality != nil && len(equality) != m:
		return QPResult{}, sizeError("equality", len(equality), m)
	case !finite(rows...):
		return QPResult{}, &ProblemError{"rows", "an entry is not finite", "give finite entries"}
	case !finite(lo...):
		return QPResult{}, &ProblemError{"lo", "an entry is not finite", "give finite entries"}
	}
	d := newDual(n, m)
	d.f, d.g, d.a, d.b, d.equality, d.warm = f, downhill(n, a, b), rows, lo, equality, warm
	return d.answer(d.solve()), nil
}

// answer tells what a dual program that has been solved came to.
func (d *dual) answer(status Status) QPResult {
	r := QPResult{
		X:                d.x,
		Multipliers:      d.lam[:d.m],
		LowerMultipliers: d.lam[d.m : d.m+d.n],
		UpperMultipliers: d.lam[d.m+d.n:],
		Active:           d.activeRows(nil),
		Status:           status,
		Iterations:       d.steps,
	}
	d.f.mul(d.z, d.x)
	r.F = dot(d.g, d.x) + dot(d.z, d.x)/2
	if status == Infeasible {
		r.Conflict, r.ConflictBounds = d.conflict()
	}
	return r
}

// normalFactor is the factor of aᵀa with the ridge of [LeastSquares].
func normalFactor(n int, a []float64) (*factor, error) {
	if n < 1 || len(a)%n != 0 {
		return nil, &ProblemError{"a", fmt.Sprintf("%d entries in %d unknowns", len(a), n), "give a row of n entries for each equation, n at least 1"}
	}
	if !finite(a...) {
		return nil, &ProblemError{"a", "an entry is not finite", "give finite entries"}
	}
	ridge := LeastSquaresRidge * math.Sqrt(dot(a, a)/float64(n))
	if ridge == 0 {
		return nil, &ProblemError{"a", "all entries are zero", "give at least one equation"}
	}
	f := newFactor(n)
	f.qr(a, len(a)/n, ridge)
	return f, nil
}

// downhill is -aᵀb, the gradient of half of ‖a x − b‖² at zero.
func downhill(n int, a, b []float64) []float64 {
	g := make([]float64, n)
	for i, bi := range b {
		axpy(g, -bi, a[i*n:(i+1)*n])
	}
	return g
}

func sizeError(what string, have, want int) *ProblemError {
	return &ProblemError{what, fmt.Sprintf("%d entries", have), fmt.Sprintf("give %d", want)}
}
