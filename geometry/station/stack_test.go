package station

import (
	"errors"
	"math"
	"testing"

	"armwright/geometry/assembly/lawtest"
	"armwright/geometry/cable"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// furnished gives stations seats, stacks, cables and cams, and adds some of other
// kinds.
func furnished(bare map[string]values.Station) map[string]values.Station {
	armPad, bench, levers, linkage := bare["arm pad"], bare["bench"], bare["levers"], bare["linkage"]
	// 70 mm shorter in front than the example's, whose front edge is in short persons' calves.
	armPad.Seat = values.Seat{Lowest: 415.4915, Pitch: 20, Positions: 6, Front: -10, Depth: 330, Width: 360, Post: post50}
	levers.Seat = values.Seat{Lowest: 420.009, Pitch: 12.7, Positions: 9, Front: 332.2486, Depth: 400, Width: 360, Post: post50}
	linkage.Seat = values.Seat{Lowest: 407.1596, Pitch: 15, Positions: 8, Front: 368.1079, Depth: 400, Width: 360, Post: post50}
	levers.Back = values.Back{Angle: 20 * degree, Foot: -67.7514, Length: 960, Width: 280}
	linkage.Back = values.Back{Angle: 22.841068 * degree, Foot: -31.8921, Length: 960, Width: 280}
	armPad.Chest = values.Chest{Height: 925, Rear: -305, Lean: 10 * degree, Pitch: 20, Positions: 6, Long: 130, Wide: 160}
	armPad.Tower = stackOf(16, 319)
	armPad.Tower.Cable = cableTo(&armPad, 300, [3]float64{51, 113, 81})
	bench.Tower = stackOf(8, 171)
	bench.Tower.Cable = cableTo(&bench, 400, [3]float64{40, 97, 95})
	armPad.Cam, bench.Cam = camOf(25), camOf(25)
	behind, each := armPad, armPad
	behind.Base.Tower, behind.Base.Rear, behind.Base.Front = -640, -760, 420
	behind.FootPlate = values.FootPlate{Lowest: 150, Pitch: 25, Positions: 5, X: 330, Depth: 260}
	reclined := levers
	reclined.Drive, reclined.Ratio, reclined.WheelWide, reclined.CamWide = values.CamDrive, 1.5, 16, 11
	reclined.Axes = outward(63.066785*degree, 20.5)
	reclined.Second = &values.SecondShaft{X: 75, Y: -135}
	reclined.Cam = camOf(30)
	reclined.Base.Tower, reclined.Base.Rear = -800, -920
	reclined.Tower = stackOf(16, 319)
	reclined.Tower.Cable = cableTo(&reclined, 450, [3]float64{51, 113, 81})
	each.Tower.Pair, each.Tower.Plates = true, 12
	each.Chest.Pitch, each.Chest.Positions, each.Chest.Lean = 15, 7, 0 // a vernier, and no mitre
	return map[string]values.Station{"arm pad": armPad, "bench": bench, "levers": levers, "linkage": linkage,
		"tower behind": behind, "a stack for each arm": each, "reclined with a cam": reclined}
}

var post50 = values.Section{Name: "50x50x3", Grade: "S235", Height: 50, Width: 50, Wall: 3, Corner: 6}

// stackOf is a stack of plates of 5 kg with a lift.
func stackOf(plates int, lift float64) values.Tower {
	return values.Tower{
		Lift: lift, Plates: plates, PlateLength: 300, PlateWidth: 100, PlateThick: 22.3,
		GuideHole: 22, Rod: 20, SelectorHole: 23, Selector: 20, PinHole: 10,
	}
}

// cableTo is a cable from a cam, with moment arms at the first, the middle and the last
// flexion, to a place on the swivel line a
// distance below the pivot, in the cam's plane.
func cableTo(v *values.Station, below float64, arms [3]float64) cable.Values {
	c := cable.Values{Name: "7x19-4", Diameter: 4, PerMetre: 0.061, Radius: 48}
	m := v.Axes[len(v.Axes)/2]
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(m.X, m)))
	up := r3.Cross(m, forward)
	s, k := math.Sincos(v.Rest.Slope)
	normal := r3.Vec{X: s, Z: k}
	leave := r2.Scale(-below, r2.Vec{X: r3.Dot(normal, forward), Y: r3.Dot(normal, up)})
	if v.Second != nil {
		leave = r2.Sub(leave, r2.Vec{X: v.Second.X, Y: v.Second.Y})
	}
	for i := range c.Line {
		at := 2 * float64(i) / (cable.Lines - 1)
		k := min(int(at), 1)
		h := arms[k] + (arms[k+1]-arms[k])*(at-float64(k))
		away := r2.Norm(leave)
		angle := math.Atan2(leave.Y, leave.X) + math.Acos(h/away)
		sn, cs := math.Sincos(angle)
		c.Line[i] = cable.Line{Contact: r2.Vec{X: h * cs, Y: h * sn}, Leave: leave}
	}
	return c
}

