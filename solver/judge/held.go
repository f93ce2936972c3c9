package judge

import (
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/specs"
)

// Held judges geometries that differ a little from one another with every
// person's settings, and the cam, held as they are on the first: what a station
// that was built a little off does to those it was designed for. It is not safe
// for use by several goroutines at a time.
type Held struct {
	s   *Judge
	d   drive.State
	set []hold
	out *require.Rows

	others []bool // axis positions beside the middle one that somebody uses
	desk   Desk
}

// hold is a person's setting by arm.
type hold struct{ right, left seat.Setting }

// HeldRow says what a value of Held.Margins belongs to.
type HeldRow struct {
	Kind   int    // index in Kinds
	Person string // "" for none
	Arm    bool   // of one arm, so that it depends on that arm's own errors
}

// Hold chooses the settings of a geometry as Margins does.
func (s *Judge) Hold(g *specs.Geometry) (*Held, error) {
	if err := Missing(&specs.Frame{Asked: *s.Asked, Geometry: *g}); err != nil {
		return nil, err
	}
	d, err := s.Evaluate(g)
	if err != nil {
		return nil, err
	}
	if err := s.Cut(g, &d); err != nil {
		return nil, err
	}
	h := &Held{s: s, out: &require.Rows{Card: &s.Card, Quiet: true}, desk: Desk{afresh: screen.Afresh{Same: true}}}
	st := s.Station(g, &d, h.desk.afresh.Workshop().Maker())
	s.WeighDrive(&st, &d)
	h.d = d
	h.d.Route = s.Route(&st, &d)
	if !s.Bench() {
		m := drive.NewMachine(g)
		p := seat.Sitter{Level: d.Level}
		scratch := &require.Rows{Card: &s.Card}
		var sat []seat.Person
		for i := range s.Persons {
			p.Take(&s.Placer, i)
			r := s.Best(m, &p, h.out, scratch)
			h.set = append(h.set, hold{seat.Setting{Seat: r.Seat, Axis: r.Axis, Handle: r.Handle}, seat.Setting{Seat: r.Seat, Axis: r.Left.Axis, Handle: r.Left.Handle}})
			sat = append(sat, r)
		}
		others := Others(sat, len(m.Axes))
		for i := range m.Axes {
			h.others = append(h.others, others(i))
		}
	}
	return h, nil
}

// Resistance is that of the geometry that was held.
func (h *Held) Resistance() *drive.Resistance { return &h.d.Resistance }

// Margins appends the margin of every row of every requirement that does not
// belong to the drive, inside units, positive when met. Their number and order
// are always the same; Rows tells what they are.
func (h *Held) Margins(to []float64, g *specs.Geometry) []float64 {
	h.assess(g)
	for i := range h.out.List {
		to = append(to, h.out.List[i].Margin)
	}
	return to
}

// Rows tells what the margins of a geometry belong to.
func (h *Held) Rows(g *specs.Geometry) []HeldRow {
	own := h.assess(g)
	list := make([]HeldRow, len(h.out.List))
	for i, w := range h.out.List {
		list[i] = HeldRow{Kind: w.Kind, Arm: i < own}
		if w.Who >= 0 {
			list[i].Person = h.s.Persons[w.Who].Label
		}
	}
	return list
}

// assess fills the rows and returns how many of them, at the beginning, are
// persons' own.
func (h *Held) assess(g *specs.Geometry) (own int) {
	h.out.List = h.out.List[:0]
	if h.s.Bench() {
		return 0
	}
	st := h.s.Station(g, &h.d, h.desk.afresh.Workshop().Maker())
	h.s.Assess(g, h.d, &st, &h.desk, func(m drive.Machine, p *seat.Sitter) seat.Person {
		set := h.set[p.Index]
		r := h.s.Place(m, p, set.right, h.out)
		if p.Sides == 2 {
			h.s.Left(m, p, set.left, &r, h.out)
		}
		own = len(h.out.List)
		return r
	}, h.out, nil)
	return own
}

// HeldTorque is the torque of an arm over the loaded range, at any load.
type HeldTorque struct {
	Unit []float64 // delivered for each kg of load, N·mm/kg
	Own  []float64 // what the arm's own weights add, N·mm

	// Fault is why the cable cannot be led there, or the station not be built: what is
	// told beside it is then not that of a station.
	Fault error
}

// Torques returns the torque in the middle axis position and, after it, in each other
// that a person uses, in the order of the positions: as many for every geometry. A cam
// and its guide are those that were held, whatever g says of them. The errors are those
// of a linkage that does not close.
func (h *Held) Torques(g *specs.Geometry) ([]HeldTorque, error) {
	d, err := h.s.Designer.Held(g, h.d)
	if err != nil {
		return nil, err
	}
	if h.s.Bench() {
		return []HeldTorque{{Unit: d.Unit, Own: d.Gravity}}, nil
	}
	st := h.s.Station(g, &d, h.desk.afresh.Workshop().Maker())
	h.s.WeighDrive(&st, &d)
	list := []HeldTorque{{d.Unit, d.Gravity, st.Fault}}
	h.s.AlongAxes(g, &st, &d, func(i int) bool { return h.others[i] })
	for i, other := range h.others {
		switch {
		case !other:
		case st.Assembly == nil:
			list = append(list, HeldTorque{Fault: st.Fault})
		default:
			at := &d.Positions[i]
			list = append(list, HeldTorque{at.Unit, at.Gravity, at.Fault})
		}
	}
	return list, nil
}
