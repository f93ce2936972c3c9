package fit

import (
	"math"
	"slices"
	"testing"

	"armwright/geometry/cam"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// The arm-pad example with the rebuilt muscle curve and 4 mm 7x19 cable: within
// 1.5 % rms and 3 % at worst of the peak over 5-130 degrees by the drive ratio.
// With the ratio held at 1 the curvature of the curve leaves several per cent,
// and the result says where and what keeps the cam from the curve. The design
// card derives 5-7 % rms (14-20 % at worst) for radii of at least 50 mm and
// moment arms up to 110-150 mm; the desirable 48 mm that the example asks for and
// 150 mm leave 5.23 %, the least 36 mm 4.50 %: TestShaftCamOfTheDesignCard has the
// card's own case.
func TestRatioBuysTheArmPadMatch(t *testing.T) {
	testdata.Long(t)
	b := solvertest.Brief(t, "arm-pad-station")
	if b.Resistance.Curve != "model-three" || b.Stock.Cable != "7x19-4" || b.Resistance.Loaded != (specs.Range{From: 5 * specs.Degree, To: 130 * specs.Degree}) {
		t.Fatalf("the example asks for %s, %s, %v", b.Resistance.Curve, b.Stock.Cable, b.Resistance.Loaded)
	}
	r := solve(t, b)
	for _, v := range []drive.Torque{r.Resistance.Light, r.Resistance.Middle, r.Resistance.Heavy} {
		t.Logf("%3.0f kg: rms %.2f %%, worst %.2f %%", v.Load, 100*v.RMS, 100*v.MaxError)
		if v.RMS > b.Limits.TorqueMatch || v.MaxError > 0.03 {
			t.Errorf("%.0f kg: rms %.4f, worst %.4f", v.Load, v.RMS, v.MaxError)
		}
	}
	for _, c := range []struct {
		rule     string
		low, top float64
	}{{"least", 0.04, 0.05}, {"desirable", 0.05, 0.07}} {
		b.Resistance.Ratio = specs.Range{From: 1, To: 1}
		b.Stock.BendRule = c.rule
		s, err := NewProgram(&b.Asked)
		if err != nil {
			t.Fatal(err)
		}
		g := judge.Clone(&r.Frame.Geometry)
		if _, err := s.Design(g); err != nil {
			t.Fatal(err)
		}
		held, err := judge.CheckPeople(specs.Frame{Format: "frame/1", Name: "held", Asked: b.Asked, Geometry: *g}, judge.Random(b.People))
		if err != nil {
			t.Fatal(err)
		}
		m := held.Resistance.Middle
		t.Logf("on the shaft, %s: rms %.2f %%, worst %.2f %%, %+v", c.rule, 100*m.RMS, 100*m.MaxError, held.Resistance.Departures)
		if m.RMS < c.low || m.RMS > c.top {
			t.Errorf("on the shaft, %s: rms %.4f, want %.2f to %.2f", c.rule, m.RMS, c.low, c.top)
		}
		if len(held.Resistance.Departures) == 0 {
			t.Errorf("on the shaft, %s: nothing is said about why", c.rule)
		}
	}
}

// The outline's arcs give the torque within 0.2 %, and the work on the stack is
// the integral of the torque within 0.1 % without friction, for every example
// with a cam.
func TestOutlineAndEnergyOfExamples(t *testing.T) {
	testdata.Long(t)
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		_, r := solved(t, name)
		d, c := &r.Resistance, r.Frame.Geometry.Cam
		for i, theta := range d.Angles {
			reading, err := cam.Measure(d.Outline.Root, d.Cable.Diameter, d.Profile.Guide, c.Ratio, theta)
			if err != nil {
				t.Fatal(err)
			}
			measured := c.Ratio*reading.Arm*d.Tension + d.Gravity[i]
			if math.Abs(measured-d.Middle.Delivered[i]) > 0.002*math.Abs(d.Middle.Delivered[i]) {
				t.Errorf("%s at %.0f deg: outline %.0f N·mm, law %.0f", name, theta/specs.Degree, measured, d.Middle.Delivered[i])
			}
		}
		e := d.Energy
		t.Logf("%s: stack %.1f mm, work on it %.3f J, of the torque %.3f J", name, e.StackTravel, e.Stack/1000, e.Torque/1000)
		if !(e.Stack > 0) || e.Difference > 1e-3 || math.Abs(e.StackTravel-d.TakeUp) > 1e-3*d.TakeUp {
			t.Errorf("%s: %+v, take-up %.2f", name, e, d.TakeUp)
		}
	}
}

