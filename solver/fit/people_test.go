package fit

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"io/fs"
	"iter"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"sync"
	"testing"

	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// solved frames of the examples, each solved once.
var solvedFrames sync.Map

func frameOf(t testing.TB, name string) specs.Frame {
	t.Helper()
	if f, ok := solvedFrames.Load(name); ok {
		return f.(specs.Frame)
	}
	f := solve(t, example(t, name)).Frame
	solvedFrames.Store(name, f)
	return f
}

// surveyRows are the 6068 measured persons of the 2012 survey, where they are
// at hand; they are not kept in this repository.
func surveyRows(t testing.TB) []people.Person {
	t.Helper()
	file, err := os.Open(filepath.FromSlash("../../../shared/data/ansur2_trim.csv.gz"))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("the survey's rows are not here")
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in, err := gzip.NewReader(file)
	if err != nil {
		t.Fatal(err)
	}
	return readPersons(t, in)
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
	s *program
	d drive
}

func judge(t testing.TB, f specs.Frame) judging {
	t.Helper()
	s, err := newProgram(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.drive(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	return judging{s, d}
}

// who tells who fits.
func (j judging) who(t testing.TB, g *specs.Geometry, persons []people.Person) []bool {
	t.Helper()
	var fits []bool
	j.s.cover(g, j.d, Persons{All: each(persons), Each: func(p *Person, away []Shortfall) {
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
	return j.s.cover(&f.Geometry, j.d, Persons{All: all})
}

// The 6068 measured persons of the survey against the model built from its
// statistics, on the example's frame: the shares who fit agree within 3
// points, for women, men and all.
func TestModelCoverageAgainstRows(t *testing.T) {
	rows := surveyRows(t)
	if len(rows) != 6068 {
		t.Fatalf("%d rows", len(rows))
	}
	f := frameOf(t, "arm-pad-station")
	measured := crowd(t, f, each(rows))
	pop := Population(f.People)
	pop.Source, pop.Women = "survey", 1986.0/6068
	model := crowd(t, f, pop.Draw(20000, 7))
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
}

// A longer seat travel never turns away more people: with seat positions
// added below or above, everybody who fitted fits.
func TestLongerSeatTravelTurnsNobodyAway(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		t.Run(name, func(t *testing.T) {
			f := frameOf(t, name)
			persons := Population(f.People).Sample(150, 3)
			j := judge(t, f)
			rapid.Check(t, func(rt *rapid.T) {
				short := Clone(&f.Geometry)
				short.Seat.Positions = rapid.IntRange(1, f.Geometry.Seat.Positions).Draw(rt, "positions")
				short.Seat.Lowest += short.Seat.Pitch * float64(rapid.IntRange(-2, 4).Draw(rt, "shift"))
				below, above := rapid.IntRange(0, 3).Draw(rt, "below"), rapid.IntRange(0, 3).Draw(rt, "above")
				long := Clone(short)
				long.Seat.Lowest -= float64(below) * long.Seat.Pitch
				long.Seat.Positions += below + above
				a, b := j.who(t, short, persons), j.who(t, long, persons)
				for i := range a {
					if a[i] && !b[i] {
						rt.Fatalf("%s fits with %d seats and not with %d", persons[i].Label, short.Seat.Positions, long.Seat.Positions)
					}
				}
			})
		})
	}
}

// The setting that best finds is as good as the best of every setting there
// is, tried one by one.
func TestBracketingMissesNothing(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		f := frameOf(t, name)
		j := judge(t, f)
		s, d := j.s, j.d
		m := newMachine(&f.Geometry)
		p := sitter{level: d.level}
		own, scratch := &rows{card: &s.card}, &rows{card: &s.card}
		for _, person := range Population(f.People).Sample(200, 5) {
			s.receive(&p, -1, person, Body(person, f.People, f.Posture.GripRotation))
			own.list = own.list[:0]
			s.best(m, &p, own, scratch)
			found, top := own.least(), math.Inf(-1)
			for seat := range f.Geometry.Seat.Positions {
				for axis := range m.axes {
					for handle := range f.Geometry.Handle.Positions {
						scratch.list = scratch.list[:0]
						s.place(m, &p, setting{seat, axis, handle}, scratch)
						top = math.Max(top, scratch.least())
					}
				}
			}
			// Persons beyond every seat may be left on the nearest end.
			if found < top-1e-6 && top >= meets {
				t.Errorf("%s: %s found %g, there is %g", name, person.Label, found, top)
			}
		}
	}
}

// The left side is the mirror image of the right: mirroring elbow, arm, axis
// and pivot in the x-z plane leaves the hand's path as seen from the axis, and
// with it the mismatch, as it was.
func TestMirror(t *testing.T) {
	f := frameOf(t, "arm-pad-station")
	s, err := newProgram(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	m := newMachine(&f.Geometry)
	rapid.Check(t, func(rt *rapid.T) {
		var p sitter
		p.take(&s.placer, rapid.IntRange(0, len(s.persons)-1).Draw(rt, "person"))
		axis := rapid.IntRange(0, len(m.axes)-1).Draw(rt, "axis")
		at := s.sit(m, &p, rapid.IntRange(0, f.Geometry.Seat.Positions-1).Draw(rt, "seat"), &rows{card: &s.card})
		var w swing
		s.swingOn(m, &p, &at, &p.limbs[0], axis, &w, &rows{card: &s.card})
		s.follow(m, &w)
		left := elbow.Path{Still: station.Mirror(w.path.Still), Sin: station.Mirror(w.path.Sin), Cos: station.Mirror(w.path.Cos)}
		points := left.Seen(nil, station.Mirror(m.pivot), station.Mirror(m.axes[axis]), s.sin, s.cos)
		for i, q := range points {
			if math.Abs(q.Radial-w.points[i].Radial) > 1e-9 || math.Abs(q.Axial-w.points[i].Axial) > 1e-9 {
				rt.Fatalf("left %v, right %v", q, w.points[i])
			}
		}
		// And the circle of the left hand from the left elbow, worked out anew.
		elbowLeft := station.Mirror(at.pose.Elbow)
		for i, theta := range s.angles {
			f := p.limbs[0].hinge.Forearm(theta)
			hand := r3.Add(elbowLeft, r3.Scale(p.body.Forearm, station.Mirror(w.arm.To(f))))
			if d := r3.Norm(r3.Sub(hand, left.At(s.sin[i], s.cos[i]))); d > 1e-9 {
				rt.Fatalf("left hand off by %g mm", d)
			}
		}
	})
}

// A change of units changes nothing: the frame written in inches and pounds,
// and the persons in inches and pounds, give the same persons fitting with the
// same settings.
func TestUnitsChangeNothing(t *testing.T) {
	f := frameOf(t, "arm-pad-station")
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
		persons := Population(f.People).Sample(40, uint64(rapid.IntRange(0, 1000).Draw(rt, "seed")))
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
			write(&metric, 1, 1, deg)
			write(&other, 25.4, 0.45359237, 1)
		}
		settings := func(j judging, g *specs.Geometry, in io.Reader) (out []setting, fits []bool) {
			j.s.cover(g, j.d, Persons{All: each(readPersons(t, in)), Each: func(p *Person, _ []Shortfall) {
				out, fits = append(out, setting{p.Seat, p.Axis, p.Handle}), append(fits, p.Fits)
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
	f := frameOf(t, "arm-pad-station")
	persons := Population(f.People).Sample(300, 11)
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
	apart, mirrored, hardly := verdicts(4*deg), verdicts(-4*deg), verdicts(1e-9)
	more, less := shifted(2*deg), shifted(-2*deg)
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
	f := frameOf(t, "arm-pad-station")
	persons := Population(f.People).Sample(600, 9)
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

// Placing allocates nothing.
func TestPlacingAllocatesNothing(t *testing.T) {
	f := frameOf(t, "arm-pad-station")
	j := judge(t, f)
	s, d := j.s, j.d
	m := newMachine(&f.Geometry)
	p := sitter{level: d.level}
	own, scratch := &rows{card: &s.card}, &rows{card: &s.card}
	person := Population(f.People).Median(people.Man)
	got := testing.AllocsPerRun(100, func() {
		s.receive(&p, -1, person, Body(person, f.People, f.Posture.GripRotation))
		own.list = own.list[:0]
		s.best(m, &p, own, scratch)
		s.commonAxis(&p)
	})
	if got != 0 {
		t.Errorf("%g allocations a person", got)
	}
}

// BenchmarkPlace judges 6068 drawn persons, as many as the survey has, at 140
// angles of flexion: at most 0.3 s on one core are asked.
func BenchmarkPlace(b *testing.B) {
	f := frameOf(b, "arm-pad-station")
	s := judge(b, f).s
	s.grid(140)
	d, err := s.drive(&f.Geometry)
	if err != nil {
		b.Fatal(err)
	}
	persons := Population(f.People).Sample(6068, 1)
	b.ReportAllocs()
	for b.Loop() {
		s.cover(&f.Geometry, d, Persons{All: each(persons)})
	}
}

// BenchmarkAngles is BenchmarkPlace of 1000 persons at fewer and more angles.
func BenchmarkAngles(b *testing.B) {
	f := frameOf(b, "arm-pad-station")
	persons := Population(f.People).Sample(1000, 1)
	for _, n := range []int{35, 70, 140, 280} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			s := judge(b, f).s
			s.grid(n)
			d, err := s.drive(&f.Geometry)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				s.cover(&f.Geometry, d, Persons{All: each(persons)})
			}
		})
	}
}

// BenchmarkStream draws and judges persons one by one: the time is linear in
// their number, the memory does not grow.
func BenchmarkStream(b *testing.B) {
	f := frameOf(b, "arm-pad-station")
	j := judge(b, f)
	s, d := j.s, j.d
	for _, n := range []int{1000, 10000, 100000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.cover(&f.Geometry, d, Persons{All: Population(f.People).Draw(n, 1)})
			}
		})
	}
}

// A frame may ask for the persons of an ellipsoid instead of percentiles: 30 of
// them are placed, and coverage, counted on random persons, stays as it was.
func TestEllipsoidFrame(t *testing.T) {
	f := frameOf(t, "arm-pad-station")
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
