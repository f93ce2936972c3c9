package fit

import (
	"math"
	"slices"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/specs"
)

// model evaluates the station for the optimiser, with every person's settings
// held. Most of the optimiser's evaluations are differences: one variable is
// moved a little from a point evaluated before, the base. Then only what depends
// on that variable is worked out again:
//
//   - a person is placed anew when something the person touches has moved;
//   - where rows that go together, such as one person's of tipping, all have more
//     than idle units that matter in hand at the base, the base's rows stand: they
//     do not bind, so their derivatives are of no use. The base itself is always
//     whole, and so a row that comes near its limit is seen, with its derivative,
//     at once.
type model struct {
	s      *Program // on the coarse grid
	d      drive.State
	base   []float64 // nil before the first evaluation
	near   bool      // the present point is a difference from the base
	people []seen
	parts  [screen.Groups][]require.Row // at the base
	least  []screen.Least               // gaps, at the base
	shop   screen.Workshop
}

// idle is how many units that matter a row has in hand to count as idle.
const idle = 4

// touch is everything of a geometry that a person's own rows depend on.
type touch struct {
	arm  armTouch
	axis specs.Axis
	seat seatTouch
}

// armTouch is what the arm on a pad depends on beside its axis, and seatTouch what the
// seated person does beside that.
type (
	armTouch  struct{ height, spacing, offset, slope float64 }
	seatTouch struct{ lowest, front, post, tower, near, far, wide, back, foot float64 }
)

func touchOf(g *specs.Geometry, axis int) touch {
	t := touch{
		arm:  armTouch{g.Pivots.Height, g.Pivots.Spacing, g.Pad.Offset, g.Pad.Slope},
		axis: g.Pivots.Axes[axis],
		seat: seatTouch{lowest: g.Seat.Lowest, front: g.Seat.Front, post: g.Base.PadPost, near: g.Pad.Near, far: g.Pad.Far, wide: g.Pad.Width},
	}
	if g.Base.TowerTall > 0 {
		t.seat.tower = g.Base.Tower
	}
	if g.Back != nil {
		t.seat.back, t.seat.foot = g.Back.Angle, g.Back.Foot
	}
	return t
}

// seen is one person at the base.
type seen struct {
	touch touch
	moved bool // at the present point, from the base
	at    seat.Person
	own   []require.Row   // of placing
	steps seat.Steps      // of which
	user  screen.Carriage // centres of mass
	tilt  []require.Row   // of tipping
	gap   []require.Row   // to the moving arm
	frame []require.Row   // of the body to what stands still
	spare screen.Carriage // centres of mass off the base
}

// move readies the model for a point.
func (m *model) move(x []float64) {
	if m.base != nil {
		changed := 0
		for j, v := range x {
			if v != m.base[j] {
				changed++
			}
		}
		if m.near = changed <= 1; m.near {
			return
		}
	}
	m.near = false
	m.base = append(m.base[:0], x...)
}

// place seats everybody in the given settings and adds their rows.
func (m *model) place(g *specs.Geometry, set []seat.Setting, out *require.Rows, sat []seat.Person) []seat.Person {
	mach := drive.NewMachine(g)
	p := seat.Sitter{Level: m.d.Level}
	if m.people == nil {
		m.people = make([]seen, len(m.s.Persons))
	}
	for i := range m.s.Persons {
		known, now := &m.people[i], touchOf(g, set[i].Axis)
		if known.moved = !m.near || now != known.touch; !known.moved {
			out.List = append(out.List, known.own...)
			sat = append(sat, known.at)
			continue
		}
		p.Take(&m.s.Placer, i)
		sat = append(sat, m.seat(mach, &p, known, now, set[i], out))
	}
	return sat
}

// seat places a person who has moved, and takes note of it where this is a base.
func (m *model) seat(mach drive.Machine, p *seat.Sitter, known *seen, now touch, set seat.Setting, out *require.Rows) seat.Person {
	if m.near {
		return m.again(mach, p, known, &now, out)
	}
	first := len(out.List)
	known.at = m.s.PlaceBy(mach, p, set, &known.steps, out)
	known.touch = now
	known.own = append(known.own[:0], out.List[first:]...)
	return known.at
}