// Friction: between going up and coming down lies the square of the cable's
// efficiency on the cable's part; hand calculation for 4 sheaves of 97 %:
// 0.97^4 = 0.885293.
func TestFrictionUpAndDown(t *testing.T) {
	f := solve(t, solvertest.Brief(t, "cam-study")).Frame
	f.Resistance.Sheaves, f.Resistance.Efficiency = 4, 0.97
	r, err := judge.CheckPeople(f, judge.Random(f.People))
	if err != nil {
		t.Fatal(err)
	}
	d := &r.Resistance
	for i := range d.Angles {
		cable := d.Middle.Delivered[i] - d.Gravity[i]
		if v := (d.Middle.Lifting[i] - d.Gravity[i]) / cable; math.Abs(v-1/0.88529281) > 1e-9 {
			t.Fatalf("going up: %g", v)
		}
		if v := (d.Middle.Lowering[i] - d.Gravity[i]) / cable; math.Abs(v-0.88529281) > 1e-9 {
			t.Fatalf("coming down: %g", v)
		}
	}
	f.Resistance.Efficiency = 1
	if r, err = judge.CheckPeople(f, judge.Random(f.People)); err != nil {
		t.Fatal(err)
	}
	for i, v := range r.Resistance.Middle.Delivered {
		if r.Resistance.Middle.Lifting[i] != v || r.Resistance.Middle.Lowering[i] != v {
			t.Fatal("sheaves without friction change the torque")
		}
	}
}

// The load that is level with a person makes the curve's peak that person's
// strength.
func TestLevelIsThePersonsStrength(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	r := solve(t, b)
	if len(r.Resistance.Levels) != 2 || r.Resistance.Levels[0].Load >= r.Resistance.Levels[1].Load {
		t.Fatalf("%+v", r.Resistance.Levels)
	}
	for _, l := range r.Resistance.Levels {
		f := r.Frame
		f.Resistance.Load = specs.Loads{Light: l.Load / 2, Middle: l.Load, Heavy: l.Load * 2}
		c, err := judge.CheckPeople(f, judge.Random(f.People))
		if err != nil {
			t.Fatal(err)
		}
		at := slices.Index(c.Resistance.Strength, slices.Max(c.Resistance.Strength))
		if peak := c.Resistance.Middle.Target[at] / c.Resistance.Strength[at]; math.Abs(peak-l.Strength) > 1e-4*l.Strength {
			t.Errorf("%s: %.2f kg gives %.0f N·mm, strength %.0f", l.Person, l.Load, peak, l.Strength)
		}
	}
}

