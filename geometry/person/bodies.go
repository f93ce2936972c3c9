package person

import (
	"math"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bodies are those of one person that do not move as the elbows bend: trunk, legs
// and upper arms.
type Bodies [13]Body

const firstOfLegs, firstOfArms = 5, 11 // in Bodies

// Bodies puts a person's bodies round a pose. All but Forearm and Hand, which
// Forearm gives.
func (s *Sizes) Bodies(p *Pose) Bodies {
	var out Bodies
	for i, b := range s.trunk(p) {
		out[i] = b
	}
	s.legs(p, out[firstOfLegs:firstOfArms])
	for i := range p.Arms {
		out[firstOfArms+i] = s.upperArm(&p.Arms[i], i == 1)
	}
	return out
}

// legs sets thighs, shanks and feet of both sides.
func (s *Sizes) legs(p *Pose, out []Body) {
	for i, b := range s.leg(s.Leg(p)) {
		out[2*i], out[2*i+1] = b, b.Mirrored()
	}
}

func ball(at r3.Vec, radius float64) solid.Ball { return solid.Ball{Centre: at, Radius: radius} }

// trunk is head, neck, chest, belly and pelvis.
func (s *Sizes) trunk(p *Pose) [5]Body {
	sin, cos := math.Sincos(p.Lean)
	along, forward := r3.Vec{X: sin, Z: cos}, r3.Vec{X: cos, Z: -sin}
	at := func(up, ahead, side float64) r3.Vec {
		return r3.Add(p.Hip, r3.Add(r3.Scale(up, along), r3.Add(r3.Scale(ahead, forward), r3.Vec{Y: side})))
	}
	// slab is a body of round edge, deep from front to back, between two heights.
	slab := func(segment Segment, low, high, ahead, depth, breadth float64) Body {
		r := depth / 2
		side := max(0, breadth/2-r)
		return newBody(segment, false, ball(at(low, ahead, -side), r), ball(at(low, ahead, side), r),
			ball(at(high, ahead, -side), r), ball(at(high, ahead, side), r))
	}
	// Head and neck stand on the trunk's line, the head level with it.
	h := s.SittingHeight
	skull, chinR := headBreadth*h/2, chinRadius*h
	top, long := h-s.HipHeight, headLength*h/2
	chin := top - headHeight*h + chinR
	head := newBody(Head, false, ball(at(top-skull, skull-long, 0), skull), ball(at(top-skull, long-skull, 0), skull),
		ball(at(chin, long-chinR, 0), chinR))
	neck := newBody(Neck, false, ball(at(s.Trunk+neckFrom, -p.Behind, 0), neckRadius*h), ball(at(chin, skull-long, 0), neckRadius*h))
	chest := slab(Chest, chestFrom*s.Trunk, chestTo*s.Trunk, -p.Behind, s.ChestDepth, s.ChestBreadth)
	front := s.AbdominalDepth - s.Behind
	belly := slab(Belly, bellyAbove-bellyHalf, bellyAbove+bellyHalf, front-s.AbdominalDepth/2, s.AbdominalDepth, waistShare*s.ChestBreadth)
	r := s.ThighClearance / 2
	side, rear := max(0, s.HipBreadth/2-r), -max(0, s.Behind-r)
	pelvis := newBody(Pelvis, false, ball(at(0, 0, -side), r), ball(at(0, 0, side), r), ball(at(0, rear, -side), r), ball(at(0, rear, side), r))
	return [5]Body{head, neck, chest, belly, pelvis}
}

// leg is thigh, shank and foot of the right side.
func (s *Sizes) leg(l Leg) [3]Body {
	knee := s.kneeRadius()
	bulk := max(knee, thighShare*s.ThighClearance/2)
	mid := r3.Add(l.Hip, r3.Scale(thighAlong, r3.Sub(l.Knee, l.Hip)))
	// Its underside is that of the ends.
	mid.Z += bulk - (s.ThighClearance/2 + thighAlong*(knee-s.ThighClearance/2))
	thigh := newBody(Thigh, false, ball(l.Hip, s.ThighClearance/2), ball(mid, bulk), ball(l.Knee, knee))
	// The calf bulges behind the shank's line: its front is the shin.
	sin, cos := math.Sincos(l.Shank)
	back := r3.Vec{X: -cos, Z: -sin}
	radius := s.CalfGirth / (2 * math.Pi)
	calf := r3.Add(l.Knee, r3.Add(r3.Scale(calfDown, r3.Sub(l.Ankle, l.Knee)), r3.Scale(max(0, knee-radius), back)))
	shank := newBody(Shank, false, ball(l.Knee, knee), ball(calf, radius), ball(l.Ankle, ankleRadius))

	length, breadth := s.FootLength+shoeLonger, footBreadthShare*s.FootLength+shoeBroader
	sole := l.Ankle.Z - ankleHeight - s.Shoe
	heel := l.Ankle.X - ankleShare*s.FootLength - shoeLonger/2.0
	side := max(0, breadth/2-toeRadius)
	toe := heel + length - toeRadius
	foot := newBody(Foot, false, ball(l.Ankle, ankleRadius), ball(r3.Vec{X: heel + heelRadius, Y: l.Ankle.Y, Z: sole + heelRadius}, heelRadius),
		ball(r3.Vec{X: toe, Y: l.Ankle.Y - side, Z: sole + toeRadius}, toeRadius), ball(r3.Vec{X: toe, Y: l.Ankle.Y + side, Z: sole + toeRadius}, toeRadius))
	return [3]Body{thigh, shank, foot}
}

// upperArm reaches from the deltoid to the elbow.
func (s *Sizes) upperArm(a *Arm, left bool) Body {
	out := -1.0
	if left {
		out = 1
	}
	// The deltoid stands out beyond the shoulder's centre, as far as the breadth
	// across both.
	deltoid := a.Shoulder
	deltoid.Y = out * max(out*a.Shoulder.Y, s.Bideltoid/2-shoulderRadius)
	biceps := r3.Add(a.Shoulder, r3.Scale(bicepsAlong, r3.Sub(a.Elbow, a.Shoulder)))
	return newBody(UpperArm, left, ball(a.Shoulder, shoulderRadius), ball(deltoid, shoulderRadius),
		ball(biceps, s.UpperArmGirth/(2*math.Pi)), ball(a.Elbow, elbowShare*s.ForearmGirth/(2*math.Pi)))
}

// Forearm returns forearm and hand at the flexion whose sine and cosine are given.
// The hand closes round the handle: a bar of its breadth along it.
func (s *Sizes) Forearm(a *Arm, left bool, sin, cos float64) (forearm, hand Body) {
	grip := a.Path.At(sin, cos)
	r := s.ForearmGirth / (2 * math.Pi)
	bulge := r3.Add(a.Elbow, r3.Scale(0.25, r3.Sub(grip, a.Elbow)))
	half := r3.Scale(max(0, s.HandBreadth/2-fistRadius), a.Grip)
	forearm = newBody(Forearm, left, ball(a.Elbow, elbowShare*r), ball(bulge, r), ball(grip, wristShare*r))
	hand = newBody(Hand, left, ball(r3.Sub(grip, half), fistRadius), ball(r3.Add(grip, half), fistRadius))
	return forearm, hand
}
