package screen

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/posture"
	body "armwright/geometry/solid"
	"armwright/geometry/station/values"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/stock"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

// Sections by the handbooks' formulas, with printed section values where there are.
func TestSections(t *testing.T) {
	tube, err := stock.Member("50x50x3")
	if err != nil {
		t.Fatal(err)
	}
	// W 7.787 cm³ and A 5.408 cm² (S): 100 N·m and 1 kN give 12.84 + 1.849, the torque
	// of 50 N·m T/(2·47²·3) = 3.773, together √(14.69² + 3·3.773²).
	near(t, "tube", beam{strong: 100e3, axial: 1000, twist: 50e3}.tube(&tube), 16.08, 0.02)
	// Both ways: 12.84 twice.
	near(t, "tube bent both ways", beam{strong: 100e3, weak: 100e3}.tube(&tube), 25.68, 0.03)
	// A line weld round 60 x 40: section modulus bd + d²/3 (Blodgett), 60·40 + 60²/3 = 3600
	// and 60·40 + 40²/3 = 2933.3 mm²; length 200; torque over twice the area.
	near(t, "weld, bending", beam{strong: 360e3}.ring(60, 40), 100, 1e-9)
	near(t, "weld, bending sideways", beam{weak: 293.33333e3}.ring(60, 40), 100, 1e-4)
	near(t, "weld, all", beam{strong: 360e3, axial: 2000, across: 1000, twist: 48e3}.ring(60, 40), math.Hypot(110, 15), 1e-9)
	// A round bar of 20: W 785.4, Wp 1570.8 mm³, A 314.16 mm².
	near(t, "round", beam{strong: 78.54e3, axial: 3141.6, twist: 15.708e3}.round(20, 0), math.Sqrt(110*110+3*10*10), 0.01)
	// A tube of 25 with a bore of 12: π/32 (25⁴ - 12⁴)/25 = 1452.6 mm³.
	near(t, "round tube", beam{strong: 145.26e3}.round(25, 12), 100, 0.01)
	// A weld round a circle of 20: π d²/4 = 314.16 and π d²/2 mm² (Blodgett).
	near(t, "round weld", beam{strong: 31.416e3}.circle(math.Pi*20), 100, 0.01)
	near(t, "round weld, torque", beam{twist: 62.832e3}.circle(math.Pi*20), 100, 0.01)
	// M12 8.8: tables print a stress area of 84.3 mm², 48.6 kN of pull and 32.4 kN of shear.
	near(t, "M12", stressArea(12), 84.3, 0.1)
	near(t, "M14", stressArea(14), 115, 0.6)
	near(t, "bolt, pull", bolt(12, 48.6e3, 0), 1, 0.002)
	near(t, "bolt, shear", bolt(12, 0, 32.4e3), 1, 0.002)
	near(t, "bolt, both", bolt(12, 24.3e3, 16.2e3), 0.5+0.5/1.4, 0.002)
	// A pin of 10 in two planes, 235 N/mm²: 2·78.54·135.68 = 21.31 kN; two walls of 3:
	// 1.5·10·6·235 = 21.15 kN.
	near(t, "pin", sheared(21.15e3, 10, 2, 6, 235), 1, 1e-9)
	near(t, "pin, shear", sheared(21.31e3, 10, 2, 60, 235), 1, 0.001)
	// Rubber of 30 x 15: shape factor 0.5, 4·1.5·706.86/15.
	near(t, "buffer", rubber(30, 15), 282.7, 0.1)
}

// Chord walls by EN 1993-1-8 tables 7.11 and 7.14 worked by hand, S235: a tube of 40 on a
// face of 60x60x3 has β = η = 2/3: in plane 235·9·40·(0.75 + 3.4641 + 2) = 525.7 N·m, out
// of plane 235·9·(100 + √24000) = 539.2 N·m, force 235·9·3·(4/3 + 2.3094) = 23.11 kN. One of
// 60: 0.5·235·3·75² = 1983 N·m, 235·3·57·75 = 3014 N·m, 235·3·150 = 105.75 kN.
func TestChordWalls(t *testing.T) {
	narrow, _ := stock.Member("40x40x3")
	wide, _ := stock.Member("60x60x3")
	for _, c := range []struct {
		name   string
		branch *stock.Section
		load   beam
	}{
		{"face, in plane", &narrow, beam{strong: 525.7e3}},
		{"face, out of plane", &narrow, beam{weak: 539.2e3}},
		{"face, force", &narrow, beam{axial: 23.11e3}},
		{"sides, in plane", &wide, beam{strong: 1983e3}},
		{"sides, out of plane", &wide, beam{weak: 3014e3}},
		{"sides, force", &wide, beam{axial: 105.75e3}},
	} {
		near(t, c.name, c.load.joint(c.branch, &wide, 235), 1, 0.001)
	}
}