// camOf is a cam of about the arm-pad example's size on a shaft, with its wheels.
func camOf(shaft float64) values.Cam {
	holes := func() []contour.Path {
		out := []contour.Path{circle(0, 0, shaft)}
		for i := range 4 {
			s, c := math.Sincos(math.Pi/4 + float64(i)*math.Pi/2)
			out = append(out, circle((shaft+28)/2*c, (shaft+28)/2*s, 9))
		}
		return out
	}
	round := func(over float64) *solid.Profile {
		return solid.NewProfile(contour.Around(contour.Disk{At: r2.Vec{X: -12, Y: 8}, Radius: 52 + over}, contour.Disk{At: r2.Vec{X: 30, Y: 40}, Radius: 60 + over}, contour.Disk{At: r2.Vec{X: -25, Y: 25}, Radius: 50 + over}), holes()...)
	}
	return values.Cam{
		Root: round(-2), Blank: round(4), Reach: 114, Core: 5, Cheek: 3, Bolts: 4, Circle: shaft + 28, Bolt: 8,
		ArmWheel: 85.21, DrivenWheel: 57.07, Face: 7.2, Tip: 4, Loop: "roller chain 08B", LoopPerMetre: 0.7,
	}
}

// Whatever stack, cable, seat and foot plate, as long as no need is short, the laws
// hold.
func TestRandomStacksAreLawful(t *testing.T) {
	testdata.FewChecks(t, 30)
	tried, built := 0, 0
	short := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		v := randomStack(t)
		tried++
		a, needs, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		met := true
		for _, n := range needs {
			if math.IsNaN(n.Slack) {
				t.Fatalf("need %s is not a number", n.ID)
			}
			if n.Slack < 0 {
				short[n.ID]++
				met = false
			}
		}
		if !met {
			return
		}
		built++
		for _, fault := range lawtest.Faults(a, poses(a, &v, 60*degree)) {
			t.Error(fault)
		}
	})
	t.Logf("%d of %d could be built; short: %v", built, tried, short)
	if tried >= 100 && built*3 < tried {
		t.Errorf("only %d of %d random stations could be built", built, tried)
	}
}

// randomStack draws an example with another stack, cable, seat, back pad and foot
// plate, and another place of the tower.
func randomStack(t *rapid.T) values.Station {
	v := examples()[rapid.SampledFrom([]string{"arm pad", "bench", "tower behind", "a stack for each arm", "reclined with a cam", "levers"}).Draw(t, "example")]
	draw := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
	if v.HasStack() {
		w := &v.Tower
		w.Pair, w.Plates, w.Lift = rapid.Bool().Draw(t, "pair"), rapid.IntRange(1, 20).Draw(t, "plates"), draw("lift", 100, 600)
		w.PlateLength, w.PlateThick = draw("plate length", 290, 320), draw("plate thickness", 15, 30)
		w.Tall = draw("tall", 0, 1800)
		w.Cable = cableTo(&v, draw("guide below", 280, 450), [3]float64{51, 113, 81})
		w.Cable.Diameter = rapid.SampledFrom([]float64{3, 4, 5, 6}).Draw(t, "cable")
		w.Cable.Radius = draw("sheave", 40, 60)
		away := draw("tower", 600, 1200)
		if rapid.Bool().Draw(t, "behind") {
			v.Base.Tower, v.Base.Rear = -away, -away-200
		} else {
			v.Base.Tower, v.Base.Front = away, away+200
		}
	}
	if s := &v.Seat; s.Positions > 0 {
		s.Pitch, s.Positions = draw("seat pitch", 8, 40), rapid.IntRange(1, 8).Draw(t, "seats")
		s.Lowest -= draw("lower", 0, 30)
		s.Front += draw("fore", 0, 40)
	}
	if f := &v.FootPlate; f.Positions > 0 {
		f.Lowest, f.Pitch, f.Positions, f.Depth = draw("foot", 140, 220), draw("foot pitch", 10, 60), rapid.IntRange(1, 6).Draw(t, "feet"), draw("foot depth", 200, 300)
	}
	if k := &v.Back; k.Length > 0 {
		k.Angle, k.Length = draw("back angle", 15, 24)*degree, draw("back", 800, 1000)
	}
	return v
}

