package seat

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/elbow"
	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// Setting is which of the station's positions a person uses. A negative
// handle means a handle free in radius and axial place: the search works with
// that and chooses the positions afterwards.
type Setting struct{ Seat, Axis, Handle int }

// Sitter is a person about to be placed, with scratch space, so that placing
// one person after another allocates nothing.
type Sitter struct {
	Index  int // among the persons, -1 for a random one
	person people.Person
	Body   posture.Body
	Level  float64 // greatest torque of the heaviest load over strength's peak, one arm, N·mm
	Limbs  [2]Limb // right and left
	Sides  int     // how many of them differ, 1 or 2
	Points []elbow.AxisPoint
	seats  []Seated
	Swings [2][]Swing // by limb
	kept   []elbow.AxisPoint
	By     Steps
}

// Limb is one arm in its own arm frame. Left and right mirror each other as the
// station does, so both are worked out as right arms; they differ only where
// the brief has the carrying angles of the two sides differ.
type Limb struct {
	Hinge elbow.Hinge
	path  elbow.Path // of the grip from the elbow, mm
}

// Take readies the sitter for a boundary person.
func (p *Sitter) Take(s *Placer, index int) { s.Receive(p, index, s.Persons[index], s.Bodies[index]) }

// Receive readies the sitter for a person.
func (s *Placer) Receive(p *Sitter, index int, who people.Person, b posture.Body) {
	p.Index, p.person, p.Body, p.Sides = index, who, b, 1
	p.Limbs[0] = Limb{b.Hinge, b.Hinge.Path(b.Forearm)}
	if d := s.Asked.People.Carrying.Sides; d != 0 {
		p.Sides = 2
		for i, half := range [2]float64{d / 2, -d / 2} {
			h := elbow.FromCarrying(b.Hinge.Tilt+b.Hinge.Valgus+half, s.Asked.People.AxisShare)
			p.Limbs[i] = Limb{h, h.Path(b.Forearm)}
		}
	}
}

// Seated is a person in one seat position, with no axis chosen yet.
type Seated struct {
	Seat    int
	top     float64 // of the seat
	pose    posture.Pose
	rest    posture.Rest // with the arm's own slope
	foot    int          // position of the foot plate, -1 on the floor
	footGap float64      // sole above it
	chest   int          // position of the chest pad, -1 without one
	chestTo float64      // chest forward to its face
	own     require.Span // rows that depend on the seat alone
	least   float64      // their least margin
	load    float64      // least share of body weight on the seat
	loadAt  int          // index of its angle
	loadRow require.Span
}

// Sit places the person in a seat position and appends the rows that follow
// from it alone.
func (s *Placer) Sit(m drive.Machine, p *Sitter, seat int, out *require.Rows) Seated {
	b, geo, who := p.Body, m.Geometry, p.Index
	at := Seated{Seat: seat, top: m.Geometry.Seat.Top(seat), rest: m.Rest}
	pose := &at.pose
	if s.Reclined() {
		*pose = posture.PlaceReclined(b, m.Pivot, m.Back, at.top)
		at.rest.Slope = pose.ArmSlope
		// The seat height that would close the chain, against the seats there are.
		want := posture.ClosingSeat(b, m.Pivot, m.Back)
		half := geo.Seat.Pitch / 2
		low, high := m.Geometry.Seat.Top(0)-half, m.Geometry.Seat.Top(geo.Seat.Positions-1)+half
		out.Add("seat-range", who, min(want-low, high-want))
		out.Within("arm-slope", who, pose.ArmSlope, s.Asked.Posture.ArmAngle.From)
	} else {
		*pose = posture.PlaceOnPad(b, m.Pivot, m.Rest, at.top)
		lean := s.Asked.Posture.Lean
		reach := pose.Shoulder.Z - at.top - b.Hip
		out.Add("lean", who, pose.Lean)
		out.Add("seat-range", who, b.Trunk*math.Cos(lean.From)-reach)
		out.Add("pad-cover", who, pose.PadRoom(b, m.Pivot, m.Rest))
		out.Add("belly-gap", who, pose.ChestGap(b, m.Pivot, m.Rest)).Named("chest to pad")
	}
	out.Add("abduction", who, math.Abs(pose.Abduction))

	front, rear := geo.Seat.Front, geo.Seat.Front-geo.Seat.Depth
	// The buttocks end Behind the hip joint; the seat must carry them to the
	// hip joint at least, and the thigh at least 100 mm beyond it (judgement).
	out.Add("hip-on-seat", who, pose.Hip.X-rear).Named("rear edge")
	out.Add("hip-on-seat", who, front-100-pose.Hip.X).Named("front edge")
	at.chest, at.chestTo = -1, 0
	if pad := geo.ChestPad; pad != nil {
		at.chest, at.chestTo = lean(pad, pose.ChestAt(b, pad.Height))
	}
	at.foot, at.footGap = stand(geo.FootPlate, s.Sole(p.person, at.top))
	if s.HasSteps() {
		gap := math.Abs(at.footGap)
		if at.foot < 0 {
			gap = max(0, at.footGap)
		}
		out.Add("foot-gap", who, gap)
	}
	return at
}

