package people

import (
	"fmt"
	"iter"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
)

// Population is who the users are.
type Population struct {
	// Source is one of Sources.
	Source   string
	Table    *Table // of the source "table"
	Carrying Carrying
	Age      float64 // years, given to every person
	Stronger float64 // than the mean of those alike, share, given to every person
	Women    float64 // share of women, 0..1
}

// Sources are where body sizes come from. Shapes are those of the 2012 survey
// throughout: "civilian" has its statures with the body mass index of civilians,
// "survey" its own of both, "national" the statures and body mass index of the
// 2009-2012 national health survey at ages 20 and over, "national-18-65" those of the
// ages 18 to 65; "table" is a Table.
func Sources() []string {
	return []string{"civilian", "survey", "national", "national-18-65", "table"}
}

// Validate reports what keeps a population from being used, as a *PopulationError or
// a *TableError.
func (p Population) Validate() error {
	switch {
	case !slices.Contains(Sources(), p.Source):
		return &PopulationError{"source", fmt.Sprintf("%q is none of %s", p.Source, strings.Join(Sources(), ", "))}
	case p.Source == "table" && p.Table == nil:
		return &PopulationError{"table", "there is none"}
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
	if p.Source == "table" {
		return p.Table.Validate()
	}
	return nil
}

// PopulationError reports a Population that cannot be used.
type PopulationError struct{ Field, Hint string }

func (e *PopulationError) Error() string { return "population: " + e.Field + ": " + e.Hint }

// figures are the sizes of one sex of a population, but for the carrying angle.
type figures struct {
	sex  Sex
	dims []dimension
	distribution
}

// distribution is a joint or a tabled one.
type distribution interface {
	quantile(i int, u float64) float64 // of dimension i at its normal score u
	covariance() *mat.SymDense         // of all scores, of ln mass in mass's place
	maker() maker
}

// maker gives a person the sizes of independent normal scores, one for each dimension,
// and returns the normal score of the stature.
type maker func(normal []float64, p *Person) (stature float64)

// figures returns the distribution of one sex. It panics on a population that
// Validate turns down.
func (p Population) figures(s Sex) figures {
	if err := p.Validate(); err != nil {
		panic(err)
	}
	f := figures{sex: s, dims: dimensions()}
	switch p.Source {
	case "civilian":
		f.distribution = newJoint(s, surveyStature(), civilianBMI(s))
	case "survey":
		f.distribution = newJoint(s, surveyStature(), surveyBMI(s))
	case "national":
		f.distribution = newJoint(s, nationalStature(s), civilianBMI(s))
	case "national-18-65":
		f.distribution = newJoint(s, workingStature(s), workingBMI(s))
	case "table":
		f.distribution = newTabled(s, p.Table)
	}
	return f
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
	return p.figures(s).quantile(i, normalQuantile(q)), nil
}

// Median returns the person of median size in every dimension.
func (p Population) Median(s Sex) Person {
	j := p.figures(s)
	person := j.person(make([]float64, len(j.dims)), p.Carrying.quantile(s, 0.5), p.Age, p.Stronger)
	person.Label = s.String() + ", median"
	return person
}

// person returns the person whose dimensions have the population's normal
// scores u.
func (j *figures) person(u []float64, carrying, age, stronger float64) Person {
	person := Person{Sex: j.sex, Age: age, Stronger: stronger, CarryingAngle: carrying}
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

// draw yields n persons of one sex and reports whether more are wanted.
func (p Population) draw(s Sex, n int, next scores, yield func(Person) bool) bool {
	size := p.figures(s).maker()
	normal := make([]float64, len(dimensions()))
	person := Person{Sex: s, Age: p.Age, Stronger: p.Stronger}
	for range n {
		share := next(normal)
		stature := size(normal, &person)
		person.CarryingAngle = p.Carrying.of(s, stature, share)
		person.Extrapolated = person.BMI() > stoutBMI(s)
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
