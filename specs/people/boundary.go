package people

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// machineDimensions are the dimensions a station meets, whose correlations the
// boundary persons spread over.
func machineDimensions() []string {
	return []string{
		"mass", "stature", "sitting_height", "acromion_height", "elbow_rest_height",
		"acromion_to_axis", "axis_to_grip", "biacromial", "bideltoid", "chest_depth",
		"abdominal_depth", "buttock_knee", "buttock_popliteal", "popliteal_height",
		"hip_breadth", "upper_arm_girth",
	}
}

// axes are the directions boundary persons lie in: three leading components of
// the machine dimensions, each turned so that the dimension named first grows along it
// and told in plain words at either end, and the carrying angle.
func axes() [4]struct{ grows, low, high string } {
	return [4]struct{ grows, low, high string }{
		{"mass", "small", "large"},
		{"popliteal_height", "short-legged", "long-legged"},
		{"elbow_rest_height", "short trunk", "long trunk"},
		{carryingName, "straight elbow", "wide carrying angle"},
	}
}

// Boundary returns the persons who together stand for the range from the low
// to the high percentile (0 < low < 0.5 < high < 1; it panics otherwise), 25
// of each sex, women first.
//
// Each sex's persons are the centre, the 8 ends of the axes and 16 points
// between the axes of an ellipsoid in the three leading principal components
// of the correlations of the machine dimensions, with the carrying angle as a
// fourth axis. Its radius is the normal quantile of 1-low for women and of
// high for men, and what the components leave out of a dimension's variance is
// made up for by stretching it, so that the ellipsoid reaches that percentile
// in every dimension. Dimensions outside that set follow by regression. No
// dimension leaves its sex's low..high percentile. Persons who are extreme
// across the components, such as a short upper arm on a long leg, are left
// out, and the 25 points touch few of the ellipsoid's extremes exactly; Draw
// tells what that costs.
func (p Population) Boundary(low, high float64) []Person {
	if !(0 < low && low < 0.5 && 0.5 < high && high < 1) {
		panic(fmt.Sprintf("people: Boundary(%g, %g): percentiles must lie on either side of 0.5", low, high))
	}
	var men []Person
	var group sync.WaitGroup
	group.Go(func() { men = p.boundary(Man, normalQuantile(high), low, high) })
	women := p.boundary(Woman, normalQuantile(1-low), low, high)
	group.Wait()
	return append(women, men...)
}

// Ellipsoid returns the persons at the limits of an ellipsoid that holds the
// stated share of each sex, 0..1 exclusive (it panics otherwise), 15 of each
// sex, women first: the centre, the 6 ends of its axes and the 8 points between
// them, in the three leading principal components of the correlations of the
// machine dimensions (Zehner, Meindl & Hudson 1993), with no more spread than
// those components carry; they explain 83 % of the men's variance and 82 % of the
// women's. The carrying angle goes with none of them: four of the points between
// have it at the upper end of its own range of that share and four at the lower,
// so that every two axes meet with either; the others have the median.
//
// Boundary spans the percentiles of single dimensions; Ellipsoid speaks of
// persons, and leaves single dimensions short of their percentiles.
func (p Population) Ellipsoid(share float64) []Person {
	if !(0 < share && share < 1) {
		panic(fmt.Sprintf("people: Ellipsoid(%g): the share must lie between 0 and 1", share))
	}
	radius := math.Sqrt(distuv.ChiSquared{K: 3}.Quantile(share))
	var people []Person
	for _, s := range []Sex{Woman, Man} {
		j := p.figures(s)
		directions := j.components()
		for n, point := range spherePoints() {
			u := make([]float64, len(j.dims))
			for k, direction := range directions {
				for i := range u {
					u[i] += radius * point[k] * direction[i]
				}
			}
			person := j.person(u, p.Carrying.of(s, u[statureIndex], (1+share*point[3])/2), p.Age, p.Stronger)
			person.Label = fmt.Sprintf("%s %02d (%s)", s, n+1, describe(point))
			people = append(people, person)
		}
	}
	return people
}

// spherePoints returns the centre, the ends of three axes and the points between
// them on the unit ball, the fourth place telling which end of its range the
// carrying angle takes.
func spherePoints() [][4]float64 {
	points := [][4]float64{{}}
	for axis := range 3 {
		for _, sign := range []float64{-1, 1} {
			var point [4]float64
			point[axis] = sign
			points = append(points, point)
		}
	}
	for corner := range 8 {
		point := [4]float64{3: 1}
		for axis := range 3 {
			sign := -1.0
			if corner>>axis&1 == 1 {
				sign = 1
			}
			point[axis] = sign / math.Sqrt(3)
			point[3] *= sign
		}
		points = append(points, point)
	}
	return points
}

