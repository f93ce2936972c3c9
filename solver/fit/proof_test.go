package fit

import (
	"math"
	"slices"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// proved returns the proofs of an example changed.
func proved(t *testing.T, name string, change func(*specs.Brief)) []Proof {
	t.Helper()
	b := solvertest.Brief(t, name)
	change(&b)
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
	s, err := NewProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	return s.Prove()
}

// Nothing is proved against the examples, which are met.
func TestNothingIsProvedAgainstAMetBrief(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers", "cam-study"} {
		if p := proved(t, name, func(*specs.Brief) {}); p != nil {
			t.Errorf("%s: %+v", name, p)
		}
	}
}

func TestProofs(t *testing.T) {
	for _, c := range []struct {
		name           string
		file           string
		change         func(*specs.Brief)
		demand         string
		needed, within float64
	}{
		// The guide sheave is told; 7x19-6 bends over a tread of 18·6 = 108 mm,
		// (108 + 6)/2 = 57 mm to its centre.
		{"sheave", "cam-study", func(b *specs.Brief) { b.Stock.Cable, b.Resistance.SheaveRadius = "7x19-6", 40 }, "resistance.sheave_radius", 57, 1e-9},
		// 7x19-8 bends over (18·8 + 8)/2 = 76 mm. By hand: from 10 to 125 degrees at ratio 2 the
		// wrap is 4.014 rad less the cable's turn, acos((30-72)/228) - acos((50-72)/228)
		// = 1.7560 - 1.6674 = 0.0886; (76-50)·3.9255²/8 = 50.08 mm against 20.
		{"window", "cam-study", func(b *specs.Brief) {
			b.Stock.Cable, b.Resistance.SheaveRadius = "7x19-8", 72
			b.Resistance.LeastArm, b.Resistance.GreatestArm = 30, 50
			b.Resistance.Ratio = specs.Range{From: 2, To: 2}
		}, "resistance.greatest_arm", 50.08, 0.02},
		// 30 mm over 115 degrees is 60.2 mm of cable.
		{"travel", "cam-study", func(b *specs.Brief) { b.Limits.StackTravel = 55 }, "stack-travel", 30 * 115 * specs.Degree, 1e-9},
		// 11.2 kN, the cable bent over D/d = (96 - 4)/4 = 23: interpolated 0.916; two sheaves of
		// 97 %; half of 300 kg on a cable: 11200·0.916·0.9409/1471 = 6.56.
		{"cable", "cam-study", func(b *specs.Brief) {
			b.Resistance.Load.Heavy, b.Resistance.SheaveRadius, b.Limits.CableFactor = 300, 48, 8
		}, "cable-factor", 8, 1e-9},
		{"height", "arm-pad-station", func(b *specs.Brief) {
			b.Posture.PivotHeight, b.Space.Height = specs.Range{From: 950, To: 1100}, 900
		}, "posture.pivot_height", 970, 1e-9},
		{"rotation", "arm-pad-station", func(b *specs.Brief) { b.Posture.GripRotation, b.Limits.GripRotation = 80*specs.Degree, 70*specs.Degree }, "grip-rotation", 80 * specs.Degree, 1e-9},
	} {
		t.Run(c.name, func(t *testing.T) {
			list := proved(t, c.file, c.change)
			i := slices.IndexFunc(list, func(p Proof) bool { return slices.Contains(p.Demands, c.demand) })
			if i < 0 {
				t.Fatalf("%s is not among %+v", c.demand, list)
			}
			if p := list[i]; math.Abs(p.Needed-c.needed) > c.within || p.Allowed >= p.Needed {
				t.Errorf("needed %g, allowed %g; want %g", p.Needed, p.Allowed, c.needed)
			}
		})
	}
}

// The least seat travel, the spacing that abduction allows and the least number
// of axis positions lie on the right side of what many stations need, and near
// it: no station of a fine grid over slope and spacing beats them.
func TestBoundsHoldOnAGrid(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	b.Posture.PadSlope = specs.Range{From: 30 * specs.Degree, To: 40 * specs.Degree}
	b.Posture.PivotSpacing = specs.Range{From: 380, To: 440}
	b.Posture.Lean = specs.Range{From: 2 * specs.Degree, To: 8 * specs.Degree}
	b.Limits.AxisTilt = 1.5 * specs.Degree
	s, err := NewProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	travel, _ := s.leastTravel()
	axes, _ := s.leastAxes()
	best, fewest := math.Inf(1), math.Inf(1)
	g := s.begin(1)
	p := seat.Sitter{}
	for slope := 30.0; slope <= 40; slope += 0.5 {
		for spacing := 380.0; spacing <= 440; spacing += 5 {
			g.Pad.Slope, g.Pivots.Spacing = slope*specs.Degree, spacing
			m := drive.NewMachine(g)
			top, bottom := math.Inf(-1), math.Inf(1)
			var wants []interval
			for i := range s.Persons {
				p.Take(&s.Placer, i)
				// The seat at which the trunk leans by an end of its range, found by
				// placing the person: the heights follow from the pose, not from the
				// formula of the bound.
				pose := s.Place(m, &p, seat.Setting{Seat: 0, Axis: 0, Handle: -1}, &require.Rows{Card: &s.Card}).Pose
				rise := pose.Shoulder.Z - p.Body.Hip
				top = math.Max(top, rise-p.Body.Trunk*math.Cos(b.Posture.Lean.From))
				bottom = math.Min(bottom, rise-p.Body.Trunk*math.Cos(b.Posture.Lean.To))
				// Latitude of the elbow axis at three humeral turns.
				lat := interval{math.Inf(1), math.Inf(-1)}
				for _, turn := range []float64{-seat.HumeralTurn, 0, seat.HumeralTurn} {
					arm, _ := pose.Turned(m.Axes[0], 0)
					sn, cs := math.Sincos(turn)
					h := p.Body.Hinge.Axis()
					h.X, h.Z = -sn*h.Z, cs*h.Z // turned about the humerus
					up := arm.To(h)
					l := math.Asin(-math.Cos(g.Pad.Slope)*up.X + math.Sin(g.Pad.Slope)*up.Z)
					lat.lo, lat.hi = math.Min(lat.lo, l), math.Max(lat.hi, l)
				}
				wants = append(wants, interval{lat.lo - b.Limits.AxisTilt, lat.hi + b.Limits.AxisTilt})
			}
			best = math.Min(best, top-bottom)
			fewest = math.Min(fewest, float64(stabbing(wants)))
		}
	}
	if travel.Needed > best || travel.Needed < best-6 {
		t.Errorf("travel of at least %.1f mm, the grid needs %.1f", travel.Needed, best)
	}
	if axes.Needed > fewest || axes.Needed < fewest-1 || fewest < 3 {
		t.Errorf("at least %.0f axes, the grid needs %.0f", axes.Needed, fewest)
	}
}

// Three intervals of which two overlap take two points.
func TestStabbing(t *testing.T) {
	if n := stabbing([]interval{{2, 3}, {0, 1}, {0.5, 1.5}}); n != 2 {
		t.Errorf("%d points, want 2", n)
	}
}
