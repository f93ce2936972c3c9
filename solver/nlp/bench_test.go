package nlp_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"armwright/solver/nlp"
	"armwright/solver/nlp/testproblems"
)

func BenchmarkPolygon25(b *testing.B) {
	p := testproblems.Polygon(25)
	b.ReportAllocs()
	for b.Loop() {
		r, err := nlp.Minimize(context.Background(), p.Problem, p.X0, nil)
		if err != nil || !r.Status.Usable() {
			b.Fatal(r.Status, err)
		}
		b.ReportMetric(float64(r.Stats.Evaluations), "evals")
	}
}

// randomQP draws a program that the origin satisfies.
func randomQP(n, m int, seed uint64) nlp.QP {
	rng := rand.New(rand.NewPCG(seed, 1))
	v := func(k int) []float64 {
		x := make([]float64, k)
		for i := range x {
			x[i] = rng.NormFloat64()
		}
		return x
	}
	q := nlp.QP{N: n, M: m, H: make([]float64, n*n), G: v(n), A: v(m * n), B: v(m)}
	f := v(n * n)
	for i := range n {
		for j := range n {
			for k := range n {
				q.H[i*n+j] += f[i*n+k] * f[j*n+k] / float64(n)
			}
		}
		q.H[i*n+i] += .1
		q.G[i] *= 3
	}
	for i := range m {
		q.B[i] = -math.Abs(q.B[i])
	}
	return q
}

func BenchmarkQP20x500(b *testing.B) {
	q := randomQP(20, 500, 1)
	r, err := q.Solve()
	if err != nil || r.Status != nlp.Converged {
		b.Fatal(r.Status, err)
	}
	b.Run("cold", func(b *testing.B) {
		for b.Loop() {
			r, _ = q.Solve()
		}
		b.ReportMetric(float64(r.Iterations), "steps")
	})
	q.Warm = r.Active
	b.Run("warm", func(b *testing.B) {
		for b.Loop() {
			r, _ = q.Solve()
		}
		b.ReportMetric(float64(r.Iterations), "steps")
	})
}

// bowls is the size of the practical use: n variables in bounds, m smooth rows of
// which few bind, one model call for all values and no derivatives.
func bowls(n, m int) (nlp.Problem, []float64) {
	rng := rand.New(rand.NewPCG(3, 4))
	p := nlp.Problem{N: n, M: m}
	for range n {
		p.Lower, p.Upper = append(p.Lower, -2), append(p.Upper, 2)
	}
	a := make([]float64, m*n)
	for i := range a {
		a[i] = rng.NormFloat64()
	}
	p.Both = func(c, x []float64) float64 {
		var f float64
		for j, v := range x {
			f += float64(1+j%3)*(v-1.5)*(v-1.5) + .1*math.Sin(3*v)
		}
		for i := range m {
			s := 4.
			for j, v := range x {
				s -= a[i*n+j]*v + .1*v*v*math.Cos(float64(i))
			}
			c[i] = s
		}
		return f
	}
	return p, make([]float64, n)
}

// BenchmarkVariables shows how a solve grows with the variables and with the
// rows, derivatives by differences; 25 by 800 is the size of a station.
func BenchmarkVariables(b *testing.B) {
	for _, size := range [][2]int{{25, 800}, {6, 800}, {12, 800}, {50, 800}, {25, 200}, {25, 400}, {25, 1600}} {
		b.Run(fmt.Sprintf("variables=%d/rows=%d", size[0], size[1]), func(b *testing.B) { benchmarkBowls(b, size[0], size[1]) })
	}
}

func benchmarkBowls(b *testing.B, n, m int) {
	p, x0 := bowls(n, m)
	var r nlp.Result
	for b.Loop() {
		var err error
		if r, err = nlp.Minimize(context.Background(), p, x0, nil); err != nil || !r.Status.Usable() {
			b.Fatal(r.Status, err)
		}
	}
	b.ReportMetric(float64(r.Stats.Evaluations+r.Stats.Differences), "evals")
	b.ReportMetric(float64(r.Stats.Iterations), "iterations")
	b.ReportMetric(float64(r.Stats.QPIterations), "qpsteps")
	b.ReportMetric(float64(len(r.Active)), "active")
}
