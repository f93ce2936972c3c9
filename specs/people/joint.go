package people

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// joint is the distribution of all dimensions but the carrying angle within
// one sex of a population.
//
// Two scores drive it: a, the survey's normal score of stature, and g, its score of
// ln(body mass index); every other dimension's score is slope·(a, g) + residual, as
// in the survey. A civilian population changes only how these two are distributed: v
// and w are its own normal scores of stature and body mass index, correlated by rho;
// a is linear in v, and g follows from w.
type joint struct {
	sex      Sex
	dims     []dimension
	slope    [][2]float64  // of each dimension on a and g; for mass, of ln mass
	residual *mat.SymDense // covariance of the residuals, dimensions from firstOther on
	rho      float64       // correlation of v and w
	tall     tallness      // a from v
	bmi      lognormal     // body mass index by w
	nodes    []node        // of the integrals over w
}

// node is one point of an integral over w: its weight, and what follows from w.
type node struct {
	w, weight, g, bmi float64
}

// tallness is how a population's statures lie to the survey's: its score v of stature
// is the survey's score origin + stretch·v.
type tallness struct{ origin, stretch float64 }

func (t tallness) of(v float64) float64 { return t.origin + t.stretch*v }

// newJoint conditions the survey's correlation matrix on stature and body mass
// index.
func newJoint(s Sex, tall tallness, bmi lognormal) *joint {
	dims := dimensions()
	corr := scoreCorrelations(s)
	rho := corr[massIndex][statureIndex]
	j := &joint{sex: s, dims: dims, slope: make([][2]float64, len(dims)), rho: rho, tall: tall, bmi: bmi}

	stature := dims[statureIndex].survey[s]
	_, sd := logBMI(s)
	j.slope[statureIndex] = [2]float64{1, 0}
	// ln mass = ln(body mass index) + 2 ln stature, linear in a to within
	// half the square of stature's coefficient of variation, 0.08 %.
	j.slope[massIndex] = [2]float64{2 * stature.sd / stature.mean, sd}
	for i := firstOther; i < len(dims); i++ {
		ra, rg := corr[i][statureIndex], corr[i][massIndex]
		j.slope[i] = [2]float64{(ra - rho*rg) / (1 - rho*rho), (rg - rho*ra) / (1 - rho*rho)}
	}
	j.nodes = j.trapezoid()

	n := len(dims) - firstOther
	j.residual = mat.NewSymDense(n, nil)
	for i := range n {
		for k := range i + 1 {
			r := 1.0
			if k < i {
				r = corr[i+firstOther][k+firstOther]
			}
			b := j.slope[i+firstOther]
			c := corr[k+firstOther]
			j.residual.SetSym(i, k, r-b[0]*c[statureIndex]-b[1]*c[massIndex])
		}
	}
	return j
}

// surveyScore returns g, the survey's score of the body mass index at w.
func (j *joint) surveyScore(w float64) float64 {
	mean, sd := logBMI(j.sex)
	return (math.Log(j.bmi.value(w)) - mean) / sd
}

// The integrals over w run by the trapezoid rule from -reach to reach, outside
// of which 1e-15 of the probability lies. The narrowest integrand, the mass
// distribution, turns over within 0.28 in w, where a step of 0.2 leaves an
// error near exp(-2(π·0.28/0.2)²) = 1e-17.
const (
	reach = 8.0
	step  = 0.2
)

// trapezoid returns the nodes over w, their weights adding up to 1.
func (j *joint) trapezoid() []node {
	var nodes []node
	total := 0.0
	for k := -int(reach / step); k <= int(reach/step); k++ {
		w := float64(k) * step
		density := math.Exp(-w * w / 2)
		nodes = append(nodes, node{w, density, j.surveyScore(w), j.bmi.value(w)})
		total += density
	}
	for i := range nodes {
		nodes[i].weight /= total
	}
	return nodes
}

// mean returns the mean of f over w, standard normal.
func (j *joint) mean(f func(node) float64) float64 {
	sum := 0.0
	for _, n := range j.nodes {
		sum += n.weight * f(n)
	}
	return sum
}

// moments returns mean and variance of g and its covariance with w.
func (j *joint) moments() (mean, variance, withW float64) {
	mean = j.mean(func(n node) float64 { return n.g })
	variance = j.mean(func(n node) float64 { return (n.g - mean) * (n.g - mean) })
	withW = j.mean(func(n node) float64 { return n.w * n.g })
	return mean, variance, withW
}

// covariance returns the covariance matrix of all scores (of ln mass in
// mass's place) in the population.
func (j *joint) covariance() *mat.SymDense {
	_, variance, withW := j.moments()
	both := j.tall.stretch * j.rho * withW
	driving := [2][2]float64{{j.tall.stretch * j.tall.stretch, both}, {both, variance}}
	n := len(j.dims)
	cov := mat.NewSymDense(n, nil)
	for i := range n {
		for k := range i + 1 {
			c := 0.0
			for p := range 2 {
				for q := range 2 {
					c += j.slope[i][p] * driving[p][q] * j.slope[k][q]
				}
			}
			if k >= firstOther {
				c += j.residual.At(i-firstOther, k-firstOther)
			}
			cov.SetSym(i, k, c)
		}
	}
	return cov
}

