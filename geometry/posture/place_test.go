package posture

import (
	"math"
	"testing"

	"armwright/geometry/elbow"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

const deg = math.Pi / 180

// body draws a person between a small woman and a large man.
func body(t *rapid.T) Body {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	return Body{
		Trunk: f("trunk", 380, 520), Hip: f("hip", 70, 105), Behind: f("behind", 95, 150),
		ShoulderHalf: f("shoulder", 125, 190), UpperArm: f("upper arm", 225, 315), Forearm: f("forearm", 255, 365),
		ArmHalf: f("arm half", 38, 72), ChestDepth: f("chest depth", 190, 340), ChestBreadth: f("chest breadth", 230, 350),
		BellyFront: f("belly", 80, 230), BellyHeight: 110, ThighDepth: f("thigh", 140, 210), ThighHalf: 95,
		Knee: f("knee", 400, 550), HandHalf: 42,
		Hinge: elbow.FromCarrying(f("carrying", 5*deg, 22*deg), 0.5),
	}
}

func rest(t *rapid.T) Rest {
	return Rest{Slope: rapid.Float64Range(15*deg, 65*deg).Draw(t, "slope"), Offset: rapid.Float64Range(35, 75).Draw(t, "offset"), Near: 40, Far: 200, Width: 120}
}

func pivot(t *rapid.T) r3.Vec {
	return r3.Vec{Y: -rapid.Float64Range(170, 260).Draw(t, "half spacing"), Z: rapid.Float64Range(600, 1000).Draw(t, "height")}
}

// The chain of joints closes: every segment keeps its length.
func TestPlaceOnPadKeepsLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, r, p := body(t), rest(t), pivot(t)
		lean := rapid.Float64Range(2*deg, 30*deg).Draw(t, "lean")
		first := PlaceOnPad(b, p, r, 0)
		seat := first.Shoulder.Z - b.Hip - b.Trunk*math.Cos(lean)
		pose := PlaceOnPad(b, p, r, seat)
		if d := math.Abs(r3.Norm(r3.Sub(pose.Shoulder, pose.Elbow)) - b.UpperArm); d > 1e-9 {
			t.Fatalf("upper arm off by %g", d)
		}
		side := r3.Vec{X: pose.Shoulder.X - pose.Hip.X, Z: pose.Shoulder.Z - pose.Hip.Z}
		if d := math.Abs(r3.Norm(side) - b.Trunk); d > 1e-9 {
			t.Fatalf("trunk off by %g", d)
		}
		if d := math.Abs(pose.Lean - lean); d > 1e-9 {
			t.Fatalf("lean off by %g", d)
		}
		if pose.Hip.X >= pose.Shoulder.X {
			t.Fatalf("leaning forward the hip at %v is ahead of the shoulder at %v", pose.Hip.X, pose.Shoulder.X)
		}
		if d := math.Abs(-pose.Shoulder.Y - b.ShoulderHalf); d > 1e-9 {
			t.Fatalf("shoulder breadth off by %g", d)
		}
		// The elbow is off the pivot by what the arm's thickness differs from the pad's offset.
		if d := math.Abs(r3.Norm(r3.Sub(pose.Elbow, p)) - math.Abs(b.ArmHalf-r.Offset)); d > 1e-9 {
			t.Fatalf("elbow off by %g", d)
		}
	})
}

// A machine axis laid where the person's own is leaves no mismatch: hand and
// handle run on one circle. It lies in the pad's plane, turned by the hinge's
// tilt plus the abduction.
func TestAxisOfTheElbowLeavesNoMismatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, r, p := body(t), rest(t), pivot(t)
		r.Offset = b.ArmHalf
		pose := PlaceOnPad(b, p, r, 400)
		s, c := math.Sincos(b.Hinge.Tilt + pose.Abduction)
		axis := r3.Add(r3.Vec{Y: -c}, r3.Scale(s, r.upper()))
		arm, turn := pose.Turned(axis, 10*deg)
		if math.Abs(turn) > 1e-9 {
			t.Fatalf("turn %g", turn)
		}
		if d := r3.Norm(r3.Sub(arm.To(b.Hinge.Axis()), axis)); d > 1e-9 {
			t.Fatalf("axis off by %g", d)
		}
		var points []elbow.AxisPoint
		for theta := 5 * deg; theta < 131*deg; theta += 5 * deg {
			hand := r3.Sub(pose.Hand(b, arm, theta), p)
			points = append(points, elbow.AxisPoint{Radial: r3.Norm(r3.Cross(axis, hand)), Axial: r3.Dot(axis, hand)})
		}
		if _, dev := elbow.Mismatch(points); dev.Max > 1e-6 {
			t.Fatalf("mismatch %g mm", dev.Max)
		}
	})
}

