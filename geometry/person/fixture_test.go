package person_test

import (
	"encoding/json"
	"os"
	"testing"

	"armwright/geometry/elbow"
	"armwright/geometry/person"

	"gonum.org/v1/gonum/spatial/r3"
)

// station is what testdata holds: the boundary persons of an example brief, each in
// the positions and pose that the solver chose, and the old shape's crossbar.
type station struct {
	Persons []sitter `json:"persons"`
	Loaded  [2]float64
	Seat    struct{ Lowest, Pitch, Front, Depth, Width float64 }
	Old     struct{ X, Z, Half, Side float64 } `json:"old_crossbar"`
	Pad     struct{ Slope, Offset, Near, Far, Width float64 }
	Pivots  struct{ Height, Spacing float64 }
}

type vector [3]float64

func (v vector) vec() r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

type sitter struct {
	Label         string
	Woman         bool
	Mass, Stature float64
	Sizes         person.Sizes
	Hip           vector
	Lean          float64
	Behind        float64
	Seat, Ground  float64
	Shoulder      vector
	Elbow         vector
	Path          [3]vector
	Grip          vector
	Popliteal     float64
}

func (s *sitter) pose() person.Pose {
	arm := person.Arm{Shoulder: s.Shoulder.vec(), Elbow: s.Elbow.vec(), Grip: s.Grip.vec(),
		Path: elbow.Path{Still: s.Path[0].vec(), Sin: s.Path[1].vec(), Cos: s.Path[2].vec()}}
	return person.Pose{Hip: s.Hip.vec(), Lean: s.Lean, Behind: s.Behind, Seat: s.Seat, Ground: s.Ground, Arms: [2]person.Arm{arm, arm.Mirrored()}}
}

// read returns the persons of testdata/NAME.json. They were written once, in
// November 2026, by solving specs/examples with boundary persons from the survey:
// they are test data, not a golden, and need not follow the solver.
func read(t testing.TB, name string) station {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	var s station
	if err := json.Unmarshal(data, &s); err != nil {
		t.Fatal(err)
	}
	if len(s.Persons) != 50 {
		t.Fatalf("%d persons, want 50", len(s.Persons))
	}
	for i := range s.Persons {
		p := &s.Persons[i]
		p.Sizes.CalfGirth = person.CalfGirth(p.Mass, p.Stature)
	}
	return s
}
