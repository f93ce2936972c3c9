package judge

import (
	"bytes"
	"io"
	"iter"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/testdata"

	"pgregory.net/rapid"
)

// surveyRows are the 6068 measured persons of the 2012 survey.
func surveyRows(t testing.TB) []people.Person {
	t.Helper()
	return readPersons(t, bytes.NewReader(testdata.Persons()))
}

func readPersons(t testing.TB, in io.Reader) []people.Person {
	t.Helper()
	pop := people.Population{Source: "survey", Carrying: people.DefaultCarrying(), Age: 30, Women: 0.5}
	r, err := people.NewReader("rows.csv", in, pop, 1)
	if err != nil {
		t.Fatal(err)
	}
	var list []people.Person
	for p, err := range r.All() {
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
	return list
}

func each(list []people.Person) iter.Seq[people.Person] {
	return func(yield func(people.Person) bool) {
		for _, p := range list {
			if !yield(p) {
				return
			}
		}
	}
}

// judging is a frame made ready to judge persons.
type judging struct {
	s  *Judge
	d  drive.State
	st build.Station
}

func judge(t testing.TB, f specs.Frame) judging {
	t.Helper()
	s, err := New(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	return judging{s, d, s.Station(&f.Geometry, &d, nil)}
}

// who tells who fits.
func (j judging) who(t testing.TB, g *specs.Geometry, persons []people.Person) []bool {
	t.Helper()
	var fits []bool
	j.s.cover(g, j.d, &j.st, Persons{All: each(persons), Each: func(p *seat.Person, away []Shortfall) {
		if p.Fits != (len(away) == 0) {
			t.Errorf("fits %v, turned away by %d", p.Fits, len(away))
		}
		fits = append(fits, p.Fits)
	}})
	return fits
}

// crowd judges persons on a frame.
func crowd(t testing.TB, f specs.Frame, all iter.Seq[people.Person]) Crowd {
	t.Helper()
	j := judge(t, f)
	return j.s.cover(&f.Geometry, j.d, &j.st, Persons{All: all})
}

// The 6068 measured persons of the survey against the model built from its
// statistics, on the frames of the examples: the shares who fit agree within 3
// points, for women, men and all.
func TestModelCoverageAgainstRows(t *testing.T) {
	testdata.Long(t)
	rows := surveyRows(t)
	if len(rows) != 6068 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			measured := crowd(t, f, each(rows))
			pop := drive.Population(f.People)
			pop.Source, pop.Women = "survey", 1986.0/6068
			model := crowd(t, f, pop.Draw(8000, 7))
			for _, c := range []struct {
				who         string
				rows, model Group
			}{
				{"all", measured.All, model.All},
				{"women", measured.Sexes[people.Woman], model.Sexes[people.Woman]},
				{"men", measured.Sexes[people.Man], model.Sexes[people.Man]},
			} {
				t.Logf("%s: rows %.1f %%, model %.1f %%", c.who, 100*c.rows.Share, 100*c.model.Share)
				if math.Abs(c.rows.Share-c.model.Share) > 0.03 {
					t.Errorf("%s: rows %.1f %%, model %.1f %%", c.who, 100*c.rows.Share, 100*c.model.Share)
				}
			}
			if math.Abs(measured.HandPath.Median-model.HandPath.Median) > 1 {
				t.Errorf("median hand path: rows %.1f mm, model %.1f", measured.HandPath.Median, model.HandPath.Median)
			}
		})
	}
}

// A longer seat travel never turns away more people: with seat positions
// added below or above, everybody who fitted fits, but for those to whom the body comes
// too near to a frame that has grown with the travel.
func TestLongerSeatTravelTurnsNobodyAway(t *testing.T) {
	testdata.FewChecks(t, 20)
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			persons := slices.Collect(drive.Population(f.People).Draw(150, 3))
			j := judge(t, f)
			rapid.Check(t, func(rt *rapid.T) {
				short := Clone(&f.Geometry)
				short.Seat.Positions = rapid.IntRange(1, f.Geometry.Seat.Positions).Draw(rt, "positions")
				short.Seat.Lowest += short.Seat.Pitch * float64(rapid.IntRange(-2, 4).Draw(rt, "shift"))
				below, above := rapid.IntRange(0, 3).Draw(rt, "below"), rapid.IntRange(0, 3).Draw(rt, "above")
				long := Clone(short)
				drop := float64(below) * long.Seat.Pitch
				long.Seat.Lowest -= drop
				if long.Back != nil { // stays where it is: its foot is told at the lowest seat
					long.Back.Foot += drop * math.Tan(long.Back.Angle)
				}
				long.Seat.Positions += below + above
				a := j.who(t, short, persons)
				var seated []bool
				j.s.cover(long, j.d, &j.st, Persons{All: each(persons), Each: func(_ *seat.Person, away []Shortfall) {
					seated = append(seated, !slices.ContainsFunc(away, func(f Shortfall) bool { return f.ID != "body-frame" && f.ID != "body-gap" }))
				}})
				for i := range a {
					if a[i] && !seated[i] {
						rt.Fatalf("%s fits with %d seats and not with %d", persons[i].Label, short.Seat.Positions, long.Seat.Positions)
					}
				}
			})
		})
	}
}

