package nlp

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// matrix returns L Lᵀ.
func (f *factor) matrix() *mat.Dense {
	l := mat.NewDense(f.n, f.n, f.l)
	var b mat.Dense
	b.Mul(l, l.T())
	return &b
}

func draw(t *rapid.T, k int, name string) []float64 {
	return rapid.SliceOfN(rapid.Float64Range(-2, 2), k, k).Draw(t, name)
}

// The factored update is the BFGS formula B - Bs sᵀB/sᵀBs + yyᵀ/yᵀs (Nocedal and
// Wright 2006, eq. 6.19) with Powell's y, and keeps its secant condition.
func TestUpdateIsBFGS(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		f := newFactor(n)
		a := draw(t, n*n, "a")
		f.qr(a, n, .5)
		s, y := draw(t, n, "s"), draw(t, n, "y")
		if dot(s, s) < 1e-3 {
			t.Skip("no step")
		}
		before := f.matrix()
		damped := f.update(s, y) // y is now the damped change

		var bs mat.VecDense
		bs.MulVec(before, mat.NewVecDense(n, s))
		sbs, sy := mat.Dot(&bs, mat.NewVecDense(n, s)), dot(s, y)
		if sy < damping*sbs*(1-1e-9) || damped && math.Abs(sy-damping*sbs) > 1e-9*sbs {
			t.Fatalf("curvature %v of %v", sy, sbs)
		}
		want := mat.DenseCopyOf(before)
		want.RankOne(want, -1/sbs, &bs, &bs)
		yv := mat.NewVecDense(n, y)
		want.RankOne(want, 1/sy, yv, yv)
		if !mat.EqualApprox(f.matrix(), want, 1e-8*(1+mat.Max(want))) {
			t.Fatalf("got\n%v\nwant\n%v", mat.Formatted(f.matrix()), mat.Formatted(want))
		}
		for i := range n {
			if f.l[i*n+i] <= 0 {
				t.Fatal("diagonal not positive")
			}
			for j := i + 1; j < n; j++ {
				if f.l[i*n+j] != 0 {
					t.Fatal("not lower triangular")
				}
			}
		}
	})
}

// Two ways to the same factor, and its uses.
func TestFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 5).Draw(t, "n"), rapid.IntRange(1, 7).Draw(t, "m")
		a := draw(t, m*n, "a")
		f, g := newFactor(n), newFactor(n)
		f.qr(a, m, 1)
		var h mat.Dense
		d := mat.NewDense(m, n, a)
		h.Mul(d.T(), d)
		for i := range n {
			h.Set(i, i, h.At(i, i)+1)
		}
		if !g.cholesky(h.RawMatrix().Data) {
			t.Fatal("not positive definite")
		}
		if !mat.EqualApprox(mat.NewDense(n, n, f.l), mat.NewDense(n, n, g.l), 1e-10) {
			t.Fatalf("%v and %v", f.l, g.l)
		}
		x := draw(t, n, "x")
		y := make([]float64, n)
		f.mul(y, x)
		f.solve(y)
		inv := make([]float64, n*n)
		f.invert(inv)
		var unit mat.Dense
		unit.Mul(mat.NewDense(n, n, inv), mat.NewDense(n, n, f.l))
		for i := range n {
			if math.Abs(y[i]-x[i]) > 1e-10 || math.Abs(unit.At(i, i)-1) > 1e-10 {
				t.Fatalf("solve returns %v for %v", y, x)
			}
		}
	})
	if newFactor(2).cholesky([]float64{1, 2, 2, 1}) {
		t.Error("indefinite matrix factored")
	}
}

// The conditions of Kuhn and Tucker suffice: Aᵀ(b-Ax) <= 0, zero where x > 0.
func TestNNLS(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 6).Draw(t, "n"), rapid.IntRange(1, 6).Draw(t, "m")
		a := make([][]float64, n)
		for k := range a {
			a[k] = make([]float64, m)
			for i, v := range rapid.SliceOfN(rapid.IntRange(-2, 2), m, m).Draw(t, "column") {
				a[k][i] = float64(v)
			}
		}
		b := draw(t, m, "b")
		x := nnls(a, b)
		res := append([]float64(nil), b...)
		for k, c := range a {
			axpy(res, -x[k], c)
		}
		for k, c := range a {
			if g := dot(c, res); x[k] < 0 || g > 1e-8 || x[k] > 1e-8 && g < -1e-8 {
				t.Fatalf("x%d = %v with gradient %v", k, x[k], g)
			}
		}
	})
}

// Wherever the multipliers start, the answer is the same.
func TestDualStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 4).Draw(t, "n"), rapid.IntRange(1, 8).Draw(t, "m")
		d := newDual(n, m)
		d.f = newFactor(n)
		d.f.qr(draw(t, n*n, "h"), n, 1)
		d.g, d.a, d.b = draw(t, n, "g"), draw(t, m*n, "a"), draw(t, m, "b")
		for range m {
			d.cap = append(d.cap, rapid.Float64Range(0, 3).Draw(t, "cap"))
			d.equality = append(d.equality, rapid.Bool().Draw(t, "equality"))
		}
		if s := d.solve(); s != Converged {
			t.Fatal(s)
		}
		cold := append([]float64(nil), d.x...)
		d.start = draw(t, m+2*n, "start")
		for k := m; k < m+2*n; k++ {
			d.start[k] = 0
		}
		if s := d.solve(); s != Converged {
			t.Fatal(s)
		}
		for j, v := range cold {
			if math.Abs(d.x[j]-v) > 1e-8*(1+math.Abs(v)) {
				t.Fatalf("x = %v, cold %v", d.x, cold)
			}
		}
	})
}
