package fit

import (
	"cmp"
	"math"
	"slices"

	"armwright/geometry/station"
)

// best places a person in the setting with the largest least margin and
// appends the rows of that setting. Seat, axis and handle positions are taken
// in the order in which they suit the person by themselves, so that among
// settings whose least margin another requirement decides, the natural one is
// chosen; equals go to the lower seat and the smaller toe. A position whose own
// margin is no better than the best setting's so far cannot be part of a better
// one and is passed over.
func (s *placer) best(m machine, p *sitter, out *rows, scratch *rows) Person {
	var (
		chosen seated
		right  grasped // its swing is kept apart: the next seat's takes its place
		arm    swing
		left   setting
	)
	top := math.Inf(-1)
	scratch.list = scratch.list[:0]

	p.seats = p.seats[:0]
	low, high := s.nearSeats(m, p)
	for seat := low; seat <= high; seat++ {
		first := len(scratch.list)
		at := s.sit(m, p, seat, scratch)
		at.own, at.least = scratch.since(first)
		p.seats = append(p.seats, at)
	}
	slices.SortStableFunc(p.seats, func(a, b seated) int { return cmp.Compare(b.least, a.least) })

	for i := range p.seats {
		at := &p.seats[i]
		if i == 0 || s.reclined() { // arm and seat load on the pad are the same from every seat
			first := len(scratch.list)
			s.seatShare(m, p, at, scratch)
			var share float64
			at.loadRow, share = scratch.since(first)
			s.swingAll(m, p, at, share, scratch)
		} else {
			at.load, at.loadAt, at.loadRow = p.seats[0].load, p.seats[0].loadAt, p.seats[0].loadRow
		}
		least := at.least
		var held [2]grasped
		for side := range p.sides {
			var v float64
			v, held[side] = s.bestHold(m, p, at, side, top, scratch)
			if least = min(least, v); least <= top+tie {
				break
			}
		}
		if least > top+tie {
			top, chosen, right, arm = least, *at, held[0], *held[0].swing
			p.kept = append(p.kept[:0], arm.points...)
			arm.points = p.kept
			if p.sides == 2 {
				left = setting{at.seat, held[1].axis, held[1].handle}
			}
		}
	}
	if math.IsInf(top, -1) { // no margin is a number: the rows tell
		r := s.place(m, p, setting{seat: low}, out)
		r.Left = Grasp{HandPath: r.HandPath}
		return r
	}
	right.swing = &arm
	for _, own := range [...]span{chosen.own, arm.own, right.rows[0], right.rows[1], chosen.loadRow} {
		for i := own.from; i < own.to; i++ {
			out.put(scratch.list[i])
		}
	}
	r := s.outcome(m, p, &chosen, &right, !out.quiet)
	r.Left = Grasp{arm.axis, right.handle, r.HandPath}
	if p.sides == 2 {
		s.left(m, p, left, &r, out)
	}
	return r
}

// bestHold finds axis and handle position of one arm in a seat, and the least
// margin there; nothing at or below floor counts.
func (s *placer) bestHold(m machine, p *sitter, at *seated, side int, floor float64, scratch *rows) (top float64, best grasped) {
	top = floor
	for list := p.swings[side]; len(list) > 0; list = list[1:] {
		w := s.suits(m, p, list, top, scratch)
		bound := min(at.least, w.least)
		if bound <= top+tie {
			break // nor any after it
		}
		first := len(scratch.list)
		s.clear(p, at, w, scratch)
		clear, margin := scratch.since(first)
		if bound = min(bound, margin); bound <= top+tie {
			continue
		}
		for _, handle := range m.handles(w.want.Radius) {
			first := len(scratch.list)
			dev, axial := s.hold(m, p, w, handle, scratch)
			held, margin := scratch.since(first)
			if v := min(bound, margin); v > top+tie {
				top, best = v, grasped{w, handle, dev, axial, [2]span{held, clear}}
			}
		}
	}
	return top, best
}

