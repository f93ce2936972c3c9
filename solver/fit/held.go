package fit

import "armwright/specs"

// Held judges geometries that differ a little from one another with every
// person's settings, and the cam, held as they are on the first: what a station
// that was built a little off does to those it was designed for. It is not safe
// for use by several goroutines at a time.
type Held struct {
	s    *Judge
	d    drive
	unit []float64 // delivered per kg of load, of the cam
	set  []hold
	out  *rows
	desk desk
}

// hold is a person's setting by arm.
type hold struct{ right, left setting }

// HeldRow says what a value of Held.Margins belongs to.
type HeldRow struct {
	Kind   int    // index in Kinds
	Person string // "" for none
	Arm    bool   // of one arm, so that it depends on that arm's own errors
}

// Hold chooses the settings of a geometry as Margins does.
func (s *Judge) Hold(g *specs.Geometry) (*Held, error) {
	if err := complete(&specs.Frame{Asked: *s.asked, Geometry: *g}); err != nil {
		return nil, err
	}
	d, err := s.drive(g)
	if err != nil {
		return nil, err
	}
	d.Route = s.route(g, &d)
	h := &Held{s: s, d: d, out: &rows{card: &s.card, quiet: true}}
	for i := range d.MomentArm {
		h.unit = append(h.unit, (d.Middle.Delivered[i]-d.Gravity[i])/d.Middle.Load)
	}
	if !s.bench() {
		m := newMachine(g)
		p := sitter{level: d.level}
		scratch := &rows{card: &s.card}
		for i := range s.persons {
			p.take(&s.placer, i)
			r := s.best(m, &p, h.out, scratch)
			h.set = append(h.set, hold{setting{r.Seat, r.Axis, r.Handle}, setting{r.Seat, r.Left.Axis, r.Left.Handle}})
		}
	}
	return h, nil
}

// Resistance is that of the geometry that was held.
func (h *Held) Resistance() *Resistance { return &h.d.Resistance }

// Margins appends the margin of every row of every requirement that does not
// belong to the drive, inside units, positive when met. Their number and order
// are always the same; Rows tells what they are.
func (h *Held) Margins(to []float64, g *specs.Geometry) []float64 {
	h.assess(g)
	for i := range h.out.list {
		to = append(to, h.out.list[i].margin)
	}
	return to
}

// Rows tells what the margins of a geometry belong to.
func (h *Held) Rows(g *specs.Geometry) []HeldRow {
	own := h.assess(g)
	list := make([]HeldRow, len(h.out.list))
	for i, w := range h.out.list {
		list[i] = HeldRow{Kind: w.kind, Arm: i < own}
		if w.who >= 0 {
			list[i].Person = h.s.persons[w.who].Label
		}
	}
	return list
}

// assess fills the rows and returns how many of them, at the beginning, are
// persons' own.
func (h *Held) assess(g *specs.Geometry) (own int) {
	h.out.list = h.out.list[:0]
	if h.s.bench() {
		return 0
	}
	h.s.assess(g, h.d, &h.desk, func(m machine, p *sitter) Person {
		set := h.set[p.index]
		r := h.s.place(m, p, set.right, h.out)
		r.Left = Grasp{set.left.axis, set.left.handle, r.HandPath}
		if p.sides == 2 {
			h.s.left(m, p, set.left, &r, h.out)
		}
		own = len(h.out.list)
		return r
	}, h.out, nil)
	return own
}

// Torque returns what is delivered per kg of load and what the arm's own
// weights add, over the loaded range, N·mm/kg and N·mm. A cam and its guide are
// those that were held, whatever g says of them.
func (h *Held) Torque(g *specs.Geometry) (unit, own []float64, err error) {
	own = h.s.gravityMoments(g)
	switch {
	case g.Cam != nil:
		return h.unit, own, nil
	case g.Lever != nil:
		return h.s.leverMoments(g, *g.Lever), own, nil
	}
	unit, bars, err := h.s.linkageMoments(g)
	for i, v := range bars {
		own[i] += v
	}
	return unit, own, err
}
