package cam

import "math"

// BendRadius returns the least radius, to the cable centre, of anything a
// cable of diameter d may bend round at the tread ratio D/d. Published for
// 7x19: 18 critical, 24 desirable; for 7x7: 28 and 42.
func BendRadius(treadRatio, d float64) float64 { return treadRatio * d / 2 }

// Groove is the cross-section of a cable groove.
type Groove struct {
	LeastRadius, GreatestRadius float64 // of the groove's bottom
	Depth                       float64 // from rim to root
}

// NewGroove returns the groove for a cable of diameter d, jacket included:
// radius 0.53 to 0.55 d and depth 1.5 d, the common rope-maker's figures.
func NewGroove(d float64) Groove {
	return Groove{LeastRadius: .53 * d, GreatestRadius: .55 * d, Depth: 1.5 * d}
}

// Capstan returns the ratio of the two tensions of a cable about to slip round
// a wrap angle, rad, at the coefficient of friction mu (Euler and Eytelwein).
// Its inverse is the share of the tension that reaches the anchor behind a
// dead wrap.
func Capstan(mu, wrap float64) float64 { return math.Exp(mu * wrap) }
