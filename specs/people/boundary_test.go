package people

import (
	"math"
	"reflect"
	"testing"

	"armwright/specs/angle"

	"gonum.org/v1/gonum/mat"
)

// Eigenvalues of the correlation matrix of the survey's 16 dimensions (S),
// with shoulder-elbow length where the table here has acromion-radiale length
// (r = 0.96) and raw values for normal scores.
func TestComponentsOfSurvey(t *testing.T) {
	published := [2][4]float64{
		Woman: {7.688, 3.081, 2.359, 0.776},
		Man:   {7.852, 3.459, 2.008, 0.716},
	}
	for _, s := range sexes {
		var corr, machine mat.SymDense
		correlation(&corr, surveyed().figures(s).covariance())
		var set []int
		for _, name := range machineDimensions() {
			i, err := indexOf(name)
			if err != nil {
				t.Fatal(err)
			}
			set = append(set, i)
		}
		machine.SubsetSym(&corr, set)
		var eigen mat.EigenSym
		if !eigen.Factorize(&machine, false) {
			t.Fatal("no eigenvalues")
		}
		values := eigen.Values(nil)
		sum := 0.0
		for _, v := range values {
			sum += v
			if v <= 0 {
				t.Errorf("%s: eigenvalue %g", s, v)
			}
		}
		if math.Abs(sum-16) > 1e-9 {
			t.Errorf("%s: eigenvalues add up to %g", s, sum)
		}
		for k, want := range published[s] {
			if got := values[15-k]; math.Abs(got-want) > 0.08 {
				t.Errorf("%s: eigenvalue %d = %.3f, survey %.3f", s, k+1, got, want)
			}
		}
	}
}

func TestBoundary(t *testing.T) {
	for _, p := range []Population{civilian(), surveyed()} {
		people := p.Boundary(0.05, 0.95)
		if len(people) != 50 {
			t.Fatalf("%d boundary persons", len(people))
		}
		labels := map[string]bool{}
		for _, dim := range Dimensions() {
			var least, greatest [2]float64
			for _, s := range sexes {
				least[s], greatest[s] = math.Inf(1), math.Inf(-1)
			}
			for _, person := range people {
				labels[person.Label] = true
				x, err := person.Dimension(dim)
				if err != nil {
					t.Fatal(err)
				}
				least[person.Sex] = math.Min(least[person.Sex], x)
				greatest[person.Sex] = math.Max(greatest[person.Sex], x)
			}
			for _, s := range sexes {
				low, _ := p.Percentile(dim, s, 0.05)
				high, _ := p.Percentile(dim, s, 0.95)
				const rounding = 1e-6
				if least[s] < low-rounding || greatest[s] > high+rounding {
					t.Errorf("%s %s %s: %.2f..%.2f leaves %.2f..%.2f", p.Source, s, dim, least[s], greatest[s], low, high)
				}
				// The ellipsoid reaches both percentiles; its 25 points
				// come near them in every dimension.
				if share := (greatest[s] - least[s]) / (high - low); share < 0.7 {
					t.Errorf("%s %s %s: boundary persons reach only %.2f of the range", p.Source, s, dim, share)
				}
			}
		}
		if len(labels) != 50 {
			t.Errorf("%d different labels", len(labels))
		}
		if again := p.Boundary(0.05, 0.95); !reflect.DeepEqual(people, again) {
			t.Error("boundary persons differ from run to run")
		}
		// Small and large persons are what their labels say.
		if !(people[1].Mass < people[0].Mass && people[0].Mass < people[2].Mass) {
			t.Errorf("masses along the size axis: %.1f %.1f %.1f", people[1].Mass, people[0].Mass, people[2].Mass)
		}
		if !(people[5].ElbowRestHeight < people[6].ElbowRestHeight && people[3].PoplitealHeight < people[4].PoplitealHeight) {
			t.Error("length and trunk axes do not grow as named")
		}
	}
}

func TestWiderLimitsReachFurther(t *testing.T) {
	sets := [][]Person{civilian().Boundary(0.3, 0.7), civilian().Boundary(0.05, 0.95), civilian().Boundary(0.01, 0.99)}
	for n := 1; n < len(sets); n++ {
		narrow, wide := sets[n-1], sets[n]
		for k := range narrow {
			a := math.Abs(narrow[k].Stature - narrow[k/25*25].Stature)
			b := math.Abs(wide[k].Stature - wide[k/25*25].Stature)
			if b < a-1e-6 {
				t.Errorf("%s: stature departs %.2f, with wider limits %.2f", narrow[k].Label, a, b)
			}
		}
	}
}

func TestMedian(t *testing.T) {
	// Medians of NATICK/TR-15/007 (S) for lengths; body mass index of
	// civilians does not move them, but moves girths up.
	man := civilian().Median(Man)
	woman := civilian().Median(Woman)
	if math.Abs(man.Stature-1755) > 2 || math.Abs(woman.Stature-1626) > 2 {
		t.Errorf("median statures %.1f and %.1f", woman.Stature, man.Stature)
	}
	if math.Abs(man.CarryingAngle-11.6*angle.Degree) > 0.02*angle.Degree {
		t.Errorf("median carrying angle %.3f degrees", man.CarryingAngle/angle.Degree)
	}
	if surveyed().Median(Woman).AbdominalDepth >= woman.AbdominalDepth {
		t.Error("civilian women's abdominal depth is not above the survey's")
	}
}

