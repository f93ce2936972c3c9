package fit

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/specs/people"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

// setting is which of the station's positions a person uses. A negative
// handle means a handle free in radius and axial place: the search works with
// that and chooses the positions afterwards.
type setting struct{ seat, axis, handle int }

// sitter is a person about to be placed, with scratch space for the hand path.
type sitter struct {
	index  int // in the study, -1 for a random person
	person people.Person
	body   station.Body
	level  float64  // greatest torque of the heaviest load over strength's peak, one arm, N·mm
	path   []r3.Vec // grip from the elbow over the loaded range, arm frame, mm
	points []elbow.AxisPoint
}

// take readies the sitter for a boundary person of the study.
func (p *sitter) take(s *study, index int) {
	p.index, p.person, p.body, p.path = index, s.persons[index], s.bodies[index], s.paths[index]
}

// path is where the grip goes from the elbow over the loaded range, in the arm
// frame.
func (s *study) path(b station.Body) []r3.Vec {
	out := make([]r3.Vec, len(s.angles))
	for i, theta := range s.angles {
		out[i] = r3.Scale(b.Forearm, b.Hinge.Forearm(theta))
	}
	return out
}

// place evaluates one person in one setting: appends the person's rows and
// returns the outcome.
func (s *study) place(m machine, p *sitter, set setting, out *rows) Person {
	b := p.body
	geo := m.geo
	who := p.index
	seat := m.seatTop(set.seat)
	res := Person{Person: p.person, Body: b, Seat: set.seat, SeatTop: seat, Axis: set.axis, Handle: set.handle}

	var pose station.Pose
	rest := m.rest
	if s.reclined() {
		pose = station.PlaceReclined(b, m.pivot, m.back, seat)
		rest.Slope = pose.ArmSlope
		// The seat height that would close the chain, against the seats there are.
		dx := pose.Shoulder.X - m.pivot.X
		arm := b.UpperArm * math.Cos(pose.Abduction)
		want := seat + math.Sqrt(math.Max(0, arm*arm-dx*dx)) - (pose.Shoulder.Z - m.pivot.Z)
		half := geo.Seat.Pitch / 2
		low, high := m.seatTop(0)-half, m.seatTop(geo.Seat.Positions-1)+half
		out.add("seat-range", who, math.Min(want-low, high-want))
		out.add("arm-slope", who, pose.ArmSlope).bounded(s.asked.Posture.ArmAngle.From, pose.ArmSlope)
	} else {
		pose = station.PlaceOnPad(b, m.pivot, rest, seat)
		lean := s.asked.Posture.Lean
		reach := pose.Shoulder.Z - seat - b.Hip
		out.add("lean", who, pose.Lean)
		out.add("seat-range", who, b.Trunk*math.Cos(lean.From)-reach)
		out.add("belly-gap", who, pose.ChestGap(b, m.pivot, rest)).named("chest to pad")
		if geo.Base != nil {
			out.add("belly-gap", who, pose.BellyGap(b, geo.Base.PadPost-s.member.H/2)).named("belly to post")
		}
	}
	res.Pose = pose
	out.add("abduction", who, math.Abs(pose.Abduction))

	front, rear := geo.Seat.Front, geo.Seat.Front-geo.Seat.Depth
	// The buttocks end Behind the hip joint; the seat must carry them to the
	// hip joint at least, and the thigh at least 100 mm beyond it (judgement).
	out.add("hip-on-seat", who, pose.Hip.X-rear).named("rear edge")
	out.add("hip-on-seat", who, front-100-pose.Hip.X).named("front edge")

	axis := m.axes[set.axis]
	arm, turn := pose.Turned(axis, humeralTurn)
	res.Turn = turn
	own := arm.To(b.Hinge.Axis())
	res.Tilt = math.Acos(math.Min(1, r3.Dot(own, axis)))
	out.add("axis-tilt", who, res.Tilt)
	res.Offset = pose.AxisOffset(m.pivot, axis)
	out.add("axis-offset", who, res.Offset)

	p.points = p.points[:0]
	knee, kneeAngle := math.Inf(1), 0.0
	for i, theta := range s.angles {
		hand := r3.Add(pose.Elbow, arm.To(p.path[i]))
		d := r3.Sub(hand, m.pivot)
		w := r3.Dot(d, axis)
		p.points = append(p.points, elbow.AxisPoint{Radial: math.Sqrt(r3.Norm2(d) - w*w), Axial: w})
		if gap := pose.KneeGap(b, hand); gap < knee {
			knee, kneeAngle = gap, theta
		}
	}
	want, free := elbow.Mismatch(p.points)
	dev := free
	res.Axial = want.Axial
	if set.handle >= 0 {
		h := geo.Handle
		radius := h.Least + float64(set.handle)*h.Pitch
		slack := math.Max(0, h.GripLength/2-b.HandHalf)
		res.Axial = math.Max(h.Middle-slack, math.Min(h.Middle+slack, want.Axial))
		dev = elbow.MismatchAt(p.points, elbow.Setting{Radius: radius, Axial: res.Axial})
		out.add("handle-reach", who, math.Abs(want.Radius-radius))
	}
	res.HandPath, res.HandRMS, res.HandAngle = dev.Max, dev.RMS, s.angles[dev.Worst]
	out.add("hand-path", who, dev.Max).at(res.HandAngle)
	out.add("knee-gap", who, knee).at(kneeAngle).named("hand to thigh")
	if geo.Base != nil && geo.Base.TowerTall > 0 {
		out.add("knee-gap", who, geo.Base.Tower-stock.StackPlate().Width/2-(pose.Hip.X+b.Knee)).named("knee to tower")
	}
	out.add("grip-rotation", who, math.Abs(s.asked.Posture.GripRotation)+res.Tilt)

	res.FootGap = seat - p.person.PoplitealHeight - s.asked.People.Shoe
	s.seatLoad(m, p, rest, pose, arm, &res, out)
	return res
}