// level is a rig whose axis lies across the station and whose pad is level.
func level(v *values.Station) *rig {
	r := &rig{v: v, up: r3.Vec{X: -1}, normal: r3.Vec{Z: 1}, axis: r3.Vec{Y: -1}, down: r3.Vec{X: 1}, forward: r3.Vec{X: 1}, above: r3.Vec{Z: 1}}
	for i := range r.index {
		r.index[i] = -1
	}
	return r
}

// A geared cam by hand. The cable's 392.27 N act 124.12 mm from the cam's axis; the wheel
// beside it has 14 teeth of 12.7 mm, 12.7/sin(180/14) = 57.07 mm across: the chain's pull
// is 392.27·124.12/28.54 = 1706 N, and not the cable's, on both shafts toward each other.
// With bearings at 199.8 and 295.8 mm, the wheel at 327.6, the hand's 208.4 N at 31 mm:
// in the inner bearing 208.4·168.8 = 35.18 N·m, in the outer 1706·31.8 = 54.25 N·m. The
// outer one carries (1706·127.8 - 208.4·168.8)/96 = 1904.7 N where both press the same
// way; the inner one 208.4 + 1706 - 1904.7 = 9.7 N.
func TestShaftUnderChain(t *testing.T) {
	v := values.Station{Drive: values.CamDrive, Ratio: 1.5, Second: &values.SecondShaft{X: 155}, Last: 1}
	v.Cam.DrivenWheel = 12.7 / math.Sin(math.Pi/14)
	for i := range v.Tower.Cable.Line {
		v.Tower.Cable.Line[i] = cable.Line{Contact: r2.Vec{X: 124.12}, Leave: r2.Vec{X: 124.12, Y: -300}}
	}
	r := level(&v)
	r.planes = values.Planes{Wheel: 327.6, Cam: 413.1}
	r.inner, r.outer = 199.8, 295.8
	var m moment
	s := &Screen{}
	s.driven(r, &drive.State{HeavyTension: 392.266}, 0.3, 124.12, &m)
	near(t, "chain's pull", m.onArm[0].f.X, 1706, 1)
	near(t, "chain's pull on the second shaft", m.onSecond[0].f.X, -1706, 1)
	near(t, "cable's pull", m.onSecond[1].f.Y, -392.266, 1e-6)
	near(t, "torque", m.driven, 48688, 1)
	c := r.carry([]planar{{r2.Vec{X: 208.4}, 31}}, m.onArm[:])
	near(t, "moment in the inner bearing", c.inside, 35.18e3, 10)
	near(t, "moment in the outer bearing", c.outside, 54.25e3, 40)
	near(t, "outer bearing", r2.Norm(c.outer), 1904.7, 2)
	near(t, "inner bearing", r2.Norm(c.inner), 9.7, 0.5)
}

