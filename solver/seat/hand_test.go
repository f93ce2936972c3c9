package seat

import (
	"math"
	"testing"

	"armwright/geometry/elbow"
	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// placed is an arm-pad machine with one axis, and a person of given forearm and
// hinge whose elbow lies as far ahead of the axis, across the pad, as asked.
func placed(t *testing.T, forearm float64, h elbow.Hinge, ahead float64, axis func(proximal r3.Vec) r3.Vec) (*Placer, *Swing, posture.Pose) {
	t.Helper()
	b := solvertest.Frame(t, "arm-pad-station")
	s, g := placerFor(t, &b.Asked), &b.Geometry
	s.Sin, s.Cos = nil, nil
	for k := range 15 { // every 10 degrees
		sin, cos := math.Sincos(float64(k) * 10 * specs.Degree)
		s.Sin, s.Cos = append(s.Sin, sin), append(s.Cos, cos)
	}
	m := drive.NewMachine(g)
	who := drive.Population(b.People).Median(people.Man)
	body := Body(who, b.People, b.Posture.GripRotation)
	body.Forearm, body.Hinge = forearm, h
	body.ShoulderHalf = g.Pivots.Spacing / 2 // no abduction
	body.ArmHalf = g.Pad.Offset + ahead
	var p Sitter
	s.Receive(&p, -1, who, body)
	at := s.Sit(m, &p, 0, &require.Rows{Card: &s.Card})
	m.Axes = []r3.Vec{axis(at.pose.Proximal)}
	w := &Swing{}
	s.SwingOn(m, &p, &at, &p.Limbs[0], 0, w, &require.Rows{Card: &s.Card})
	s.Follow(m, w)
	return s, w, at.pose
}

func straight(r3.Vec) r3.Vec { return r3.Vec{Y: -1} }

// Lateral handle offset L·sin A of the oblique hinge on a placed person, L =
// 349 mm (D, handbook-style table of the closed form): half and half of 12
// degrees, and tilt 7.6 with valgus 4.0.
func TestHandOffsetOnPlacedPerson(t *testing.T) {
	for _, c := range []struct {
		hinge elbow.Hinge
		want  map[int]float64
	}{
		{elbow.Hinge{Tilt: 6 * specs.Degree, Valgus: 6 * specs.Degree}, map[int]float64{0: 72.6, 30: 67.7, 60: 54.4, 90: 36.3, 120: 18.1, 140: 8.5}},
		{elbow.Hinge{Tilt: 7.59 * specs.Degree, Valgus: 4.01 * specs.Degree}, map[int]float64{0: 70.2, 30: 64.0, 60: 47.2, 90: 24.1, 120: 1.1, 140: -11.1}},
	} {
		s, w, pose := placed(t, 349, c.hinge, 0, straight)
		for angle, want := range c.want {
			i := angle / 10
			hand := w.course.Path.At(s.Sin[i], s.Cos[i])
			if got := r3.Dot(r3.Sub(hand, pose.Elbow), w.arm.Z); math.Abs(got-want) > 0.2 {
				t.Errorf("hinge %+v at %d deg: %.2f mm lateral, want %.1f", c.hinge, angle, got, want)
			}
		}
	}
}

// A handle that slides and swivels on a straight axis at the elbow: the lateral
// offsets of the table above apart, 72.6 - 8.5 mm from straight to 140 degrees,
// and the abduction angles 12.00 - 1.39 degrees (D).
func TestSlideAndSwivelOnPlacedPerson(t *testing.T) {
	_, w, _ := placed(t, 349, elbow.Hinge{Tilt: 6 * specs.Degree, Valgus: 6 * specs.Degree}, 0, straight)
	along, swivel := w.Slide(349)
	if math.Abs(along-64.1) > 0.2 || math.Abs(swivel/specs.Degree-10.61) > 0.02 {
		t.Errorf("slide %.2f mm, swivel %.2f deg", along, swivel/specs.Degree)
	}
}

// Misalignment on a placed person: 10 mm along a lever of 349 changes the
// torque by 2.87 % (D), 40 mm on 400 by 10 % (S, a guide to rehabilitation
// dynamometry of 1997). The elbow lies ahead of the axis across the pad, so
// the lever points along the offset with the forearm at a right angle.
func TestMisalignmentOnPlacedPerson(t *testing.T) {
	for _, c := range []struct{ offset, radius, want float64 }{{10, 349, 0.0287}, {40, 400, 0.10}} {
		_, w, _ := placed(t, c.radius-c.offset, elbow.Hinge{}, c.offset, straight)
		if math.Abs(w.offset-c.offset) > 1e-9 {
			t.Fatalf("offset %g", w.offset)
		}
		radial := w.Points[9].Radial // at 90 degrees
		if math.Abs(radial-c.radius) > 1e-9 {
			t.Fatalf("hand %g from the axis", radial)
		}
		if got := w.offset / radial; math.Abs(got-c.want) > 1e-4 {
			t.Errorf("%g mm on %g: torque changes by %.4f, want %.4f", c.offset, c.radius, got, c.want)
		}
	}
}

// An axis tilted by 5 degrees in the plane of upper arm and axis makes the hand
// of a placed person drift 50.0 mm along it between straight and 130 degrees, L
// = 349 (D).
func TestTiltDriftOnPlacedPerson(t *testing.T) {
	_, w, _ := placed(t, 349, elbow.Hinge{}, 0, func(proximal r3.Vec) r3.Vec {
		sin, cos := math.Sincos(5 * specs.Degree)
		return r3.Add(r3.Vec{Y: -cos}, r3.Scale(sin, proximal))
	})
	if math.Abs(w.tilt-5*specs.Degree) > 1e-9 {
		t.Errorf("tilt %g deg", w.tilt/specs.Degree)
	}
	if drift := math.Abs(w.Points[13].Axial - w.Points[0].Axial); math.Abs(drift-50.0) > 0.2 {
		t.Errorf("drift %.2f mm", drift)
	}
}

// A straight common axis costs 27.7 mm at a carrying angle of 12 degrees and
// 47.7 at 21, along the axis, L = 325 mm over 5 to 130 degrees (D, design
// card); the part across it comes on top.
func TestCommonAxis(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	s := placerFor(t, &b.Asked)
	for angle, want := range map[float64]float64{12: 27.7, 21: 47.7} {
		var p Sitter
		s.Receive(&p, -1, people.Person{}, posture.Body{Forearm: 325, Hinge: elbow.FromCarrying(angle*specs.Degree, 0.5)})
		got := s.CommonAxis(&p)
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range p.Points {
			low, high = math.Min(low, q.Axial), math.Max(high, q.Axial)
		}
		if along := (high - low) / 2; math.Abs(along-want) > 0.05 || got < along || got > 1.03*along {
			t.Errorf("%g degrees: %.2f mm along the axis, %.2f in all, want %.1f and a little more", angle, along, got, want)
		}
	}
}