// Swing is a person's arm on one axis position, with no handle chosen yet.
type Swing struct {
	Axis   int
	arm    posture.Arm
	turn   float64           // of the humerus
	tilt   float64           // elbow axis to the machine's
	offset float64           // elbow centre from the machine's axis
	elbow  float64           // place of the elbow centre along the machine's axis
	course elbow.Turning     // of the grip, machine frame
	Points []elbow.AxisPoint // of the still arm
	near   []elbow.AxisPoint // scratch: of the arm that turns
	Want   elbow.Setting     // of a handle free in radius and place
	free   elbow.Deviation
	own    require.Span // rows that depend on the axis alone
	Least  float64      // least margin there is on this axis, or less is
	Whole  bool         // least is it: the hand's path is known
}

// SwingOn turns the arm to an axis position and appends the rows that follow
// from it alone; follow completes it. W keeps its points' memory.
func (s *Placer) SwingOn(m drive.Machine, p *Sitter, at *Seated, l *Limb, axis int, w *Swing, out *require.Rows) {
	a := m.Axes[axis]
	w.Axis = axis
	w.arm, w.turn = at.pose.Turned(a, HumeralTurn)
	w.tilt = math.Acos(min(1, r3.Dot(w.arm.To(l.Hinge.Axis()), a)))
	w.offset = at.pose.AxisOffset(m.Pivot, a)
	w.elbow = r3.Dot(r3.Sub(at.pose.Elbow, m.Pivot), a)
	w.course = elbow.Turning{
		Path: elbow.Path{
			Still: r3.Add(at.pose.Elbow, w.arm.To(l.path.Still)),
			Sin:   w.arm.To(l.path.Sin),
			Cos:   w.arm.To(l.path.Cos),
		},
		Elbow: at.pose.Elbow, Proximal: at.pose.Proximal, Pivot: m.Pivot, Axis: a,
		Most: s.Asked.Posture.LiftingTurn,
	}
	out.Add("axis-tilt", p.Index, w.tilt)
	out.Add("axis-offset", p.Index, w.offset)
	out.Add("grip-rotation", p.Index, math.Abs(s.Asked.Posture.GripRotation)+w.tilt)
}

// Follow works out where a handle should be to follow the hand.
func (s *Placer) Follow(m drive.Machine, w *Swing) {
	w.Points = w.course.Path.Seen(w.Points[:0], m.Pivot, m.Axes[w.Axis], s.Sin, s.Cos)
	w.Want, w.free, w.near = w.course.Mismatch(w.Points, w.near, s.Sin, s.Cos)
}

// Slide is how far a handle would have to slide along the axis and to swivel
// across it to follow the hand and the forearm over the loaded range: mm, rad.
func (w *Swing) Slide(forearm float64) (along, swivel float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range w.Points {
		low, high = min(low, p.Axial), max(high, p.Axial)
	}
	angle := func(axial float64) float64 { return math.Asin(max(-1, min(1, (axial-w.elbow)/forearm))) }
	return high - low, angle(high) - angle(low)
}

// Grip puts the hand on a handle position and appends the rows of that.
func (s *Placer) Grip(m drive.Machine, p *Sitter, w *Swing, handle int, out *require.Rows) (elbow.Deviation, float64) {
	dev, axial := w.free, w.Want.Axial
	if handle >= 0 {
		h := m.Geometry.Handle
		radius := h.Radius(handle)
		axial, dev = w.hold(h, radius, p.Body.HandHalf, s.Sin, s.Cos)
		out.Add("handle-reach", p.Index, math.Abs(w.Want.Radius-radius))
	}
	out.Add("hand-path", p.Index, dev.Max).At(s.Angles[dev.Worst])
	return dev, axial
}

