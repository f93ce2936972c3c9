package fit

import (
	"math"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// What the optimiser is told of the torque where the station does not stand any more is
// what designing the drive anew there comes to, but for a small part of what has changed.
func TestDrivenFollowsDesign(t *testing.T) {
	b := solvertest.Brief(t, "arm-pad-station")
	s, g, d := begun(t, b)
	here, err := s.Again(g, d, false)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range d.Unit {
		if math.Abs(here.Unit[i]-v) > 1e-9*math.Abs(v) {
			t.Fatalf("where it was designed: %g N·mm/kg at angle %d, designed %g", here.Unit[i], i, v)
		}
	}
	for name, move := range map[string]func(g *specs.Geometry){
		"slope": func(g *specs.Geometry) { g.Pad.Slope += 3 * specs.Degree },
		"swivels": func(g *specs.Geometry) {
			g.Pivots.Swivels[0] += 4 * specs.Degree
			g.Pivots.Swivels[1] += 4 * specs.Degree
		},
	} {
		there := judge.Clone(g)
		move(there)
		s.derive(there)
		told, err := s.Again(there, d, false)
		if err != nil {
			t.Fatal(err)
		}
		anew, err := s.Design(judge.Clone(there))
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range anew.Light.Delivered {
			was := d.Light.Delivered[i]
			if math.Abs(told.Light.Delivered[i]-v) > 0.2*math.Abs(v-was)+2e-3*d.Level {
				t.Errorf("%s, light load, angle %d: %.0f N·mm told, %.0f designed anew, %.0f before", name, i, told.Light.Delivered[i], v, was)
			}
		}
	}
}
