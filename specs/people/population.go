package people

import (
	"fmt"
	"iter"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
)

// Population is who the users are.
type Population struct {
	// Source is "civilian" (statures of the 2012 survey with the body mass
	// index of civilians) or "survey" (both of the survey).
	Source   string
	Carrying Carrying
	Age      float64 // years, given to every person
	Women    float64 // share of women, 0..1
}

// Validate reports what keeps a population from being used, as a
// *PopulationError.
func (p Population) Validate() error {
	switch {
	case p.Source != "civilian" && p.Source != "survey":
		return &PopulationError{"source", fmt.Sprintf("%q is neither civilian nor survey", p.Source)}
	case !(p.Women >= 0 && p.Women <= 1):
		return &PopulationError{"women", fmt.Sprintf("share %g is not between 0 and 1", p.Women)}
	case !(math.Abs(p.Carrying.Stature) < 1):
		return &PopulationError{"carrying angle", fmt.Sprintf("correlation %g with stature is not between -1 and 1", p.Carrying.Stature)}
	}
	for _, s := range []Sex{Woman, Man} {
		mean, sd := p.Carrying.Mean[s], p.Carrying.SD[s]
		if !(mean >= 0 && mean <= greatestCarrying && sd >= 0 && sd <= greatestCarrying) {
			return &PopulationError{"carrying angle", fmt.Sprintf("%g ± %g rad of a %s is outside 0..28 degrees", mean, sd, s)}
		}
	}
	return nil
}

// PopulationError reports a Population that cannot be used.
type PopulationError struct{ Field, Hint string }

func (e *PopulationError) Error() string { return "population: " + e.Field + ": " + e.Hint }

// joint returns the distribution of one sex. It panics on a population that
// Validate turns down.
func (p Population) joint(s Sex) *joint {
	if err := p.Validate(); err != nil {
		panic(err)
	}
	if p.Source == "civilian" {
		return newJoint(s, civilianBMI(s))
	}
	return newJoint(s, surveyBMI(s))
}

// Percentile returns the quantile q (0..1, exclusive) of a dimension of one
// sex: mm, kg for "mass", rad for "carrying_angle". Errors: *DimensionError,
// *ShareError, *PopulationError.
func (p Population) Percentile(dim string, s Sex, q float64) (float64, error) {
	if err := p.Validate(); err != nil {
		return 0, err
	}
	if err := checkShare(q); err != nil {
		return 0, err
	}
	if dim == carryingName {
		return p.Carrying.quantile(s, q), nil
	}
	i, err := indexOf(dim)
	if err != nil {
		return 0, err
	}
	return p.joint(s).quantile(i, normalQuantile(q)), nil
}

// Median returns the person of median size in every dimension.
func (p Population) Median(s Sex) Person {
	j := p.joint(s)
	person := j.person(make([]float64, len(j.dims)), p.Carrying.quantile(s, 0.5), p.Age)
	person.Label = s.String() + ", median"
	return person
}

// person returns the person whose dimensions have the population's normal
// scores u.
func (j *joint) person(u []float64, carrying, age float64) Person {
	person := Person{Sex: j.sex, Age: age, CarryingAngle: carrying}
	for i, d := range j.dims {
		*d.field(&person) = j.quantile(i, u[i])
	}
	person.Extrapolated = person.BMI() > stoutBMI(j.sex)
	return person
}

// Draw yields n random persons, women first, their number n times the share of
// women, rounded, without labels: a million of them take no more memory than
// one. The same seed gives the same persons, and each sex has a stream of its
// own: changing the share adds or drops persons but changes none.
func (p Population) Draw(n int, seed uint64) iter.Seq[Person] {
	return p.each(n, func(s Sex, _ int) scores {
		random := rand.New(rand.NewPCG(seed, uint64(s)))
		return func(normal []float64) (share float64) {
			for i := range normal {
				normal[i] = random.NormFloat64()
			}
			return random.Float64()
		}
	})
}

// scores fills in the independent normal scores that a person's sizes follow from and
// returns the carrying angle's share, 0..1.
type scores func(normal []float64) (share float64)

// each yields n persons, women first, from the scores of each sex.
func (p Population) each(n int, of func(s Sex, n int) scores) iter.Seq[Person] {
	women := int(math.Round(float64(n) * p.Women))
	return func(yield func(Person) bool) {
		if p.draw(Woman, women, of(Woman, women), yield) {
			p.draw(Man, n-women, of(Man, n-women), yield)
		}
	}
}

// draw yields n persons of one sex and reports whether more are wanted. The scores are
// those of body mass index, of stature beside it, and of the other dimensions beside
// both.
func (p Population) draw(s Sex, n int, next scores, yield func(Person) bool) bool {
	j := p.joint(s)
	var chol mat.Cholesky
	if !chol.Factorize(j.residual) {
		panic("people: residual correlations are not positive definite")
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	curves := make([]shifted, len(j.dims))
	for i, d := range j.dims {
		curves[i] = d.survey[s].shifted()
	}

	others := j.residual.SymmetricDim()
	normal := make([]float64, firstOther+others)
	noise := mat.NewVecDense(others, normal[firstOther:])
	residual := mat.NewVecDense(others, nil)
	person := Person{Sex: s, Age: p.Age}
	for range n {
		share := next(normal)
		w := normal[0]
		a := j.rho*w + math.Sqrt(1-j.rho*j.rho)*normal[1]
		residual.MulVec(&lower, noise)

		person.Stature = curves[statureIndex].value(a)
		person.CarryingAngle = p.Carrying.of(s, a, share)
		index := j.bmi.value(w)
		person.Mass = index * person.Stature * person.Stature / 1e6
		person.Extrapolated = index > stoutBMI(s)
		g := j.surveyScore(w)
		for i := firstOther; i < len(j.dims); i++ {
			z := j.slope[i][0]*a + j.slope[i][1]*g + residual.AtVec(i-firstOther)
			*j.dims[i].field(&person) = curves[i].value(z) - j.dims[i].less
		}
		if !yield(person) {
			return false
		}
	}
	return true
}

// Envelope returns the range of a dimension over both sexes: the lesser of
// their low percentiles and the greater of their high ones (0..1, exclusive).
// The 5th percentile woman to the 95th percentile man is not such a range:
// women's hips are broader. Units and errors as for Percentile.
func (p Population) Envelope(dim string, low, high float64) (from, to float64, err error) {
	for i, s := range []Sex{Woman, Man} {
		a, err := p.Percentile(dim, s, low)
		if err != nil {
			return 0, 0, err
		}
		b, err := p.Percentile(dim, s, high)
		if err != nil {
			return 0, 0, err
		}
		if i == 0 {
			from, to = a, b
		}
		from, to = math.Min(from, a), math.Max(to, b)
	}
	return from, to, nil
}