// below returns the share of the population whose dimension i is below the
// value that has survey score z, and the share's slope in z; for mass, z is
// ln(mass, kg).
func (j *joint) below(i int, z float64) (share, slope float64) {
	if i == massIndex {
		stature := j.dims[statureIndex].survey[j.sex]
		spread := j.tall.stretch * math.Sqrt(1-j.rho*j.rho)
		mass := math.Exp(z)
		for _, n := range j.nodes {
			height := 1000 * math.Sqrt(mass/n.bmi)
			u := (stature.score(height) - j.tall.of(j.rho*n.w)) / spread
			share += n.weight * normalCDF(u)
			// The slope's own slope is of no matter to the root: a fine difference does.
			const fine = 1e-6
			du := (stature.score(height*(1+fine/2)) - stature.score(height)) / spread / fine
			slope += n.weight * normalDensity(u) * du
		}
		return share, slope
	}
	b := j.slope[i]
	own := b[0] * j.tall.stretch
	variance := own * own * (1 - j.rho*j.rho)
	if i >= firstOther {
		variance += j.residual.At(i-firstOther, i-firstOther)
	}
	spread := math.Sqrt(variance)
	for _, n := range j.nodes {
		u := (z - b[0]*j.tall.origin - own*j.rho*n.w - b[1]*n.g) / spread
		share += n.weight * normalCDF(u)
		slope += n.weight * normalDensity(u) / spread
	}
	return share, slope
}

// quantile returns dimension i at the population's normal score u, by root
// finding on the share below, taken as a normal score because that is nearly
// straight in z.
func (j *joint) quantile(i int, u float64) float64 {
	excess := func(z float64) (float64, float64) {
		const least = 1e-16 // keeps the score of a share that rounds to 0 or 1 finite
		share, slope := j.below(i, z)
		score := normalQuantile(clamp(share, least, 1-least))
		return score - u, slope / normalDensity(score)
	}
	mean, _, _ := j.moments()
	centre := j.slope[i][0]*j.tall.origin + j.slope[i][1]*mean
	if i == massIndex {
		metres := j.dims[statureIndex].survey[j.sex].mean / 1000
		centre = math.Log(j.bmi.value(0) * metres * metres)
	}
	z := root(excess, centre-1, centre+1)
	if i == massIndex {
		return math.Exp(z)
	}
	return j.dims[i].survey[j.sex].value(z) - j.dims[i].less
}

// maker returns what turns the scores of body mass index, of stature beside it and of
// the other dimensions beside both into a person's sizes.
func (j *joint) maker() maker {
	var chol mat.Cholesky
	if !chol.Factorize(j.residual) {
		panic("people: residual correlations are not positive definite")
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	curves := make([]shifted, len(j.dims))
	for i, d := range j.dims {
		curves[i] = d.survey[j.sex].shifted()
	}
	residual := mat.NewVecDense(j.residual.SymmetricDim(), nil)
	return func(normal []float64, p *Person) float64 {
		w := normal[0]
		v := j.rho*w + math.Sqrt(1-j.rho*j.rho)*normal[1]
		a := j.tall.of(v)
		residual.MulVec(&lower, mat.NewVecDense(residual.Len(), normal[firstOther:]))
		p.Stature = curves[statureIndex].value(a)
		p.Mass = j.bmi.value(w) * p.Stature * p.Stature / 1e6
		g := j.surveyScore(w)
		for i := firstOther; i < len(j.dims); i++ {
			z := j.slope[i][0]*a + j.slope[i][1]*g + residual.AtVec(i-firstOther)
			*j.dims[i].field(p) = curves[i].value(z) - j.dims[i].less
		}
		return v
	}
}

// root returns the zero of a rising function near lo..hi, to 1e-9, by Newton's
// steps from the middle, halving instead where one would leave the bracket. The
// function returns its value and its slope.
func root(f func(float64) (value, slope float64), lo, hi float64) float64 {
	const tolerance = 1e-9
	x := (lo + hi) / 2
	left, right := math.Inf(-1), math.Inf(1) // where it is known to be below and above zero
	const most = 200                         // halvings alone would need 60
	for range most {
		value, slope := f(x)
		if math.Abs(value) < tolerance {
			return x
		}
		if value < 0 {
			left = x
		} else {
			right = x
		}
		next := x - value/slope
		if !(next > left && next < right) {
			switch {
			case math.IsInf(left, 0):
				next = x - (hi - lo)
			case math.IsInf(right, 0):
				next = x + (hi - lo)
			default:
				next = (left + right) / 2
			}
		}
		if math.Abs(next-x) < tolerance {
			return next
		}
		x = next
	}
	return x
}
