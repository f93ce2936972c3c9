package people

import (
	"math"

	"armwright/specs/angle"
)

// Carrying is the distribution of the carrying angle by Sex, rad: normal,
// truncated to 2..28 degrees.
//
// Stature is the correlation with stature within a sex, -1..1. It is published
// only for both sexes pooled (r = -0.474, 400 adults, Acikgoz et al. 2018),
// where it mostly tells the sexes apart: with that study's means and standard
// deviations and the survey's statures about -0.2 is left within a sex
// (derived). The default is 0, independence.
type Carrying struct {
	Mean, SD [2]float64
	Stature  float64
}

// DefaultCarrying returns the angles of Van Roy et al. 2005 (20 adults, both
// elbows): women 16.7 ± 2.6, men 11.6 ± 3.2 degrees.
func DefaultCarrying() Carrying {
	return Carrying{
		Mean: [2]float64{Woman: 16.7 * angle.Degree, Man: 11.6 * angle.Degree},
		SD:   [2]float64{Woman: 2.6 * angle.Degree, Man: 3.2 * angle.Degree},
	}
}

// The carrying angle is held to what the studies at hand found in adults, 5 to
// 22 degrees, widened by the 6.5 degrees within which 95 % of goniometer
// readings lie (Chapleau et al. 2011), and never to a varus elbow.
const (
	leastCarrying    = 2 * angle.Degree
	greatestCarrying = 28 * angle.Degree
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

// of returns the carrying angle of a person of sex s whose stature has normal
// score a, at share q of the persons of that stature.
func (c Carrying) of(s Sex, a, q float64) float64 {
	if c.Stature != 0 {
		q = normalCDF(c.Stature*a + math.Sqrt(1-c.Stature*c.Stature)*normalQuantile(q))
	}
	return c.quantile(s, q)
}

// clamp holds x within lo..hi.
func clamp(x, lo, hi float64) float64 { return math.Min(math.Max(x, lo), hi) }
