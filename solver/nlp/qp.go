package nlp

import (
	"fmt"
	"math"
)

// QP is a strictly convex quadratic program:
//
//	minimise ½ xᵀHx + gᵀx  subject to  A x >= B (or = B), Lower <= x <= Upper
//
// With finite entries in Cap, row i may be missed at the price Cap[i] a unit,
// which is the same as holding its multiplier at or below Cap[i].
type QP struct {
	N, M int
	H    []float64 // N×N, symmetric positive definite; the lower triangle is read
	G    []float64 // N
	A    []float64 // M×N, row-major
	B    []float64 // M

	Equality     []bool    // rows that hold with equality; nil means none
	Lower, Upper []float64 // nil means none
	Cap          []float64 // price of missing a row, >= 0; nil means that rows must hold
	Warm         []int     // rows tried first, as from the Active of an earlier answer
}

// QPResult is the answer to a QP. Multipliers have the signs of Result.
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

// Solve returns the minimiser, or Status Infeasible with the rows in conflict. The
// error is a *ProblemError: sizes that do not fit, entries that are not finite, or
// an H that is not positive definite.
func (q *QP) Solve() (QPResult, error) {
	if q.N < 1 || len(q.H) != q.N*q.N {
		return QPResult{}, &ProblemError{"H", fmt.Sprintf("%d entries for %d variables", len(q.H), q.N), "give N×N entries, N at least 1"}
	}
	if !finite(q.H...) {
		return QPResult{}, &ProblemError{"H", "an entry is not finite", "give finite entries"}
	}
	f := newFactor(q.N)
	if !f.cholesky(q.H) {
		return QPResult{}, &ProblemError{"H", "not positive definite", "add a small multiple of the identity"}
	}
	return q.solve(f)
}

// solve is Solve with the factor of H given; H itself is not read.
func (q *QP) solve(f *factor) (QPResult, error) {
	for _, v := range []struct {
		name string
		x    []float64
		want int
	}{
		{"G", q.G, q.N}, {"A", q.A, q.M * q.N}, {"B", q.B, q.M},
	} {
		if len(v.x) != v.want {
			return QPResult{}, sizeError(v.name, len(v.x), v.want)
		}
		if !finite(v.x...) {
			return QPResult{}, &ProblemError{v.name, "an entry is not finite", "give finite entries"}
		}
	}
	for _, v := range []struct {
		name    string
		n, want int
	}{
		{"Equality", len(q.Equality), q.M}, {"Cap", len(q.Cap), q.M},
		{"Lower", len(q.Lower), q.N}, {"Upper", len(q.Upper), q.N},
	} {
		if v.n != 0 && v.n != v.want {
			return QPResult{}, &ProblemError{v.name, fmt.Sprintf("%d entries", v.n), fmt.Sprintf("give %d, or none", v.want)}
		}
	}
	d := newDual(q.N, q.M)
	d.f, d.g, d.a, d.b = f, q.G, q.A, q.B
	d.equality, d.lower, d.upper, d.cap, d.warm = q.Equality, q.Lower, q.Upper, q.Cap, q.Warm
	status := d.solve()
	r := QPResult{
		X:                d.x,
		Multipliers:      d.lam[:q.M],
		LowerMultipliers: d.lam[q.M : q.M+q.N],
		UpperMultipliers: d.lam[q.M+q.N:],
		Active:           d.activeRows(nil),
		Status:           status,
		Iterations:       d.steps,
	}
	f.mul(d.z, d.x)
	r.F = dot(q.G, d.x) + dot(d.z, d.x)/2
	if status == Infeasible {
		r.Conflict, r.ConflictBounds = d.conflict()
	}
	return r, nil
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
	q := QP{N: n, M: len(lo), G: downhill(n, a, b), A: rows, B: lo, Equality: equality, Warm: warm}
	return q.solve(f)
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
