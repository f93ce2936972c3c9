package nlp_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"armwright/solver/nlp"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// drawQP draws a small program with small whole numbers, so that degenerate
// corners, repeated rows and empty sets are common.
func drawQP(t *rapid.T) nlp.QP {
	n, m := rapid.IntRange(1, 4).Draw(t, "n"), rapid.IntRange(0, 6).Draw(t, "m")
	whole := func(k, size int, name string) []float64 {
		v := make([]float64, k)
		for i, e := range rapid.SliceOfN(rapid.IntRange(-size, size), k, k).Draw(t, name) {
			v[i] = float64(e)
		}
		return v
	}
	f := mat.NewDense(n, n, whole(n*n, 2, "factor"))
	var h mat.Dense
	h.Mul(f, f.T())
	q := nlp.QP{N: n, M: m, G: whole(n, 5, "g"), A: whole(m*n, 2, "a"), B: whole(m, 3, "b")}
	for i := range n {
		for j := range n {
			v := h.At(i, j)
			if i == j {
				v++
			}
			q.H = append(q.H, v)
		}
	}
	for range m {
		q.Equality = append(q.Equality, rapid.IntRange(0, 4).Draw(t, "equality") == 0)
	}
	return q
}

// tiny is rounding in the answers to these programs.
const tiny = 1e-8

// enumerate solves q by trying every set of active rows: the one whose
// equality-constrained minimiser is feasible and has multipliers of the right
// sign is the answer. It reports false when there is none, which for a strictly
// convex program means that the rows contradict each other.
func enumerate(q *nlp.QP) ([]float64, bool) {
	n := q.N
	for set := range 1 << q.M {
		var act []int
		for i := range q.M {
			if set>>i&1 == 1 {
				act = append(act, i)
			}
		}
		if len(act) > n {
			continue
		}
		k := n + len(act)
		kkt, rhs := mat.NewDense(k, k, nil), mat.NewVecDense(k, nil)
		for i := range n {
			for j := range n {
				kkt.Set(i, j, q.H[i*n+j])
			}
			rhs.SetVec(i, -q.G[i])
		}
		for r, i := range act {
			for j := range n {
				kkt.Set(j, n+r, -q.A[i*n+j])
				kkt.Set(n+r, j, q.A[i*n+j])
			}
			rhs.SetVec(n+r, q.B[i])
		}
		var z mat.VecDense
		if err := z.SolveVec(kkt, rhs); err != nil {
			continue // dependent: a smaller set has the same span
		}
		ok := true
		for r, i := range act {
			ok = ok && (q.Equality[i] || z.AtVec(n+r) >= -tiny)
		}
		for i := range q.M {
			s := -q.B[i]
			for j := range n {
				s += q.A[i*n+j] * z.AtVec(j)
			}
			ok = ok && s >= -tiny && (!q.Equality[i] || s <= tiny)
		}
		if ok {
			return mat.Col(nil, 0, z.SliceVec(0, n)), true
		}
	}
	return nil, false
}

func TestQPAgainstEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQP(t)
		q.Warm = rapid.SliceOfN(rapid.IntRange(0, max(0, q.M-1)), 0, 3).Draw(t, "warm")
		r, err := q.Solve()
		if err != nil {
			t.Fatal(err)
		}
		want, feasible := enumerate(&q)
		if feasible != (r.Status == nlp.Converged) {
			t.Fatalf("status %v, feasible %v", r.Status, feasible)
		}
		if !feasible {
			checkConflict(t, &q, r)
			return
		}
		for j, v := range want {
			if math.Abs(r.X[j]-v) > tiny*(1+math.Abs(v)) {
				t.Fatalf("x = %v, want %v", r.X, want)
			}
		}
		checkQP(t, &q, r)
	})
}

// checkConflict holds a certificate against its meaning: the rows in it have no
// common point, and do as soon as any one of them is left out.
func checkConflict(t *rapid.T, q *nlp.QP, r nlp.QPResult) {
	take := func(rows []int) bool {
		s := nlp.QP{N: q.N, M: len(rows), H: q.H, G: q.G}
		for _, i := range rows {
			s.A = append(s.A, q.A[i*q.N:(i+1)*q.N]...)
			s.B, s.Equality = append(s.B, q.B[i]), append(s.Equality, q.Equality[i])
		}
		_, ok := enumerate(&s)
		return ok
	}
	if take(r.Conflict) || r.ConflictBounds {
		t.Fatalf("rows %v do not conflict", r.Conflict)
	}
	for k := range r.Conflict {
		if !take(slices.Delete(slices.Clone(r.Conflict), k, k+1)) {
			t.Fatalf("rows %v conflict without row %d", r.Conflict, r.Conflict[k])
		}
	}
}