// Flexion from the pad lifts the hand, and the palm's side is forward and up.
func TestFlexionLifts(t *testing.T) {
	b := Body{Trunk: 450, Hip: 88, UpperArm: 280, Forearm: 325, ShoulderHalf: 170, ArmHalf: 55, Hinge: elbow.FromCarrying(12*deg, 0.5)}
	r := Rest{Slope: 40 * deg, Offset: 55}
	p := r3.Vec{Y: -200, Z: 800}
	pose := PlaceOnPad(b, p, r, 420)
	arm, _ := pose.Turned(r3.Vec{Y: -1}, 10*deg)
	at := func(theta float64) r3.Vec { return pose.Hand(b, arm, theta) }
	if !(at(0).Z < p.Z && at(90*deg).Z > p.Z+200 && at(0).X > 200) {
		t.Errorf("hand at 0: %v, at 90: %v", at(0), at(90*deg))
	}
	if !(at(0).Y < p.Y) {
		t.Errorf("a valgus forearm points outward when straight: %v", at(0))
	}
}

// At the seat height that closes the chain the reclined elbow is on the pivot.
func TestPlaceReclinedCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, p := body(t), pivot(t)
		back := Recline{Angle: rapid.Float64Range(20*deg, 50*deg).Draw(t, "back"), Foot: rapid.Float64Range(-50, 250).Draw(t, "foot"),
			Height: rapid.Float64Range(300, 600).Draw(t, "height")}
		seat := ClosingSeat(b, p, back)
		pose := PlaceReclined(b, p, back, seat)
		arm := b.UpperArm * math.Cos(pose.Abduction)
		if d := math.Hypot(pose.Shoulder.X-p.X, pose.Shoulder.Z-p.Z); d > arm+1e-9 {
			// Out of the arm's reach: no height brings the shoulder nearer.
			for _, step := range []float64{-1, 1} {
				other := PlaceReclined(b, p, back, seat+step)
				if math.Hypot(other.Shoulder.X-p.X, other.Shoulder.Z-p.Z) < d {
					t.Fatalf("a seat %+g mm from that told brings the shoulder nearer", step)
				}
			}
			return
		}
		if d := r3.Norm(r3.Sub(pose.Elbow, p)); d > 1e-9 {
			t.Fatalf("elbow off by %g", d)
		}
		if d := math.Abs(r3.Norm(r3.Sub(pose.Shoulder, pose.Elbow)) - b.UpperArm); d > 1e-9 {
			t.Fatalf("upper arm off by %g", d)
		}
		side := r3.Vec{X: pose.Shoulder.X - pose.Hip.X, Z: pose.Shoulder.Z - pose.Hip.Z}
		if d := math.Abs(r3.Norm(side) - b.Trunk); d > 1e-9 {
			t.Fatalf("trunk off by %g", d)
		}
	})
}

// The back pad stays where it is while the seat rises: at 30 degrees, 60 mm higher
// means 60 tan 30 = 34.64 mm further back, for the hip as for the shoulder, and the
// buttocks keep touching the face.
func TestHigherSeatFurtherBack(t *testing.T) {
	b := Body{Trunk: 460, Hip: 90, Behind: 120, ShoulderHalf: 170, UpperArm: 285}
	back := Recline{Angle: 30 * deg, Foot: -100, Height: 420}
	p := r3.Vec{X: 0, Y: -230, Z: 800}
	low, high := PlaceReclined(b, p, back, 420), PlaceReclined(b, p, back, 480)
	for _, m := range []struct {
		name     string
		from, to r3.Vec
	}{{"hip", low.Hip, high.Hip}, {"shoulder", low.Shoulder, high.Shoulder}} {
		if dx, dz := m.to.X-m.from.X, m.to.Z-m.from.Z; math.Abs(dx+34.641) > 0.001 || math.Abs(dz-60) > 1e-9 {
			t.Errorf("%s moves by %.3f, %.3f, want -34.641, 60", m.name, dx, dz)
		}
	}
	// Distance of the hip from the face's line through (-100, 420).
	sin, cos := math.Sincos(30 * deg)
	for _, pose := range []Pose{low, high} {
		if d := (pose.Hip.X+100)*cos + (pose.Hip.Z-420)*sin; math.Abs(d-b.Behind) > 1e-9 {
			t.Errorf("hip %.3f from the back pad's face, want %g", d, b.Behind)
		}
	}
}

