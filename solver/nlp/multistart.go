package nlp

import (
	"context"
	"math"
	"math/rand/v2"
)

// Starts is the outcome of MultiStart.
type Starts struct {
	Best Result   // usable if any start was, and then of least F; else of least violation
	Runs []Result // one a start, the first from x0
	// Agreed counts the usable runs whose F is within AgreeWithin of the best.
	Agreed int
	Usable int
}

// AgreeWithin is the difference of objectives, relative to the larger of the best
// one and 1, up to which two runs agree: ten times the stationarity tolerance.
const AgreeWithin = 1e-5

// MultiStart runs Minimize from x0 and from further points spread over the bounds
// by Latin hypercube sampling (McKay, Beckman and Conover 1979) with the seed of
// the settings; along variables without finite bounds the points spread ten scales
// about x0. Warm data serve the first start only. The error is as for Minimize; on
// cancellation the runs finished so far are returned with it.
func MultiStart(ctx context.Context, p Problem, x0 []float64, s *Settings) (Starts, error) {
	t, err := s.resolve()
	if err != nil {
		return Starts{}, err
	}
	if t.Starts == 0 {
		t.Starts = 8
	}
	if err := p.validate(); err != nil {
		return Starts{}, err
	}
	if err := p.validateStart("x0", x0); err != nil {
		return Starts{}, err
	}
	var out Starts
	for k, x := range p.Spread(x0, t.Starts, t.Seed) {
		r, err := Minimize(ctx, p, x, &t)
		if err != nil || r.Status == UserStop {
			return out, err
		}
		t.Warm = nil
		out.Runs = append(out.Runs, r)
		if k == 0 || better(&r, &out.Best) {
			out.Best = r
		}
	}
	for _, r := range out.Runs {
		if !r.Status.Usable() {
			continue
		}
		out.Usable++
		if out.Best.Status.Usable() && math.Abs(r.F-out.Best.F) <= AgreeWithin*math.Max(1, math.Abs(out.Best.F)) {
			out.Agreed++
		}
	}
	return out, nil
}

// better reports whether a is to be preferred to b.
func better(a, b *Result) bool {
	if ua, ub := a.Status.Usable(), b.Status.Usable(); ua != ub {
		return ua
	} else if ua {
		return a.F < b.F
	}
	if na, nb := a.Status == NotFinite, b.Status == NotFinite; na != nb {
		return nb
	}
	return a.KKT.Violation < b.KKT.Violation
}

// Spread returns x0, in the bounds, and k-1 points of a Latin hypercube over them;
// see MultiStart.
func (p *Problem) Spread(x0 []float64, k int, seed uint64) [][]float64 {
	rng := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15)) // any fixed stream
	x := make([][]float64, k)
	x[0] = p.clip(x0)
	for i := 1; i < k; i++ {
		x[i] = append([]float64(nil), x[0]...)
	}
	for j := range p.N {
		lo, hi := p.bounds(j)
		const reach = 10 // scales about x0 where there is no bound
		if math.IsInf(lo, -1) {
			lo = math.Min(x[0][j], hi) - reach*p.scale(j, x[0][j])
		}
		if math.IsInf(hi, 1) {
			hi = math.Max(x[0][j], lo) + reach*p.scale(j, x[0][j])
		}
		order := rng.Perm(k - 1)
		for i := 1; i < k; i++ {
			u := (float64(order[i-1]) + rng.Float64()) / float64(k-1)
			x[i][j] = math.Min(math.Max(lo+u*(hi-lo), lo), hi)
		}
	}
	return x
}