// again places a person anew as far as a difference from the base reaches: the seat
// does not move the arm on its pad, nor the axis the seat. Leaning back, everything
// hangs together.
func (m *model) again(mach drive.Machine, p *seat.Sitter, known *seen, now *touch, out *require.Rows) seat.Person {
	s, base, step := m.s, &known.steps, &p.By
	*step = *base
	step.Hand.Swing = &step.Arm
	switch {
	case s.Reclined():
		return s.Place(mach, p, seat.Setting{Seat: base.Seat.Seat, Axis: base.Arm.Axis, Handle: base.Hand.Handle}, out)
	case now.arm == known.touch.arm && now.axis == known.touch.axis:
		step.Seat = s.Sit(mach, p, base.Seat.Seat, out)
		out.List = append(out.List, known.own[base.Rows[0]:base.Rows[2]]...)
		s.Clear(p, &step.Seat, &step.Arm, out)
		s.SeatShare(mach, p, &step.Seat, out)
	case now.arm == known.touch.arm && now.seat == known.touch.seat:
		out.List = append(out.List, known.own[:base.Rows[0]]...)
		step.Arm.Points = p.Points
		s.SwingOn(mach, p, &step.Seat, &p.Limbs[0], base.Arm.Axis, &step.Arm, out)
		s.Follow(mach, &step.Arm)
		p.Points = step.Arm.Points
		step.Hand.Dev, step.Hand.Axial = s.Grip(mach, p, &step.Arm, base.Hand.Handle, out)
		s.Clear(p, &step.Seat, &step.Arm, out)
		out.List = append(out.List, known.own[base.Rows[3]:]...)
	default:
		return s.Place(mach, p, seat.Setting{Seat: base.Seat.Seat, Axis: base.Arm.Axis, Handle: base.Hand.Handle}, out)
	}
	return s.Outcome(p, &step.Seat, &step.Hand)
}

// Workshop implements memory.
func (m *model) Workshop() *screen.Workshop { return &m.shop }

// Fixed implements memory.
func (m *model) Fixed() bool { return true }

// Near implements memory.
func (m *model) Near() bool { return m.near }

// Recall implements memory: the base's rows stand where nothing they depend on has
// moved or none of them may bind.
func (m *model) Recall(of screen.Group, person int, out *require.Rows) bool {
	if !m.near {
		return false
	}
	list := *m.rowsOf(of, person)
	if unmoved := of == screen.OfBodyGap && !m.people[person].moved; !unmoved && slices.ContainsFunc(list, m.bears) {
		return false
	}
	out.List = append(out.List, list...)
	return true
}

// Keep implements memory.
func (m *model) Keep(of screen.Group, person int, list []require.Row) {
	if !m.near {
		known := m.rowsOf(of, person)
		*known = append((*known)[:0], list...)
	}
}

// rowsOf are the rows of a group at the base.
func (m *model) rowsOf(of screen.Group, person int) *[]require.Row {
	switch of {
	case screen.OfTilt:
		return &m.people[person].tilt
	case screen.OfBodyGap:
		return &m.people[person].gap
	case screen.OfBodyFrame:
		return &m.people[person].frame
	}
	return &m.parts[of]
}

// Carried implements memory.
func (m *model) Carried(person int) (centres *screen.Carriage, anew bool) {
	known := &m.people[person]
	if known.moved && m.near {
		return &known.spare, true
	}
	return &known.user, known.moved
}

// BodyGap implements memory: a gap is looked for just above the last one first. One
// that has clearly more than idle in hand counts as idle: it need not be known.
func (m *model) BodyGap(person int) (below, enough float64) {
	k := m.s.KindOf("body-gap")
	enough = m.s.Limits[k] + (idle+1)*m.s.Kinds[k].Scale
	if gap := m.people[person].gap; len(gap) > 0 {
		return m.above(&gap[0]), enough
	}
	return math.Inf(1), enough
}

// Gaps implements memory: they are followed off the base.
func (m *model) Gaps() (known []screen.Least, follow bool, below func(i int) float64) {
	if m.near {
		return m.least, true, nil
	}
	if rows := m.parts[screen.OfGaps]; rows != nil {
		below = func(i int) float64 { return m.above(&rows[i]) }
	}
	return nil, false, below
}

// KeepGaps implements memory.
func (m *model) KeepGaps(list []screen.Least) { m.least = list }

// above is what the gap of a row is thought to lie below at the next point: a
// difference moves gaps by less than a hundredth of a unit that matters, and a step
// of the search seldom by more than some.
func (m *model) above(w *require.Row) float64 {
	units := 6.0
	if m.near {
		units = 0.02
	}
	return w.Value + units*m.s.Kinds[w.Kind].Scale
}

// bears says whether a row may bind.
func (m *model) bears(w require.Row) bool { return m.s.Scaled(&w) < idle }
