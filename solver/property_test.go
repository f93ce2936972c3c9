package solver_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armwright/solver"
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/testdata"

	"pgregory.net/rapid"
)

// frame is one of the stations of testdata, read.
func frame(t testing.TB, name string) specs.Frame {
	t.Helper()
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// nobody is a crowd without anybody: coverage is not counted.
func nobody() judge.Persons { return judge.Persons{} }

func judged(t testing.TB, f specs.Frame) *solver.Result {
	t.Helper()
	r, err := solver.CheckPeople(f, nobody())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The same quantities in other units are the same brief: a millimetre is a tenth of
// a centimetre and a thousandth of a metre, a kilogram is a thousand grams, a
// kilonewton a thousand newtons, a newton metre a thousand newton millimetres.
func TestUnitsDoNotMatter(t *testing.T) {
	testdata.FewChecks(t, 20)
	quantity := regexp.MustCompile(`(-?[0-9]+(?:\.[0-9]+)?) (mm|kg|N m|N)\b`)
	others := map[string][]struct {
		unit  string
		power int // of ten, units of it in one
	}{"mm": {{"cm", -1}, {"m", -3}}, "kg": {{"g", 3}}, "N": {{"kN", -3}}, "N m": {{"N mm", 3}}}
	for _, name := range testdata.Frames() {
		text := string(testdata.Frame(name))
		want := frame(t, name)
		rapid.Check(t, func(t *rapid.T) {
			n := 0
			other := quantity.ReplaceAllStringFunc(text, func(s string) string {
				n++
				if !rapid.Bool().Draw(t, fmt.Sprintf("change %d", n)) {
					return s
				}
				m := quantity.FindStringSubmatch(s)
				list := others[m[2]]
				o := list[rapid.IntRange(0, len(list)-1).Draw(t, fmt.Sprintf("unit %d", n))]
				return shifted(m[1], o.power) + " " + o.unit
			})
			got, err := specs.ParseFrame(name, []byte(other))
			if err != nil {
				t.Fatal(err)
			}
			if fmt.Sprintf("%#v", want.Asked) != fmt.Sprintf("%#v", got.Asked) || !sameGeometry(want, got) {
				t.Fatalf("another frame:\n%s", other)
			}
		})
	}
}

func sameGeometry(a, b specs.Frame) bool {
	var x, y strings.Builder
	return specs.WriteFrame(&x, a) == nil && specs.WriteFrame(&y, b) == nil && x.String() == y.String()
}

// shifted moves the decimal point of a number to the right.
func shifted(digits string, places int) string {
	sign := ""
	if rest, negative := strings.CutPrefix(digits, "-"); negative {
		sign, digits = "-", rest
	}
	whole, fraction, _ := strings.Cut(digits, ".")
	for ; places > 0; places-- {
		fraction += "0"
		whole, fraction = whole+fraction[:1], fraction[1:]
	}
	for ; places < 0; places++ {
		whole = "0" + whole
		whole, fraction = whole[:len(whole)-1], whole[len(whole)-1:]+fraction
	}
	if whole == "" {
		whole = "0"
	}
	if fraction == "" {
		return sign + whole
	}
	return sign + whole + "." + fraction
}

// Left and right exchanged: people whose right arm carries by so much more than the
// left are turned away by the same figures as those whose left does.
func TestSidesDoNotMatter(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		for _, degrees := range []float64{1.5, 4} {
			f := frame(t, name)
			f.People.Carrying.Sides = degrees * math.Pi / 180
			right := judged(t, f)
			f.People.Carrying.Sides *= -1
			left := judged(t, f)
			for i, q := range right.Requirements {
				o := left.Requirements[i]
				within := 1e-9
				if q.ID == "tilt-occupied" { // a body's centre of mass is taken with its right forearm on both sides
					within = 1e-5
				}
				if q.ID != o.ID || math.Abs(q.Value-o.Value) > within*(1+math.Abs(q.Value)) {
					t.Errorf("%s, %g degrees, %s: %g with more on the right, %g with more on the left", name, degrees, q.ID, q.Value, o.Value)
				}
			}
			f.People.Carrying.Sides = 0
			same := true
			for i, q := range judged(t, f).Requirements {
				same = same && q.Value == right.Requirements[i].Value
			}
			if same {
				t.Errorf("%s: a difference of %g degrees changes nothing", name, degrees)
			}
		}
	}
}

// A limit that is loosened never makes the verdict on a fixed station worse. Values
// may change: a person may sit otherwise where that is now the best. The gaps of the
// body to the moving arm and to the frame alone have no say in where a person sits, so
// they may miss there what they met before.
func TestLoosenedNeverWorse(t *testing.T) {
	testdata.FewChecks(t, 10)
	random := rand.New(rand.NewPCG(1, 2))
	for _, name := range testdata.Frames() {
		f := frame(t, name)
		before := judged(t, f)
		var some []judge.Requirement
		for _, q := range before.Requirements {
			if _, ok := specs.LimitIndex(q.ID); ok {
				some = append(some, q)
			}
		}
		limits := 5
		if testdata.IsLong() {
			limits = 20
		}
		for range limits {
			q := some[random.IntN(len(some))]
			by := 10 * random.Float64() * q.Scale
			if q.AtLeast {
				by = -by
			}
			g := f
			loosen(&g.Limits, q.ID, by)
			r := judged(t, g)
			i := slices.IndexFunc(r.Requirements, func(o judge.Requirement) bool { return o.ID == q.ID })
			for k, o := range before.Requirements {
				if n := r.Requirements[k]; before.Verdict == judge.Met && !n.Met && o.ID != "body-gap" && o.ID != "body-frame" {
					t.Errorf("%s: %s loosened by %g: %s is %g", name, q.ID, by, o.ID, n.Value)
				}
			}
			if n := r.Requirements[i]; n.Limit == q.Limit || q.Met && !n.Met {
				t.Errorf("%s: %s loosened by %g: limit %g, met %v", name, q.ID, by, n.Limit, n.Met)
			}
		}
	}
}

// loosen adds to the limit of a requirement.
func loosen(l *specs.Limits, id string, by float64) {
	i, _ := specs.LimitIndex(id)
	v := reflect.ValueOf(l).Elem().Field(i)
	v.SetFloat(v.Float() + by)
}

// Persons who come along never change what becomes of the others.
func TestOthersDoNotMatter(t *testing.T) {
	testdata.FewChecks(t, 10)
	f := frame(t, "arm-pad-station")
	f.People.Sample = 100
	var all []people.Person
	judge.Random(f.People).All(func(p people.Person) bool { all = append(all, p); return true })
	outcomes := func(list []people.Person) []string {
		var told []string
		_, err := solver.CheckPeople(f, judge.Persons{All: slices.Values(list), Each: func(p *seat.Person, away []judge.Shortfall) {
			told = append(told, fmt.Sprintf("%s %v %v", p.Person.Label, p, away))
		}})
		if err != nil {
			t.Fatal(err)
		}
		return told
	}
	together := outcomes(all)
	if len(together) != len(all) {
		t.Fatalf("%d outcomes of %d persons", len(together), len(all))
	}
	rapid.Check(t, func(t *rapid.T) {
		var some []people.Person
		var want []string
		for range rapid.IntRange(1, 8).Draw(t, "persons") {
			i := rapid.IntRange(0, len(all)-1).Draw(t, "person")
			some, want = append(some, all[i]), append(want, together[i])
		}
		if got := outcomes(some); !slices.Equal(got, want) {
			t.Fatalf("%v\nwant\n%v", got, want)
		}
	})
}

// The torque of the load is in proportion to it: twice the load, twice the torque
// beyond what arm and counterweight weigh themselves.
func TestTorqueOfTwiceTheLoad(t *testing.T) {
	for _, name := range testdata.Frames() {
		f := frame(t, name)
		f.Resistance.Load = specs.Loads{Light: 10, Middle: 20, Heavy: 40}
		r := judged(t, f).Resistance
		for i := range r.Angles {
			light, middle, heavy := r.Light.Delivered[i]-r.Gravity[i], r.Middle.Delivered[i]-r.Gravity[i], r.Heavy.Delivered[i]-r.Gravity[i]
			slack := 1e-9 * math.Abs(heavy)
			if math.Abs(middle-2*light) > slack || math.Abs(heavy-4*light) > slack || light == 0 {
				t.Errorf("%s at %s deg: %g, %g, %g N mm", name, strconv.FormatFloat(r.Angles[i]*180/math.Pi, 'f', 1, 64), light, middle, heavy)
			}
		}
	}
}
