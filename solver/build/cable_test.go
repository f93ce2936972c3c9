package build

import (
	"math"
	"strings"
	"testing"

	"armwright/geometry/cable"
	"armwright/geometry/station/values"
	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// completed is the state of a frame's drive with its station built, by a builder of its own.
func completed(t *testing.T, f *specs.Frame) (*Builder, drive.State) {
	t.Helper()
	s := builderFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err == nil {
		_, err = s.Complete(&f.Geometry, &d)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s, d
}

// The cable to cut is the way to the stack, what lies on the cam behind the
// contact, and the ends; that what lies there grows as flexion takes up cable is
// the take-up less what the free span gives.
func TestCableLength(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	_, d := completed(t, &f)
	from, to := d.Angles[0], d.Angles[len(d.Angles)-1]
	first, err := d.Profile.At(from)
	if err != nil {
		t.Fatal(err)
	}
	last, err := d.Profile.At(to)
	if err != nil {
		t.Fatal(err)
	}
	start, end := onCam(d.Outline, first.Phi), onCam(d.Outline, last.Phi)
	guide := d.Profile.Guide
	// Take-up = arc + change of span + s r change of psi (docs/cam.md).
	psi := last.Psi - first.Psi
	if got := end - start + last.Span - first.Span + float64(guide.Side)*guide.Radius*psi; math.Abs(got-d.TakeUp) > 0.02 {
		t.Errorf("arc and span give a take-up of %.3f mm, the law %.3f", got, d.TakeUp)
	}
	if want := 2 * (d.Route.Length + start + cableEnd); math.Abs(d.Route.Cut-want) > 1e-9 || start <= 0 {
		t.Errorf("cut %.1f mm, want %.1f", d.Route.Cut, want)
	}
}

// A plate of 6 kg, 30 mm thick, is 180 mm across: 7.85e-6 x 30 x π/4 d².
func TestEccentricSweepsItsPlate(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.Geometry.Counterweight, f.Geometry.Eccentric = nil, &specs.Eccentric{Mass: 6, Radius: 200, Phase: -60 * specs.Degree}
	s, seen := builderFor(t, &f.Asked), 0
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	v := s.Values(&f.Geometry, &d)
	for _, m := range s.Movers(&v) {
		if m.Name != EccentricName {
			continue
		}
		seen++
		if math.Abs(2*m.across-math.Sqrt(6/(7.85e-6*values.WeightThick*math.Pi/4))) > 1e-6 {
			t.Errorf("it sweeps %.1f mm across", 2*m.across)
		}
	}
	if seen == 0 {
		t.Error("it sweeps nothing")
	}
}

// On its whole way the cable runs onto each sheave the way that the sheave turns, round
// it by its turn, and off it along a tangent: on a shared stack and on a pair. The guide
// sheave stands as the cable runs in the middle of the range; the half of a floating
// sheave ends at its lowest point.
func TestCableRunsWithItsSheaves(t *testing.T) {
	for _, stack := range []string{"shared", "pair"} {
		f := solvertest.Frame(t, "arm-pad-station")
		f.Resistance.Stack = stack
		g := &f.Geometry
		s, d := completed(t, &f)
		// Places of the cam's plane, the middle axis level and forward, by the profile.
		v := s.Values(g, &d)
		plane := NewSwing(r3.Vec{Y: -g.Pivots.Spacing / 2, Z: g.Pivots.Height}, g.Pivots.Axes[len(g.Pivots.Axes)/2].Vector(), 0)
		contact := func(theta float64) r3.Vec {
			at, err := d.Profile.At(theta)
			if err != nil {
				t.Fatal(err)
			}
			return plane.InPlane(g.Cam.CentreX+at.Contact.X, g.Cam.CentreY+at.Contact.Y, v.Planes().Cam)
		}
		first, last := s.Angles[0], s.Angles[len(s.Angles)-1]
		// Axes of frame files are rounded to 1e-6 deg, which is 1e-5 mm over the width.
		if start := contact(first); r3.Norm(r3.Sub(start, d.Route.Start)) > 1e-4 {
			t.Errorf("%s: the cable starts at %.4f, by the profile %.4f", stack, d.Route.Start, start)
		}
		from := contact((first + last) / 2)
		for i, q := range d.Route.Sheaves {
			in, out := r3.Sub(q.In, q.Centre), r3.Sub(q.Out, q.Centre)
			if !d.Route.Pair && i == len(d.Route.Sheaves)-1 {
				out = r3.Sub(d.Route.End, q.Centre)
			}
			if got := r3.Rotate(in, q.Turn, q.Axis); r3.Norm(r3.Sub(got, out)) > 1e-6 || math.Abs(r3.Norm(in)-q.Radius) > 1e-6 {
				t.Errorf("%s, %s: turned by %.1f deg the cable is %.3f mm from where it leaves", stack, q.Name, q.Turn/specs.Degree, r3.Norm(r3.Sub(got, out)))
			}
			// Right-handed about the axis, a rim moves along axis x radius.
			run, rim := r3.Unit(r3.Sub(q.In, from)), r3.Unit(r3.Cross(q.Axis, in))
			if r3.Norm(r3.Sub(run, rim)) > 1e-6 {
				t.Errorf("%s, %s: the cable comes along %.3f, the rim moves along %.3f", stack, q.Name, run, rim)
			}
			from = q.Out
		}
	}
}

// A mover's half length is half the distance of its ends, wherever those are told.
func TestMoverHalf(t *testing.T) {
	for _, c := range []struct {
		m    Mover
		want float64
	}{
		{Mover{Places: [][2]r2.Vec{{{X: 10, Y: 20}, {X: 40, Y: 60}}}}, 25},
		{Mover{across: 70}, 70},
		{Mover{r1: 10, W1: 5, r2: 40, W2: 45}, 25},
	} {
		if got := c.m.Half(); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %g, want %g", c.m, got, c.want)
		}
	}
	if !Beyond(r3.Vec{X: 3}, r3.Vec{Y: 4}, 4.99) || Beyond(r3.Vec{X: 3}, r3.Vec{Y: 4}, 5.01) || !Beyond(r3.Vec{}, r3.Vec{}, -1) {
		t.Error("Beyond counts wrongly: (3, 0, 0) and (0, 4, 0) are 5 apart")
	}
}

// A brief that says nothing of sheaves loses what the route that is drawn loses.
func TestBriefsCountTheSheavesOfTheRoute(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		f := solvertest.Frame(t, name)
		b, err := specs.ParseBrief("brief.yaml", []byte("armwright: brief/1\nname: plain\nkind: "+f.Kind+"\nresistance: {load: {light: 5 kg, middle: 10 kg, heavy: 20 kg}}\n"))
		if err != nil {
			t.Fatal(err)
		}
		if b.Resistance.Sheaves != cable.Sheaves {
			t.Errorf("%s: %d sheaves by default, the route has %d", name, b.Resistance.Sheaves, cable.Sheaves)
		}
	}
	f := solvertest.Frame(t, "arm-pad-station")
	_, d := completed(t, &f)
	still := 0
	for _, sheave := range d.Route.Sheaves {
		if !strings.Contains(sheave.Name, "floating") {
			still++
		}
	}
	if still != cable.Sheaves {
		t.Errorf("%d sheaves stand still on the route, %d are counted", still, cable.Sheaves)
	}
}
