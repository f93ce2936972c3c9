package fit

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// setting is which of the station's positions a person uses. A negative
// handle means a handle free in radius and axial place: the search works with
// that and chooses the positions afterwards.
type setting struct{ seat, axis, handle int }

// sitter is a person about to be placed, with scratch space, so that placing
// one person after another allocates nothing.
type sitter struct {
	index  int // in the study, -1 for a random person
	person people.Person
	body   station.Body
	level  float64 // greatest torque of the heaviest load over strength's peak, one arm, N·mm
	limbs  [2]limb // right and left
	sides  int     // how many of them differ, 1 or 2
	points []elbow.AxisPoint
	seats  []seated
	swings [2][]swing // by limb
	kept   []elbow.AxisPoint
	by     steps
}

// limb is one arm in its own arm frame. Left and right mirror each other as the
// station does, so both are worked out as right arms; they differ only where
// the brief has the carrying angles of the two sides differ.
type limb struct {
	hinge elbow.Hinge
	path  elbow.Path // of the grip from the elbow, mm
}

// take readies the sitter for a boundary person of the study.
func (p *sitter) take(s *placer, index int) { s.receive(p, index, s.persons[index], s.bodies[index]) }

// receive readies the sitter for a person.
func (s *placer) receive(p *sitter, index int, who people.Person, b station.Body) {
	p.index, p.person, p.body, p.sides = index, who, b, 1
	p.limbs[0] = limb{b.Hinge, b.Hinge.Path(b.Forearm)}
	if d := s.asked.People.Carrying.Sides; d != 0 {
		p.sides = 2
		for i, half := range [2]float64{d / 2, -d / 2} {
			h := elbow.FromCarrying(b.Hinge.Tilt+b.Hinge.Valgus+half, s.asked.People.AxisShare)
			p.limbs[i] = limb{h, h.Path(b.Forearm)}
		}
	}
}

// seated is a person in one seat position, with no axis chosen yet.
type seated struct {
	seat    int
	top     float64 // of the seat
	pose    station.Pose
	rest    station.Rest // with the arm's own slope
	foot    int          // position of the foot plate, -1 on the floor
	footGap float64      // sole above it
	own     span         // rows that hang on the seat alone
	least   float64      // their least margin
	load    float64      // least share of body weight on the seat
	loadAt  int          // index of its angle
	loadRow span
}

// sit places the person in a seat position and appends the rows that follow
// from it alone.
func (s *placer) sit(m machine, p *sitter, seat int, out *rows) seated {
	b, geo, who := p.body, m.geo, p.index
	at := seated{seat: seat, top: m.seatTop(seat), rest: m.rest}
	pose := &at.pose
	if s.reclined() {
		*pose = station.PlaceReclined(b, m.pivot, m.back, at.top)
		at.rest.Slope = pose.ArmSlope
		// The seat height that would close the chain, against the seats there are.
		dx := pose.Shoulder.X - m.pivot.X
		arm := b.UpperArm * math.Cos(pose.Abduction)
		want := at.top + math.Sqrt(max(0, arm*arm-dx*dx)) - (pose.Shoulder.Z - m.pivot.Z)
		half := geo.Seat.Pitch / 2
		low, high := m.seatTop(0)-half, m.seatTop(geo.Seat.Positions-1)+half
		out.add("seat-range", who, min(want-low, high-want))
		out.within("arm-slope", who, pose.ArmSlope, s.asked.Posture.ArmAngle.From)
	} else {
		*pose = station.PlaceOnPad(b, m.pivot, m.rest, at.top)
		lean := s.asked.Posture.Lean
		reach := pose.Shoulder.Z - at.top - b.Hip
		out.add("lean", who, pose.Lean)
		out.add("seat-range", who, b.Trunk*math.Cos(lean.From)-reach)
		out.add("belly-gap", who, pose.ChestGap(b, m.pivot, m.rest)).named("chest to pad")
		if geo.Base != nil {
			out.add("belly-gap", who, pose.BellyGap(b, geo.Base.PadPost-s.member.H/2)).named("belly to post")
		}
	}
	out.add("abduction", who, math.Abs(pose.Abduction))

	front, rear := geo.Seat.Front, geo.Seat.Front-geo.Seat.Depth
	// The buttocks end Behind the hip joint; the seat must carry them to the
	// hip joint at least, and the thigh at least 100 mm beyond it (judgement).
	out.add("hip-on-seat", who, pose.Hip.X-rear).named("rear edge")
	out.add("hip-on-seat", who, front-100-pose.Hip.X).named("front edge")
	at.foot, at.footGap = stand(geo.FootPlate, s.sole(p.person, at.top))
	if s.hasSteps() {
		gap := math.Abs(at.footGap)
		if at.foot < 0 {
			gap = max(0, at.footGap)
		}
		out.add("foot-gap", who, gap)
	}
	if geo.Base != nil && geo.Base.TowerTall > 0 {
		out.add("knee-gap", who, geo.Base.Tower-s.plate.Width/2-(pose.Hip.X+b.Knee)).named("knee to tower")
	}
	return at
}

