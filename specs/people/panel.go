package people

import (
	"iter"
	"math/rand/v2"
)

// Panel yields n persons who stand for the population more evenly than random ones, women
// first, their number n times the share of women, rounded, without labels: of each
// sex one from every n-th part of each score that sizes follow from (Latin hypercube;
// McKay, Beckman & Conover 1979). The same n gives the same persons, none of whom Draw
// yields.
func (p Population) Panel(n int) iter.Seq[Person] {
	return p.each(n, func(s Sex, n int) scores {
		random := rand.New(rand.NewPCG(panelSeed, uint64(s)))
		parts := map[int][]int{} // by score: the part that each person is from
		part := func(score, person int) float64 {
			order, known := parts[score]
			if !known {
				order = random.Perm(n)
				parts[score] = order
			}
			return (float64(order[person]) + random.Float64()) / float64(n)
		}
		person := -1
		return func(normal []float64) (share float64) {
			person++
			for i := range normal {
				normal[i] = normalQuantile(part(i, person))
			}
			return part(len(normal), person)
		}
	})
}

// panelSeed is beyond the seeds that a brief may give, so that no draw repeats it.
const panelSeed = 1 << 40
