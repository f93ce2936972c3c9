package strength

import (
	"math"
	"testing"
)

// The spread follows from published means and standard errors, and with what sex, age
// and size explain put back it meets another source's percentiles: men 42, 77 and 111
// N·m at 5, 50 and 95 % (Stobbe 1982, from memory).
func TestSpread(t *testing.T) {
	const explained = 0.28 // of the variance: 25 to 31 % (Harbo et al. 2012)
	for _, c := range []struct{ mean, standardError, n float64 }{{69.5, 4.3, 18}, {35.4, 2.4, 15}} {
		whole := c.standardError * math.Sqrt(c.n) / c.mean
		if got := whole * math.Sqrt(1-explained); math.Abs(got-Spread) > 0.005 {
			t.Errorf("mean %g: residual spread %.4f, want %g", c.mean, got, Spread)
		}
	}
	whole := Spread / math.Sqrt(1-explained)
	for percentile, want := range map[float64]float64{0.05: 42, 0.5: 77, 0.95: 111} {
		if got := 77 * (1 + Stronger(percentile, whole)); math.Abs(got-want) > 2.5 {
			t.Errorf("at %g: %.1f N·m, want %g", percentile, got, want)
		}
	}
}
