package people

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Table is a population given by means, standard deviations and correlations of body
// dimensions, by Sex. What it does not hold follows the 2012 survey: correlations
// where none is given, and other dimensions by regression on the given ones, with the
// survey's spread about it. Stature and mass of both sexes are needed.
type Table [2][]Given

// Given is what a Table says of one dimension of Dimensions, all but the carrying
// angle: mm, kg for mass, as a Person has it.
type Given struct {
	Dimension string
	Mean, SD  float64
	With      []Correlation
}

// Correlation is that with another dimension of the same sex, -1..1 exclusive, said
// with either of the two.
type Correlation struct {
	Dimension string
	R         float64
}

// TableError tells what of a Table cannot be used.
type TableError struct {
	Sex    Sex
	At     int // index among the dimensions of the sex, -1 for what is missing
	What   string
	Advice string
}

func (e *TableError) Error() string { return e.What }

// Hint says what to do about it.
func (e *TableError) Hint() string { return e.Advice }

// Validate reports the first thing that cannot be used, as a *TableError: a dimension
// that is not known or given twice, a mean that no people have, a deviation that is
// not between a thousandth and half of the mean, and correlations that contradict one
// another.
func (t *Table) Validate() error {
	for _, s := range []Sex{Woman, Man} {
		if _, _, err := t.given(s); err != nil {
			return err
		}
	}
	return nil
}

// given reads a sex's dimensions: their places among dimensions() and the correlation
// of every two, nil where none is given.
func (t *Table) given(s Sex) (places []int, r map[[2]int]float64, err error) {
	fail := func(at int, hint, format string, args ...any) ([]int, map[[2]int]float64, error) {
		return nil, nil, &TableError{s, at, fmt.Sprintf(format, args...), hint}
	}
	for at, g := range t[s] {
		i, err := indexOf(g.Dimension)
		switch {
		case err != nil:
			return fail(at, "the names are those of armwright show people, all but the carrying angle", "%s: no dimension %q", s, g.Dimension)
		case slices.Contains(places, i):
			return fail(at, "keep one of the two", "%s of a %s is given twice", g.Dimension, s)
		}
		low, high := plausible(i)
		if !(g.Mean >= low && g.Mean <= high) {
			return fail(at, whichUnit(i, g.Mean), "%s: a mean of %g is outside what people measure", g.Dimension, g.Mean)
		}
		if !(g.SD >= g.Mean/1000 && g.SD <= g.Mean/2) {
			return fail(at, "between a thousandth and half of the mean", "%s: a standard deviation of %g beside a mean of %g", g.Dimension, g.SD, g.Mean)
		}
		places = append(places, i)
	}
	for _, need := range []int{statureIndex, massIndex} {
		if !slices.Contains(places, need) {
			return fail(-1, "stature and mass of women and of men are needed", "%s of a %s is missing", dimensions()[need].name, s)
		}
	}
	r = map[[2]int]float64{}
	for at, g := range t[s] {
		for _, c := range g.With {
			k, err := indexOf(c.Dimension)
			pair := [2]int{min(places[at], k), max(places[at], k)}
			known, twice := r[pair]
			switch {
			case err != nil || !slices.Contains(places, k) || k == places[at]:
				return fail(at, "write it between two dimensions that the table has", "%s: a correlation with %q", g.Dimension, c.Dimension)
			case !(math.Abs(c.R) < 1):
				return fail(at, "a correlation lies between -1 and 1", "%s: a correlation of %g with %s", g.Dimension, c.R, c.Dimension)
			case twice && known != c.R:
				return fail(at, "say it once", "%s: correlations of %g and %g with %s", g.Dimension, known, c.R, c.Dimension)
			}
			r[pair] = c.R
		}
	}
	corr := correlated(s, places, r)
	var chol mat.Cholesky
	for n := 1; n <= len(places); n++ { // the first that contradicts those before it
		var head mat.SymDense
		head.SubsetSym(corr, upTo(n))
		if !chol.Factorize(&head) || chol.Cond() > worstCondition {
			return fail(n-1, "correlations of three dimensions bind one another; leave some out to take the survey's",
				"%s of a %s: its correlations contradict those of the dimensions before it", t[s][n-1].Dimension, s)
		}
	}
	return places, r, nil
}

// worstCondition of a matrix of correlations: the survey's own, of all dimensions, is
// below 1e4, and sizes are to keep six digits of the sixteen there are.
const worstCondition = 1e8