// checkQP holds an answer against the optimality conditions, which suffice as the
// program is convex; priced rows may be missed at their price.
func checkQP(t *rapid.T, q *nlp.QP, r nlp.QPResult) {
	n := q.N
	for i := range n {
		g := q.G[i]
		for j := range n {
			g += q.H[i*n+j] * r.X[j]
		}
		for k, l := range r.Multipliers {
			g -= l * q.A[k*n+i]
		}
		g -= r.LowerMultipliers[i] - r.UpperMultipliers[i]
		if math.Abs(g) > 1e-7*(1+math.Abs(q.G[i])) {
			t.Fatalf("gradient of the Lagrangian %v", g)
		}
		for _, b := range []struct{ room, l float64 }{
			{r.X[i] - bound(q.Lower, i, -1), r.LowerMultipliers[i]}, {bound(q.Upper, i, 1) - r.X[i], r.UpperMultipliers[i]},
		} {
			if b.room < -tiny || b.l < 0 || b.l > tiny && b.room > tiny {
				t.Fatalf("bound of x%d: room %v, multiplier %v", i+1, b.room, b.l)
			}
		}
	}
	for k, l := range r.Multipliers {
		s, top := -q.B[k], math.Inf(1)
		for j := range n {
			s += q.A[k*n+j] * r.X[j]
		}
		if q.Cap != nil {
			top = q.Cap[k]
		}
		low := 0.
		if q.Equality[k] {
			low = -top
		}
		if l < low || l > top || s > tiny && l > low || s < -tiny && l < top {
			t.Fatalf("row %d: value %v, multiplier %v in %v to %v", k, s, l, low, top)
		}
	}
}

func bound(b []float64, i, sign int) float64 {
	if b == nil {
		return math.Inf(sign)
	}
	return b[i]
}

// With prices and bounds there is always an answer, and it meets the optimality
// conditions.
func TestQPWithPricesAndBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQP(t)
		for range q.M {
			q.Cap = append(q.Cap, float64(rapid.IntRange(0, 6).Draw(t, "cap")))
		}
		for range q.N {
			lo := float64(rapid.IntRange(-3, 0).Draw(t, "lower"))
			q.Lower = append(q.Lower, lo)
			q.Upper = append(q.Upper, lo+float64(rapid.IntRange(0, 4).Draw(t, "range")))
		}
		r, err := q.Solve()
		if err != nil || r.Status != nlp.Converged {
			t.Fatalf("%v, %v", r.Status, err)
		}
		checkQP(t, &q, r)
	})
}

// Nocedal and Wright 2006, example 16.4 (M): (x1-1)² + (x2-2.5)² over a
// pentagon, answered at (1.4, 1.7) with multiplier 0.8 on its first row.
func TestQPTextbook(t *testing.T) {
	q := nlp.QP{
		N: 2, M: 5, H: []float64{2, 0, 0, 2}, G: []float64{-2, -5},
		A: []float64{1, -2, -1, -2, -1, 2, 1, 0, 0, 1}, B: []float64{-2, -6, -2, 0, 0},
	}
	r, err := q.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.X[0]-1.4) > 1e-12 || math.Abs(r.X[1]-1.7) > 1e-12 || math.Abs(r.Multipliers[0]-.8) > 1e-12 || !slices.Equal(r.Active, []int{0}) {
		t.Errorf("%+v", r)
	}
}

func TestQPBadInput(t *testing.T) {
	for name, q := range map[string]nlp.QP{
		"indefinite": {N: 2, H: []float64{1, 2, 2, 1}, G: []float64{0, 0}},
		"short H":    {N: 2, H: []float64{1}, G: []float64{0, 0}},
		"short A":    {N: 1, M: 1, H: []float64{1}, G: []float64{0}, B: []float64{0}},
		"not finite": {N: 1, H: []float64{1}, G: []float64{math.NaN()}},
		"short cap":  {N: 1, M: 2, H: []float64{1}, G: []float64{0}, A: []float64{1, 1}, B: []float64{0, 0}, Cap: []float64{1}},
	} {
		_, err := q.Solve()
		var e *nlp.ProblemError
		if !errors.As(err, &e) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// A least-squares fit whose rows do not bind is that of a QR solver, and one that
// is not determined is still found.
func TestLeastSquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 4).Draw(t, "n"), rapid.IntRange(6, 9).Draw(t, "m")
		a := rapid.SliceOfN(rapid.Float64Range(-3, 3), m*n, m*n).Draw(t, "a")
		b := rapid.SliceOfN(rapid.Float64Range(-3, 3), m, m).Draw(t, "b")
		var s mat.SVD
		dense := mat.NewDense(m, n, slices.Clone(a))
		if !s.Factorize(dense, mat.SVDThin) || s.Cond() > 1e3 {
			t.Skip("not well determined")
		}
		var want mat.VecDense
		if err := want.SolveVec(dense, mat.NewVecDense(m, slices.Clone(b))); err != nil {
			t.Skip("not well determined")
		}
		r, err := nlp.LeastSquares(n, a, b, nil, nil, nil, nil)
		if err != nil || r.Status != nlp.Converged {
			t.Fatalf("%v, %v", r.Status, err)
		}
		for j, v := range r.X {
			if math.Abs(v-want.AtVec(j)) > 1e-7*(1+math.Abs(want.AtVec(j))) {
				t.Fatalf("x = %v, want %v", r.X, mat.Formatted(want.T()))
			}
		}
	})
	// One equation, two unknowns, x1 - x2 >= 4: the shortest is (3, -1).
	r, err := nlp.LeastSquares(2, []float64{1, 1}, []float64{2}, []float64{1, -1}, []float64{4}, nil, nil)
	if err != nil || math.Abs(r.X[0]-3) > 1e-6 || math.Abs(r.X[1]+1) > 1e-6 {
		t.Errorf("%v, %v", r.X, err)
	}
	if _, err := nlp.LeastSquares(2, []float64{0, 0}, []float64{1}, nil, nil, nil, nil); err == nil {
		t.Error("no error for an empty fit")
	}
}