// left adds what the left arm, differing from the right, makes of the person.
func (s *placer) left(m machine, p *sitter, set setting, r *Person, out *rows) {
	at := s.sit(m, p, set.seat, &rows{card: &s.card})
	var w swing
	first := len(out.list)
	s.swingOn(m, p, &at, &p.limbs[1], set.axis, &w, out)
	s.follow(m, &w)
	dev, _ := s.hold(m, p, &w, set.handle, out)
	s.clear(p, &at, &w, out)
	for i := range out.list[first:] {
		out.list[first+i].note = "left arm"
	}
	r.Left = Grasp{set.axis, set.handle, dev.Max}
	r.Offset, r.Tilt = max(r.Offset, w.offset), max(r.Tilt, w.tilt)
	if dev.Max > r.HandPath {
		r.HandPath, r.HandRMS, r.HandAngle = dev.Max, dev.RMS, s.angles[dev.Worst]
	}
}

// swingAll turns the arm to every axis position from one seat. Share is the margin
// of the seat load, which is the same on all of them.
func (s *placer) swingAll(m machine, p *sitter, at *seated, share float64, scratch *rows) {
	for side := range p.sides {
		list := p.swings[side]
		for len(list) < len(m.axes) {
			list = append(list, swing{})
		}
		list = list[:len(m.axes)]
		for a := range m.axes {
			w := &list[a]
			first := len(scratch.list)
			s.swingOn(m, p, at, &p.limbs[side], a, w, scratch)
			own, least := scratch.since(first)
			w.own, w.least, w.whole = own, min(share, least), false
		}
		p.swings[side] = list
	}
}

// suits brings the axis position with the largest least margin to the front of a
// list, the first of equals. The hand's path is worked out only of those that
// without it come to the front, and of none that is not above floor.
func (s *placer) suits(m machine, p *sitter, list []swing, floor float64, scratch *rows) *swing {
	for {
		best := 0
		for i := 1; i < len(list); i++ {
			if a, b := &list[i], &list[best]; a.least > b.least || a.least == b.least && a.axis < b.axis {
				best = i
			}
		}
		list[0], list[best] = list[best], list[0]
		w := &list[0]
		if w.whole || w.least <= floor+tie {
			return w
		}
		s.follow(m, w)
		first := len(scratch.list)
		s.hold(m, p, w, -1, scratch) // no handle position leaves less than a free handle
		_, least := scratch.since(first)
		w.least, w.whole = min(w.least, least), true
	}
}

// tie keeps the choice of a setting from hanging on the last bits: margins in
// units that matter closer than this count as equal.
const tie = 1e-9

// wantedSeat is the seat height at which the chain from seat to pivot closes
// with the trunk at the middle of its lean.
func (s *placer) wantedSeat(m machine, p *sitter) float64 {
	b := p.body
	if s.reclined() {
		pose := station.PlaceReclined(b, m.pivot, m.back, 0)
		arm := b.UpperArm * math.Cos(pose.Abduction)
		dx := pose.Shoulder.X - m.pivot.X
		return math.Sqrt(max(0, arm*arm-dx*dx)) - (pose.Shoulder.Z - m.pivot.Z)
	}
	pose := station.PlaceOnPad(b, m.pivot, m.rest, 0)
	lean := s.asked.Posture.Lean
	return pose.Shoulder.Z - b.Hip - b.Trunk*(math.Cos(lean.From)+math.Cos(lean.To))/2
}

func (s *placer) nearestSeat(m machine, p *sitter) int {
	g := m.geo.Seat
	i := int(math.Round((s.wantedSeat(m, p) - g.Lowest) / g.Pitch))
	return max(0, min(g.Positions-1, i))
}

// nearSeats brackets the seats worth trying: those no further from the wanted
// height than lean could make up, the trunk's drop at the greatest lean, and
// one pitch; the nearest end where there is none.
func (s *placer) nearSeats(m machine, p *sitter) (low, high int) {
	g := m.geo.Seat
	lean := s.asked.Posture.Lean
	want := s.wantedSeat(m, p)
	window := p.body.Trunk*(math.Cos(lean.From)-math.Cos(lean.To))/2 + g.Pitch
	low = max(0, int(math.Ceil((want-window-g.Lowest)/g.Pitch)))
	high = min(g.Positions-1, int(math.Floor((want+window-g.Lowest)/g.Pitch)))
	if low > high {
		low = s.nearestSeat(m, p)
		high = low
	}
	return low, high
}
