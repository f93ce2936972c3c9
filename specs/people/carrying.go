package people

import "math"

// Carrying is the distribution of the carrying angle by Sex, rad: normal,
// truncated to 2..28 degrees. It is independent of all other dimensions within
// a sex: a correlation with stature is published only for both sexes pooled
// (r = -0.47, Acikgoz et al. 2018), where it mostly tells the sexes apart.
type Carrying struct {
	Mean, SD [2]float64
}

// DefaultCarrying returns the angles of Van Roy et al. 2005 (20 adults, both
// elbows): women 16.7 ± 2.6, men 11.6 ± 3.2 degrees.
func DefaultCarrying() Carrying {
	return Carrying{
		Mean: [2]float64{Woman: 16.7 * degree, Man: 11.6 * degree},
		SD:   [2]float64{Woman: 2.6 * degree, Man: 3.2 * degree},
	}
}

const degree = math.Pi / 180

// The carrying angle is held to what the studies at hand found in adults, 5 to
// 22 degrees, widened by the 6.5 degrees within which 95 % of goniometer
// readings lie (Chapleau et al. 2011), and never to a varus elbow.
const (
	leastCarrying    = 2 * degree
	greatestCarrying = 28 * degree
)

// quantile returns the carrying angle of sex s at share q, rad. The ends 0 and
// 1 are the ends of the truncated range.
func (c Carrying) quantile(s Sex, q float64) float64 {
	mean, sd := c.Mean[s], c.SD[s]
	if sd <= 0 {
		return clamp(mean, leastCarrying, greatestCarrying)
	}
	below := normalCDF((leastCarrying - mean) / sd)
	within := normalCDF((greatestCarrying-mean)/sd) - below
	if within <= 0 {
		return clamp(mean, leastCarrying, greatestCarrying)
	}
	return clamp(mean+sd*normalQuantile(below+q*within), leastCarrying, greatestCarrying)
}

// clamp holds x within lo..hi.
func clamp(x, lo, hi float64) float64 { return math.Min(math.Max(x, lo), hi) }
