package people

import (
	"errors"
	"math"
	"strings"
	"testing"

	"armwright/testdata"

	"gonum.org/v1/gonum/stat"
)

// Weighted percentiles of the 2009-2012 national health survey (S; computed from its
// person rows, public domain): stature, mm, at 1, 5, 10, 25, 50, 75, 90, 95 and 99 %,
// and mass, kg, at 5, 50 and 95 %. A mean and a deviation give the statures to 6 mm, at
// 1 and 99 % to 12; mass to 2.2 kg.
func TestNationalPercentiles(t *testing.T) {
	shares := []float64{0.01, 0.05, 0.10, 0.25, 0.50, 0.75, 0.90, 0.95, 0.99}
	for _, c := range []struct {
		source  string
		sex     Sex
		stature []float64
		mass    [3]float64
	}{
		{"national", Man, []float64{1576, 1633, 1661, 1708, 1758, 1807, 1856, 1884, 1942}, [3]float64{62.0, 86.0, 123.0}},
		{"national", Woman, []float64{1448, 1500, 1529, 1572, 1620, 1668, 1711, 1736, 1784}, [3]float64{50.3, 71.7, 114.4}},
		{"national-18-65", Man, []float64{1589, 1641, 1667, 1714, 1763, 1813, 1861, 1888, 1947}, [3]float64{62.0, 86.0, 124.1}},
		{"national-18-65", Woman, []float64{1466, 1512, 1539, 1579, 1629, 1674, 1716, 1742, 1788}, [3]float64{50.9, 71.9, 115.8}},
	} {
		p := Population{Source: c.source, Carrying: DefaultCarrying(), Age: 40, Women: 0.5}
		for i, q := range shares {
			allowed := 6.0
			if i == 0 || i == len(shares)-1 {
				allowed = 12
			}
			if got, err := p.Percentile("stature", c.sex, q); err != nil || math.Abs(got-c.stature[i]) > allowed {
				t.Errorf("%s: stature of a %s at %g: %.0f, survey %.0f (%v)", c.source, c.sex, q, got, c.stature[i], err)
			}
		}
		for i, q := range []float64{0.05, 0.5, 0.95} {
			if got, err := p.Percentile("mass", c.sex, q); err != nil || math.Abs(got-c.mass[i]) > 2.2 {
				t.Errorf("%s: mass of a %s at %g: %.1f, survey %.1f (%v)", c.source, c.sex, q, got, c.mass[i], err)
			}
		}
	}
}

// example is a table of two dimensions with a correlation, one more beside it for men.
func example() *Table {
	return &Table{
		Woman: {{"stature", 1580, 60, nil}, {"mass", 62, 12, []Correlation{{"stature", 0.35}}}},
		Man:   {{"stature", 1700, 65, nil}, {"mass", 72, 13, nil}, {"hip_breadth", 360, 28, []Correlation{{"mass", 0.7}, {"stature", 0.2}}}},
	}
}

// Persons drawn from a table have its means, deviations and correlations, and where it
// says nothing those of the survey. Of 40000 persons of a sex a mean has a standard
// error of SD/200, a deviation one of SD/280, a correlation one of 0.005.
func TestDrawnFromTable(t *testing.T) {
	testdata.Long(t)
	p := Population{Source: "table", Table: example(), Carrying: DefaultCarrying(), Age: 40, Women: 0.5}
	values := [2]map[string][]float64{{}, {}}
	for who := range p.Draw(80000, 3) {
		for _, name := range []string{"stature", "mass", "hip_breadth", "popliteal_height"} {
			v, err := who.Dimension(name)
			if err != nil {
				t.Fatal(err)
			}
			values[who.Sex][name] = append(values[who.Sex][name], v)
		}
	}
	for _, s := range []Sex{Woman, Man} {
		for _, g := range example()[s] {
			mean, sd := stat.MeanStdDev(values[s][g.Dimension], nil)
			if math.Abs(mean-g.Mean) > g.SD/50 || math.Abs(sd-g.SD) > g.SD/50 {
				t.Errorf("%s, %s: %.1f ± %.1f, table %g ± %g", s, g.Dimension, mean, sd, g.Mean, g.SD)
			}
		}
	}
	for _, c := range []struct {
		s    Sex
		a, b string
		want float64
	}{
		{Woman, "stature", "mass", 0.35},
		{Man, "mass", "hip_breadth", 0.7},
		{Man, "stature", "hip_breadth", 0.2},
		{Man, "stature", "mass", 0.4689},             // the survey's (S)
		{Woman, "stature", "popliteal_height", 0.80}, // the survey's 0.8061, less what the table's own spread leaves
	} {
		if got := stat.Correlation(values[c.s][c.a], values[c.s][c.b], nil); math.Abs(got-c.want) > 0.025 {
			t.Errorf("%s: %s with %s %.3f, want %.3f", c.s, c.a, c.b, got, c.want)
		}
	}
}

