package build

import (
	"math"
	"testing"

	"armwright/geometry/station"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// The cable to cut is the way to the stack, what lies on the cam behind the
// contact, and the ends; that what lies there grows as flexion takes up cable is
// the take-up less what the free span gives.
func TestCableLength(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s := builderFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err == nil {
		err = s.Complete(&f.Geometry, &d)
	}
	if err != nil {
		t.Fatal(err)
	}
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
	for _, m := range s.Movers(&f.Geometry, s.Layout(&f.Geometry)) {
		if m.Name != EccentricName {
			continue
		}
		seen++
		if math.Abs(2*m.across-math.Sqrt(6/(7.85e-6*station.CounterThick*math.Pi/4))) > 1e-6 {
			t.Errorf("it sweeps %.1f mm across", 2*m.across)
		}
	}
	if seen == 0 {
		t.Error("it sweeps nothing")
	}
}
