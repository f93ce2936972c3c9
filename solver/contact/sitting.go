package contact

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/statics"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The segments of a seated person.
const (
	pelvis = iota
	trunk  // with the head, down to the lowest disc
	upperArms
	forearms // with the hands
	thighs
	shanks // with the feet
	segments
)

const (
	// discUp is the lowest disc's (L5/S1) place on the line from hip joint to shoulder
	// centre, share of it (textbooks, M).
	discUp = 0.2
	// ballAlong is where the ball of the foot stands, share of its length from the heel
	// (textbooks, M).
	ballAlong = 0.75
	// ankleAlong is the ankle, likewise (as geometry/person has it).
	ankleAlong = 0.25
	// buttocks rest from rearButtock behind the hip joint to frontButtock ahead of it,
	// shares of the distance to their rear plane (judgement).
	rearButtock, frontButtock = 0.8, 0.4
	// hamBehind is how far behind the knee joint the thigh leaves the seat, mm
	// (judgement).
	hamBehind = 80.0
	// chestHalf is half of how much of a pad a chest lies on, mm (judgement).
	chestHalf = 50.0
	// The back lies on its pad between these shares of the line from hip joint to
	// shoulder centre, the pelvis up to the lowest disc (judgement).
	backLow, backHigh = 0.3, 0.9
)

// Sitting is a person in a setting of a station, as a body on its contacts. The load
// is not part of it.
type Sitting struct {
	body     statics.Body
	strength float64 // of one elbow, N·mm
	elbow    r2.Vec
	reach    float64
	slope    float64
	program  *program
}

func side(v r3.Vec) r2.Vec { return r2.Vec{X: v.X, Y: v.Z} }

// face is what a chest leans on: the middle of it in the side view, its lean from
// vertical, top forward, and half of how much of it a chest touches.
type face struct {
	middle     r2.Vec
	lean, half float64
}

// Sit describes a placed person.
func Sit(s *seat.Placer, m drive.Machine, p *seat.Person) Sitting {
	return sit(s, m, p, chestFace(m, p))
}

