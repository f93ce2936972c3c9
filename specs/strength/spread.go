package strength

import "gonum.org/v1/gonum/mathext"

// Spread is the residual standard deviation of peak elbow-flexion torque among people
// of the same sex, age and size, as a share of their mean. Derived: men have 69.5 N·m
// with a standard error of 4.3 (18 men), women 35.4 with 2.4 (15 women; Tsunoda et al.
// 1993, S), which is a spread of 26 % in either, of whose variance sex, age and size
// explain 28 % (Harbo et al. 2012: 25 to 31 %, S): 26 % times the root of 0.72. 199 men
// who all trained have 16 % (Lategan & Krüger 2003, S).
const Spread = 0.22

// Stronger is how much stronger than the mean of the like somebody at a percentile is,
// share: percentile and spread as fractions, the percentile between 0 and 1, both
// excluded.
func Stronger(percentile, spread float64) float64 {
	return spread * mathext.NormalQuantile(percentile)
}