// The post's foot by hand: pad level, arm straight up, no cable, nothing weighs. The
// heaviest load asks for 60 N·m, 200 N at 300 mm, to the rear at the hand, which is 31 mm
// outside the pivot at (0, -245, 800). The pad carries 200·300/(280-110) = 352.9 N, 110 mm
// behind the pivot. About the foot at (-50, -400, 88) the hand gives (0, -202.4, 24.8) and
// the pad (-54.71, -21.18, 0) N·m.
func TestFootOfPost(t *testing.T) {
	v := values.Station{Axes: []r3.Vec{{Y: -1}}, Rest: posture.Rest{Near: 60, Far: 160}}
	r := level(&v)
	r.pivot = r3.Vec{Y: -245, Z: 800}
	r.planes = values.Planes{GripMiddle: 31, Bearings: 155}
	r.Station = &build.Station{Assembly: &assembly.Assembly{Parts: []assembly.Part{
		{Place: body.Shift(r3.Vec{X: -50, Y: -400, Z: 88})},
		{Place: body.Shift(r3.Vec{Y: -245, Z: 740})},
	}}}
	r.index[aPost], r.index[aSole] = 0, 1

	b := solvertest.Brief(t, "arm-pad-station")
	s := screeningFor(t, &b.Asked)
	s.Angles, s.Sin, s.Cos, s.Shape = []float64{math.Pi / 2}, []float64{1}, []float64{0}, []float64{1}
	strong := s.Persons[s.Heavy]
	if strong.ElbowStrength() < 60e3 {
		t.Fatal("not strong enough for this")
	}
	sat := []seat.Person{{Person: strong, Body: posture.Body{UpperArm: 280, Forearm: 300}}}
	var l burden
	s.loads(r, sat, &drive.State{Level: 60e3}, &l)
	foot := l.foot.section(r.from(aPost), rise, along)
	near(t, "to the rear", foot.strong, 223.58e3, 10)
	near(t, "sideways", foot.weak, 54.71e3, 10)
	near(t, "torsion", foot.twist, 24.8e3, 1)
	near(t, "down", foot.axial, 352.94, 0.01)
	// The bracket carries the hand alone: about the sole's middle at (0, -400, 740), 360 mm
	// below and 124 mm outside the hand, (0, -72, 24.8) N·m.
	mo := l.bracket.about(r3.Add(r.from(aSole), r3.Vec{Y: -155}))
	near(t, "bracket", r3.Norm(r3.Sub(mo, r3.Vec{Y: -72e3, Z: 24.8e3})), 0, 1)
}

// seatedOn is a kept frame with everybody seated on what is built of it.
func seatedOn(t testing.TB, f *specs.Frame) (*Screen, *Scene) {
	t.Helper()
	s := screeningFor(t, &f.Asked)
	g := &f.Geometry
	d, err := s.Evaluate(g)
	if err != nil {
		t.Fatal(err)
	}
	return s, s.sceneWith(g, d)
}

func eachStation(t *testing.T, do func(t *testing.T, s *Screen, sc *Scene)) {
	for _, name := range testdata.Frames() {
		f := solvertest.Frame(t, name)
		if f.Geometry.Base == nil {
			continue
		}
		t.Run(name, func(t *testing.T) {
			s, sc := seatedOn(t, &f)
			if sc.Station.Assembly == nil {
				t.Fatal(sc.Station.Fault)
			}
			do(t, s, sc)
		})
	}
}

// What the drive puts on the shafts adds up to what cable or plates pull at the bracket:
// chain and coupler pull its two shafts together. And the arm's torque is that of the
// resistance on the middle axis position, by virtual work.
func TestDriveLoads(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		var r rig
		r.find(sc.Station)
		v, d := r.v, &sc.drive
		heavy := s.Asked.Resistance.Load.Heavy
		g := *sc.Geometry
		middle := len(g.Pivots.Axes) / 2
		g.Pivots.Axes = g.Pivots.Axes[middle : middle+1]
		var unit []float64
		if v.Drive == values.LinkageDrive {
			var err error
			if unit, _, err = s.LinkageMoments(&g); err != nil {
				t.Fatal(err)
			}
		}
		for k, theta := range s.Angles {
			h := 0.0
			if v.Drive == values.CamDrive {
				h = d.MomentArm[k]
			}
			var m moment
			s.driven(&r, d, theta, h, &m)
			var sum wrench
			for _, p := range [...]planar{m.onArm[0], m.onArm[1], m.onSecond[0], m.onSecond[1]} {
				sum = sum.plus(push(r3.Scale(p.w, r.axis), r.across(p.f, 0)))
			}
			near(t, "force", r3.Norm(r3.Sub(sum.f, m.drive.f)), 0, 1e-6)
			// About every line across the axis as well.
			rest := r3.Sub(sum.m, m.drive.m)
			rest = r3.Sub(rest, r3.Scale(r3.Dot(rest, r.axis), r.axis))
			if v.Drive != values.LinkageDrive { // whose coupler and plates are told in planes
				near(t, "moment across", r3.Norm(rest), 0, 1e-3)
			}
			switch v.Drive {
			case values.CamDrive:
				knot := (cable.Lines - 1) * (theta - v.First) / (v.Last - v.First)
				tolerance := 0.015 // between two places along the chord
				if math.Abs(knot-math.Round(knot)) < 1e-9 {
					tolerance = 1e-3
				}
				contact, line := r.cable(theta)
				near(t, "moment arm", math.Abs(r2.Cross(contact, line)), h, tolerance*h)
			case values.LeverDrive:
				torque := r3.Dot(m.drive.m, r.axis) // on the arm, against flexion
				near(t, "torque of the plates", torque, -heavy*s.LeverMoments(&g, *g.Lever)[k], 1e-3*math.Abs(torque))
			case values.LinkageDrive:
				pose, err := v.Linkage.Train.At(theta)
				if err != nil {
					t.Fatal(err)
				}
				torque := r2.Cross(pose.Pin, m.onArm[0].f) // on the arm, against flexion
				near(t, "torque of the linkage", torque, -heavy*unit[k], 1e-3*math.Abs(torque))
			}
		}
	})
}

