package nlp

import (
	"fmt"
	"math"
)

// QP is a strictly convex quadratic program as a whole, for tests of the dual method by
// which steps and least squares are found:
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
	return d.answer(d.solve()), nil
}

// cholesky sets B to the matrix h, row-major n×n, of which the lower triangle is
// read. It reports whether h is numerically positive definite.
func (f *factor) cholesky(h []float64) bool {
	n := f.n
	clear(f.l)
	for i := range n {
		li := f.l[i*n:]
		for j := range i {
			lj := f.l[j*n:]
			li[j] = (h[i*n+j] - dot(li[:j], lj[:j])) / lj[j]
		}
		s := h[i*n+i] - dot(li[:i], li[:i])
		if !(s > epsilon*h[i*n+i]) || math.IsInf(s, 1) {
			return false
		}
		li[i] = math.Sqrt(s)
	}
	return true
}