// seatLoad adds the least seat load over the loaded range, the person lifting
// what strength and the heaviest load allow.
func (s *study) seatLoad(m machine, p *sitter, rest station.Rest, pose station.Pose, arm station.Arm, res *Person, out *rows) {
	b := p.body
	peak := math.Min(p.person.ElbowStrength(), p.level)
	weight := p.person.Mass * balance.G
	eq := balance.Seated{
		Weight: weight, Slope: rest.Slope, UpperArm: b.UpperArm,
		Support: (rest.Near + rest.Far) / 2, Reach: b.Forearm, SeatTop: m.pivot.Z - res.SeatTop,
	}
	// The seat's share does not hang on where the person's weight acts, so
	// the centre of mass is worked out at the worst angle alone.
	least, worst := math.Inf(1), 0
	for i, theta := range s.angles {
		eq.Load = 2 * peak * s.shape[i] / b.Forearm
		if share := eq.At(theta).Share(weight); share < least {
			least, worst = share, i
		}
	}
	theta := s.angles[worst]
	eq.Load = 2 * peak * s.shape[worst] / b.Forearm
	eq.CentreX = massCentre(p.person, b, pose, arm, theta).X
	res.SeatLoad, res.SeatX = least, eq.At(theta).SeatX
	out.add("seat-load", p.index, least).at(theta)
}

// commonAxis is what one straight common axis, square to the upper arm, with
// handles a fixed distance apart, would cost the same person: the largest
// distance between hand and handle, mm. The elbows are taken at shoulder
// breadth, where a common axis is kindest.
func (s *study) commonAxis(p *sitter) float64 {
	p.points = p.points[:0]
	for _, f := range p.path {
		p.points = append(p.points, elbow.AxisPoint{Radial: math.Hypot(f.X, f.Y), Axial: f.Z})
	}
	_, dev := elbow.Mismatch(p.points)
	return dev.Max
}

// best places a person in the setting with the largest least margin and
// appends the rows of that setting. Ties go to the lower seat and the smaller
// toe.
func (s *study) best(m machine, p *sitter, out *rows, scratch *rows) Person {
	var chosen setting
	top := math.Inf(-1)
	try := func(set setting) {
		scratch.list = scratch.list[:0]
		s.place(m, p, set, scratch)
		if v := scratch.least(); v > top+tie {
			top, chosen = v, set
		}
	}
	// Seat, axis and handle are nearly independent: take the axis and handle
	// for each seat in turn only from those next to what the person wants.
	for seat := range m.geo.Seat.Positions {
		if !s.worthTrying(m, p, seat) {
			continue
		}
		for axis := range m.axes {
			for _, handle := range s.handles(m, p, setting{seat, axis, -1}) {
				try(setting{seat, axis, handle})
			}
		}
	}
	if math.IsInf(top, -1) { // no seat is near: take the nearest end
		seat := s.nearestSeat(m, p)
		for axis := range m.axes {
			for _, handle := range s.handles(m, p, setting{seat, axis, -1}) {
				try(setting{seat, axis, handle})
			}
		}
	}
	return s.place(m, p, chosen, out)
}

// tie keeps the choice of a setting from hanging on the last bits: margins in
// units that matter closer than this count as equal.
const tie = 1e-9

// wantedSeat is the seat height at which the chain from seat to pivot closes
// with the trunk at the middle of its lean.
func (s *study) wantedSeat(m machine, p *sitter) float64 {
	b := p.body
	if s.reclined() {
		pose := station.PlaceReclined(b, m.pivot, m.back, 0)
		arm := b.UpperArm * math.Cos(pose.Abduction)
		dx := pose.Shoulder.X - m.pivot.X
		return math.Sqrt(math.Max(0, arm*arm-dx*dx)) - (pose.Shoulder.Z - m.pivot.Z)
	}
	pose := station.PlaceOnPad(b, m.pivot, m.rest, 0)
	lean := s.asked.Posture.Lean
	return pose.Shoulder.Z - b.Hip - b.Trunk*(math.Cos(lean.From)+math.Cos(lean.To))/2
}

func (s *study) nearestSeat(m machine, p *sitter) int {
	g := m.geo.Seat
	i := int(math.Round((s.wantedSeat(m, p) - g.Lowest) / g.Pitch))
	return max(0, min(g.Positions-1, i))
}

// worthTrying leaves out seats whose height is further from the wanted one
// than lean could ever make up: the trunk's drop at the greatest lean and one
// pitch.
func (s *study) worthTrying(m machine, p *sitter, seat int) bool {
	lean := s.asked.Posture.Lean
	window := p.body.Trunk * (math.Cos(lean.From) - math.Cos(lean.To)) / 2
	return math.Abs(m.seatTop(seat)-s.wantedSeat(m, p)) <= window+m.geo.Seat.Pitch
}

// handles are the positions on either side of the radius the person wants.
func (s *study) handles(m machine, p *sitter, set setting) []int {
	var none rows
	none.s = s
	s.place(m, p, set, &none)
	want, _ := elbow.Mismatch(p.points)
	h := m.geo.Handle
	i := int(math.Floor((want.Radius - h.Least) / h.Pitch))
	low, high := max(0, min(h.Positions-1, i)), max(0, min(h.Positions-1, i+1))
	if low == high {
		return []int{low}
	}
	return []int{low, high}
}