// A table of the survey's own means and deviations gives the survey's percentiles:
// two ways of working them out, a conditioned normal and integrals over body mass
// index.
func TestTableOfTheSurvey(t *testing.T) {
	var own Table
	for _, s := range []Sex{Woman, Man} {
		for _, d := range dimensions() {
			own[s] = append(own[s], Given{Dimension: d.name, Mean: d.survey[s].mean - d.less, SD: d.survey[s].sd})
		}
	}
	table := Population{Source: "table", Table: &own, Carrying: DefaultCarrying()}
	for _, s := range []Sex{Woman, Man} {
		for _, d := range dimensions() {
			for _, q := range []float64{0.05, 0.5, 0.95} {
				got, err := table.Percentile(d.name, s, q)
				want, err2 := surveyed().Percentile(d.name, s, q)
				if err != nil || err2 != nil || math.Abs(got-want) > 0.03*d.survey[s].sd {
					t.Errorf("%s, %s at %g: %.1f, survey %.1f (%v, %v)", s, d.name, q, got, want, err, err2)
				}
			}
		}
	}
}

// Stature and mass alone, of the national survey, give sizes near those of the
// population that has its whole body mass index.
func TestTableBesideNational(t *testing.T) {
	table := Population{Source: "table", Carrying: DefaultCarrying(), Table: &Table{
		Woman: {{"stature", 1619.5, 72, nil}, {"mass", 75.72, 20.29, []Correlation{{"stature", 0.29}}}},
		Man:   {{"stature", 1758.2, 76.4, nil}, {"mass", 88.61, 19.74, []Correlation{{"stature", 0.40}}}},
	}}
	national := Population{Source: "national", Carrying: DefaultCarrying()}
	for _, name := range []string{"sitting_height", "acromion_to_axis", "axis_to_grip", "biacromial", "popliteal_height"} {
		for _, s := range []Sex{Woman, Man} {
			for _, q := range []float64{0.05, 0.5, 0.95} {
				a, err := table.Percentile(name, s, q)
				b, err2 := national.Percentile(name, s, q)
				if err != nil || err2 != nil || math.Abs(a-b) > 4 {
					t.Errorf("%s, %s at %g: %.1f, %.1f (%v, %v)", s, name, q, a, b, err, err2)
				}
			}
		}
	}
}

// What of a table cannot be used is told, and where.
func TestTableThatCannotBeUsed(t *testing.T) {
	for _, c := range []struct {
		what   string
		change func(*Table)
		at     int
	}{
		{`no dimension "height"`, func(t *Table) { t[Man][0].Dimension = "height" }, 0},
		{"is given twice", func(t *Table) { t[Man][2].Dimension = "mass" }, 2},
		{"stature of a man is missing", func(t *Table) { t[Man] = t[Man][1:] }, -1},
		{"a mean of 170 is outside", func(t *Table) { t[Man][0].Mean = 170 }, 0},
		{"a standard deviation of 0", func(t *Table) { t[Man][0].SD = 0 }, 0},
		{"a standard deviation of NaN", func(t *Table) { t[Man][0].SD = math.NaN() }, 0},
		{`a correlation with "knee_height"`, func(t *Table) { t[Man][2].With[0].Dimension = "knee_height" }, 2},
		{"a correlation of 1 with mass", func(t *Table) { t[Man][2].With[0].R = 1 }, 2},
		{"correlations of 0.7 and 0.3 with mass", func(t *Table) {
			t[Man][2].With = append(t[Man][2].With, Correlation{"mass", 0.3})
		}, 2},
		// r² of the three: 1 + 2abc - a² - b² - c² is negative for 0.9, -0.9 and 0.4689.
		{"hip_breadth of a man: its correlations contradict", func(t *Table) {
			t[Man][2].With = []Correlation{{"mass", 0.9}, {"stature", -0.9}}
		}, 2},
	} {
		table := example()
		c.change(table)
		err := table.Validate()
		var bad *TableError
		if !errors.As(err, &bad) || !strings.Contains(bad.What, c.what) || bad.At != c.at || bad.Sex != Man || bad.Advice == "" {
			t.Errorf("%s: %#v", c.what, err)
		}
	}
}
