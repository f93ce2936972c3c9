package drive

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// A man of 73 kg and 1.741 m has 2.898 N·m of forearm and hand about a level axis with
// the forearm level (segments of de Leva 1996, worked by hand), and half of it at 60
// degrees.
func TestLimbMoment(t *testing.T) {
	s := Designer{limbs: [2]limb{{1.628, 181.5}, {1.628, 181.5}}}
	h := s.limbMoment(r3.Vec{X: 1}, r3.Vec{Y: -1})
	for theta, want := range map[float64]float64{0: 2898, 60: 1449, 90: 0} {
		if got := h.At(theta * specs.Degree); math.Abs(got-want) > 2 {
			t.Errorf("at %g deg %.1f N·mm, want %g", theta, got, want)
		}
	}
}

// Counted, the forearm is part of what the arm's own weights ask for, and of nothing
// else; told, it is not.
func TestForearmCounted(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	told := designerFor(t, &f.Asked)
	counted := f.Asked
	counted.Resistance.Forearm = "counted"
	with := designerFor(t, &counted)
	d, err := told.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	limb := told.LimbOf(&f.Geometry, &d)
	a, b := told.GravityMoments(&f.Geometry), with.GravityMoments(&f.Geometry)
	for i := range a {
		if got := b[i] - a[i]; math.Abs(got-limb.Moment[i]) > 1e-6 {
			t.Errorf("at %g rad %g N·mm more, want %g", told.Angles[i], got, limb.Moment[i])
		}
	}
	e, err := with.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range [3]float64{e.Light.RMS, e.Middle.RMS, e.Heavy.RMS} {
		if math.Abs(v-limb.RMS[i]) > 1e-9 {
			t.Errorf("load %d: counted %g rms, told %g", i, v, limb.RMS[i])
		}
	}
}

// Steps by hand: what 1 kg adds to the level, times the step, over the level at the
// light load; and the level asked for is reached by the drive that is designed for it.
func TestStepsAndAskedTorque(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	b.Kind = "cam-study"
	b.Resistance.Ratio = specs.Range{From: 1.5, To: 1.5}
	b.Resistance.Torque = specs.Range{From: 8000, To: 55000}
	s := designerFor(t, &b.Asked)
	if got := s.wantedLevel(); math.Abs(got-56100) > 1e-6 {
		t.Errorf("wanted %g N·mm", got)
	}
	d := State{Unit: make([]float64, len(s.Angles))}
	d.Gravity = make([]float64, len(s.Angles))
	for i, v := range s.Shape {
		d.Unit[i], d.Gravity[i] = 700*v, 1000*v
	}
	s.load(&d)
	d.Levels = s.Levels(&d)
	steps := s.Steps(&d)
	if len(steps) != 2 || steps[0].Mass != 2.5 || steps[1].Mass != 5 {
		t.Fatalf("steps %+v", steps)
	}
	// 10 kg: 8000 N·mm; 2.5 kg more: 1750.
	if math.Abs(steps[0].Share-1750.0/8000) > 1e-9 || math.Abs(steps[1].Share-3500.0/8000) > 1e-9 {
		t.Errorf("shares %g and %g", steps[0].Share, steps[1].Share)
	}
	weak := d.Levels[0]
	if math.Abs(steps[0].Weak-1750/weak.Range[0]) > 1e-9 {
		t.Errorf("of the weak %g", steps[0].Weak)
	}
	// The 5th percentile of those alike: 1 - 1.645 times 22 % of their mean.
	if math.Abs(weak.Range[0]/weak.Strength-0.638) > 5e-4 || math.Abs(weak.Range[1]/weak.Strength-1.362) > 5e-4 {
		t.Errorf("range %v about %g", weak.Range, weak.Strength)
	}
	if got := (weak.Range[0] - 8000) / 700; math.Abs(weak.Loads[0]-10-got) > 1e-9 {
		t.Errorf("load %g kg, want %g", weak.Loads[0], 10+got)
	}
}