// Whatever the values, a build ends in an assembly of numbers or in an error that
// names the value.
func TestWildStacksDoNotPanic(t *testing.T) {
	built := 0
	rapid.Check(t, func(t *rapid.T) {
		v := randomStack(t)
		w, c, s, k, f := &v.Tower, &v.Tower.Cable, &v.Seat, &v.Back, &v.FootPlate
		for _, x := range []*float64{
			&w.Lift, &w.Tall, &w.PlateLength, &w.PlateWidth, &w.PlateThick, &w.GuideHole, &w.Rod, &w.SelectorHole, &w.Selector, &w.PinHole,
			&c.Diameter, &c.Radius, &c.Line[0].Contact.X, &c.Line[cable.Middle].Contact.X, &c.Line[cable.Middle].Leave.X, &c.Line[cable.Middle].Leave.Y, &c.Line[cable.Lines-1].Leave.Y,
			&s.Lowest, &s.Pitch, &s.Front, &s.Depth, &s.Width, &k.Angle, &k.Foot, &k.Length, &k.Width, &f.Lowest, &f.Pitch, &f.X, &f.Depth,
			&v.Cam.Reach, &v.Cam.ArmWheel, &v.Cam.Tip, &v.GuardThick,
		} {
			if rapid.IntRange(0, 25).Draw(t, "replace") == 0 {
				*x = rapid.OneOf(rapid.Float64Range(-2000, 2000), rapid.Float64(), rapid.Just(math.NaN())).Draw(t, "wild")
			}
		}
		for _, n := range []*int{&w.Plates, &s.Positions, &f.Positions} {
			if rapid.IntRange(0, 10).Draw(t, "replace") == 0 {
				*n = rapid.Int().Draw(t, "count")
			}
		}
		a, needs, err := Build(v)
		if err != nil {
			var e *ValueError
			if !errors.As(err, &e) || e.Value == "" || e.Hint == "" {
				t.Fatalf("error without a value or a hint: %v", err)
			}
			return
		}
		built++
		for _, n := range needs {
			if math.IsNaN(n.Slack) {
				t.Errorf("need %s is not a number", n.ID)
			}
		}
		for i := range a.Parts {
			p := &a.Parts[i]
			if x := p.Mass + r3.Norm(p.Centre) + r3.Norm(p.Place.Origin); math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%s: mass %v at %v", p.ID, p.Mass, p.Centre)
			}
		}
		for _, x := range a.Flexible {
			if y := x.Mass + r3.Norm(x.Centre); math.IsNaN(y) || math.IsInf(y, 0) {
				t.Errorf("%s: mass %v at %v", x.ID, x.Mass, x.Centre)
			}
		}
	})
	if built == 0 {
		t.Error("nothing was built")
	}
}

// What the parts list counts as one item is one thing.
func TestItemsAreOfOneKind(t *testing.T) {
	for name, v := range examples() {
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		first := map[string]int{}
		for i := range a.Parts {
			p := &a.Parts[i]
			k, ok := first[p.Item]
			if !ok {
				first[p.Item] = i
				continue
			}
			q := &a.Parts[k]
			if p.Stock != q.Stock || math.Abs(p.Mass-q.Mass) > 1e-9*q.Mass {
				t.Errorf("%s: %s and %s are one item, of %v and %v, %.4f and %.4f kg", name, q.ID, p.ID, q.Stock, p.Stock, q.Mass, p.Mass)
			}
		}
	}
}