// hold is where along the axis a hand of half its breadth takes hold of a handle at a
// radius, and how far the two part: as near to what the hand wants as the grip is
// long or, of an arm that turns while it lifts, where they part least.
func (w *Swing) hold(h specs.Handle, radius, half float64, sin, cos []float64) (axial float64, dev elbow.Deviation) {
	slack := max(0, h.GripLength/2-half)
	low, high := h.Middle-slack, h.Middle+slack
	if w.course.Most == 0 {
		axial = max(low, min(high, w.Want.Axial))
		return axial, elbow.MismatchAt(w.Points, elbow.Setting{Radius: radius, Axial: axial})
	}
	var at elbow.Setting
	at, dev, w.near = w.course.Hold(w.near, radius, low, high, sin, cos)
	return at.Axial, dev
}

// parting is the largest distance between hand and handle in a person's own setting of
// an arm if the upper arm turned by up to most while it lifts, mm.
func (s *Placer) parting(m drive.Machine, p *Sitter, l *Limb, set Setting, most float64) float64 {
	scratch := &require.Rows{Card: &s.Card, Quiet: true}
	at := s.Sit(m, p, set.Seat, scratch)
	var w Swing
	s.SwingOn(m, p, &at, l, set.Axis, &w, scratch)
	w.course.Most = most
	s.Follow(m, &w)
	_, dev := w.hold(m.Geometry.Handle, m.Geometry.Handle.Radius(set.Handle), p.Body.HandHalf, s.Sin, s.Cos)
	return dev.Max
}

// Clear appends the gap between the moving hand and the thigh.
func (s *Placer) Clear(p *Sitter, at *Seated, w *Swing, out *require.Rows) {
	thigh := at.pose.Thigh(p.Body)
	least, worst := math.Inf(1), 0
	for i, sin := range s.Sin {
		if d := thigh.Distance2(w.course.Path.At(sin, s.Cos[i])); d < least {
			least, worst = d, i
		}
	}
	out.Add("knee-gap", p.Index, thigh.Gap(least)).At(s.Angles[worst]).Named("hand to thigh")
}

// Place evaluates one person in one setting: appends the person's rows and
// returns the outcome.
func (s *Placer) Place(m drive.Machine, p *Sitter, set Setting, out *require.Rows) Person {
	p.By.Arm.Points = p.Points
	r := s.PlaceBy(m, p, set, &p.By, out)
	p.Points = p.By.Arm.Points
	return r
}

// Steps is a person placed step by step, with the number of rows after each but
// the last: of the seat, the arm's axis, the handle, and the hand's way.
type Steps struct {
	Seat Seated
	Arm  Swing
	Hand Grasped
	Rows [4]int
}

// PlaceBy is place with its steps kept in by, whose arm lends the memory of its
// points.
func (s *Placer) PlaceBy(m drive.Machine, p *Sitter, set Setting, by *Steps, out *require.Rows) Person {
	first := len(out.List)
	done := func(step int) { by.Rows[step] = len(out.List) - first }
	by.Seat = s.Sit(m, p, set.Seat, out)
	done(0)
	s.SwingOn(m, p, &by.Seat, &p.Limbs[0], set.Axis, &by.Arm, out)
	s.Follow(m, &by.Arm)
	done(1)
	by.Hand = Grasped{Swing: &by.Arm, Handle: set.Handle}
	by.Hand.Dev, by.Hand.Axial = s.Grip(m, p, &by.Arm, set.Handle, out)
	done(2)
	s.Clear(p, &by.Seat, &by.Arm, out)
	done(3)
	s.SeatShare(m, p, &by.Seat, out)
	return s.Outcome(p, &by.Seat, &by.Hand)
}

// Grasped is the arm on an axis position with the hand on a handle position,
// seated.
type Grasped struct {
	*Swing
	Handle int
	Dev    elbow.Deviation
	Axial  float64         // place of the hand's middle along the axis
	rows   [2]require.Span // of hold and of clear
}

