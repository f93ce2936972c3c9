package judge

import (
	"slices"
	"sync"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// Judge is a brief made ready for judging geometries of it one after another:
// persons, curve and stock are looked up once. It may be used by several
// goroutines at a time.
type Judge struct {
	screen.Screen
	desks  *sync.Pool // of *desk
	recall *recall
	stand  func() []people.Person // who stand for the population, drawn once: see Served
}

// Desk is memory for judging one geometry after another.
type Desk struct {
	rows, tried require.Rows
	sitter      seat.Sitter
	sat         []seat.Person
	afresh      screen.Afresh
	cutter      build.Cutter
}

// New makes a brief or a frame's asked part ready, which must stay as it is. The
// errors are those of names that stock or curves do not hold.
func New(a *specs.Asked) (*Judge, error) {
	return newJudge(a, &Judge{desks: &sync.Pool{New: func() any { return new(Desk) }}, recall: &recall{}})
}

// For makes another brief ready, sharing what is the same in both: persons,
// curve, stock. The errors are those of NewJudge.
func (s *Judge) For(a *specs.Asked) (*Judge, error) { return newJudge(a, s) }

func newJudge(a *specs.Asked, like *Judge) (*Judge, error) {
	d, err := drive.New(a, &like.Designer)
	if err != nil {
		return nil, err
	}
	p := seat.New(build.Builder{Designer: d}, &like.Placer)
	s := &Judge{Screen: screen.Screen{Placer: p}, desks: like.desks, recall: like.recall}
	s.stand = sync.OnceValue(func() []people.Person { return slices.Collect(s.Panel(panelSize)) })
	return s, nil
}

// FrameFor is the frame of a geometry as its file will hold it.
func FrameFor(name string, a *specs.Asked, g *specs.Geometry) specs.Frame {
	return specs.Frame{Format: specs.FrameFormat, Name: name, Asked: *a, Geometry: *g}.Quantised()
}

// Frame judges a geometry as Check does, coverage on the panel.
func (s *Judge) Frame(name string, g specs.Geometry) (*Result, error) {
	f := FrameFor(name, s.Asked, &g)
	if err := Missing(&f); err != nil {
		return nil, err
	}
	return s.Check(f, Persons{})
}

// Margins works out the requirements of a geometry alone, in the order of
// Kinds: what Frame's result holds of them but for the governing case in words and for
// contact, without what the drawings and the report need. The geometry is taken as it is,
// not as a file would hold it.
func (s *Judge) Margins(g *specs.Geometry) ([]Requirement, error) {
	if err := Missing(&specs.Frame{Asked: *s.Asked, Geometry: *g}); err != nil {
		return nil, err
	}
	d, err := s.Evaluate(g)
	if err != nil {
		return nil, err
	}
	desk := s.desks.Get().(*Desk)
	defer s.desks.Put(desk)
	if err := desk.cutter.Cut(&s.Builder, g, &d); err != nil {
		return nil, err
	}
	out := &desk.rows
	out.Govern(&s.Card)
	st := s.Station(g, &d, desk.afresh.Workshop().Maker())
	s.WeighDrive(&st, &d)
	var sat []seat.Person
	if !s.Bench() {
		desk.tried.Card = &s.Card
		sat = s.Assess(g, d, &st, desk, func(m drive.Machine, p *seat.Sitter) seat.Person { return s.Best(m, p, out, &desk.tried) }, out, nil)
		s.Served(g, d, &st, out)
	}
	s.AlongAxes(g, &st, &d, Others(sat, len(g.Pivots.Axes)))
	s.DriveRows(g, d, &st, sat, out)
	all := s.Requirements(out)
	for i := range all {
		all[i].Case = require.Phrase{} // some rows have one at hand, others would have to make it
	}
	if err := finiteRows(all); err != nil {
		return nil, err
	}
	return all, nil
}

// rowsEach is about how many rows a person has.
const rowsEach = 20