// A series answers each of its right-hand sides as one problem by itself does, whatever
// was asked before.
func TestSeries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m, k := rapid.IntRange(1, 5).Draw(t, "n"), rapid.IntRange(5, 9).Draw(t, "m"), rapid.IntRange(0, 9).Draw(t, "rows")
		draw := func(name string, size int) []float64 {
			var out []float64
			for range size {
				out = append(out, float64(rapid.IntRange(-6, 6).Draw(t, name))/2)
			}
			return out
		}
		a, rows := draw("a", m*n), draw("rows", k*n)
		for i := range n {
			a[i*n+i] += 16 // well determined
		}
		equality := make([]bool, k)
		if k > 0 {
			equality[0] = rapid.Bool().Draw(t, "equality")
		}
		s, err := nlp.NewSeries(n, a, rows, equality)
		if err != nil {
			t.Fatal(err)
		}
		for range 6 {
			b, lo := draw("b", m), draw("lo", k)
			want, err := nlp.LeastSquares(n, a, b, rows, lo, equality, nil)
			if err != nil {
				t.Fatal(err)
			}
			x, status, err := s.Solve(b, lo)
			if err != nil || status != want.Status {
				t.Fatalf("%v, %v, by itself %v", status, err, want.Status)
			}
			for j := range x {
				if status == nlp.Converged && math.Abs(x[j]-want.X[j]) > 1e-8*(1+math.Abs(want.X[j])) {
					t.Fatalf("x = %v, by itself %v", x, want.X)
				}
			}
		}
		for _, bad := range [][2]int{{m - 1, k}, {m, k + 1}} {
			if _, _, err := s.Solve(make([]float64, bad[0]), make([]float64, bad[1])); err == nil {
				t.Fatalf("no error for %v right-hand sides", bad)
			}
		}
	})
	for _, c := range []struct {
		n        int
		a, rows  []float64
		equality []bool
	}{{0, nil, nil, nil}, {2, []float64{1}, nil, nil}, {1, []float64{0}, nil, nil}, {2, []float64{1, 1}, []float64{1}, nil}, {1, []float64{1}, []float64{1}, make([]bool, 2)}, {1, []float64{1}, []float64{math.Inf(1)}, nil}} {
		if _, err := nlp.NewSeries(c.n, c.a, c.rows, c.equality); err == nil {
			t.Errorf("no error for %+v", c)
		}
	}
}

// A convex curve through noisy points: second differences must not be negative.
// The answer is checked against the conditions of the problem, and the fit to a
// curve that is convex already is the curve.
func TestLeastSquaresConvexCurve(t *testing.T) {
	const n = 41
	id := make([]float64, n*n)
	for i := range n {
		id[i*n+i] = 1
	}
	rows := make([]float64, (n-2)*n)
	for i := range n - 2 {
		copy(rows[i*n+i:], []float64{1, -2, 1})
	}
	curve := func(wave float64) []float64 {
		y := make([]float64, n)
		for i := range y {
			u := float64(i)/20 - 1
			y[i] = u*u + wave*math.Sin(12*u)
		}
		return y
	}
	y := curve(0)
	r, err := nlp.LeastSquares(n, id, y, rows, make([]float64, n-2), nil, nil)
	if err != nil || r.Status != nlp.Converged {
		t.Fatal(r.Status, err)
	}
	for i, v := range r.X {
		if math.Abs(v-y[i]) > 1e-12 {
			t.Fatalf("point %d moved from %v to %v", i, y[i], v)
		}
	}
	y = curve(.1)
	if r, err = nlp.LeastSquares(n, id, y, rows, make([]float64, n-2), nil, nil); err != nil || r.Status != nlp.Converged {
		t.Fatal(r.Status, err)
	}
	for i := range n - 2 {
		if bend := r.X[i] - 2*r.X[i+1] + r.X[i+2]; bend < -1e-12 || bend > 1e-9 && r.Multipliers[i] > 1e-12 {
			t.Errorf("bend %v with multiplier %v at %d", bend, r.Multipliers[i], i)
		}
	}
	for j := range n { // x - y = Gᵀλ
		var g float64
		for i := range n - 2 {
			g += r.Multipliers[i] * rows[i*n+j]
		}
		if math.Abs(r.X[j]-y[j]-g) > 1e-9 {
			t.Errorf("residual %v at point %d, multipliers give %v", r.X[j]-y[j], j, g)
		}
	}
}