// sit is Sit with something before the chest, or nil.
func sit(s *seat.Placer, m drive.Machine, p *seat.Person, chest *face) Sitting {
	g := m.Geometry
	hip, shoulder, elbow := side(p.Pose.Hip), side(p.Pose.Shoulder), side(p.Pose.Elbow)
	sizes, pose, _ := s.Figure(m, p)
	leg := sizes.Leg(&pose)
	at := func(a, b r2.Vec, t float64) r2.Vec { return r2.Add(a, r2.Scale(t, r2.Sub(b, a))) }
	disc := at(hip, shoulder, discUp)

	seg := people.Segments(p.Person.Sex)
	pelvic := seg.LowerTrunk.Mass * discUp * seg.Trunk.Length / seg.LowerTrunk.Length
	above := seg.Trunk.Mass - pelvic
	// From the hip up, the trunk's share less that of the pelvis.
	centre := (seg.Trunk.Mass*(1-seg.Trunk.Centre) - pelvic*discUp/2) / above
	along := r2.Unit(r2.Sub(shoulder, hip))
	_, fore := p.Person.ForearmHand()
	half := s.Angles[len(s.Angles)/2] - p.Pose.ArmSlope
	knee, ankle := side(leg.Knee), side(leg.Ankle)
	heel := r2.Vec{X: ankle.X - ankleAlong*p.Person.FootLength, Y: pose.Ground}
	foot := r2.Add(heel, r2.Vec{X: seg.Foot.Centre * p.Person.FootLength})
	weigh := func(share float64, at r2.Vec) statics.Force {
		return statics.Force{At: at, Force: r2.Vec{Y: -share * p.Person.Mass * balance.G}}
	}
	b := statics.Body{Segments: []statics.Segment{
		pelvis:    {Parent: -1, Forces: []statics.Force{weigh(pelvic, at(hip, shoulder, discUp/2))}},
		trunk:     {Parent: pelvis, Joint: disc, Forces: []statics.Force{weigh(above, at(hip, shoulder, centre)), weigh(seg.Head.Mass, r2.Add(hip, r2.Scale(seat.HeadAlong(p.Person, p.Body), along)))}},
		upperArms: {Parent: trunk, Joint: shoulder, Forces: []statics.Force{weigh(2*seg.UpperArm.Mass, at(shoulder, elbow, seg.UpperArm.Centre))}},
		forearms: {Parent: upperArms, Joint: elbow,
			Forces: []statics.Force{weigh(2*(seg.Forearm.Mass+seg.Hand.Mass), r2.Add(elbow, r2.Scale(fore, r2.Vec{X: math.Cos(half), Y: math.Sin(half)})))}},
		thighs: {Parent: pelvis, Joint: hip, Forces: []statics.Force{weigh(2*seg.Thigh.Mass, at(hip, knee, seg.Thigh.Centre))}},
		shanks: {Parent: thighs, Joint: knee, Forces: []statics.Force{weigh(2*seg.Shank.Mass, at(knee, ankle, seg.Shank.Centre)), weigh(2*seg.Foot.Mass, foot)}},
	}}
	lay := func(name string, segment int, from, to, normal r2.Vec, points int) {
		b.Patches = append(b.Patches, statics.Patch{Name: name, Segment: segment, From: from, To: to, Normal: normal, Points: points, Friction: 1})
	}

	rest := m.Rest
	rest.Slope = p.Pose.ArmSlope
	sin, cos := math.Sincos(rest.Slope)
	normal, up := r2.Vec{X: sin, Y: cos}, r2.Vec{X: -cos, Y: sin}
	face := r2.Sub(elbow, r2.Scale(p.Body.ArmHalf, normal))
	lay(surfaceNames[onPad], upperArms, r2.Add(face, r2.Scale(rest.Near-p.Pose.Reach, up)), r2.Add(face, r2.Scale(rest.Far-p.Pose.Reach, up)), normal, 3)

	top := r2.Vec{Y: 1}
	front, rear := g.Seat.Front, g.Seat.Front-g.Seat.Depth
	on := func(name string, segment int, from, to float64, points int) {
		if from, to = max(from, rear), min(to, front); from < to {
			lay(name, segment, r2.Vec{X: from, Y: p.SeatTop}, r2.Vec{X: to, Y: p.SeatTop}, top, points)
		}
	}
	fold := hip.X + frontButtock*p.Body.Behind
	on(surfaceNames[onSeat], pelvis, hip.X-rearButtock*p.Body.Behind, fold, 2)
	on(surfaceNames[onSeat], thighs, fold, knee.X-hamBehind, 2)
	forward := r2.Vec{X: along.Y, Y: -along.X}
	if g.Back != nil {
		behind := r2.Sub(hip, r2.Scale(p.Body.Behind, forward))
		place := func(share float64) r2.Vec { return r2.Add(behind, r2.Scale(share*p.Body.Trunk, along)) }
		lay(surfaceNames[onBack], pelvis, place(0), place(discUp), forward, 1)
		lay(surfaceNames[onBack], trunk, place(backLow), place(backHigh), forward, 3)
	}
	if chest != nil {
		sin, cos := math.Sincos(chest.lean)
		up := r2.Vec{X: sin, Y: cos}
		lay(surfaceNames[onChest], trunk, r2.Add(chest.middle, r2.Scale(-chest.half, up)), r2.Add(chest.middle, r2.Scale(chest.half, up)), r2.Vec{X: -cos, Y: sin}, 2)
	}
	if leg.Hang <= 0 {
		lay(surfaceNames[onFloor], shanks, heel, r2.Add(heel, r2.Vec{X: ballAlong * p.Person.FootLength}), top, 2)
	}
	out := Sitting{body: b, strength: p.Person.ElbowStrength(), elbow: elbow, reach: p.Body.Forearm, slope: p.Pose.ArmSlope}
	out.program = newProgram(&b, out.joints(), Friction)
	return out
}

// lifting is the body with the hands holding a load, on both together, square to the
// forearms at a flexion.
func (s *Sitting) lifting(load, theta float64) statics.Body {
	b := s.body
	b.Segments = append([]statics.Segment(nil), b.Segments...)
	f := &b.Segments[forearms].Forces
	*f = append((*f)[:1:1], s.pull(load, theta))
	return b
}

// pull is what the load does to the hands.
func (s *Sitting) pull(load, theta float64) statics.Force {
	sin, cos := math.Sincos(theta - s.slope)
	return statics.Force{At: r2.Add(s.elbow, r2.Scale(s.reach, r2.Vec{X: cos, Y: sin})), Force: r2.Vec{X: load * sin, Y: -load * cos}}
}
