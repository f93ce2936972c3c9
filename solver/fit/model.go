package fit

import (
	"math"
	"slices"

	"armwright/specs"
)

// model evaluates the station for the optimiser, with every person's settings
// held. Most of the optimiser's evaluations are differences: one variable is
// moved a little from a point evaluated before, the base. Then only what hangs
// on that variable is worked out again:
//
//   - a person is placed anew when something the person touches has moved;
//   - where rows that go together, such as one person's of tipping, all have more
//     than idle units that matter in hand at the base, the base's rows stand: they
//     do not bind, so their derivatives are of no use. The base itself is always
//     whole, and so a row that comes near its limit is seen, with its derivative,
//     at once.
type model struct {
	s      *program // on the coarse grid
	d      drive
	base   []float64 // nil before the first evaluation
	near   bool      // the present point is a difference from the base
	people []seen
	parts  [groups][]row // at the base
	least  []least       // gaps, at the base
}

// idle is how many units that matter a row has in hand to count as idle.
const idle = 4

// touch is everything of a geometry that a person's own rows hang on.
type touch struct {
	arm  armTouch
	axis specs.Axis
	seat seatTouch
}

// armTouch is what the arm on a pad hangs on beside its axis, and seatTouch what the
// seated person does beside that.
type (
	armTouch  struct{ height, spacing, offset, slope float64 }
	seatTouch struct{ lowest, front, post, tower, near, far, back, foot float64 }
)

func touchOf(g *specs.Geometry, axis int) touch {
	t := touch{
		arm:  armTouch{g.Pivots.Height, g.Pivots.Spacing, g.Pad.Offset, g.Pad.Slope},
		axis: g.Pivots.Axes[axis],
		seat: seatTouch{lowest: g.Seat.Lowest, front: g.Seat.Front, post: g.Base.PadPost, near: g.Pad.Near, far: g.Pad.Far},
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
	at    Person
	own   []row    // of placing
	steps steps    // of which
	user  carriage // centres of mass
	tilt  []row    // of tipping
	gap   []row    // to the moving arm
	spare carriage // centres of mass off the base
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
func (m *model) place(g *specs.Geometry, set []setting, out *rows, sat []Person) []Person {
	mach := newMachine(g)
	p := sitter{level: m.d.level}
	if m.people == nil {
		m.people = make([]seen, len(m.s.persons))
	}
	for i := range m.s.persons {
		known, now := &m.people[i], touchOf(g, set[i].axis)
		if known.moved = !m.near || now != known.touch; !known.moved {
			out.list = append(out.list, known.own...)
			sat = append(sat, known.at)
			continue
		}
		p.take(&m.s.placer, i)
		if m.near {
			sat = append(sat, m.again(mach, &p, known, &now, out))
			continue
		}
		first := len(out.list)
		known.at = m.s.placeBy(mach, &p, set[i], &known.steps, out)
		known.touch = now
		known.own = append(known.own[:0], out.list[first:]...)
		sat = append(sat, known.at)
	}
	return sat
}

// again places a person anew as far as a difference from the base reaches: the seat
// does not move the arm on its pad, nor the axis the seat. Leaning back, everything
// hangs together.
func (m *model) again(mach machine, p *sitter, known *seen, now *touch, out *rows) Person {
	s, base, step := m.s, &known.steps, &p.by
	*step = *base
	step.hand.swing = &step.arm
	switch {
	case s.reclined():
		return s.place(mach, p, setting{base.seat.seat, base.arm.axis, base.hand.handle}, out)
	case now.arm == known.touch.arm && now.axis == known.touch.axis:
		step.seat = s.sit(mach, p, base.seat.seat, out)
		out.list = append(out.list, known.own[base.rows[0]:base.rows[2]]...)
		s.clear(p, &step.seat, &step.arm, out)
		s.seatShare(mach, p, &step.seat, out)
	case now.arm == known.touch.arm && now.seat == known.touch.seat:
		out.list = append(out.list, known.own[:base.rows[0]]...)
		step.arm.points = p.points
		s.swingOn(mach, p, &step.seat, &p.limbs[0], base.arm.axis, &step.arm, out)
		s.follow(mach, &step.arm)
		p.points = step.arm.points
		step.hand.dev, step.hand.axial = s.hold(mach, p, &step.arm, base.hand.handle, out)
		s.clear(p, &step.seat, &step.arm, out)
		out.list = append(out.list, known.own[base.rows[3]:]...)
	default:
		return s.place(mach, p, setting{base.seat.seat, base.arm.axis, base.hand.handle}, out)
	}
	return s.outcome(mach, p, &step.seat, &step.hand, false)
}

// Recall implements memory: the base's rows stand where nothing they hang on has
// moved or none of them may bind.
func (m *model) Recall(of group, person int, out *rows) bool {
	if !m.near {
		return false
	}
	list := *m.rowsOf(of, person)
	if unmoved := of == ofBodyGap && !m.people[person].moved; !unmoved && slices.ContainsFunc(list, m.bears) {
		return false
	}
	out.list = append(out.list, list...)
	return true
}

// Keep implements memory.
func (m *model) Keep(of group, person int, list []row) {
	if !m.near {
		known := m.rowsOf(of, person)
		*known = append((*known)[:0], list...)
	}
}

// rowsOf are the rows of a group at the base.
func (m *model) rowsOf(of group, person int) *[]row {
	switch of {
	case ofTilt:
		return &m.people[person].tilt
	case ofBodyGap:
		return &m.people[person].gap
	}
	return &m.parts[of]
}

// Carried implements memory.
func (m *model) Carried(person int) (centres *carriage, anew bool) {
	known := &m.people[person]
	if known.moved && m.near {
		return &known.spare, true
	}
	return &known.user, known.moved
}

// BodyGap implements memory: a gap is looked for just above the last one first. One
// that has clearly more than idle in hand counts as idle: it need not be known.
func (m *model) BodyGap(person int) (below, enough float64) {
	k := m.s.index["body-gap"]
	enough = m.s.limits[k] + (idle+1)*m.s.kinds[k].Scale
	if gap := m.people[person].gap; len(gap) > 0 {
		return m.above(&gap[0]), enough
	}
	return math.Inf(1), enough
}

// Gaps implements memory: they are followed off the base.
func (m *model) Gaps() (known []least, follow bool, below func(i int) float64) {
	if m.near {
		return m.least, true, nil
	}
	if rows := m.parts[ofGaps]; rows != nil {
		below = func(i int) float64 { return m.above(&rows[i]) }
	}
	return nil, false, below
}

// KeepGaps implements memory.
func (m *model) KeepGaps(list []least) { m.least = list }

// above is what the gap of a row is thought to lie below at the next point: a
// difference moves gaps by less than a hundredth of a unit that matters, and a step
// of the search seldom by more than some.
func (m *model) above(w *row) float64 {
	units := 6.0
	if m.near {
		units = 0.02
	}
	return w.value + units*m.s.kinds[w.kind].Scale
}

// bears says whether a row may bind.
func (m *model) bears(w row) bool { return m.s.scaled(&w) < idle }
