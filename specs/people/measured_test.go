package people

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/specs/angle"
)

func measured(t *testing.T, table string) (*Reader, []Person, []*RowError) {
	t.Helper()
	r, err := NewReader("crew.csv", strings.NewReader(table), Population{Source: "survey", Carrying: DefaultCarrying(), Age: 40, Women: 0.5}, 1)
	if err != nil {
		t.Fatal(err)
	}
	var persons []Person
	var bad []*RowError
	for p, err := range r.All() {
		var row *RowError
		switch {
		case errors.As(err, &row):
			bad = append(bad, row)
		case err != nil:
			t.Fatal(err)
		default:
			persons = append(persons, p)
		}
	}
	return r, persons, bad
}

// Words and units of the header in several spellings, separators and a byte
// order mark; 1 in = 25.4 mm and 1 lb = 0.45359237 kg exactly.
func TestHeaders(t *testing.T) {
	for _, table := range []string{
		"label,sex,age_y,stature_mm,mass_kg,sitting_height_mm,carrying_angle_deg\nA,woman,31,1651,63.5029318,863.6,14\n",
		"\ufeffLabel;Gender;Age;Height (in);Weight [lb];Sitting height, cm;Carrying angle deg\r\nA;F;31;65;140;86.36;14\r\n",
		"sex\tstature m\tmass-kg\tperson\tage\tsitting height (in)\tcarrying_angle_deg\nfemale\t1.651\t63.5029318\tA\t31\t34\t14\n",
	} {
		_, persons, bad := measured(t, table)
		if len(bad) != 0 || len(persons) != 1 {
			t.Fatalf("%q: %v", table, bad)
		}
		p := persons[0]
		for name, pair := range map[string][2]float64{
			"age": {p.Age, 31}, "stature": {p.Stature, 1651}, "mass": {p.Mass, 63.5029318},
			"sitting height": {p.SittingHeight, 863.6}, "carrying angle": {p.CarryingAngle, 14 * angle.Degree},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*math.Abs(pair[1]) {
				t.Errorf("%q: %s %g, want %g", table, name, pair[0], pair[1])
			}
		}
		if p.Label != "A" || p.Sex != Woman {
			t.Errorf("%q: %s, %v", table, p.Label, p.Sex)
		}
	}
}

// The 2012 survey's own names: sitting acromion height as the survey derives
// it, the elbow axis 8 mm above radiale and 22 ahead of the olecranon, and the
// public release's mass in tenths of a kilogram.
func TestSurveyNames(t *testing.T) {
	for _, table := range []string{
		"sex,stature,weightkg,sittingheight,acromialheight,acromionradialelength,forearmcenterofgriplength\nm,1760,85.4,920,1445,336,350\n",
		"SubjectId,Gender,stature,weightkg,Weightlbs,sittingheight,acromialheight,acromionradialelength,forearmcenterofgriplength\n1,Male,1760,854,180,920,1445,336,350\n",
	} {
		r, persons, bad := measured(t, table)
		if len(bad) != 0 || len(persons) != 1 {
			t.Fatalf("%q: %v", table, bad)
		}
		p := persons[0]
		if p.Mass != 85.4 || p.AcromionHeight != 920-(1760-1445) || p.AcromionToAxis != 328 || p.AxisToGrip != 328 || p.Age != 40 {
			t.Errorf("%q: %+v", table, p)
		}
		filled := r.Filled()
		for _, name := range strings.Fields("stature mass sitting_height acromion_height acromion_to_axis axis_to_grip") {
			if slices.Contains(filled, name) {
				t.Errorf("%s is given, and filled", name)
			}
		}
		if len(filled) != len(Dimensions())-6 {
			t.Errorf("filled %v", filled)
		}
	}
}

