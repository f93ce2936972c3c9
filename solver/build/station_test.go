package build

import (
	"errors"
	"math"
	"slices"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The frames that have a station; a study has only a bench.
var stations = []string{"arm-pad-station", "reclined-levers", "reclined-linkage", "base-too-short"}

// built is a kept frame with its station.
func built(t *testing.T, name string) (*Builder, specs.Frame, Station) {
	t.Helper()
	f := solvertest.Frame(t, name)
	s := builderFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	st := s.Station(&f.Geometry, &d, nil)
	if st.Fault != nil {
		t.Fatal(st.Fault)
	}
	return s, f, st
}

// What a maker built before leaves nothing behind: a station without a cable has no
// way of one, whatever was built last, nor has one from whose values nothing can be built.
func TestMakerForgets(t *testing.T) {
	var maker station.Maker
	cam := solvertest.Frame(t, "arm-pad-station")
	lever := solvertest.Frame(t, "reclined-levers")
	fault := solvertest.Frame(t, "arm-pad-station")
	fault.Geometry.Pivots.Height = math.NaN()
	for _, f := range []*specs.Frame{&cam, &lever, &cam, &fault} {
		s := builderFor(t, &f.Asked)
		d, err := s.Evaluate(&f.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		again, fresh := s.Station(&f.Geometry, &d, &maker), s.Station(&f.Geometry, &d, nil)
		if again.Tower != fresh.Tower || (again.Route == nil) != (fresh.Route == nil) || again.Mass() != fresh.Mass() {
			t.Errorf("%s: built after another it has tower %+v, route %v, %g kg; alone %+v, %v, %g kg", f.Name,
				again.Tower, again.Route != nil, again.Mass(), fresh.Tower, fresh.Route != nil, fresh.Mass())
		}
		if (fresh.Route != nil) != (f == &cam) || (fresh.Fault != nil) != (f == &fault) {
			t.Errorf("%s: route %v, fault %v", f.Name, fresh.Route != nil, fresh.Fault)
		}
	}
}

// A station stands on whatever comes down to the floor: the middles of those parts
// span the rectangle. A rail's foot is 40 mm from its end, which a cap of 4 mm
// covers, and in its middle.
func TestStand(t *testing.T) {
	for _, name := range stations {
		t.Run(name, func(t *testing.T) {
			s, f, st := built(t, name)
			stand := st.Stand(f.Geometry.Base)
			var x, y []float64
			for i := range st.Assembly.Parts {
				p := &st.Assembly.Parts[i]
				if low, high := solid.Bounds(p.Solid, p.Place); low.Z < 0.5 {
					x, y = append(x, (low.X+high.X)/2), append(y, (low.Y+high.Y)/2)
				}
			}
			if len(x) != 4 {
				t.Fatalf("%d parts on the floor", len(x))
			}
			b := f.Geometry.Base
			for _, c := range []struct {
				what      string
				got, want float64
			}{
				{"rear", stand.Rear, slices.Min(x)}, {"front", stand.Front, slices.Max(x)}, {"left", stand.Half, slices.Max(y)}, {"right", -stand.Half, slices.Min(y)},
				{"rear foot from the base's end", stand.Rear, b.Rear + 44}, {"front foot from the base's end", stand.Front, b.Front - 44},
				{"half the base", stand.Half, (s.BaseWidth(&f.Geometry) - s.Member.B) / 2},
			} {
				if math.Abs(c.got-c.want) > 1e-6 {
					t.Errorf("%s: %.4f mm, want %.4f", c.what, c.got, c.want)
				}
			}
			if area := polygon(stand.Feet()); math.Abs(area-(stand.Front-stand.Rear)*2*stand.Half) > 1e-6*area || area <= 0 {
				t.Errorf("feet %v go round %g mm²", stand.Feet(), area)
			}
		})
	}
	b := &specs.Base{Rear: -300, Front: 500, Width: 700}
	if got := new(Station).Stand(b); got != (Stand{-300, 500, 350}) {
		t.Errorf("what cannot be built stands on %+v", got)
	}
}

// polygon is the area that corners enclose, counter-clockwise positive.
func polygon(p []r2.Vec) float64 {
	sum := 0.0
	for i := range p {
		sum += r2.Cross(p[i], p[(i+1)%len(p)]) / 2
	}
	return sum
}

// The base is as wide as the box round its rails, and these stand under the middle of
// the bearings: halfway between the four housings of both sides.
func TestBaseWidth(t *testing.T) {
	for _, name := range stations {
		s, f, st := built(t, name)
		var rail, bearing float64
		for i := range st.Assembly.Parts {
			p := &st.Assembly.Parts[i]
			switch p.ID {
			case "rail-left":
				low, high := solid.Bounds(p.Solid, p.Place)
				rail = 2 * high.Y
				if math.Abs(high.Y-low.Y-s.Member.B) > 1e-6 {
					t.Errorf("%s: a rail is %g mm wide", name, high.Y-low.Y)
				}
			case "pivot-inner-housing-left", "pivot-outer-housing-left":
				bearing += p.Centre.Y / 2
			}
		}
		got := s.BaseWidth(&f.Geometry)
		if math.Abs(got-rail) > 1e-6 || math.Abs(got-(2*bearing+s.Member.B)) > 1e-6 {
			t.Errorf("%s: base %.4f mm wide, its rails %.4f, by the bearings %.4f", name, got, rail, 2*bearing+s.Member.B)
		}
	}
}

// One arm weighs what its moving parts do, the handle in the middle: the sum over
// parts that turn by flexion, each where the pose puts it, but for what is the
// drive's or a counterweight's.
func TestArmWeight(t *testing.T) {
	for _, name := range stations {
		t.Run(name, func(t *testing.T) {
			s, f, st := built(t, name)
			a := st.Assembly
			pose := a.Reference
			pose.Handle = (f.Geometry.Handle.Positions - 1) / 2
			places := a.At(pose, nil)
			// What is on the arm's shaft to turn with it whatever the drive: the
			// longer shaft of a drive is the drive's.
			arm := []string{"arm-hub", "arm-tube", "arm-cap", "handle-slide", "grip-bar", "grip-plug", "grip-rubber"}
			var mass float64
			var moment r3.Vec
			for i := range a.Parts {
				if p := &a.Parts[i]; p.Side == assembly.Right && slices.Contains(arm, p.Item) {
					mass += p.Mass
					moment = r3.Add(moment, r3.Scale(p.Mass, places[p.Group].Then(p.Place).Point(p.Solid.Centroid())))
				}
			}
			axis := f.Geometry.Pivots.Axes[len(f.Geometry.Pivots.Axes)/2].Vector()
			pivot := r3.Vec{Y: -f.Geometry.Pivots.Spacing / 2, Z: f.Geometry.Pivots.Height}
			out := r3.Sub(moment, r3.Scale(mass, pivot))
			turning := r3.Norm(r3.Sub(out, r3.Scale(r3.Dot(out, axis), axis))) // kg·mm about the axis
			gotMass, gotCentre := s.ArmWeight(&f.Geometry)
			// The shaft turns about itself, the pin of the handle in its slide is 80 g
			// within the radius of the arm: it adds at most its mass there.
			reach := f.Geometry.Handle.Radius(f.Geometry.Handle.Positions - 1)
			if d := gotMass*gotCentre - turning; d < 0 || d > 0.08*reach {
				t.Errorf("%.1f kg·mm about the axis, by parts %.1f", gotMass*gotCentre, turning)
			}
			// Beside those: that pin, and the shaft, 25 mm round and shorter than 400.
			if d := gotMass - mass - 0.08; d < 0.3 || d > 7.85e-6*math.Pi/4*25.4*25.4*400 {
				t.Errorf("%.3f kg, without shaft and pin %.3f", gotMass, mass)
			}
		})
	}
}

// Values from which nothing can be built are told as what they are.
func TestStationThatCannotBeBuilt(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s := builderFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	f.Geometry.Base.Front = f.Geometry.Base.Rear - 100 // rails of no length
	st := s.Station(&f.Geometry, &d, nil)
	var fault *station.ValueError
	if st.Assembly != nil || !errors.As(st.Fault, &fault) {
		t.Errorf("built of rails of no length: %v", st.Fault)
	}
}
