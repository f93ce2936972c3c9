package seat

import (
	"math"
	"slices"
	"testing"

	"armwright/geometry/elbow"
	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// reference is the reference person of de Leva 1996, table 4, with the postures
// of reference/biomechanics.md 6c: hip, mid-shoulder and C7 above each other,
// head upright, thighs level, shanks upright.
func reference(sex people.Sex, slope float64) (people.Person, posture.Body, posture.Pose) {
	stature, mass := 1735.0, 61.9
	if sex == people.Man {
		stature, mass = 1741, 73
	}
	seg := people.Segments(sex)
	p := people.Person{Sex: sex, Stature: stature, Mass: mass}
	b := posture.Body{Hip: 80, Trunk: seg.Trunk.Length * stature, UpperArm: seg.UpperArm.Length * stature, Forearm: 325, Hinge: elbow.Hinge{}}
	// The vertex stands a head above C7, which stands a trunk to the neck above the hip.
	p.SittingHeight = b.Hip + (seg.TrunkToNeck.Length+seg.Head.Length)*stature
	p.PoplitealHeight = seg.Shank.Length * stature
	p.FootLength = seg.Foot.Length * stature
	var pose posture.Pose
	pose.Shoulder = r3.Vec{Z: b.Trunk}
	s, c := math.Sincos(slope)
	pose.Proximal = r3.Vec{X: -s, Z: c}
	pose.Elbow = r3.Sub(pose.Shoulder, r3.Scale(b.UpperArm, pose.Proximal))
	return p, b, pose
}

// [E1], [E2] of reference/biomechanics.md (D, from de Leva 1996, S): centre of
// mass from mid-hip, upper arm and elbow flexed 0/0 and 45/90 degrees. There the
// feet hang 30 mm below the ankles, here they are at the sole's height.
func TestSeatedReference(t *testing.T) {
	for _, v := range []struct {
		name         string
		sex          people.Sex
		slope, theta float64
		x, z         float64
	}{
		{"man 0/0", people.Man, 0, 0, 98.4, 169.6}, {"man 45/90", people.Man, 45 * specs.Degree, 90 * specs.Degree, 119.3, 189.7},
		{"woman 0/0", people.Woman, 0, 0, 85.2, 169.9}, {"woman 45/90", people.Woman, 45 * specs.Degree, 90 * specs.Degree, 103.4, 187.2},
	} {
		p, b, pose := reference(v.sex, v.slope)
		arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
		c := MassCentre(p, b, pose, arm, v.theta)
		feet := 2 * people.Segments(v.sex).Foot.Mass * 30
		if math.Abs(c.X-v.x) > 0.5 || math.Abs(c.Z-feet-v.z) > 0.5 {
			t.Errorf("%s: (%.1f, %.1f), want (%.1f, %.1f)", v.name, c.X, c.Z-feet, v.x, v.z)
		}
	}
	// [E3]: with the upper arm at 45 degrees, bending the elbow by 90 moves the
	// centre up and down only.
	p, b, pose := reference(people.Man, 45*specs.Degree)
	arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
	if d := MassCentre(p, b, pose, arm, 90*specs.Degree).X - MassCentre(p, b, pose, arm, 0).X; math.Abs(d) > 1e-9 {
		t.Errorf("elbow 0 to 90 moves the centre by %g mm fore and aft", d)
	}
}

// [E4]: 220 mm ahead of the back of the buttocks at 77 kg, 273 mm at 140 kg,
// ±25 mm (laser scans of 447 women and 315 men, S). Persons drawn near those
// masses, sitting upright with arms down.
func TestSeatedCentreByMass(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	persons := slices.Collect(drive.Population(b.People).Draw(8000, 7))
	for _, v := range []struct{ mass, want float64 }{{77, 220}, {140, 273}} {
		sum, n := 0.0, 0.0
		for _, p := range persons {
			if math.Abs(p.Mass-v.mass) > 5 {
				continue
			}
			body := Body(p, b.People, 0)
			pose := posture.Pose{Proximal: r3.Vec{Z: 1}, Hip: r3.Vec{Z: body.Hip}}
			pose.Shoulder = r3.Vec{Y: -body.ShoulderHalf, Z: body.Hip + body.Trunk}
			pose.Elbow = r3.Sub(pose.Shoulder, r3.Vec{Z: body.UpperArm})
			arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
			sum += MassCentre(p, body, pose, arm, 90*specs.Degree).X + body.Behind
			n++
		}
		if got := sum / n; n < 20 || math.Abs(got-v.want) > 25 {
			t.Errorf("%.0f kg: %.0f mm ahead of the buttocks over %.0f persons, want %.0f", v.mass, got, n, v.want)
		}
	}
}

// A seated person's centre of mass lies 220 ± 25 mm ahead of the back of the
// buttocks at about 77 kg (S: laser scans of 447 women and 315 men).
func TestSeatedCentreOfMass(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	for _, sex := range []people.Sex{people.Woman, people.Man} {
		who := drive.Population(b.People).Median(sex)
		body := Body(who, b.People, 0)
		pose := posture.Pose{Hip: r3.Vec{Z: 400 + body.Hip}, Proximal: r3.Vec{Z: 1}}
		pose.Shoulder = r3.Vec{Y: -body.ShoulderHalf, Z: 400 + body.Hip + body.Trunk}
		pose.Elbow = r3.Sub(pose.Shoulder, r3.Vec{Z: body.UpperArm})
		arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
		c := MassCentre(who, body, pose, arm, 90*specs.Degree)
		if ahead := c.X + body.Behind; math.Abs(ahead-220) > 25 {
			t.Errorf("%v of %.0f kg: centre of mass %.0f mm ahead of the buttocks", sex, who.Mass, ahead)
		}
	}
}