// A change of units changes nothing: the frame written in inches and pounds,
// and the persons in inches and pounds, give the same persons fitting with the
// same settings.
func TestUnitsChangeNothing(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	var file bytes.Buffer
	if err := specs.WriteFrame(&file, f); err != nil {
		t.Fatal(err)
	}
	inUnit := func(pattern, unit string, factor float64) {
		re := regexp.MustCompile(`(-?[0-9]+(?:\.[0-9]+)?) ` + pattern + `\b`)
		changed := re.ReplaceAllStringFunc(file.String(), func(q string) string {
			x, err := strconv.ParseFloat(re.FindStringSubmatch(q)[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			return strconv.FormatFloat(x/factor, 'f', -1, 64) + " " + unit
		})
		file.Reset()
		file.WriteString(changed)
	}
	inUnit("mm", "in", 25.4)
	inUnit("kg", "lb", 0.45359237)
	changed, err := specs.ParseFrame("frame.yaml", file.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	judgedMetric, judgedOther := judge(t, f), judge(t, changed)
	rapid.Check(t, func(rt *rapid.T) {
		persons := slices.Collect(drive.Population(f.People).Draw(40, uint64(rapid.IntRange(0, 1000).Draw(rt, "seed"))))
		var metric, other bytes.Buffer
		metric.WriteString("sex,stature_mm,mass_kg,sitting_height_mm,acromion_height_mm,carrying_angle_deg\n")
		other.WriteString("sex,stature_in,mass_lb,sitting_height_in,acromion_height_in,carrying_angle_rad\n")
		for _, p := range persons {
			write := func(b *bytes.Buffer, length, mass, angle float64) {
				b.WriteString(p.Sex.String())
				for _, x := range []float64{p.Stature / length, p.Mass / mass, p.SittingHeight / length, p.AcromionHeight / length, p.CarryingAngle / angle} {
					b.WriteString("," + strconv.FormatFloat(x, 'g', -1, 64))
				}
				b.WriteByte('\n')
			}
			write(&metric, 1, 1, specs.Degree)
			write(&other, 25.4, 0.45359237, 1)
		}
		settings := func(j judging, g *specs.Geometry, in io.Reader) (out []seat.Setting, fits []bool) {
			j.s.cover(g, j.d, &j.st, Persons{All: each(readPersons(t, in)), Each: func(p *seat.Person, _ []Shortfall) {
				out, fits = append(out, seat.Setting{Seat: p.Seat, Axis: p.Axis, Handle: p.Handle}), append(fits, p.Fits)
			}})
			return out, fits
		}
		a, fitsA := settings(judgedMetric, &f.Geometry, &metric)
		b, fitsB := settings(judgedOther, &changed.Geometry, &other)
		for i := range a {
			if a[i] != b[i] || fitsA[i] != fitsB[i] {
				rt.Fatalf("%s: %v fits %v, in other units %v fits %v", persons[i].Label, a[i], fitsA[i], b[i], fitsB[i])
			}
		}
	})
}

// A difference between the sides costs somebody and never helps: everybody who
// fits with arms 4 degrees apart fits with at least one of the two alike, and
// a difference of next to nothing changes nobody's verdict.
func TestSidesApart(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	persons := slices.Collect(drive.Population(f.People).Draw(300, 11))
	alike := judge(t, f).who(t, &f.Geometry, persons)
	verdicts := func(d float64) []bool {
		g := f
		g.People.Carrying.Sides = d
		return judge(t, g).who(t, &g.Geometry, persons)
	}
	shifted := func(d float64) []bool {
		moved := append([]people.Person(nil), persons...)
		for i := range moved {
			moved[i].CarryingAngle += d
		}
		return judge(t, f).who(t, &f.Geometry, moved)
	}
	apart, mirrored, hardly := verdicts(4*specs.Degree), verdicts(-4*specs.Degree), verdicts(1e-9)
	more, less := shifted(2*specs.Degree), shifted(-2*specs.Degree)
	for i := range persons {
		if hardly[i] != alike[i] {
			t.Errorf("%s: alike %v, a hair apart %v", persons[i].Label, alike[i], hardly[i])
		}
		if apart[i] != mirrored[i] {
			t.Errorf("%s: right more %v, left more %v", persons[i].Label, apart[i], mirrored[i])
		}
		if apart[i] && !(more[i] && less[i]) {
			t.Errorf("%s fits with the arms apart, but not with both like the one or the other", persons[i].Label)
		}
	}
}

// The counts of a crowd agree with its persons, and every table adds up.
func TestCrowdAddsUp(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	persons := slices.Collect(drive.Population(f.People).Draw(600, 9))
	c := crowd(t, f, each(persons))
	fits := 0
	for _, ok := range judge(t, f).who(t, &f.Geometry, persons) {
		if ok {
			fits++
		}
	}
	if c.All.N != len(persons) || c.All.Fits != fits {
		t.Errorf("%d of %d fit, counted %d of %d", fits, len(persons), c.All.Fits, c.All.N)
	}
	n, inBands := 0, 0
	for _, b := range c.Bands {
		n += b.N
		inBands += b.Fits
		if b.Seat.N != b.Fits || b.Handle.N != b.Fits || b.Axis[0].N+b.Axis[1].N != b.Fits {
			t.Errorf("band %g: settings of %d, %d, %d persons, %d fit", b.From, b.Seat.N, b.Handle.N, b.Axis[0].N+b.Axis[1].N, b.Fits)
		}
		if b.Seat.Low > b.Seat.Middle || b.Seat.Middle > b.Seat.High || b.Low > b.Share || b.Share > b.High {
			t.Errorf("band %+v", b)
		}
	}
	if n != c.All.N || inBands != fits || c.Sexes[0].N+c.Sexes[1].N != n || c.Sexes[0].Fits+c.Sexes[1].Fits != fits {
		t.Errorf("bands hold %d persons, %d fit; sexes %+v", n, inBands, c.Sexes)
	}
	only := 0
	for _, k := range c.TurnedBy {
		only += k.Only
		if k.Only > k.N || k.Sexes[0]+k.Sexes[1] != k.N || k.From >= k.To {
			t.Errorf("%+v", k)
		}
	}
	if only > c.All.N-fits {
		t.Errorf("%d turned away by one requirement alone, %d in all", only, c.All.N-fits)
	}
	// The taller sit lower.
	first, last := c.Bands[1], c.Bands[len(c.Bands)-2]
	if first.Seat.N > 5 && last.Seat.N > 5 && first.Seat.Middle <= last.Seat.Middle {
		t.Errorf("short people's seat %d, tall people's %d", first.Seat.Middle, last.Seat.Middle)
	}
	if c.HandPath.Median >= c.Common.Median || c.HandPath.Worst >= c.Common.Worst {
		t.Errorf("hand path %+v, common axis %+v", c.HandPath, c.Common)
	}
	// One axis alone leaves more at worst than the choice of several.
	for _, a := range c.OneAxis {
		if a.Within > c.All.Share+0.5 || a.HandPath.Median < c.HandPath.Median {
			t.Errorf("%+v beside %+v", a, c.HandPath)
		}
	}
}

// BenchmarkPlace judges 6068 drawn persons, as many as the survey has, at 140
// angles of flexion: at most 0.3 s on one core are asked.
func BenchmarkPlace(b *testing.B) {
	f := solvertest.Frame(b, "arm-pad-station")
	s := judge(b, f).s
	s.Angles, s.Sin, s.Cos, s.Shape = solvertest.Divided(b, s.Asked, 140)
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		b.Fatal(err)
	}
	persons := slices.Collect(drive.Population(f.People).Draw(6068, 1))
	st := s.Station(&f.Geometry, &d, nil)
	b.ReportAllocs()
	for b.Loop() {
		s.cover(&f.Geometry, d, &st, Persons{All: each(persons)})
	}
}

// BenchmarkAngles is BenchmarkPlace of 1000 persons at fewer and more angles.
func BenchmarkAngles(b *testing.B) {
	f := solvertest.Frame(b, "arm-pad-station")
	persons := slices.Collect(drive.Population(f.People).Draw(1000, 1))
	for _, n := range []int{35, 70, 140, 280} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			s := judge(b, f).s
			s.Angles, s.Sin, s.Cos, s.Shape = solvertest.Divided(b, s.Asked, n)
			d, err := s.Evaluate(&f.Geometry)
			if err != nil {
				b.Fatal(err)
			}
			st := s.Station(&f.Geometry, &d, nil)
			for b.Loop() {
				s.cover(&f.Geometry, d, &st, Persons{All: each(persons)})
			}
		})
	}
}

