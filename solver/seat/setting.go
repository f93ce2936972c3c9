package seat

import (
	"cmp"
	"math"
	"slices"

	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/require"
)

// Best places a person in the setting with the largest least margin and
// appends the rows of that setting. Seat, axis and handle positions are taken
// in the order in which they suit the person by themselves, so that among
// settings whose least margin another requirement decides, the natural one is
// chosen; equals go to the lower seat and the smaller toe. A position whose own
// margin is no better than the best setting's so far cannot be part of a better
// one and is passed over.
func (s *Placer) Best(m drive.Machine, p *Sitter, out *require.Rows, scratch *require.Rows) Person {
	low, high := s.NearSeats(m, p)
	return s.BestIn(m, p, low, high, out, scratch)
}

// BestIn is Best among the seats from low to high alone.
func (s *Placer) BestIn(m drive.Machine, p *Sitter, low, high int, out *require.Rows, scratch *require.Rows) Person {
	var (
		chosen Seated
		right  Grasped // its swing is kept apart: the next seat's takes its place
		arm    Swing
		left   Setting
	)
	top := math.Inf(-1)
	scratch.List = scratch.List[:0]

	p.seats = p.seats[:0]
	for seat := low; seat <= high; seat++ {
		first := len(scratch.List)
		at := s.Sit(m, p, seat, scratch)
		at.own, at.least = scratch.Since(first)
		p.seats = append(p.seats, at)
	}
	slices.SortStableFunc(p.seats, func(a, b Seated) int { return cmp.Compare(b.least, a.least) })

	for i := range p.seats {
		at := &p.seats[i]
		if i == 0 || s.Reclined() { // arm and seat load on the pad are the same from every seat
			first := len(scratch.List)
			s.SeatShare(m, p, at, scratch)
			var share float64
			at.loadRow, share = scratch.Since(first)
			s.SwingAll(m, p, at, share, scratch)
		} else {
			at.load, at.loadAt, at.loadRow = p.seats[0].load, p.seats[0].loadAt, p.seats[0].loadRow
		}
		least := at.least
		var held [2]Grasped
		for side := range p.Sides {
			var v float64
			v, held[side] = s.bestHold(m, p, at, side, top, scratch)
			if least = min(least, v); least <= top+Tie {
				break
			}
		}
		if least > top+Tie {
			top, chosen, right, arm = least, *at, held[0], *held[0].Swing
			p.kept = append(p.kept[:0], arm.Points...)
			arm.Points = p.kept
			if p.Sides == 2 {
				left = Setting{at.Seat, held[1].Axis, held[1].Handle}
			}
		}
	}
	if math.IsInf(top, -1) { // no margin is a number: the rows tell
		return s.Place(m, p, Setting{Seat: low}, out)
	}
	right.Swing = &arm
	for _, own := range [...]require.Span{chosen.own, arm.own, right.rows[0], right.rows[1], chosen.loadRow} {
		for i := own.From; i < own.To; i++ {
			out.Put(scratch.List[i])
		}
	}
	r := s.Outcome(p, &chosen, &right)
	if p.Sides == 2 {
		s.Left(m, p, left, &r, out)
	}
	return r
}

// bestHold finds axis and handle position of one arm in a seat, and the least
// margin there; nothing at or below floor counts.
func (s *Placer) bestHold(m drive.Machine, p *Sitter, at *Seated, side int, floor float64, scratch *require.Rows) (top float64, best Grasped) {
	top = floor
	for list := p.Swings[side]; len(list) > 0; list = list[1:] {
		w := s.suits(m, p, list, top, scratch)
		bound := min(at.least, w.Least)
		if bound <= top+Tie {
			break // nor any after it
		}
		first := len(scratch.List)
		s.Clear(p, at, w, scratch)
		clear, margin := scratch.Since(first)
		if bound = min(bound, margin); bound <= top+Tie {
			continue
		}
		for _, handle := range m.Handles(w.Want.Radius) {
			first := len(scratch.List)
			dev, axial := s.Grip(m, p, w, handle, scratch)
			held, margin := scratch.Since(first)
			if v := min(bound, margin); v > top+Tie {
				top, best = v, Grasped{w, handle, dev, axial, [2]require.Span{held, clear}}
			}
		}
	}
	return top, best
}

