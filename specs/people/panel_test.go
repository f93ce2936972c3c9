package people

import (
	"math"
	"slices"
	"testing"
)

// A panel stands for the population more evenly than a draw: of 200 persons, the mean of
// each dimension lies within half of what would be its standard error of that of 40000
// random ones, and the spread within a fifth. The persons are those of their number,
// and no draw's.
func TestPanelIsEven(t *testing.T) {
	pop := civilian()
	const n = 200
	panel := slices.Collect(pop.Panel(n))
	if again := slices.Collect(pop.Panel(n)); !slices.Equal(panel, again) {
		t.Error("the same number gives other persons")
	}
	random := pop.sample(40000, 1)
	for _, sex := range sexes {
		for _, dim := range append(machineDimensions(), carryingName) {
			moments := func(list []Person) (mean, sd float64, n int) {
				for i := range list {
					if p := &list[i]; p.Sex == sex {
						x, _ := p.Dimension(dim)
						mean, sd, n = mean+x, sd+x*x, n+1
					}
				}
				mean /= float64(n)
				return mean, math.Sqrt(sd/float64(n) - mean*mean), n
			}
			got, spread, count := moments(panel)
			want, sd, _ := moments(random)
			if off := math.Abs(got-want) / (sd / math.Sqrt(float64(count))); off > 0.5 {
				t.Errorf("%s, %s: mean %.4g, of many %.4g: %.2f standard errors", sex, dim, got, want, off)
			}
			if math.Abs(spread/sd-1) > 0.2 {
				t.Errorf("%s, %s: standard deviation %.4g, of many %.4g", sex, dim, spread, sd)
			}
		}
	}
	drawn := map[float64]bool{}
	for _, p := range random {
		drawn[p.Stature] = true
	}
	for _, p := range panel {
		if drawn[p.Stature] {
			t.Errorf("%v is drawn, too", p)
		}
	}
}