// Every bad row is told by line and column, and none of them is counted.
func TestBadRows(t *testing.T) {
	table := `label,sex,stature_mm,mass_kg,hip_breadth_mm
good,f,1600,60,390
short row,f,1600
wrong unit,f,160,60,390
no number,m,1.75 m,80,400
two slips,x,1700,8000,
"quoted, label",m,1750,80,
no mass,m,1750,,400
bad "quote,m,1750,80,400
nan,m,NaN,80,400
last,m,1800,90,400
`
	r, persons, bad := measured(t, table)
	want := []struct {
		line, column int
		hint         string
	}{
		{3, 1, "field for each column"}, {4, 3, "is it in cm"}, {5, 3, "number alone"}, {6, 2, "woman or man"}, {6, 4, ""},
		{8, 1, "stature, mass and sex"}, {9, 1, "double quotes"}, {10, 3, "number alone"},
	}
	if len(bad) != len(want) {
		t.Fatalf("%d problems, want %d: %v", len(bad), len(want), bad)
	}
	for i, w := range want {
		if b := bad[i]; b.Line != w.line || b.Column != w.column || !strings.Contains(b.Hint(), w.hint) {
			t.Errorf("%v (%s), want line %d column %d", b, b.Hint(), w.line, w.column)
		}
	}
	if rows, no, cells := r.Rows(); len(persons) != 3 || rows != 10 || no != 7 || cells != 1 {
		t.Errorf("%d persons of %d rows, %d bad, %d cells filled", len(persons), rows, no, cells)
	}
	if got := bad[1].Error(); got != "crew.csv:4:3: stature_mm: 160 is outside what people measure" {
		t.Error(got)
	}
}

func TestBadHeaders(t *testing.T) {
	for table, want := range map[string]string{
		"":                                   "crew.csv:1:1: no header",
		"sex,stature,mass_kg\n":              "crew.csv:1:2: stature: no unit",
		"sex,stature_kg,mass_kg\n":           "crew.csv:1:2: stature_kg: kg is no unit of this",
		"stature_mm,mass_kg\n":               "crew.csv:1:1: no column for sex",
		"sex,stature_mm\n":                   "crew.csv:1:1: no column for mass",
		"sex,stature_mm,height_cm,mass_kg\n": "crew.csv:1:3: stature is given twice",
		"sex,gender,stature_mm,mass_kg\n":    "crew.csv:1:2: gender: there is another column for this",
	} {
		_, err := NewReader("crew.csv", strings.NewReader(table), Population{Source: "survey", Carrying: DefaultCarrying()}, 1)
		var row *RowError
		if !errors.As(err, &row) || row.Error() != want || row.Hint() == "" {
			t.Errorf("%q: %v, want %s", table, err, want)
		}
	}
}

// What is missing is filled by the regression on stature and mass: with the
// survey's median stature and mass every size comes within a millimetre of
// that sex's median.
func TestFilling(t *testing.T) {
	pop := Population{Source: "survey", Carrying: DefaultCarrying(), Age: 30, Women: 0.5}
	for _, sex := range []Sex{Woman, Man} {
		median := pop.Median(sex)
		_, persons, bad := measured(t, fmt.Sprintf("sex,stature_mm,mass_kg\n%s,%g,%g\n", sex, median.Stature, median.Mass))
		if bad != nil {
			t.Fatal(bad)
		}
		for _, name := range Dimensions() {
			if name == carryingName {
				continue
			}
			got, _ := persons[0].Dimension(name)
			want, _ := median.Dimension(name)
			if math.Abs(got-want) > 1 {
				t.Errorf("%s, %s: %g, median %g", sex, name, got, want)
			}
		}
	}
}

