package people

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"testing"

	"armwright/testdata"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

var sexes = []Sex{Woman, Man}

func civilian() Population {
	return Population{Source: "civilian", Carrying: DefaultCarrying(), Age: 30, Women: 0.5}
}

func surveyed() Population {
	p := civilian()
	p.Source = "survey"
	return p
}

// published holds 5th, 50th and 95th percentile by sex as printed in
// NATICK/TR-15/007 (S), mm and kg, and those not printed there from the
// survey's rows (D): acromion height, chest breadth, buttock depth, foot
// length. Axis lengths are the printed lengths less 8 and 22 mm.
var published = map[string][2][3]float64{
	"stature":           {{1525, 1626, 1740}, {1648, 1755, 1870}},
	"mass":              {{51.3, 66.8, 87.1}, {64.4, 84.6, 110.7}},
	"sitting_height":    {{803, 857, 912}, {860, 918, 977}},
	"acromion_height":   {{515.2, 564, 609}, {552, 603, 653}},
	"elbow_rest_height": {{189, 233, 276}, {197, 246, 291}},
	"acromion_to_axis":  {{275, 303, 332}, {299, 327, 357}},
	"axis_to_grip":      {{268, 294, 328}, {298, 326, 357}},
	"biacromial":        {{335, 365, 396}, {384, 415, 447}},
	"bideltoid":         {{406, 450, 499}, {459, 509, 567}},
	"forearm_breadth":   {{432, 492, 564}, {497, 579, 667}},
	"chest_depth":       {{205, 245, 296}, {211, 253, 298}},
	"chest_breadth":     {{241, 268, 302}, {261, 289, 320}},
	"abdominal_depth":   {{184, 227, 285}, {200, 251, 320}},
	"buttock_depth":     {{196, 231, 277}, {204, 246, 291}},
	"buttock_knee":      {{541, 589, 646}, {569, 617, 669}},
	"buttock_popliteal": {{441, 483, 535}, {459, 502, 548}},
	"popliteal_height":  {{350, 387, 428}, {390, 430, 471}},
	"knee_height":       {{469, 510, 557}, {509, 553, 602}},
	"hip_breadth":       {{348, 397, 456}, {333, 378, 431}},
	"thigh_clearance":   {{145, 167, 191}, {157, 180, 207}},
	"upper_arm_girth":   {{259, 304, 360}, {303, 357, 418}},
	"forearm_girth":     {{235, 263, 296}, {275, 310, 348}},
	"hand_breadth":      {{72, 78, 85}, {81, 88, 96}},
	"hand_length":       {{165, 180, 199}, {177, 193, 210}},
	"foot_length":       {{226, 246, 267.8}, {250, 271, 293}},
}

func TestSurveyPercentilesArePublished(t *testing.T) {
	for _, dim := range Dimensions() {
		if dim == carryingName {
			continue
		}
		for _, s := range sexes {
			for k, q := range []float64{0.05, 0.5, 0.95} {
				want := published[dim][s][k]
				tolerance := 3.0
				switch {
				case dim == "mass":
					tolerance = 2
				case dim == "stature" && s == Woman && q == 0.95:
					// The sample's own percentile lies 1.4 of its
					// standard errors (2.11 SD/sqrt(n) = 3.0 mm) above
					// what its mean, deviation and skewness give, and
					// the model of the population does not follow it.
					tolerance = 5
				}
				got, err := surveyed().Percentile(dim, s, q)
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(got-want) > tolerance {
					t.Errorf("%s of %s at %g = %.1f, published %.1f", dim, s, q, got, want)
				}
			}
		}
	}
}

// Surveyed statures with civilian body mass index come to the civilians' mass
// (weighted percentiles of the 2009-2012 health survey, ages 20 and over, S),
// although the two populations' statures differ a little.
func TestCivilianMass(t *testing.T) {
	for s, want := range map[Sex][3]float64{Woman: {50.3, 71.7, 114.4}, Man: {62.0, 86.0, 123.0}} {
		for k, q := range []float64{0.05, 0.5, 0.95} {
			got, err := civilian().Percentile("mass", s, q)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got-want[k]) > 1.5 {
				t.Errorf("civilian %s mass at %g = %.1f, tabulated %.1f", s, q, got, want[k])
			}
		}
	}
}

// sample gathers the persons that Draw yields.
func (p Population) sample(n int, seed uint64) []Person { return slices.Collect(p.Draw(n, seed)) }

