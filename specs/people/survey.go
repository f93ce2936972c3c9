package people

import "math"

// lognormal is a shifted lognormal of a positive quantity,
// shift + scale·exp(s·z) with z standard normal.
type lognormal struct {
	shift, scale, s float64
}

// fitQuantiles returns the shifted lognormal through the 5th, 50th and 95th
// percentile; they must rise and lie further apart above than below.
func fitQuantiles(p5, p50, p95 float64) lognormal {
	shift := (p5*p95 - p50*p50) / (p5 + p95 - 2*p50)
	scale := p50 - shift
	return lognormal{shift, scale, math.Log((p95-shift)/scale) / normalQuantile(0.95)}
}

// value returns the quantity at normal score z.
func (l lognormal) value(z float64) float64 { return l.shift + l.scale*math.Exp(l.s*z) }

// civilianBMI returns the body mass index, kg/m², of civilians aged 20 and
// over, through the weighted 5th, 50th and 95th percentiles of a 2009-2012
// national health survey (5487 men, 5765 women). The tabulated 1st and 99th are met within 1 kg/m².
func civilianBMI(s Sex) lognormal {
	return [2]lognormal{
		fitQuantiles(19.6, 27.4, 42.5),
		fitQuantiles(20.7, 27.8, 39.4),
	}[s]
}

// workingBMI is civilianBMI of the ages 18 to 65 (4522 men, 4730 women).
func workingBMI(s Sex) lognormal {
	return [2]lognormal{
		fitQuantiles(19.5, 27.2, 42.8),
		fitQuantiles(20.6, 27.6, 39.6),
	}[s]
}

// surveyStature is the tallness of the 2012 survey itself.
func surveyStature() tallness { return tallness{0, 1} }

// nationalStature and workingStature have the weighted mean and standard deviation of
// stature in the 2009-2012 national health survey, mm: of ages 20 and over (5485 men,
// 5765 women) and of ages 18 to 65 (4529 men, 4735 women).
func nationalStature(s Sex) tallness {
	return tallnessOf(s, [2][2]float64{{1619.5, 72.0}, {1758.2, 76.4}}[s])
}

func workingStature(s Sex) tallness {
	return tallnessOf(s, [2][2]float64{{1627.2, 70.3}, {1763.8, 75.3}}[s])
}

func tallnessOf(s Sex, meanSD [2]float64) tallness {
	origin, stretch := dimensions()[statureIndex].survey[s].scored(meanSD[0], meanSD[1])
	return tallness{origin, stretch}
}

// surveyBMI returns the body mass index, kg/m², of the 2012 survey.
func surveyBMI(s Sex) lognormal {
	mean, sd := logBMI(s)
	return lognormal{0, math.Exp(mean), sd}
}
