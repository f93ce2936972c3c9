package nlp

// Series is a least-squares problem as [LeastSquares] has it that is solved for many
// right-hand sides: what depends on the matrices alone is worked out once, and each
// answer begins with the rows that held the last one.
type Series struct {
	n, equations int
	a            []float64
	d            *dual
}

// NewSeries takes the matrices of [LeastSquares], equality nil for none. They are not
// copied. Errors are those of LeastSquares.
func NewSeries(n int, a, rows []float64, equality []bool) (*Series, error) {
	f, err := normalFactor(n, a)
	if err != nil {
		return nil, err
	}
	if len(rows)%n != 0 {
		return nil, sizeError("rows", len(rows), len(rows)/n*n)
	}
	if !finite(rows...) {
		return nil, &ProblemError{"rows", "an entry is not finite", "give finite entries"}
	}
	m := len(rows) / n
	if len(equality) != 0 && len(equality) != m {
		return nil, sizeError("equality", len(equality), m)
	}
	d := newDual(n, m)
	d.f, d.a, d.equality = f, rows, equality
	d.prepare()
	return &Series{n: n, equations: len(a) / n, a: a, d: d}, nil
}

// Solve answers for right-hand sides b and lo. The minimiser is the caller's until the
// next call; it means nothing unless the status is Converged.
func (s *Series) Solve(b, lo []float64) (x []float64, status Status, err error) {
	switch {
	case len(b) != s.equations:
		return nil, NotFinite, sizeError("b", len(b), s.equations)
	case len(lo) != s.d.m:
		return nil, NotFinite, sizeError("lo", len(lo), s.d.m)
	case !finite(b...) || !finite(lo...):
		return nil, NotFinite, &ProblemError{"b", "an entry of b or lo is not finite", "give finite entries"}
	}
	s.d.g, s.d.b = downhill(s.n, s.a, b), lo
	status = s.d.again()
	return s.d.x, status, nil
}