// Correlations of raw values in the survey (S, to their printed digits); the
// model's are of normal scores, which skewness moves by up to 0.02.
func TestSampleKeepsCorrelations(t *testing.T) {
	testdata.Long(t)
	people := surveyed().sample(20000, 1)
	column := func(s Sex, dim string) []float64 {
		var out []float64
		for _, p := range people {
			if p.Sex == s {
				x, err := p.Dimension(dim)
				if err != nil {
					t.Fatal(err)
				}
				out = append(out, x)
			}
		}
		return out
	}
	for _, c := range []struct {
		a, b string
		want [2]float64
	}{
		{"stature", "mass", [2]float64{.5335, .4689}},
		{"stature", "elbow_rest_height", [2]float64{.1153, .1754}},
		{"stature", "popliteal_height", [2]float64{.8061, .8441}},
		{"acromion_to_axis", "elbow_rest_height", [2]float64{-.19, -.13}},
		{"mass", "upper_arm_girth", [2]float64{.8561, .8119}},
		{"mass", "hip_breadth", [2]float64{.83, .88}},
		{"buttock_knee", "buttock_popliteal", [2]float64{.95, .95}},
		{"stature", "carrying_angle", [2]float64{0, 0}},
	} {
		for _, s := range sexes {
			got := stat.Correlation(column(s, c.a), column(s, c.b), nil)
			if math.Abs(got-c.want[s]) > 0.03 {
				t.Errorf("%s: corr(%s, %s) = %.3f, survey %.3f", s, c.a, c.b, got, c.want[s])
			}
		}
	}
	// Sampled and integrated percentiles are two ways to one number: standard
	// error of a share is sqrt(q(1-q)/n), four of which are allowed.
	for _, source := range []Population{surveyed(), civilian()} {
		people = source.sample(8000, 7)
		for _, dim := range Dimensions() {
			for _, s := range sexes {
				x := column(s, dim)
				mean, sd := stat.MeanStdDev(x, nil)
				for _, q := range []float64{0.05, 0.5, 0.95} {
					value, err := source.Percentile(dim, s, q)
					if err != nil {
						t.Fatal(err)
					}
					share := 0.0
					for _, v := range x {
						if v < value {
							share += 1 / float64(len(x))
						}
					}
					if math.Abs(share-q) > 4*math.Sqrt(q*(1-q)/float64(len(x))) {
						t.Errorf("%s %s %s: %.4f of the sample lies below the %g quantile %.1f (mean %.1f, SD %.1f)",
							source.Source, s, dim, share, q, value, mean, sd)
					}
				}
			}
		}
	}
}

// Conditional means of popliteal height in the survey's own linear regression
// on stature and ln BMI (S): the copula bends it by at most a millimetre.
func TestRegressionOnStatureAndBMI(t *testing.T) {
	for _, c := range []struct {
		sex          Sex
		stature, bmi float64
		want         float64
	}{{Man, 1870, 27.5, 464.5}, {Woman, 1525, 25.3, 357.1}} {
		j := newJoint(c.sex, surveyStature(), surveyBMI(c.sex))
		i, err := indexOf("popliteal_height")
		if err != nil {
			t.Fatal(err)
		}
		mean, sd := logBMI(c.sex)
		g := (math.Log(c.bmi) - mean) / sd
		a := j.dims[statureIndex].survey[c.sex].score(c.stature)
		got := j.dims[i].survey[c.sex].value(j.slope[i][0]*a + j.slope[i][1]*g)
		if math.Abs(got-c.want) > 1 {
			t.Errorf("popliteal height of a %s %g mm tall = %.1f, regression %.1f", c.sex, c.stature, got, c.want)
		}
	}
}

