package fit

import (
	"sync"

	"armwright/specs"
)

// Judge is a brief made ready for judging geometries of it one after another:
// persons, curve and stock are looked up once. It may be used by several
// goroutines at a time.
type Judge struct {
	screening
	desks *sync.Pool // of *desk
}

// desk is memory for judging one geometry after another.
type desk struct {
	rows, tried rows
	sitter      sitter
	sat         []Person
	afresh      afresh
}

// NewJudge makes a brief or a frame's asked part ready, which must stay as it is. The
// errors are those of names that stock or curves do not hold.
func NewJudge(a *specs.Asked) (*Judge, error) {
	return newJudge(a, &Judge{desks: &sync.Pool{New: func() any { return new(desk) }}})
}

// For makes another brief ready, sharing what is the same in both: persons,
// curve, stock. The errors are those of NewJudge.
func (s *Judge) For(a *specs.Asked) (*Judge, error) { return newJudge(a, s) }

func newJudge(a *specs.Asked, like *Judge) (*Judge, error) {
	d, err := newDesigner(a, &like.designer)
	if err != nil {
		return nil, err
	}
	p := newPlacer(builder{d}, &like.placer)
	return &Judge{screening: screening{p}, desks: like.desks}, nil
}

// frameFor is the frame of a geometry as its file will hold it.
func frameFor(name string, a *specs.Asked, g *specs.Geometry) specs.Frame {
	return specs.Frame{Format: specs.FrameFormat, Name: name, Asked: *a, Geometry: *g}.Quantised()
}

// Frame judges a geometry as Check does, all but coverage.
func (s *Judge) Frame(name string, g specs.Geometry) (*Result, error) {
	f := frameFor(name, s.asked, &g)
	if err := complete(&f); err != nil {
		return nil, err
	}
	return s.check(f, Persons{})
}

// Margins works out the requirements of a geometry alone, in the order of
// Kinds: what Frame's result holds of them but for the governing case in words,
// without what the drawings and the report need. The geometry is taken as it is,
// not as a file would hold it.
func (s *Judge) Margins(g *specs.Geometry) ([]Requirement, error) {
	if err := complete(&specs.Frame{Asked: *s.asked, Geometry: *g}); err != nil {
		return nil, err
	}
	d, err := s.drive(g)
	if err != nil {
		return nil, err
	}
	desk := s.desks.Get().(*desk)
	defer s.desks.Put(desk)
	out := &desk.rows
	out.govern(&s.card)
	s.driveRows(g, d, out)
	if !s.bench() {
		desk.tried.card = &s.card
		s.assess(g, d, desk, func(m machine, p *sitter) Person { return s.best(m, p, out, &desk.tried) }, out, nil)
	}
	all := s.requirements(out)
	for i := range all {
		all[i].Case = "" // some rows have one at hand, others would have to make it
	}
	return all, nil
}

// rowsEach is about how many rows a person has.
const rowsEach = 20
