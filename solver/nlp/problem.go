package nlp

import (
	"fmt"
	"math"
)

// Problem is a constrained minimisation. The functions must not keep or modify x
// and must return the same values for the same x. Units are the caller's.
type Problem struct {
	// N is the number of variables and M the number of rows.
	N, M int

	// Lower and Upper are the bounds of the variables. Nil means unbounded;
	// infinite entries are allowed but finite ones help scaling and Spread.
	// No function is ever called outside them. Equal bounds remove the variable.
	Lower, Upper []float64

	// Scale is the change of each variable that counts as one, greater than zero.
	// Nil means the variable's own size, 1 at least, or, where both bounds are
	// finite, the geometric mean of that and upper-lower, upper-lower at most; at the
	// start of a search, else where it is looked at.
	Scale []float64

	// RowScale is the "one unit that matters" of each row, greater than zero: the
	// violation tolerance and the merit function count rows in it. Nil means
	// automatic: the larger of row value and row gradient at the start for the
	// merit function, and the smaller of that and 1 for the tolerance.
	RowScale []float64

	// Equality marks the rows that must be zero; the others must be >= 0. Nil
	// means that all rows are inequalities.
	Equality []bool

	// Func returns the objective. Nil, with Both nil too, means zero: any point
	// that meets the rows will do.
	Func func(x []float64) float64
	// Grad stores the gradient of the objective in grad. Nil means differences.
	Grad func(grad, x []float64)
	// Rows stores the values of all M rows in c.
	Rows func(c, x []float64)
	// Jac stores the derivatives of the rows in jac, row-major M×N. Nil means
	// differences scaled by Scale that respect the bounds.
	Jac func(jac, x []float64)
	// Both stores the rows in c and returns the objective. It is optional and is
	// used in place of Func and Rows, so that a costly model runs once a point.
	Both func(c, x []float64) float64
}

// ProblemError says what is wrong with a problem, a start or a setting.
type ProblemError struct {
	Field  string // the field or argument at fault, with its index where it has one
	Reason string
	Hint   string
}

func (e *ProblemError) Error() string {
	return fmt.Sprintf("nlp: %s: %s (%s)", e.Field, e.Reason, e.Hint)
}

// validate reports the first fault of the problem, or nil.
func (p *Problem) validate() error {
	if p.N < 1 {
		return &ProblemError{"N", fmt.Sprintf("%d variables", p.N), "give at least one variable"}
	}
	if p.M < 0 {
		return &ProblemError{"M", fmt.Sprintf("%d rows", p.M), "give zero or more rows"}
	}
	if p.M > 0 && p.Rows == nil && p.Both == nil {
		return &ProblemError{"Rows", "nil although there are rows", "set Rows or Both"}
	}
	for _, v := range []struct {
		name string
		n, m int
	}{
		{"Lower", len(p.Lower), p.N}, {"Upper", len(p.Upper), p.N}, {"Scale", len(p.Scale), p.N},
		{"RowScale", len(p.RowScale), p.M}, {"Equality", len(p.Equality), p.M},
	} {
		if v.n != 0 && v.n != v.m {
			return &ProblemError{v.name, fmt.Sprintf("%d entries", v.n), fmt.Sprintf("give %d, or none", v.m)}
		}
	}
	for j := range p.N {
		lo, hi := p.bounds(j)
		if math.IsNaN(lo) || math.IsNaN(hi) || lo > hi || math.IsInf(lo, 1) || math.IsInf(hi, -1) {
			return &ProblemError{fmt.Sprintf("Lower[%d]", j), fmt.Sprintf("bounds %v to %v hold no value", lo, hi), "give lower <= upper"}
		}
	}
	for j, s := range p.Scale {
		if !(s > 0) || math.IsInf(s, 1) {
			return &ProblemError{fmt.Sprintf("Scale[%d]", j), fmt.Sprintf("%v is not a size", s), "give a finite value above zero"}
		}
	}
	for i, s := range p.RowScale {
		if !(s > 0) || math.IsInf(s, 1) {
			return &ProblemError{fmt.Sprintf("RowScale[%d]", i), fmt.Sprintf("%v is not a size", s), "give a finite value above zero"}
		}
	}
	return nil
}

// validateStart reports what is wrong with x as a point of the problem, or nil.
func (p *Problem) validateStart(name string, x []float64) error {
	if len(x) != p.N {
		return &ProblemError{name, fmt.Sprintf("%d values", len(x)), fmt.Sprintf("give %d", p.N)}
	}
	for j, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return &ProblemError{fmt.Sprintf("%s[%d]", name, j), "not a finite number", "give a finite start"}
		}
	}
	return nil
}

// bounds returns the bounds of variable j.
func (p *Problem) bounds(j int) (lo, hi float64) {
	lo, hi = math.Inf(-1), math.Inf(1)
	if len(p.Lower) > 0 {
		lo = p.Lower[j]
	}
	if len(p.Upper) > 0 {
		hi = p.Upper[j]
	}
	return lo, hi
}

// fixed reports whether the bounds leave variable j no room.
func (p *Problem) fixed(j int) bool {
	lo, hi := p.bounds(j)
	return lo == hi
}

// scale returns the scale of variable j at the value x.
func (p *Problem) scale(j int, x float64) float64 {
	if len(p.Scale) > 0 {
		return p.Scale[j]
	}
	size := math.Max(1, math.Abs(x))
	lo, hi := p.bounds(j)
	if r := hi - lo; r > 0 && !math.IsInf(r, 1) {
		return math.Min(r, math.Sqrt(r*size))
	}
	return size
}

// equality reports whether row i must be zero.
func (p *Problem) equality(i int) bool { return len(p.Equality) > 0 && p.Equality[i] }

// clip returns a copy of x moved into the bounds.
func (p *Problem) clip(x []float64) []float64 {
	y := make([]float64, len(x))
	for j, v := range x {
		lo, hi := p.bounds(j)
		y[j] = math.Min(math.Max(v, lo), hi)
	}
	return y
}

// evaluate stores the rows in c and returns the objective.
func (p *Problem) evaluate(c, x []float64) float64 {
	if p.Both != nil {
		return p.Both(c, x)
	}
	if p.M > 0 {
		p.Rows(c, x)
	}
	if p.Func == nil {
		return 0
	}
	return p.Func(x)
}

// violation returns by how much the value c of row i misses, zero or more.
func (p *Problem) violation(i int, c float64) float64 {
	if p.equality(i) {
		return math.Abs(c)
	}
	return math.Max(0, -c)
}

// finite reports whether every value is an ordinary number.
func finite(v ...float64) bool {
	for _, e := range v {
		if math.IsNaN(e) || math.IsInf(e, 0) {
			return false
		}
	}
	return true
}

// rowScale returns the unit row i is counted in, 1 where none is given.
func (p *Problem) rowScale(i int) float64 {
	if len(p.RowScale) > 0 {
		return p.RowScale[i]
	}
	return 1
}