// An eccentric weight brings a first harmonic that stays while the load changes:
// where the loads lie close together it takes over part of what curvature keeps
// the cam from, where they lie far apart it cannot.
func TestEccentricWeight(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	b.Resistance.Eccentric = 40
	b.Limits.TorqueMatch = 0.001
	b.Resistance.Load = specs.Loads{Light: 9, Middle: 10, Heavy: 11}
	r := solve(t, b)
	e := r.Frame.Geometry.Eccentric
	if e == nil || e.Mass > 40 || r.Frame.Geometry.Counterweight != nil {
		t.Fatalf("eccentric %+v, counterweight %+v", e, r.Frame.Geometry.Counterweight)
	}
	side := func(list []drive.RatioChoice) (with, without drive.RatioChoice) {
		for _, c := range list {
			if c.HasEccentric {
				with = c
			} else {
				without = c
			}
		}
		return with, without
	}
	with, without := side(r.Resistance.Ratios)
	t.Logf("close loads: %.2f kg, worst rms %.2f %% with, %.2f %% without", with.Eccentric, 100*with.WorstRMS, 100*without.WorstRMS)
	if !with.Chosen || with.WorstRMS > 0.7*without.WorstRMS {
		t.Errorf("with %+v, without %+v", with, without)
	}
	// What the choice promises is what the frame delivers.
	if m := r.Resistance.Middle.RMS; math.Abs(m-with.RMS) > 1e-5 {
		t.Errorf("chosen for an rms of %.6f, delivers %.6f", with.RMS, m)
	}
	b.Resistance.Load = specs.Loads{Light: 2.5, Middle: 10, Heavy: 20}
	with, _ = side(solve(t, b).Resistance.Ratios)
	t.Logf("far loads: %.2f kg, worst rms %.2f %% with", with.Eccentric, 100*with.WorstRMS)
	if with.WorstRMS < 0.03 {
		t.Errorf("loads of 1 to 8 are matched within %.4f by one weight", with.WorstRMS)
	}
}

// Lightening holes leave the stated web to everything and change no torque.
func TestLighteningKeepsTheWeb(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	plain := solve(t, b)
	b.Stock.CamLightening = "yes"
	r := solve(t, b)
	if r.Resistance.Middle.RMS != plain.Resistance.Middle.RMS {
		t.Error("holes change the match")
	}
	holes, o := 0, r.Resistance.Outline
	wall := 1.5 * r.Resistance.Cable.Diameter // the plate's default
	for i, h := range o.Holes {
		if h.Name != "lightening" {
			continue
		}
		holes++
		if room, _ := o.Root.Distance(h.Centre); room-h.Diameter/2 < wall-1e-9 {
			t.Errorf("hole %d leaves %.2f mm to the groove", i, room-h.Diameter/2)
		}
		for k, other := range o.Holes {
			if web := math.Hypot(h.Centre.X-other.Centre.X, h.Centre.Y-other.Centre.Y) - (h.Diameter+other.Diameter)/2; k != i && web < wall-1e-9 {
				t.Errorf("hole %d leaves %.2f mm to the %s hole", i, web, other.Name)
			}
		}
	}
	if holes == 0 {
		t.Error("no hole in a cam with room for several")
	}
}

// Every belt or chain of a design closes on a whole number of pitches, and the
// frame's cam axis stands at that distance.
func TestCountershaftStandsWhereTheBeltCloses(t *testing.T) {
	for _, name := range []string{"belt", "chain"} {
		b := solvertest.Brief(t, "cam-study")
		b.Stock.Transmission = name
		b.Resistance.Ratio = specs.Range{From: 1.2, To: 2}
		b.Limits.TorqueMatch = 0.03
		r := solve(t, b)
		s, err := NewProgram(&b.Asked)
		if err != nil {
			t.Fatal(err)
		}
		c := r.Frame.Geometry.Cam
		if c.ArmTeeth == 0 || float64(c.ArmTeeth)/float64(c.DrivenTeeth)-c.Ratio > 1e-6 {
			t.Fatalf("%s: %+v", name, c)
		}
		length := s.Transmission.LoopLength(c.ArmTeeth, c.DrivenTeeth, math.Hypot(c.CentreX, c.CentreY))
		if math.Abs(length-float64(c.Pitches)*s.Transmission.Pitch) > 1e-3 {
			t.Errorf("%s: loop %.4f mm, %d pitches of %g mm", name, length, c.Pitches, s.Transmission.Pitch)
		}
	}
}
