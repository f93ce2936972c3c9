package drive

import (
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// designerFor makes a brief ready.
func designerFor(t testing.TB, a *specs.Asked) *Designer {
	t.Helper()
	s, err := New(a, &Designer{})
	if err != nil {
		t.Fatal(err)
	}
	return &s
}

// designed is a brief's drive, designed for the axes and the handle of a station
// that is kept.
func designed(t testing.TB, b specs.Brief, station string) (*Designer, *specs.Geometry, State) {
	t.Helper()
	s := designerFor(t, &b.Asked)
	g := solvertest.Frame(t, station).Geometry
	g.Cam, g.Lever, g.Linkage, g.Counterweight, g.Eccentric = nil, nil, nil, nil, nil
	d, err := s.Design(&g, nil, NewMachine(&g).Rest.Slope)
	if err != nil {
		t.Fatal(err)
	}
	return s, &g, d
}