// Outcome is the person as placed, the left arm like the right.
func (s *Placer) Outcome(p *Sitter, at *Seated, g *Grasped) Person {
	return Person{
		Person: p.person, Body: p.Body, Pose: at.pose,
		Seat: at.Seat, SeatTop: at.top, Axis: g.Axis, Handle: g.Handle,
		Axial: g.Axial, Offset: g.offset, Tilt: g.tilt, Turn: g.turn,
		HandPath: g.Dev.Max, HandRMS: g.Dev.RMS, HandAngle: s.Angles[g.Dev.Worst],
		Foot: at.foot, FootGap: at.footGap, Chest: at.chest, ChestGap: at.chestTo,
		SeatLoad: at.load, Left: Grasp{g.Axis, g.Handle, g.Dev.Max},
	}
}

// lifting is the seated equilibrium of the person lifting at the peak of
// strength what strength and the heaviest load allow, both hands.
func (s *Placer) lifting(m drive.Machine, p *Sitter, at *Seated) balance.Seated {
	b := p.Body
	return balance.Seated{
		Weight: p.person.Mass * balance.G, Slope: at.rest.Slope, UpperArm: b.UpperArm,
		Support: (at.rest.Near + at.rest.Far) / 2, Reach: b.Forearm, SeatTop: m.Pivot.Z - at.top,
		Load: 2 * min(p.person.ElbowStrength(), p.Level) / b.Forearm,
	}
}

// leaning is the seated equilibrium with the back pad, which depends on the angle
// by the load alone.
func (s *Placer) leaning(m drive.Machine, p *Sitter, at *Seated, eq balance.Seated) balance.Reclined {
	arm, _ := at.pose.Turned(m.Axes[0], HumeralTurn)
	centre := MassCentre(p.person, p.Body, at.pose, arm, s.Angles[len(s.Angles)/2])
	return leaningBack(eq, p.person, p.Body, at.pose, m, centre.X)
}

// leaningBack adds what the back pad needs to a seated equilibrium; centre is
// the x of the person's centre of mass.
func leaningBack(eq balance.Seated, who people.Person, b posture.Body, pose posture.Pose, m drive.Machine, centre float64) balance.Reclined {
	share, x := upperBody(who, pose, centre)
	return balance.Reclined{
		Seated: eq, Back: m.Back.Angle, HipX: pose.Hip.X, HipZ: pose.Hip.Z - m.Pivot.Z,
		BackArm: backHold * b.Trunk, UpperWeight: share * eq.Weight, UpperX: x,
	}
}

// SeatShare appends the least seat load over the loaded range, and notes it with
// its angle. It does not depend on where the person's weight acts.
func (s *Placer) SeatShare(m drive.Machine, p *Sitter, at *Seated, out *require.Rows) {
	eq := s.lifting(m, p, at)
	peak := eq.Load
	at.load = math.Inf(1)
	var back balance.Reclined
	if s.Reclined() {
		back = s.leaning(m, p, at, eq)
	}
	sd, cd := math.Sincos(eq.Slope)
	sb, cb := math.Sincos(back.Back)
	for i := range s.Angles {
		eq.Load = peak * s.Shape[i]
		var seat float64
		if s.Reclined() {
			back.Load = eq.Load
			seat = back.AtFlexion(s.Sin[i], s.Cos[i], sd, cd, sb, cb).Seat
		} else {
			seat = eq.SeatForce(s.Sin[i], s.Cos[i], sd, cd)
		}
		if share := seat / eq.Weight; share < at.load {
			at.load, at.loadAt = share, i
		}
	}
	out.Add("seat-load", p.Index, at.load).At(s.Angles[at.loadAt])
}

// CommonAxis is what one straight common axis, square to the upper arm, with
// handles a fixed distance apart, would cost the same person: the largest
// distance between hand and handle, mm. The elbows are taken at shoulder
// breadth, where a common axis is kindest.
func (s *Placer) CommonAxis(p *Sitter) float64 {
	p.Points = p.Limbs[0].path.Seen(p.Points[:0], r3.Vec{}, r3.Vec{Z: 1}, s.Sin, s.Cos)
	_, dev := elbow.Mismatch(p.Points)
	return dev.Max
}

// backHold is how far up the trunk the back pad's force acts, share of hip to
// shoulder: the middle of the thorax. Judgement.
const backHold = 0.6
