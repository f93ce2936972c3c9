package screen

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// paired is the arm-pad station with a stack for each arm, half as heavy.
func paired(t testing.TB) specs.Frame {
	f := solvertest.Frame(t, "arm-pad-station")
	r := &f.Resistance
	r.Stack = "pair"
	r.Load = specs.Loads{Light: r.Load.Light / 2, Middle: r.Load.Middle / 2, Heavy: r.Load.Heavy / 2}
	return f
}

// The empty station part by part, each where the pose puts it: every load, way of use
// and angle. Of a stack what stands above the pin rises; plates on sleeves are as heavy
// as the load.
func TestStanceIsTheSumOfItsParts(t *testing.T) {
	for _, c := range []struct {
		name  string
		frame specs.Frame
	}{
		{"arm pad", solvertest.Frame(t, "arm-pad-station")}, {"a stack each", paired(t)},
		{"levers", solvertest.Frame(t, "reclined-levers")}, {"linkage", solvertest.Frame(t, "reclined-linkage")}, {"axes beside the pads' plane", solvertest.Frame(t, "base-too-short")},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, sc := sceneOf(t, &c.frame)
			a := sc.Station.Assembly
			if a == nil {
				t.Fatal(sc.Station.Fault)
			}
			got := s.stance(sc)
			load := s.Asked.Resistance.Load
			pair := c.frame.Resistance.Stack == "pair"
			takeUp := s.lifts(sc.drive)
			for i, kg := range [loads]float64{0, load.Light, load.Middle, load.Heavy} {
				// Stacks are whole plates: of each, so many from the top as make the load.
				carried := plates(a, pair, kg)
				for w := range waysOfUse {
					for k, theta := range s.Angles {
						lift := [2]float64{takeUp[k], 0}
						if w == bothArms {
							lift[1] = takeUp[k]
						} else if !pair { // the floating sheave rises half of what one cable is drawn
							lift[0] /= 2
						}
						pose := a.Reference
						pose.Flexion[0] = theta
						if w == bothArms {
							pose.Flexion[1] = theta
						}
						still := a.At(pose, nil)
						pose.Lift = lift
						lifted := a.At(pose, nil)
						var mass, risen float64
						var moment r3.Vec
						for n := range a.Parts {
							p, groups, kilos := &a.Parts[n], still, a.Parts[n].Mass
							switch {
							case p.Is(assembly.Load | assembly.Rises):
								if carried[n] {
									groups = lifted
									risen += p.Mass
								}
							case p.Is(assembly.Load):
								kilos = kg
							case p.Is(assembly.Rises) && kg > 0:
								groups = lifted
							}
							mass += kilos
							moment = r3.Add(moment, r3.Scale(kilos, groups[p.Group].Then(p.Place).Point(p.Solid.Centroid())))
						}
						for n := range a.Flexible {
							mass += a.Flexible[n].Mass
							moment = r3.Add(moment, r3.Scale(a.Flexible[n].Mass, a.Flexible[n].Centre))
						}
						if sc.Station.Values.HasStack() {
							// The load counts as what lists say. The top plate has no pin hole
							// and so weighs about 25 g more: 5 mm round, 95 deep.
							told := kg
							if pair {
								told *= 2
							}
							if math.Abs(risen-told) > 5e-3*told {
								t.Fatalf("%s: plates of %.3f kg", loadNames[i], risen)
							}
							moment.Z += (told - risen) * lift[0]
							if pair && w == rightAlone {
								moment.Z -= (told - risen) * lift[0] / 2
							}
						}
						if d := math.Abs(got.mass[i] - mass); d > 1e-9 {
							t.Fatalf("%s: %.4f kg, by parts %.4f", loadNames[i], got.mass[i], mass)
						}
						d := r3.Sub(got.moment[i][w][k], moment)
						if math.Hypot(d.X, d.Y) > 1e-6 || math.Abs(d.Z) > 1e-6 {
							t.Fatalf("%s, %s, %.0f deg: moment %v kg·mm, by parts %v", loadNames[i], wayNames[w], theta/specs.Degree, got.moment[i][w][k], moment)
						}
					}
				}
			}
		})
	}
}

