package screen

import (
	"testing"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// The frames that have a station; a study has only a bench.
var stations = []string{"arm-pad-station", "reclined-levers", "reclined-linkage", "base-too-short"}

// sceneOf is a frame's station with its boundary persons seated.
func sceneOf(t testing.TB, f *specs.Frame) (*Screen, *Scene) {
	t.Helper()
	s := screeningFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err == nil {
		_, err = s.Complete(&f.Geometry, &d)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s, s.sceneWith(&f.Geometry, d)
}

func (s *Screen) sceneWith(g *specs.Geometry, d drive.State) *Scene {
	m := drive.NewMachine(g)
	out, scratch := &require.Rows{Card: &s.Card}, &require.Rows{Card: &s.Card}
	sat := make([]seat.Person, len(s.Persons))
	p := seat.Sitter{Level: d.Level}
	for i := range sat {
		p.Take(&s.Placer, i)
		sat[i] = s.Best(m, &p, out, scratch)
	}
	st := s.Station(g, &d, nil)
	return s.Scene(g, d, sat, &st)
}

// named are the rows of a requirement with a note.
func (s *Screen) named(list []require.Row, id, note string) (out []require.Row) {
	for _, w := range list {
		if s.Kinds[w.Kind].ID == id && w.Case.Words == note {
			out = append(out, w)
		}
	}
	return out
}

// of are the rows of a requirement.
func (s *Screen) of(list []require.Row, id string) (out []require.Row) {
	for _, w := range list {
		if s.Kinds[w.Kind].ID == id {
			out = append(out, w)
		}
	}
	return out
}