func upTo(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// correlated is the correlation matrix of given dimensions, the survey's where none is
// given.
func correlated(s Sex, places []int, r map[[2]int]float64) *mat.SymDense {
	var survey mat.SymDense
	correlation(&survey, newJoint(s, surveyStature(), surveyBMI(s)).covariance())
	corr := mat.NewSymDense(len(places), nil)
	for a, i := range places {
		for b, k := range places[:a+1] {
			v, given := r[[2]int{min(i, k), max(i, k)}]
			if !given {
				v = survey.At(i, k)
			}
			corr.SetSym(a, b, v)
		}
	}
	return corr
}

// tabled is the distribution of one sex of a Table: all scores (ln mass in mass's
// place) jointly normal.
type tabled struct {
	sex  Sex
	dims []dimension
	mean []float64
	cov  *mat.SymDense
}

// newTabled gives the given dimensions the scores that have their means and
// deviations, and the others the survey's regression on those with its spread.
func newTabled(s Sex, t *Table) *tabled {
	places, r, err := t.given(s)
	if err != nil {
		panic(err)
	}
	d := &tabled{sex: s, dims: dimensions()}
	survey := newJoint(s, surveyStature(), surveyBMI(s)).covariance()
	n, g := len(d.dims), len(places)
	centre := make([]float64, n) // of the survey's scores
	logIndex, _ := logBMI(s)
	centre[massIndex] = logIndex + 2*math.Log(d.dims[statureIndex].survey[s].mean/1000)

	shift := mat.NewVecDense(g, nil)
	sd := make([]float64, g)
	for a, i := range places {
		m, dev := t[s][a].Mean, t[s][a].SD
		if i == massIndex {
			w := math.Log1p(dev * dev / (m * m))
			sd[a] = math.Sqrt(w)
			shift.SetVec(a, math.Log(m)-w/2-centre[i])
			continue
		}
		origin, stretch := d.dims[i].survey[s].scored(m+d.dims[i].less, dev)
		sd[a] = stretch
		shift.SetVec(a, origin)
	}
	wanted := correlated(s, places, r)
	for a := range g {
		for b := range a + 1 {
			wanted.SetSym(a, b, wanted.At(a, b)*sd[a]*sd[b])
		}
	}

	// With G the survey's covariance of the given and A that of all with the given,
	// all follow by B = A G⁻¹: mean B·shift, covariance S + B (wanted - G) Bᵀ.
	var given mat.SymDense
	given.SubsetSym(survey, places)
	across := mat.NewDense(g, n, nil)
	for a, i := range places {
		for k := range n {
			across.Set(a, k, survey.At(i, k))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(&given) {
		panic("people: the survey's correlations are not positive definite")
	}
	var slope mat.Dense // Bᵀ
	if err := chol.SolveTo(&slope, across); err != nil {
		panic(err)
	}
	var moved mat.VecDense
	moved.MulVec(slope.T(), shift)
	d.mean = make([]float64, n)
	for k := range n {
		d.mean[k] = centre[k] + moved.AtVec(k)
	}
	var wider, right, change mat.Dense
	wider.Sub(wanted, &given)
	right.Mul(&wider, &slope)
	change.Mul(slope.T(), &right)
	d.cov = mat.NewSymDense(n, nil)
	for i := range n {
		for k := range i + 1 {
			d.cov.SetSym(i, k, survey.At(i, k)+(change.At(i, k)+change.At(k, i))/2)
		}
	}
	return d
}

func (d *tabled) covariance() *mat.SymDense { return d.cov }

func (d *tabled) quantile(i int, u float64) float64 {
	return d.size(i, d.mean[i]+u*math.Sqrt(d.cov.At(i, i)))
}

// size is dimension i at a score, for mass its logarithm.
func (d *tabled) size(i int, score float64) float64 {
	if i == massIndex {
		return math.Exp(score)
	}
	return d.dims[i].survey[d.sex].value(score) - d.dims[i].less
}

func (d *tabled) maker() maker {
	// Mass and stature come first, as in a joint.
	n := len(d.dims)
	order := append([]int{massIndex, statureIndex}, upTo(n)[firstOther:]...)
	var turned mat.SymDense
	turned.SubsetSym(d.cov, order)
	var chol mat.Cholesky
	if !chol.Factorize(&turned) {
		panic("people: correlations of a table are not positive definite")
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	score := mat.NewVecDense(n, nil)
	spread := math.Sqrt(d.cov.At(statureIndex, statureIndex))
	return func(normal []float64, p *Person) float64 {
		score.MulVec(&lower, mat.NewVecDense(n, normal))
		for k, i := range order {
			*d.dims[i].field(p) = d.size(i, d.mean[i]+score.AtVec(k))
		}
		return score.AtVec(1) / spread
	}
}