// Left adds what the left arm, differing from the right, makes of the person.
func (s *Placer) Left(m drive.Machine, p *Sitter, set Setting, r *Person, out *require.Rows) {
	at := s.Sit(m, p, set.Seat, &require.Rows{Card: &s.Card})
	var w Swing
	first := len(out.List)
	s.SwingOn(m, p, &at, &p.Limbs[1], set.Axis, &w, out)
	s.Follow(m, &w)
	dev, _ := s.Grip(m, p, &w, set.Handle, out)
	s.Clear(p, &at, &w, out)
	for i := range out.List[first:] {
		out.List[first+i].Case = require.Name("left arm")
	}
	r.Left = Grasp{set.Axis, set.Handle, dev.Max}
	r.Offset, r.Tilt = max(r.Offset, w.offset), max(r.Tilt, w.tilt)
	if dev.Max > r.HandPath {
		r.HandPath, r.HandRMS, r.HandAngle = dev.Max, dev.RMS, s.Angles[dev.Worst]
	}
}

// SwingAll turns the arm to every axis position from one seat. Share is the margin
// of the seat load, which is the same on all of them.
func (s *Placer) SwingAll(m drive.Machine, p *Sitter, at *Seated, share float64, scratch *require.Rows) {
	for side := range p.Sides {
		list := p.Swings[side]
		for len(list) < len(m.Axes) {
			list = append(list, Swing{})
		}
		list = list[:len(m.Axes)]
		for a := range m.Axes {
			w := &list[a]
			first := len(scratch.List)
			s.SwingOn(m, p, at, &p.Limbs[side], a, w, scratch)
			own, least := scratch.Since(first)
			w.own, w.Least, w.Whole = own, min(share, least), false
		}
		p.Swings[side] = list
	}
}

// suits brings the axis position with the largest least margin to the front of a
// list, of equals that with the smaller toe: swivelling about a line leaves an
// elbow's distance from the axis along that line the same. The hand's path is worked out only of those that
// without it come to the front, and of none that is not above floor.
func (s *Placer) suits(m drive.Machine, p *Sitter, list []Swing, floor float64, scratch *require.Rows) *Swing {
	for {
		best := 0
		for i := 1; i < len(list); i++ {
			if list[i].Least > list[best].Least {
				best = i
			}
		}
		equal := list[best].Least - Tie
		for i := range list {
			if list[i].Least >= equal && list[i].Axis < list[best].Axis {
				best = i
			}
		}
		list[0], list[best] = list[best], list[0]
		w := &list[0]
		if w.Whole || w.Least <= floor+Tie {
			return w
		}
		s.Follow(m, w)
		first := len(scratch.List)
		s.Grip(m, p, w, -1, scratch) // no handle position leaves less than a free handle
		_, least := scratch.Since(first)
		w.Least, w.Whole = min(w.Least, least), true
	}
}

// Tie keeps the choice of a setting from hanging on the last bits: margins in
// units that matter closer than this count as equal.
const Tie = 1e-9

// WantedSeat is the seat height at which the chain from seat to pivot closes
// with the trunk at the middle of its lean.
func (s *Placer) WantedSeat(m drive.Machine, p *Sitter) float64 {
	b := p.Body
	if s.Reclined() {
		return posture.ClosingSeat(b, m.Pivot, m.Back)
	}
	pose := posture.PlaceOnPad(b, m.Pivot, m.Rest, 0)
	lean := s.Asked.Posture.Lean
	return pose.Shoulder.Z - b.Hip - b.Trunk*(math.Cos(lean.From)+math.Cos(lean.To))/2
}

func (s *Placer) NearestSeat(m drive.Machine, p *Sitter) int {
	g := m.Geometry.Seat
	i := int(math.Round((s.WantedSeat(m, p) - g.Lowest) / g.Pitch))
	return max(0, min(g.Positions-1, i))
}

// NearSeats brackets the seats worth trying: those no further from the wanted
// height than lean could make up, the trunk's drop at the greatest lean, and
// one pitch; the nearest end where there is none.
func (s *Placer) NearSeats(m drive.Machine, p *Sitter) (low, high int) {
	g := m.Geometry.Seat
	lean := s.Asked.Posture.Lean
	want := s.WantedSeat(m, p)
	window := p.Body.Trunk*(math.Cos(lean.From)-math.Cos(lean.To))/2 + g.Pitch
	low = max(0, int(math.Ceil((want-window-g.Lowest)/g.Pitch)))
	high = min(g.Positions-1, int(math.Floor((want+window-g.Lowest)/g.Pitch)))
	if low > high {
		low = s.NearestSeat(m, p)
		high = low
	}
	return low, high
}