// swing is a person's arm on one axis position, with no handle chosen yet.
type swing struct {
	axis   int
	arm    station.Arm
	turn   float64    // of the humerus
	tilt   float64    // elbow axis to the machine's
	offset float64    // elbow centre from the machine's axis
	elbow  float64    // place of the elbow centre along the machine's axis
	path   elbow.Path // of the grip, machine frame
	points []elbow.AxisPoint
	want   elbow.Setting // of a handle free in radius and place
	free   elbow.Deviation
	own    span    // rows that hang on the axis alone
	least  float64 // least margin there is on this axis, or less is
	whole  bool    // least is it: the hand's path is known
}

// swingOn turns the arm to an axis position and appends the rows that follow
// from it alone; follow completes it. W keeps its points' memory.
func (s *placer) swingOn(m machine, p *sitter, at *seated, l *limb, axis int, w *swing, out *rows) {
	a := m.axes[axis]
	w.axis = axis
	w.arm, w.turn = at.pose.Turned(a, humeralTurn)
	w.tilt = math.Acos(min(1, r3.Dot(w.arm.To(l.hinge.Axis()), a)))
	w.offset = at.pose.AxisOffset(m.pivot, a)
	w.elbow = r3.Dot(r3.Sub(at.pose.Elbow, m.pivot), a)
	w.path = elbow.Path{
		Still: r3.Add(at.pose.Elbow, w.arm.To(l.path.Still)),
		Sin:   w.arm.To(l.path.Sin),
		Cos:   w.arm.To(l.path.Cos),
	}
	out.add("axis-tilt", p.index, w.tilt)
	out.add("axis-offset", p.index, w.offset)
	out.add("grip-rotation", p.index, math.Abs(s.asked.Posture.GripRotation)+w.tilt)
}

// follow works out where a handle should be to follow the hand.
func (s *placer) follow(m machine, w *swing) {
	w.points = w.path.Seen(w.points[:0], m.pivot, m.axes[w.axis], s.sin, s.cos)
	w.want, w.free = elbow.Mismatch(w.points)
}

// slide is how far a handle would have to slide along the axis and to swivel
// across it to follow the hand and the forearm over the loaded range: mm, rad.
func (w *swing) slide(forearm float64) (along, swivel float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range w.points {
		low, high = min(low, p.Axial), max(high, p.Axial)
	}
	angle := func(axial float64) float64 { return math.Asin(max(-1, min(1, (axial-w.elbow)/forearm))) }
	return high - low, angle(high) - angle(low)
}

// hold puts the hand on a handle position and appends the rows of that.
func (s *placer) hold(m machine, p *sitter, w *swing, handle int, out *rows) (elbow.Deviation, float64) {
	dev, axial := w.free, w.want.Axial
	if handle >= 0 {
		h := m.geo.Handle
		radius := h.Least + float64(handle)*h.Pitch
		slack := max(0, h.GripLength/2-p.body.HandHalf)
		axial = max(h.Middle-slack, min(h.Middle+slack, w.want.Axial))
		dev = elbow.MismatchAt(w.points, elbow.Setting{Radius: radius, Axial: axial})
		out.add("handle-reach", p.index, math.Abs(w.want.Radius-radius))
	}
	out.add("hand-path", p.index, dev.Max).at(s.angles[dev.Worst])
	return dev, axial
}

// clear appends the gap between the moving hand and the thigh.
func (s *placer) clear(p *sitter, at *seated, w *swing, out *rows) {
	thigh := at.pose.Thigh(p.body)
	least, worst := math.Inf(1), 0
	for i, sin := range s.sin {
		if d := thigh.Distance2(w.path.At(sin, s.cos[i])); d < least {
			least, worst = d, i
		}
	}
	out.add("knee-gap", p.index, thigh.Gap(least)).at(s.angles[worst]).named("hand to thigh")
}

// place evaluates one person in one setting: appends the person's rows and
// returns the outcome.
func (s *placer) place(m machine, p *sitter, set setting, out *rows) Person {
	p.by.arm.points = p.points
	r := s.placeBy(m, p, set, &p.by, out)
	p.points = p.by.arm.points
	return r
}

// steps is a person placed step by step, with the number of rows after each but
// the last: of the seat, the arm's axis, the handle, and the hand's way.
type steps struct {
	seat seated
	arm  swing
	hand grasped
	rows [4]int
}

// placeBy is place with its steps kept in by, whose arm lends the memory of its
// points.
func (s *placer) placeBy(m machine, p *sitter, set setting, by *steps, out *rows) Person {
	first := len(out.list)
	done := func(step int) { by.rows[step] = len(out.list) - first }
	by.seat = s.sit(m, p, set.seat, out)
	done(0)
	s.swingOn(m, p, &by.seat, &p.limbs[0], set.axis, &by.arm, out)
	s.follow(m, &by.arm)
	done(1)
	by.hand = grasped{swing: &by.arm, handle: set.handle}
	by.hand.dev, by.hand.axial = s.hold(m, p, &by.arm, set.handle, out)
	done(2)
	s.clear(p, &by.seat, &by.arm, out)
	done(3)
	s.seatShare(m, p, &by.seat, out)
	return s.outcome(m, p, &by.seat, &by.hand, !out.quiet)
}