func TestTableFromRows(t *testing.T) {
	rows := csv.NewReader(bytes.NewReader(testdata.Persons()))
	header, err := rows.Read()
	if err != nil {
		t.Fatal(err)
	}
	values := [2][][]float64{}
	for {
		row, err := rows.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		measures := map[string]float64{}
		for i, name := range header[1:] {
			if measures[name], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		measures["d_acromialheightsitting"] = measures["sittingheight"] - measures["stature"] + measures["acromialheight"]
		s := Woman
		if row[0] == "m" {
			s = Man
		}
		var person []float64
		for _, d := range dimensions() {
			person = append(person, measures[d.measure])
		}
		values[s] = append(values[s], person)
	}
	for _, s := range sexes {
		n := len(values[s])
		if want := [2]int{1986, 4082}[s]; n != want {
			t.Fatalf("%d rows of a %s, want %d", n, s, want)
		}
		dims := dimensions()
		scores := mat.NewDense(n, len(dims), nil)
		for i, d := range dims {
			column := make([]float64, n)
			for k := range column {
				column[k] = values[s][k][i]
			}
			mean, sd := stat.MeanStdDev(column, nil)
			skew := stat.Skew(column, nil)
			m := d.survey[s]
			if math.Abs(m.mean-mean) > 0.006 || math.Abs(m.sd-sd) > 0.006 || math.Abs(m.skew-skew) > 0.003 {
				t.Errorf("%s %s: table %v, rows %.2f %.2f %.3f", s, d.name, m, mean, sd, skew)
			}
			for k := range column {
				scores.Set(k, i, m.score(column[k]))
			}
		}
		logs := make([]float64, n)
		for k := range logs {
			stature := values[s][k][statureIndex] / 1000
			logs[k] = math.Log(values[s][k][massIndex] / (stature * stature))
			scores.Set(k, massIndex, logs[k])
		}
		mean, sd := logBMI(s)
		if m, d := stat.MeanStdDev(logs, nil); math.Abs(m-mean) > 1e-5 || math.Abs(d-sd) > 1e-5 {
			t.Errorf("%s ln BMI: table %g %g, rows %g %g", s, mean, sd, m, d)
		}
		var corr mat.SymDense
		stat.CorrelationMatrix(&corr, scores, nil)
		for i, row := range scoreCorrelations(s) {
			for k, r := range row {
				if math.Abs(corr.At(i, k)-r) > 1e-4 {
					t.Errorf("%s corr(%s, %s): table %g, rows %g", s, dims[i].name, dims[k].name, r, corr.At(i, k))
				}
			}
		}
	}
}

func TestMarginal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := marginal{
			mean: rapid.Float64Range(50, 2000).Draw(t, "mean"),
			sd:   rapid.Float64Range(1, 100).Draw(t, "sd"),
			skew: rapid.Float64Range(-1, 1).Draw(t, "skew"),
		}
		z := rapid.Float64Range(-4, 4).Draw(t, "z")
		if got := m.score(m.value(z)); math.Abs(got-z) > 1e-6 {
			t.Errorf("score(value(%g)) = %g for %+v", z, got, m)
		}
		if m.value(z+0.01) <= m.value(z) {
			t.Errorf("value does not rise at %g for %+v", z, m)
		}
	})
	// The moments come back out, by the trapezoid rule over z.
	m := marginal{mean: 254.65, sd: 37.33, skew: 0.493}
	moment := func(k float64) float64 {
		sum := 0.0
		for z := -9.0; z <= 9; z += 0.01 {
			sum += math.Pow((m.value(z)-m.mean)/m.sd, k) * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * 0.01
		}
		return sum
	}
	for k, want := range map[float64]float64{1: 0, 2: 1, 3: 0.493} {
		if got := moment(k); math.Abs(got-want) > 1e-6 {
			t.Errorf("moment %g = %g, want %g", k, got, want)
		}
	}
}

func TestPercentileRises(t *testing.T) {
	for _, p := range []Population{civilian(), surveyed()} {
		for _, dim := range Dimensions() {
			for _, s := range sexes {
				last := 0.0
				for _, q := range []float64{0.001, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.999} {
					x, err := p.Percentile(dim, s, q)
					if err != nil || !(x > last) || math.IsInf(x, 0) {
						t.Errorf("%s %s %s at %g: %g after %g, %v", p.Source, s, dim, q, x, last, err)
					}
					last = x
				}
			}
		}
	}
}

func TestErrors(t *testing.T) {
	var unknown *DimensionError
	if _, err := surveyed().Percentile("ear_length", Man, 0.5); !errors.As(err, &unknown) || unknown.Name != "ear_length" {
		t.Errorf("unknown dimension: %v", err)
	}
	for _, q := range []float64{-1, 0, 1, 5, math.NaN()} {
		var share *ShareError
		if _, err := civilian().Percentile("stature", Man, q); !errors.As(err, &share) {
			t.Errorf("percentile %g: %v", q, err)
		}
	}
	for field, spoil := range map[string]func(*Population){
		"source":         func(p *Population) { p.Source = "military" },
		"women":          func(p *Population) { p.Women = math.NaN() },
		"carrying angle": func(p *Population) { p.Carrying.SD[Man] = -1 },
	} {
		p := civilian()
		spoil(&p)
		var bad *PopulationError
		if _, err := p.Percentile("stature", Man, 0.5); !errors.As(err, &bad) || bad.Field != field {
			t.Errorf("bad %s: %v", field, err)
		}
	}
}
