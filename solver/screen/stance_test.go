package screen

import (
	"math"
	"testing"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// The stance used for tipping is the structure's centre at every angle, both
// arms moving.
func TestLinkageStance(t *testing.T) {
	f := solvertest.Frame(t, "reclined-linkage")
	g, s := &f.Geometry, screeningFor(t, &f.Asked)
	d, err := s.Evaluate(g)
	if err != nil {
		t.Fatal(err)
	}
	l := s.Layout(g)
	st := l.Build()
	stand := s.stance(&Scene{layout: l, built: st, drive: d})
	for k, theta := range s.Angles {
		mass, c := l.Moved(st, theta-s.Angles[0], 0).Centre()
		got := r3.Scale(1/stand.mass[2], stand.moment[2][bothArms][k])
		if math.Abs(mass-stand.mass[2]) > 1e-9 || r3.Norm(r3.Sub(got, c)) > 1e-6 {
			t.Errorf("at %.0f deg %.3f kg at %v, want %.3f kg at %v", theta/specs.Degree, stand.mass[2], got, mass, c)
		}
	}
}

// The plates are where the hazards' disc turns: its gap to the floor is that of
// the rim's lowest point, worked out by hand for a level axis. The disc is taken
// at eight diameters, so the lowest point may be missed by 1 - cos 11.25 deg of
// its radius.
func TestLinkageGapToFloor(t *testing.T) {
	f := solvertest.Frame(t, "reclined-linkage")
	g, s := &f.Geometry, screeningFor(t, &f.Asked)
	d, err := s.Evaluate(g)
	if err != nil {
		t.Fatal(err)
	}
	g.Pivots.Axes = []specs.Axis{{}}
	l := s.Layout(g)
	want := math.Inf(1)
	for _, theta := range s.Angles {
		p, err := drive.Train(g.Linkage).At(theta)
		if err != nil {
			t.Fatal(err)
		}
		want = math.Min(want, g.Pivots.Height+p.Plates.Y-build.PlateRim)
	}
	want -= l.PlatesEachArm / (7.85e-6 * math.Pi * 225 * 225) / 2 // the rim is taken round
	for _, p := range s.Hazards(g, l, l.Build(), d).Pairs {
		if p.Moving == "plates" && p.Fixed == floorName {
			if p.Gap < want-1e-6 || p.Gap > want+build.PlateRim*(1-math.Cos(11.25*specs.Degree)) {
				t.Errorf("gap %.2f mm, want %.2f", p.Gap, want)
			}
			return
		}
	}
	t.Error("no gap between plates and floor")
}

// Each arm's own stack stands under its cable's end: the same masses on each of two
// stacks as half a shared one.
func TestStacksRise(t *testing.T) {
	shared := solvertest.Frame(t, "arm-pad-station")
	paired := solvertest.Frame(t, "arm-pad-station")
	r := &paired.Resistance
	r.Stack = "pair"
	r.Load = specs.Loads{Light: r.Load.Light / 2, Middle: r.Load.Middle / 2, Heavy: r.Load.Heavy / 2}
	// Balance: one arm alone lifts its own stack all the way, both lift two; with the
	// pivots' mirror symmetry the moments about the floor are those of the shared one.
	stand := func(f *specs.Frame) (*stance, float64) {
		s := screeningFor(t, &f.Asked)
		d, err := s.Evaluate(&f.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		l := s.Furnish(&f.Geometry, &d)
		return s.stance(&Scene{layout: l, built: l.Build(), drive: d}), d.TakeUp
	}
	a, _ := stand(&shared)
	b, travel := stand(&paired)
	last := len(b.lift[rightAlone]) - 1
	if up := b.lift[rightAlone][last]; math.Abs(up-travel) > 1e-9 || math.Abs(a.lift[rightAlone][last]-up/2) > 1e-9 {
		t.Errorf("one arm lifts %.1f mm, take-up %.1f, shared %.1f", up, travel, a.lift[rightAlone][last])
	}
	// What is lifted is the same: half the mass on each of two, or all on one.
	rise := func(s *stance, way int) float64 { return s.moment[2][way][last].Z - s.moment[2][way][0].Z }
	if math.Abs(rise(a, bothArms)-rise(b, bothArms)) > 1e-6*rise(a, bothArms) {
		t.Errorf("both arms raise %.0f kg·mm, of a shared stack %.0f", rise(b, bothArms), rise(a, bothArms))
	}
}