// Every part that a station is told to have is loaded: none is passed over for want of a
// part or a joint. The outcome is finite, and worked out without allocation.
func TestEverythingIsScreened(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		var all screening
		s.screening(sc.Station, sc.seated, &sc.drive, &all)
		for i := range screened {
			q := &screened[i]
			if q.part == "" {
				t.Fatalf("strain %d has no subject", i)
			}
			if q.only.of(&sc.Station.Values) && !(all.value[i] > 0 && all.value[i] < 1e3) {
				t.Errorf("%s, %s: %g", q.part, q.what, all.value[i])
			}
		}
		if n := testing.AllocsPerRun(5, func() {
			var again screening
			s.screening(sc.Station, sc.seated, &sc.drive, &again)
			if again != all {
				t.Error("another time it comes out otherwise")
			}
		}); n > 0 {
			t.Errorf("%g allocations", n)
		}
	})
}

// A station of which nothing can be built has the rows of one that is built, all missed:
// the search counts on their number.
func TestRowsOfTheUnbuilt(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		built, not := &require.Rows{Card: &s.Card}, &require.Rows{Card: &s.Card}
		s.members(sc, built)
		sc.Station.Assembly = nil
		s.members(sc, not)
		if len(built.List) != len(not.List) {
			t.Fatalf("%d rows built, %d not", len(built.List), len(not.List))
		}
		for i := range not.List {
			if built.List[i].Kind != not.List[i].Kind || not.List[i].Margin >= 0 {
				t.Errorf("row %d: %+v", i, not.List[i])
			}
		}
	})
}

// The seat's sleeve under a user of 150 kg who sits 150 mm off: 220.65 N·m on 11.7 cm³ and
// 1471 N on 6.61 cm² (60x60x3, printed) are 21.08 N/mm², 2.5 times that 22.4 % of 235. The
// pin of 10 carries 3677 N in two planes, 23.4 N/mm² of 135.7: 17.3 %, or over two walls of
// 3 mm 17.4 %.
func TestSeatUnderHeaviestUser(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.Asked.Stock.Member, f.Asked.Stock.Steel, f.Asked.Stock.MaxUser = "60x60x3", "S235", 150
	s, sc := seatedOn(t, &f)
	var all screening
	s.screening(sc.Station, sc.seated, &sc.drive, &all)
	near(t, "sleeve", all.value[sleeveFoot], 0.2243, 0.001)
	near(t, "pin", all.value[seatPinShear], 0.174, 0.001)
}