// BenchmarkStream draws and judges persons one by one: the time is linear in
// their number, the memory does not grow.
func BenchmarkStream(b *testing.B) {
	f := solvertest.Frame(b, "arm-pad-station")
	j := judge(b, f)
	s, d, st := j.s, j.d, j.st
	for _, n := range []int{1000, 10000, 100000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.cover(&f.Geometry, d, &st, Persons{All: drive.Population(f.People).Draw(n, 1)})
			}
		})
	}
}

// A frame may ask for the persons of an ellipsoid instead of percentiles: 30 of
// them are placed, and coverage, counted on random persons, stays as it was.
func TestEllipsoidFrame(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 300
	before, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	f.People.Boundary, f.People.Share = "ellipsoid", 0.9
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(r.People.Boundary); n != 30 {
		t.Errorf("%d persons", n)
	}
	if len(before.People.Boundary) != 50 || r.People.Crowd.All.N != 300 {
		t.Errorf("%d persons before, %d random", len(before.People.Boundary), r.People.Crowd.All.N)
	}
	for _, p := range r.People.Boundary {
		if p.Fits != (len(p.TurnedBy) == 0) {
			t.Errorf("%s: fits %v, turned away by %v", p.Person.Label, p.Fits, p.TurnedBy)
		}
	}
}