// boundary returns one sex's boundary persons at the given radius.
func (p Population) boundary(s Sex, radius, low, high float64) []Person {
	j := p.figures(s)
	directions := j.stretched()
	least, greatest := normalQuantile(low), normalQuantile(high)

	var people []Person
	for _, point := range designPoints() {
		u := make([]float64, len(j.dims))
		for k, direction := range directions {
			for i := range u {
				u[i] += radius * point[k] * direction[i]
			}
		}
		for i := range u {
			u[i] = clamp(u[i], least, greatest)
		}
		valgus := radius * point[len(directions)]
		if r := p.Carrying.Stature; r != 0 {
			valgus = r*u[statureIndex] + math.Sqrt(1-r*r)*valgus
		}
		valgus = clamp(valgus, least, greatest)
		person := j.person(u, p.Carrying.quantile(s, normalCDF(valgus)), p.Age, p.Stronger)
		person.Label = fmt.Sprintf("%s %02d (%s)", s, len(people)+1, describe(point))
		people = append(people, person)
	}
	return people
}

// designPoints returns the centre, the ends of the axes and the points between
// them on the unit ball of the four axes.
func designPoints() [][4]float64 {
	points := [][4]float64{{}}
	for axis := range 4 {
		for _, sign := range []float64{-1, 1} {
			var point [4]float64
			point[axis] = sign
			points = append(points, point)
		}
	}
	for corner := range 16 {
		var point [4]float64
		for axis := range point {
			point[axis] = -0.5
			if corner>>axis&1 == 1 {
				point[axis] = 0.5
			}
		}
		points = append(points, point)
	}
	return points
}

// describe tells in plain words where a design point lies.
func describe(point [4]float64) string {
	var words []string
	for k, axis := range axes() {
		switch {
		case point[k] < 0:
			words = append(words, axis.low)
		case point[k] > 0:
			words = append(words, axis.high)
		}
	}
	if words == nil {
		return middling
	}
	return strings.Join(words, ", ")
}

// middling is the person in the middle of a range, in plain words.
const middling = "middling in all"

// CutLabel cuts the label of a boundary person, "woman 22 (small, long trunk)", into the
// name and what is large or small in the person, in plain words. Of any other label it
// returns the whole as the name.
func CutLabel(label string) (name, build string) {
	name, rest, found := strings.Cut(label, " (")
	build, closed := strings.CutSuffix(rest, ")")
	if !found || !closed {
		return label, ""
	}
	for _, word := range strings.Split(build, ", ") {
		known := word == middling
		for _, axis := range axes() {
			known = known || word == axis.low || word == axis.high
		}
		if !known {
			return label, ""
		}
	}
	return name, build
}

// components returns, for each of the three leading principal components of
// the machine dimensions, the normal score of every dimension one standard
// deviation out along it.
func (j *figures) components() [3][]float64 {
	var corr mat.SymDense
	correlation(&corr, j.covariance())
	var set []int
	for _, name := range machineDimensions() {
		i, err := indexOf(name)
		if err != nil {
			panic(err)
		}
		set = append(set, i)
	}
	var machine mat.SymDense
	machine.SubsetSym(&corr, set)
	var eigen mat.EigenSym
	if !eigen.Factorize(&machine, true) {
		panic("people: principal components did not converge")
	}
	values := eigen.Values(nil) // ascending
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)

	var directions [3][]float64
	for k := range directions {
		column := len(set) - 1 - k
		direction := make([]float64, len(j.dims))
		for i := range direction {
			for row, member := range set {
				direction[i] += corr.At(i, member) * vectors.At(row, column)
			}
			direction[i] /= math.Sqrt(values[column])
		}
		grows, err := indexOf(axes()[k].grows)
		if err != nil {
			panic(err)
		}
		if direction[grows] < 0 {
			for i := range direction {
				direction[i] = -direction[i]
			}
		}
		directions[k] = direction
	}
	return directions
}

// stretched returns the components stretched so that the squares of a
// dimension's three scores add up to 1, its whole variance.
func (j *figures) stretched() [3][]float64 {
	directions := j.components()
	for i := range j.dims {
		explained := 0.0
		for _, direction := range directions {
			explained += direction[i] * direction[i]
		}
		for _, direction := range directions {
			direction[i] /= math.Sqrt(explained)
		}
	}
	return directions
}

// correlation sets dst to the correlation matrix of a covariance matrix.
func correlation(dst, cov *mat.SymDense) {
	n := cov.SymmetricDim()
	*dst = *mat.NewSymDense(n, nil)
	for i := range n {
		for k := range i + 1 {
			dst.SetSym(i, k, cov.At(i, k)/math.Sqrt(cov.At(i, i)*cov.At(k, k)))
		}
	}
}