// The regression on stature and ln body mass index of the survey's rows (D, ordinary
// least squares in the sizes themselves, 4082 men and 1986 women), at a short
// slight, a middling and a tall stout person of each sex, 1.5 standard deviations apart. Ours is linear in normal scores,
// so it bends a little with the skewness of a size; 5 mm is about a third of the
// residual standard deviation.
func TestFillingAgainstRegression(t *testing.T) {
	statures := [2][3]float64{Woman: {1540, 1630, 1720}, Man: {1650, 1755, 1860}}
	bmi := [3]float64{22, 26, 30}
	for _, c := range []struct {
		sex  Sex
		dim  string
		want [3]float64
	}{
		{Man, "hip_breadth", [3]float64{325.6, 370.4, 411.2}},
		{Man, "abdominal_depth", [3]float64{198.1, 243.1, 282.8}},
		{Man, "upper_arm_girth", [3]float64{305.0, 347.8, 386.0}},
		{Man, "popliteal_height", [3]float64{404.2, 431.1, 458.7}},
		{Man, "biacromial", [3]float64{388.8, 412.9, 435.7}},
		{Woman, "hip_breadth", [3]float64{359.0, 404.5, 445.5}},
		{Woman, "abdominal_depth", [3]float64{197.6, 235.3, 268.3}},
		{Woman, "upper_arm_girth", [3]float64{270.2, 311.3, 347.8}},
		{Woman, "popliteal_height", [3]float64{366.6, 387.6, 409.5}},
		{Woman, "biacromial", [3]float64{347.8, 366.3, 384.3}},
	} {
		for i, want := range c.want {
			stature := statures[c.sex][i]
			mass := bmi[i] * stature * stature / 1e6
			_, persons, bad := measured(t, fmt.Sprintf("sex,stature_mm,mass_kg\n%s,%g,%g\n", c.sex, stature, mass))
			if bad != nil {
				t.Fatal(bad)
			}
			if got, _ := persons[0].Dimension(c.dim); math.Abs(got-want) > 5 {
				t.Errorf("%s of %g mm, %s: %.1f, want %.1f", c.sex, stature, c.dim, got, want)
			}
		}
	}
}

// A carrying angle that was not measured is drawn: by row and seed the same,
// over many rows the distribution of the sex.
func TestCarryingDrawn(t *testing.T) {
	const rows = 4000
	table := "sex,stature_mm,mass_kg\n" + strings.Repeat("woman,1630,66\n", rows)
	_, persons, _ := measured(t, table)
	_, again, _ := measured(t, table)
	var sum, square float64
	for i, p := range persons {
		if p != again[i] {
			t.Fatal("the same file gives other persons")
		}
		sum += p.CarryingAngle / angle.Degree
		square += p.CarryingAngle * p.CarryingAngle / (angle.Degree * angle.Degree)
	}
	mean := sum / rows
	sd := math.Sqrt(square/rows - mean*mean)
	// Van Roy et al. 2005 (S): 16.7 ± 2.6; three standard errors.
	if math.Abs(mean-16.7) > 3*2.6/math.Sqrt(rows) || math.Abs(sd-2.6) > 0.1 {
		t.Errorf("%.2f ± %.2f degrees", mean, sd)
	}
}

// An error of reading ends the rows and is told.
func TestReadFails(t *testing.T) {
	broken := errors.New("broken")
	in := io.MultiReader(strings.NewReader("sex,stature_mm,mass_kg\nm,1750,80\n"), &failing{broken})
	r, err := NewReader("crew.csv", in, Population{Source: "survey", Carrying: DefaultCarrying()}, 1)
	if err != nil {
		t.Fatal(err)
	}
	var last error
	for _, err := range r.All() {
		last = err
	}
	if !errors.Is(last, broken) {
		t.Errorf("error %v", last)
	}
}

type failing struct{ err error }

func (f *failing) Read([]byte) (int, error) { return 0, f.err }

// Values are the dimensions by name, in order.
func TestValues(t *testing.T) {
	p := surveyed().sample(1, 3)[0]
	values := p.Values(nil)
	if len(values) != len(Dimensions()) {
		t.Fatalf("%d values", len(values))
	}
	for i, name := range Dimensions() {
		if want, _ := p.Dimension(name); values[i] != want {
			t.Errorf("%s is %g, want %g", name, values[i], want)
		}
	}
}

func ExampleNewReader() {
	r, err := NewReader("crew.csv", strings.NewReader("label,sex,stature_cm,mass_kg\nAnna,woman,165,62\nBo,man,17,80\n"),
		Population{Source: "survey", Carrying: DefaultCarrying(), Age: 30}, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	for p, err := range r.All() {
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%s %.0f mm\n", p.Label, p.Stature)
	}
	// Output:
	// Anna 1650 mm
	// crew.csv:3:3: stature_cm: 17 is outside what people measure
}