// Gaps against hand calculation.
func TestGaps(t *testing.T) {
	b := Body{ChestDepth: 250, ChestBreadth: 290, BellyFront: 130, BellyHeight: 110, ThighDepth: 180, Hip: 90, Knee: 480, ThighHalf: 95, UpperArm: 280, Trunk: 460}
	pose := Pose{Hip: r3.Vec{X: -300, Z: 510}, Shoulder: r3.Vec{X: -300, Y: -170, Z: 970}}
	// Upright trunk, belly front 130 ahead of the hip at -300: x = -170.
	if g := pose.BellyGap(b, 40); math.Abs(g-210) > 1e-9 {
		t.Errorf("belly gap %g, want 210", g)
	}
	// Pads so far apart that the chest passes between them: only the pad's edge
	// against the plane Protraction behind the shoulder.
	r := Rest{Slope: 30 * deg, Offset: 50, Far: 200, Width: 20}
	edge := -200*math.Cos(30*deg) - 50*math.Sin(30*deg)
	if g, want := pose.ChestGap(b, r3.Vec{Y: -400, Z: 800}, r), edge+300+Protraction; math.Abs(g-want) > 3 {
		t.Errorf("chest gap %g, want %g", g, want)
	}
	// A hand straight above the middle of the thigh.
	hand := r3.Vec{X: -100, Y: -95, Z: 420 + 90 + 200}
	if g, want := pose.KneeGap(b, hand), 200-90-HandDepth; math.Abs(g-want) > 1e-9 {
		t.Errorf("knee gap %g, want %g", g, want)
	}
}

// The seat that a lean asks for gives that lean, and the chest's front goes with the
// trunk.
func TestLeanOnPadIsPlaceOnPad(t *testing.T) {
	b := Body{Trunk: 450, Hip: 85, ShoulderHalf: 165, UpperArm: 270, ArmHalf: 50, ChestDepth: 240}
	rest := Rest{Slope: 0.5, Offset: 55, Near: 40, Far: 140, Width: 120}
	pivot := r3.Vec{Y: -170, Z: 860}
	const lean = 0.2
	p := LeanOnPad(b, pivot, rest, lean)
	q := PlaceOnPad(b, pivot, rest, p.Hip.Z-b.Hip)
	if math.Abs(q.Lean-lean) > 1e-12 || r3.Norm(r3.Sub(p.Hip, q.Hip)) > 1e-9 || p.Shoulder != q.Shoulder {
		t.Errorf("%+v, placed on its seat %+v", p, q)
	}
	// 90 ahead of the shoulder across the trunk; 100 lower and along it.
	s, c := math.Sincos(lean)
	front := r3.Add(p.Shoulder, r3.Vec{X: 90 * c, Z: -90 * s})
	if got, want := p.ChestAt(b, front.Z-100), front.X-100*s/c; math.Abs(got-want) > 1e-9 {
		t.Errorf("chest at %.6f, want %.6f", got, want)
	}
}

// Worked with a pocket calculator: an upper arm of 260 mm whose elbow, on a pivot 215 mm
// from the middle, lies 30 mm farther out than its shoulder spreads by
// asin(30/260) = 6.626 deg, of tangent 0.11616. At the pad's upper edge, 150 mm from the
// pivot, its line lies 17.42 mm beside the pad's middle: an arm of 2 x 50 mm reaches
// 67.42 mm out, past a pad of 60 by 7.42, which is 92.58 mm of its 100 on the pad. Spread
// inward by as much, it is the same.
func TestPadUnderTheArm(t *testing.T) {
	rest := Rest{Slope: 0.5, Offset: 50, Near: 40, Far: 150, Width: 120}
	pivot := r3.Vec{Y: -215, Z: 900}
	for _, shoulder := range []float64{185, 245} {
		b := Body{Trunk: 450, Hip: 85, ShoulderHalf: shoulder, UpperArm: 260, Forearm: 325, ArmHalf: 50}
		p := PlaceOnPad(b, pivot, rest, 400)
		if got := p.PadRoom(b, pivot, rest); math.Abs(got+7.42) > 0.01 {
			t.Errorf("shoulder %g: %.3f mm of pad beside the arm, want -7.42", shoulder, got)
		}
		if got := p.PadCover(b, pivot, rest); math.Abs(got-0.9258) > 1e-4 {
			t.Errorf("shoulder %g: %.4f of the arm on the pad, want 0.9258", shoulder, got)
		}
	}
	// Straight ahead an arm of 2 x 70 mm has 120 of its 140 on the pad, and lacks 10 on
	// either side.
	b := Body{Trunk: 450, Hip: 85, ShoulderHalf: 215, UpperArm: 260, Forearm: 325, ArmHalf: 70}
	p := PlaceOnPad(b, pivot, rest, 400)
	if room, cover := p.PadRoom(b, pivot, rest), p.PadCover(b, pivot, rest); math.Abs(room+10) > 1e-9 || math.Abs(cover-120.0/140) > 1e-9 {
		t.Errorf("straight ahead: room %g, cover %g; want -10 and 0.857", room, cover)
	}
	// A reclined elbow 20 mm up the arm from its pivot brings the pad's upper edge nearer.
	p = Pose{Abduction: math.Atan(0.2), Elbow: r3.Add(pivot, r3.Scale(20, rest.upper()))}
	b.ArmHalf = 50
	if got := p.PadRoom(b, pivot, rest); math.Abs(got-(60-50-0.2*130)) > 1e-9 {
		t.Errorf("elbow up the pad: room %g, want -16", got)
	}
}