// plates are the parts of each stack that rise with a load, from the top.
func plates(a *assembly.Assembly, pair bool, kg float64) map[int]bool {
	out := map[int]bool{}
	sides := []assembly.Side{assembly.Middle}
	if pair {
		sides = []assembly.Side{assembly.Right, assembly.Left}
	}
	for _, side := range sides {
		for sum := 0.0; sum < kg*(1-1e-2); {
			top := -1
			for i := range a.Parts {
				p := &a.Parts[i]
				if p.Is(assembly.Load|assembly.Rises) && p.Side == side && !out[i] && (top < 0 || p.Centre.Z > a.Parts[top].Centre.Z) {
					top = i
				}
			}
			if top < 0 {
				break
			}
			out[top] = true
			sum += a.Parts[top].Mass
		}
	}
	return out
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
	want := math.Inf(1)
	for _, theta := range s.Angles {
		p, err := drive.Train(g.Linkage).At(theta)
		if err != nil {
			t.Fatal(err)
		}
		want = math.Min(want, g.Pivots.Height+p.Plates.Y-build.PlateRim)
	}
	// The rim is taken round: half as thick as the pile of plates with their bore of 50.5.
	want -= f.Resistance.Load.Heavy / (7.85e-6 * math.Pi * (build.PlateRim*build.PlateRim - 25.25*25.25)) / 2
	st := s.Station(g, &d, nil)
	for _, p := range s.Hazards(s.Scene(g, d, nil, &st)).Pairs {
		if p.Moving == "plates" && p.Fixed == floorName {
			if p.Gap < want-1e-6 || p.Gap > want+build.PlateRim*(1-math.Cos(11.25*specs.Degree)) {
				t.Errorf("gap %.2f mm, want %.2f", p.Gap, want)
			}
			return
		}
	}
	t.Error("no gap between plates and floor")
}

// Each arm's own stack goes up by its own arm's take-up; a shared one by half of it
// with one arm, since both cables' ends carry it under a floating sheave.
func TestStacksRise(t *testing.T) {
	shared, pair := solvertest.Frame(t, "arm-pad-station"), paired(t)
	for _, c := range []struct {
		frame *specs.Frame
		alone float64 // share of the take-up with one arm
	}{{&shared, 0.5}, {&pair, 1}} {
		s, sc := sceneOf(t, c.frame)
		got := s.stance(sc)
		last := len(s.Angles) - 1
		// The take-up is the area under the moment arms over the cam's turn.
		area := 0.0
		for k := 1; k <= last; k++ {
			area += (sc.drive.MomentArm[k-1] + sc.drive.MomentArm[k]) / 2 * (s.Angles[k] - s.Angles[k-1]) * c.frame.Geometry.Cam.Ratio
		}
		if up := got.lift[bothArms][last]; math.Abs(up-area) > 1e-3*area {
			t.Errorf("both arms lift %.2f mm, by the moment arms %.2f", up, area)
		}
		if up := got.lift[rightAlone][last]; math.Abs(up-c.alone*got.lift[bothArms][last]) > 1e-9 {
			t.Errorf("one arm lifts %.2f mm of %.2f", up, got.lift[bothArms][last])
		}
		// What one arm more lifts: of a shared stack the other half of its way, of a pair
		// the other one.
		heavy, light := got.moment[heavyLoad], got.moment[lightLoad]
		more := func(w int) float64 { return heavy[w][last].Z - light[w][last].Z }
		kg := c.frame.Resistance.Load.Heavy - c.frame.Resistance.Load.Light
		if c.alone == 1 {
			kg *= 2 // both stacks
		}
		if want := kg * got.lift[bothArms][last]; math.Abs(more(bothArms)-want) > 1e-6*want || math.Abs(more(rightAlone)-want/2) > 1e-6*want {
			t.Errorf("the load's moment rises by %.1f kg·mm, with one arm %.1f, want %.1f and half of it", more(bothArms), more(rightAlone), want)
		}
	}
}