// grasped is the arm on an axis position with the hand on a handle position,
// seated.
type grasped struct {
	*swing
	handle int
	dev    elbow.Deviation
	axial  float64 // place of the hand's middle along the axis
	rows   [2]span // of hold and of clear
}

// outcome is the person as placed.
func (s *placer) outcome(m machine, p *sitter, at *seated, g *grasped, tell bool) Person {
	r := Person{
		Person: p.person, Body: p.body, Pose: at.pose,
		Seat: at.seat, SeatTop: at.top, Axis: g.axis, Handle: g.handle,
		Axial: g.axial, Offset: g.offset, Tilt: g.tilt, Turn: g.turn,
		HandPath: g.dev.Max, HandRMS: g.dev.RMS, HandAngle: s.angles[g.dev.Worst],
		Foot: at.foot, FootGap: at.footGap,
		SeatLoad: at.load,
	}
	if tell {
		eq := s.lifting(m, p, at)
		eq.Load *= s.shape[at.loadAt]
		eq.CentreX = massCentre(p.person, p.body, at.pose, g.arm, s.angles[at.loadAt]).X
		r.SeatX = s.reaction(m, p, at, eq, at.loadAt).SeatX
	}
	return r
}

// lifting is the seated equilibrium of the person lifting at the peak of
// strength what strength and the heaviest load allow, both hands.
func (s *placer) lifting(m machine, p *sitter, at *seated) balance.Seated {
	b := p.body
	return balance.Seated{
		Weight: p.person.Mass * balance.G, Slope: at.rest.Slope, UpperArm: b.UpperArm,
		Support: (at.rest.Near + at.rest.Far) / 2, Reach: b.Forearm, SeatTop: m.pivot.Z - at.top,
		Load: 2 * min(p.person.ElbowStrength(), p.level) / b.Forearm,
	}
}

// reaction is what seat and pads carry at the i-th angle. Leaning back, the back
// pad takes its part; the trunk's weight is placed with the forearms half way.
func (s *placer) reaction(m machine, p *sitter, at *seated, eq balance.Seated, i int) balance.Reaction {
	if !s.reclined() {
		return eq.At(s.angles[i])
	}
	return s.leaning(m, p, at, eq).At(s.angles[i])
}

// leaning is the seated equilibrium with the back pad, which hangs on the angle
// by the load alone.
func (s *placer) leaning(m machine, p *sitter, at *seated, eq balance.Seated) balance.Reclined {
	arm, _ := at.pose.Turned(m.axes[0], humeralTurn)
	centre := massCentre(p.person, p.body, at.pose, arm, s.angles[len(s.angles)/2])
	return leaningBack(eq, p.person, p.body, at.pose, m, centre.X)
}

// leaningBack adds what the back pad needs to a seated equilibrium; centre is
// the x of the person's centre of mass.
func leaningBack(eq balance.Seated, who people.Person, b station.Body, pose station.Pose, m machine, centre float64) balance.Reclined {
	share, x := upperBody(who, pose, centre)
	return balance.Reclined{
		Seated: eq, Back: m.back.Angle, HipX: pose.Hip.X, HipZ: pose.Hip.Z - m.pivot.Z,
		BackArm: backHold * b.Trunk, UpperWeight: share * eq.Weight, UpperX: x,
	}
}

// seatShare appends the least seat load over the loaded range, and notes it with
// its angle. It does not hang on where the person's weight acts.
func (s *placer) seatShare(m machine, p *sitter, at *seated, out *rows) {
	eq := s.lifting(m, p, at)
	peak := eq.Load
	at.load = math.Inf(1)
	var back balance.Reclined
	if s.reclined() {
		back = s.leaning(m, p, at, eq)
	}
	sd, cd := math.Sincos(eq.Slope)
	sb, cb := math.Sincos(back.Back)
	for i := range s.angles {
		eq.Load = peak * s.shape[i]
		var seat float64
		if s.reclined() {
			back.Load = eq.Load
			seat = back.AtFlexion(s.sin[i], s.cos[i], sd, cd, sb, cb).Seat
		} else {
			seat = eq.SeatForce(s.sin[i], s.cos[i], sd, cd)
		}
		if share := seat / eq.Weight; share < at.load {
			at.load, at.loadAt = share, i
		}
	}
	out.add("seat-load", p.index, at.load).at(s.angles[at.loadAt])
}

// commonAxis is what one straight common axis, square to the upper arm, with
// handles a fixed distance apart, would cost the same person: the largest
// distance between hand and handle, mm. The elbows are taken at shoulder
// breadth, where a common axis is kindest.
func (s *placer) commonAxis(p *sitter) float64 {
	p.points = p.limbs[0].path.Seen(p.points[:0], r3.Vec{}, r3.Vec{Z: 1}, s.sin, s.cos)
	_, dev := elbow.Mismatch(p.points)
	return dev.Max
}

// backHold is how far up the trunk the back pad's force acts, share of hip to
// shoulder: the middle of the thorax. Judgement.
const backHold = 0.6
