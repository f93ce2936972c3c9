package person_test

import (
	"math"
	"testing"

	"armwright/geometry/person"
	"armwright/geometry/person/persontest"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

const deg = math.Pi / 180

func TestLegFindsTheFloor(t *testing.T) {
	who := mean(false)
	s, popliteal := who.Sizes, who.Sizes.PoplitealHeight
	s.Shoe = 25
	knee := (s.KneeHeight - popliteal) / 2
	shank := popliteal + knee - 66 // to the ankle
	for _, c := range []struct {
		what                string
		seat, ground        float64
		shank, hang, lifted float64
	}{
		{"seat as high as leg and shoe", popliteal + 25, 0, 0, 0, 0},
		{"seat 80 higher: the foot hangs", popliteal + 105, 0, 0, 80, 0},
		{"plate 80 high under it", popliteal + 105, 80, 0, 0, 0},
		{"seat 20 lower: the foot goes forward", popliteal + 5, 0, math.Acos(1 - 20/shank), 0, 0},
		{"seat 100 lower: the knee lifts by what 30 degrees leave", popliteal - 75, 0, 30 * deg, 0, 100 - shank*(1-math.Cos(30*deg))},
	} {
		pose := who.Pose()
		pose.Seat, pose.Ground = c.seat, c.ground
		l := s.Leg(&pose)
		lifted := l.Knee.Z - c.seat - knee
		if math.Abs(l.Shank-c.shank) > 1e-9 || math.Abs(l.Hang-c.hang) > 1e-9 || math.Abs(lifted-c.lifted) > 1e-9 {
			t.Errorf("%s: shank %.2f deg, hanging %.2f, lifted %.2f; want %.2f, %.2f, %.2f", c.what, l.Shank/deg, l.Hang, lifted, c.shank/deg, c.hang, c.lifted)
		}
	}
}

func TestLegKeepsItsLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		who := mean(rapid.Bool().Draw(t, "woman"))
		s := who.Sizes
		s.Shoe = rapid.Float64Range(0, 45).Draw(t, "shoe")
		pose := who.Pose()
		pose.Seat = rapid.Float64Range(250, 700).Draw(t, "seat")
		pose.Ground = rapid.Float64Range(0, 200).Draw(t, "ground")
		l := s.Leg(&pose)
		r := (s.KneeHeight - s.PoplitealHeight) / 2
		if got, want := r3.Norm(r3.Sub(l.Knee, l.Ankle)), s.PoplitealHeight+r-66; math.Abs(got-want) > 1e-6 {
			t.Fatalf("shank %.4f long, want %.4f", got, want)
		}
		if got, want := r3.Norm(r3.Sub(l.Knee, l.Hip)), math.Hypot(s.ButtockKnee-s.Behind-r, s.ThighClearance/2-r); math.Abs(got-want) > 1e-6 {
			t.Fatalf("thigh %.4f long, want %.4f", got, want)
		}
		if sole := l.Ankle.Z - 66 - s.Shoe; math.Abs(sole-pose.Ground-l.Hang) > 1e-6 || l.Hang < 0 {
			t.Fatalf("sole at %.4f over ground at %.4f, told to hang %.4f", sole, pose.Ground, l.Hang)
		}
		if l.Shank < 0 || l.Shank > person.FeetForward {
			t.Fatalf("shank at %.2f deg", l.Shank/deg)
		}
	})
}

// A crossbar between the pivots, a tube of 60 across the lap, is what the frame's
// shape must not have. Seen with thighs of one thickness, as the issue was, it stands
// 75 deep in the middle woman's: from her thigh's top, 174.1 over a seat at 475.5, to
// the bar's underside at 574.4. Thighs thin to the knee: her knee is 128.6 thick, 412
// ahead of her hip joint at 87, so that 306 ahead, at the bar's rear edge, her thigh's
// top is at about 475.5+174.1-(174.1-128.6)*306/412 = 615.8, 41 above the bar's
// underside; a round thigh bulges a little over the line.
func TestCrossbarAcrossTheLapIsInTheThighs(t *testing.T) {
	st := persontest.Read(t, "arm-pad")
	bar := solid.Prism{Profile: solid.Rect(st.Old.Side, st.Old.Side, 0), From: solid.End{Z: -st.Old.Half}, To: solid.End{Z: st.Old.Half}}
	at := solid.Along(r3.Vec{X: st.Old.X, Z: st.Old.Z}, r3.Vec{X: st.Old.X, Y: 1, Z: st.Old.Z}, r3.Vec{Z: 1})
	hull := bar.Hull()
	hit := 0
	for i := range st.Persons {
		p := &st.Persons[i]
		pose := p.Pose()
		var right person.Body
		for _, b := range p.Sizes.Bodies(&pose) {
			if b.Segment == person.Thigh && !b.Left {
				right = b
			}
		}
		gap := right.Gap(hull, at)
		if gap < 0 {
			hit++
		}
		if i != 0 {
			continue
		}
		if p.Label != "woman 01 (middling in all)" || math.Abs(gap+41) > 6 {
			t.Errorf("%s: crossbar %.1f deep in the thigh, want about 41", p.Label, -gap)
		}
		hip := right.Balls()[0]
		knee := r3.Add(hip.Centre, r3.Vec{X: p.Sizes.ButtockKnee - p.Sizes.Behind - hip.Radius})
		even := solid.Balls{hip, {Centre: knee, Radius: hip.Radius}}
		if gap, _, _ := solid.Distance(even, solid.World(), hull, at); math.Abs(gap+75) > 1 {
			t.Errorf("crossbar %.1f deep in a thigh of one thickness, want 75", -gap)
		}
	}
	if hit < 49 {
		t.Errorf("crossbar in the thighs of %d of %d persons; one man with a long trunk sits low enough to pass under it", hit, len(st.Persons))
	}
}
