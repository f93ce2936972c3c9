package people

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// symmetric is the skewness below which a dimension is taken as normal: the
// shifted lognormal tends to the normal there, but its formula cancels. At
// 1e-3 the two differ by less than 1e-3 standard deviations for |z| < 3.
const symmetric = 1e-3

// marginal is the distribution of one body dimension within one sex: a
// lognormal shifted, scaled and, for negative skewness, mirrored so that mean,
// standard deviation and skewness are the survey's. It joins a value x to its
// normal score z, which is what all correlations in this package are between.
type marginal struct {
	mean, sd, skew float64
}

// shape returns exp(s²) - 1 and s of the lognormal exp(s·z) with the given
// skewness g >= 0. Skewness and w = exp(s²) are tied by g² = (w+2)²(w-1), a
// cubic in w with the one real root used here.
func shape(g float64) (excess, s float64) {
	half := g * g / 2
	root := g * math.Sqrt(1+g*g/4)
	w := math.Cbrt(1+half+root) + math.Cbrt(1+half-root) - 1
	return w - 1, math.Sqrt(math.Log(w))
}

// value returns the dimension at normal score z.
func (m marginal) value(z float64) float64 { return m.shifted().value(z) }

// shifted is a marginal made ready for many values.
type shifted struct {
	mean, sd, sign, s, root float64 // root 0 is the normal
}

func (m marginal) shifted() shifted {
	if math.Abs(m.skew) < symmetric {
		return shifted{mean: m.mean, sd: m.sd}
	}
	excess, s := shape(math.Abs(m.skew))
	return shifted{m.mean, m.sd, math.Copysign(1, m.skew), s, math.Sqrt(excess)}
}

func (l shifted) value(z float64) float64 {
	if l.root == 0 {
		return l.mean + l.sd*z
	}
	return l.mean + l.sign*l.sd*math.Expm1(l.sign*l.s*z-l.s*l.s/2)/l.root
}

// score returns the normal score of x, the inverse of value. Beyond the end
// of the shifted lognormal, where no person can be, it is -farScore or
// farScore.
func (m marginal) score(x float64) float64 {
	y := (x - m.mean) / m.sd
	if math.Abs(m.skew) < symmetric {
		return y
	}
	excess, s := shape(math.Abs(m.skew))
	sign := math.Copysign(1, m.skew)
	t := sign * y * math.Sqrt(excess)
	if t <= -1 {
		return -sign * farScore
	}
	return sign * (math.Log1p(t) + s*s/2) / s
}

// scored returns the normal scores, origin + stretch·z with z standard normal, whose
// values have the given mean and standard deviation. Values are c + k·exp(t·score),
// so those of such scores have the mean c + k·exp(t·origin + v/2) and a coefficient of
// variation about c whose square is exp(v) - 1, v = (t·stretch)².
func (m marginal) scored(mean, sd float64) (origin, stretch float64) {
	if math.Abs(m.skew) < symmetric {
		return (mean - m.mean) / m.sd, sd / m.sd
	}
	excess, s := shape(math.Abs(m.skew))
	sign := math.Copysign(1, m.skew)
	end := m.mean - sign*m.sd/math.Sqrt(excess)
	scale := sign * m.sd * math.Exp(-s*s/2) / math.Sqrt(excess)
	from := (mean - end) / scale // positive where the mean lies on the curve's side of its end
	v := math.Log1p(sd * sd / ((mean - end) * (mean - end)))
	return (math.Log(math.Max(from, math.SmallestNonzeroFloat64)) - v/2) / (sign * s), math.Sqrt(v) / s
}

// farScore stands for "beyond everybody": the normal probability beyond it is
// below 1e-23.
const farScore = 10

// normalQuantile is the standard normal's inverse distribution function.
func normalQuantile(q float64) float64 { return mathext.NormalQuantile(q) }

// normalDensity is the standard normal's density.
func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// normalCDF is the standard normal's distribution function.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