func TestSampleIsStratifiedAndRepeatable(t *testing.T) {
	p := civilian()
	p.Women = 0.3
	a := p.sample(101, 5)
	women := 0
	for _, person := range a {
		if person.Sex == Woman {
			women++
		}
		if d := person.CarryingAngle; d < leastCarrying || d > greatestCarrying {
			t.Errorf("carrying angle %.1f degrees", d/angle.Degree)
		}
		if person.Extrapolated != (person.BMI() > stoutBMI(person.Sex)) {
			t.Errorf("%s: BMI %.1f, extrapolated %t", person.Label, person.BMI(), person.Extrapolated)
		}
	}
	if women != 30 || len(a) != 101 {
		t.Errorf("%d women of %d", women, len(a))
	}
	if !reflect.DeepEqual(a, p.sample(101, 5)) {
		t.Error("same seed, other persons")
	}
	if reflect.DeepEqual(a, p.sample(101, 6)) {
		t.Error("other seed, same persons")
	}
	p.Women = 0.5
	if b := p.sample(101, 5); b[0] != a[0] || b[50].Sex != Woman || b[51].Sex != Man {
		t.Error("changing the share changed the persons")
	}
}

// The ellipsoid of the survey's men that holds 95 %: elbow rest height 181 to
// 309 mm on the ends of the trunk axis (D, an independent analysis of the rows
// with ln mass), 15 persons a sex, centre at the median; squared radius by
// chi-square with 3 degrees of freedom, 7.815 (tables).
func TestEllipsoid(t *testing.T) {
	persons := surveyed().Ellipsoid(0.95)
	if len(persons) != 30 {
		t.Fatalf("%d persons", len(persons))
	}
	for i, p := range persons {
		if want := Sex(i / 15); p.Sex != want {
			t.Errorf("%s is no %s", p.Label, want)
		}
	}
	low, high := persons[15+5], persons[15+6]
	if low.Label != "man 06 (short trunk)" || high.Label != "man 07 (long trunk)" {
		t.Fatalf("%s, %s", low.Label, high.Label)
	}
	if math.Abs(low.ElbowRestHeight-181) > 4 || math.Abs(high.ElbowRestHeight-309) > 4 {
		t.Errorf("elbow rest height %.0f to %.0f mm, want 181 to 309", low.ElbowRestHeight, high.ElbowRestHeight)
	}
	median := surveyed().Median(Man)
	if centre := persons[15]; math.Abs(centre.Stature-median.Stature) > 1e-6 || math.Abs(centre.CarryingAngle-median.CarryingAngle) > 1e-9 {
		t.Errorf("centre %+v", centre)
	}
	ends := [2]int{}
	for _, p := range persons[15+7:] {
		switch a := p.CarryingAngle / angle.Degree; { // 11.6 ± 1.96·3.2, cut off at 2 degrees
		case math.Abs(a-5.3) < 0.2:
			ends[0]++
		case math.Abs(a-17.9) < 0.2:
			ends[1]++
		}
	}
	if ends != [2]int{4, 4} {
		t.Errorf("carrying angles at the ends: %v", ends)
	}
}

// The ellipsoid holds the share it says of random persons: their scores on the
// three components, worked out from the machine dimensions, squared and added.
func TestEllipsoidHoldsItsShare(t *testing.T) {
	pop := surveyed()
	persons := pop.sample(20000, 4)
	for _, s := range sexes {
		j := pop.figures(s)
		var corr mat.SymDense
		correlation(&corr, j.covariance())
		var set []int
		for _, name := range machineDimensions() {
			i, err := indexOf(name)
			if err != nil {
				t.Fatal(err)
			}
			set = append(set, i)
		}
		var machine mat.SymDense
		machine.SubsetSym(&corr, set)
		var inverse mat.Dense
		if err := inverse.Inverse(&machine); err != nil {
			t.Fatal(err)
		}
		// The score on a component is direction'·R⁻¹·z, as direction is R·v/√λ.
		directions := j.components()
		var weights [3][]float64
		for k, d := range directions {
			weights[k] = make([]float64, len(set))
			for a := range set {
				for b, i := range set {
					weights[k][a] += inverse.At(a, b) * d[i]
				}
			}
		}
		mean, _, _ := newJoint(s, surveyStature(), surveyBMI(s)).moments()
		m, sd := logBMI(s)
		spread := math.Sqrt(j.covariance().At(massIndex, massIndex))
		centre := math.Log(j.dims[statureIndex].survey[s].mean)
		inside, all := 0, 0
		for _, p := range persons {
			if p.Sex != s {
				continue
			}
			all++
			sum := 0.0
			for k := range weights {
				score := 0.0
				for a, i := range set {
					d := j.dims[i]
					z := d.survey[s].score(*d.field(&p) + d.less)
					if i == massIndex {
						// ln mass = ln(body mass index) + 2 ln stature.
						z = (math.Log(p.BMI()) - m - sd*mean + 2*(math.Log(p.Stature)-centre)) / spread
					}
					score += weights[k][a] * z
				}
				sum += score * score
			}
			if sum <= 6.2514 { // chi-square, 3 degrees of freedom, 90 % (tables)
				inside++
			}
		}
		if got := float64(inside) / float64(all); math.Abs(got-0.9) > 0.012 {
			t.Errorf("%s: the ellipsoid of 90 %% holds %.1f %%", s, 100*got)
		}
	}
}
