package seat

import (
	"math"

	"armwright/geometry/elbow"
	"armwright/geometry/posture"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// Offsets from landmarks to joint centres, mm.
const (
	// Shoulder centre below the acromion: 45 (design card). A textbook's
	// figure is 51 (Dempster, quoted), a newer one 10.4 % of the arm, 34
	// (de Leva 1996, from memory).
	shoulderBelowAcromion = 45.0
	// Shoulder centre inside the acromion: half the mean male biacromial
	// breadth of the 2012 survey, 207.9, less the shoulder's 170 in the
	// musculoskeletal arm model ARM26 (derived).
	shoulderInsideAcromion = 37.9
	// Belly front above the hip joint along the trunk. Judgement: about the
	// height of the navel.
	bellyAboveHip = 110.0
)

// Body converts a person's survey sizes into the lengths that placing needs.
//
// The hip joint is taken at half the thigh clearance above the seat and half
// the buttock depth ahead of the back plane (judgement; no survey measures it).
func Body(p people.Person, who specs.People, grip float64) posture.Body {
	hip := p.ThighClearance / 2
	behind := p.ButtockDepth / 2
	carrying, err := elbow.GripRule(who.GripRule).Carrying(p.CarryingAngle, grip)
	if err != nil {
		panic(err) // a parsed brief holds one of the rules
	}
	return posture.Body{
		Trunk:        p.AcromionHeight - shoulderBelowAcromion - hip,
		Hip:          hip,
		Behind:       behind,
		ShoulderHalf: p.Biacromial/2 - shoulderInsideAcromion,
		UpperArm:     p.AcromionToAxis - shoulderBelowAcromion,
		Forearm:      p.AxisToGrip,
		ArmHalf:      p.UpperArmGirth / (2 * math.Pi),
		ChestDepth:   p.ChestDepth,
		ChestBreadth: p.ChestBreadth,
		BellyFront:   p.AbdominalDepth - behind,
		BellyHeight:  bellyAboveHip,
		ThighDepth:   p.ThighClearance,
		ThighHalf:    (p.HipBreadth - p.ThighClearance) / 2,
		Knee:         p.ButtockKnee - behind,
		HandHalf:     p.HandBreadth / 2,
		Hinge:        elbow.FromCarrying(carrying, who.AxisShare),
	}
}

// MassCentre returns the person's centre of mass in the machine frame with the
// forearms at flexion theta, from segment masses and centres (de Leva 1996,
// table 4): trunk and head along the trunk's line, thighs level, shanks upright.
func MassCentre(p people.Person, b posture.Body, pose posture.Pose, arm posture.Arm, theta float64) r3.Vec {
	seg := people.Segments(p.Sex)
	var sum r3.Vec
	var mass float64
	add := func(fraction float64, at r3.Vec) {
		at.Y = 0 // both sides together
		sum = r3.Add(sum, r3.Scale(fraction, at))
		mass += fraction
	}
	along := r3.Unit(r3.Sub(pose.Shoulder, r3.Vec{X: pose.Hip.X, Y: pose.Shoulder.Y, Z: pose.Hip.Z}))
	lerp := func(a, b r3.Vec, t float64) r3.Vec { return r3.Add(a, r3.Scale(t, r3.Sub(b, a))) }

	add(seg.Trunk.Mass, lerp(pose.Shoulder, pose.Hip, seg.Trunk.Centre))
	add(seg.Head.Mass, r3.Add(pose.Hip, r3.Scale(HeadAlong(p, b), along)))
	add(2*seg.UpperArm.Mass, lerp(pose.Shoulder, pose.Elbow, seg.UpperArm.Centre))
	_, place := p.ForearmHand()
	hand := pose.Hand(b, arm, theta)
	add(2*(seg.Forearm.Mass+seg.Hand.Mass), lerp(pose.Elbow, hand, place/b.Forearm))
	knee := r3.Add(pose.Hip, r3.Vec{X: seg.Thigh.Length * p.Stature})
	add(2*seg.Thigh.Mass, lerp(pose.Hip, knee, seg.Thigh.Centre))
	foot := r3.Sub(knee, r3.Vec{Z: p.PoplitealHeight})
	add(2*seg.Shank.Mass, lerp(knee, foot, seg.Shank.Centre))
	toe := r3.Add(foot, r3.Vec{X: p.FootLength})
	add(2*seg.Foot.Mass, lerp(foot, toe, seg.Foot.Centre-0.25))
	return r3.Scale(1/mass, sum)
}

// HeadAlong is how far the head's centre of mass lies from the hip joint along
// the trunk: the vertex stands the seated height above the seat.
func HeadAlong(p people.Person, b posture.Body) float64 {
	head := people.Segments(p.Sex).Head
	return p.SittingHeight - b.Hip - head.Centre*head.Length*p.Stature
}

// upperBody returns the share of body mass above the hip and where it acts
// fore and aft, from the whole person's centre less the legs, thighs level and
// shanks upright (de Leva 1996).
func upperBody(p people.Person, pose posture.Pose, centre float64) (share, x float64) {
	seg := people.Segments(p.Sex)
	thigh := seg.Thigh.Length * p.Stature
	legs := 2 * (seg.Thigh.Mass + seg.Shank.Mass + seg.Foot.Mass)
	moment := 2 * (seg.Thigh.Mass*(pose.Hip.X+seg.Thigh.Centre*thigh) +
		seg.Shank.Mass*(pose.Hip.X+thigh) +
		seg.Foot.Mass*(pose.Hip.X+thigh+(seg.Foot.Centre-0.25)*p.FootLength))
	share = 1 - legs
	return share, (centre - moment) / share
}