// The arm pad's bracket by hand, from where its parts stand: a level tube, turned about its
// length by the pad's slope, with the heaviest user's weight W on the middle of the pad. At
// the post it bends by W times the way along the tube, split by the slope on its two axes,
// and both meet in a corner; the way fore and aft twists it, by Bredt T/(2·37²·3).
func TestPadBracketUnderLeaningUser(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		a := sc.Station.Assembly
		find := func(id string) *assembly.Part {
			i, ok := a.Index(id)
			if !ok {
				t.Fatalf("no %s", id)
			}
			return &a.Parts[i]
		}
		bracket, foam, post := find("arm-pad-bracket-right"), find("arm-pad-foam-right"), find("pivot-post-right")
		v := &sc.Station.Values
		weight := max(s.Asked.Stock.MaxUser, s.Persons[s.Heavy].Mass) * 9.80665
		face := r3.Add(foam.Centre, r3.Scale(foam.Stock.Size[2]/2, r3.Vec{X: math.Sin(v.Rest.Slope), Z: math.Cos(v.Rest.Slope)}))
		saddle := 8.0 // the tube stands on the saddle plate's face
		if v.Reclined {
			saddle = 0
		}
		bend := weight * math.Abs(face.Y-(post.Centre.Y+v.Member.Width/2+saddle))
		twist := weight * math.Abs(face.X-bracket.Centre.X)
		// 40x40x3: W 4.66 cm³ (printed).
		bent := bend * (math.Sin(v.Rest.Slope) + math.Cos(v.Rest.Slope)) / 4660
		twisted := twist / (2 * 37 * 37 * 3)
		want := 2.5 * math.Sqrt(bent*bent+3*twisted*twisted) / s.Steel.Yield
		var all screening
		s.screening(sc.Station, sc.seated, &sc.drive, &all)
		// The saddle plate of 8 mm is a face of 60 under a branch of 40, as in TestChordWalls with
		// (8/3)² of its strength: 3738 N·m in plane and 3834 N·m out of plane of 235 N/mm².
		if v.Arm.Name == "40x40x3" && v.Member.Height == 60 && !v.Reclined {
			face := 2.5 * bend * (math.Cos(v.Rest.Slope)/3738e3 + math.Sin(v.Rest.Slope)/3834e3) * 235 / s.Steel.Yield
			near(t, "saddle plate", all.value[saddleFace], face, 0.01*face)
		}
		if got := all.value[padTube]; v.Arm.Name == "40x40x3" {
			near(t, "pad bracket", got, want, 0.003*want)
		} else {
			t.Logf("arms of %s: %.4f, of 40x40x3 %.4f", v.Arm.Name, got, want)
		}
	})
}

// A heavier brief never has a lighter tube suggested.
func TestSuggestions(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	s := screeningFor(t, &b.Asked)
	f := frameLoads{post: beam{strong: 500e3, weak: 100e3, twist: 50e3}, sleeve: beam{weak: 200e3}, high: 500}
	light := s.suggest(&f)
	f.post.strong *= 2
	heavy := s.suggest(&f)
	if len(light) != 2 || len(heavy) != 2 {
		t.Fatalf("suggested %v and %v", light, heavy)
	}
	for i := range light {
		if light[i].Mass > heavy[i].Mass || light[i].Stress > 1 || heavy[i].Stress > 1 {
			t.Errorf("%v, under twice the load %v", light[i], heavy[i])
		}
	}
}

// Half of 150 kg leans level on the chest pad's slide: the riser, 40x40x3 (W 4.66 cm³,
// printed), bends by the height of the slide over its foot; the pin, of 10, is sheared
// twice and bears on four walls of 3. The whole of it leans square on the middle of the
// back pad and bends its strut of 60x60x3 (W 11.7 cm³, printed) over the way down to the
// cross member.
func TestPadsUnderLeaningUser(t *testing.T) {
	seen := 0
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		a := sc.Station.Assembly
		find := func(id string) *assembly.Part {
			i, ok := a.Index(id)
			if !ok {
				t.Fatalf("no %s", id)
			}
			return &a.Parts[i]
		}
		var all screening
		s.screening(sc.Station, sc.seated, &sc.drive, &all)
		weight := max(s.Asked.Stock.MaxUser, s.Persons[s.Heavy].Mass) * 9.80665
		v := &sc.Station.Values
		if v.Chest.Positions > 0 && v.Arm.Name == "40x40x3" {
			seen++
			riser, slide := find("chest-riser"), find("chest-slide")
			foot := riser.Centre.Z - riser.Stock.Length/2
			near(t, "riser", all.value[chestRiser], 2.5*weight/2*(slide.Place.Origin.Z-foot)/4660/s.Steel.Yield, 0.01)
			near(t, "pin", all.value[chestPin], 2.5*weight/2/(2*math.Pi/4*100)*math.Sqrt(3)/s.Steel.Yield, 0.005)
		}
		if v.HasBack() && v.Member.Name == "60x60x3" {
			seen++
			strut, board := find("back-strut"), find("back-board")
			// From the cross member's top, where the strut's axis meets it, to the board's
			// middle along the slope.
			d := r3.Sub(board.Centre, strut.Place.Origin)
			way := d.Z*math.Cos(v.Back.Angle) - d.X*math.Sin(v.Back.Angle)
			near(t, "strut", all.value[backStrut], 2.5*weight*way/11700/s.Steel.Yield, 0.01)
		}
	})
	if seen < 2 {
		t.Errorf("only %d pads seen", seen)
	}
}
