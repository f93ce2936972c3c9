package nlp

import (
	"math"
	"math/rand/v2"
)

// Spread returns x0, in the bounds, and k-1 points spread over them by Latin hypercube
// sampling (McKay, Beckman and Conover 1979); along variables without finite bounds
// the points spread ten scales about x0.
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
