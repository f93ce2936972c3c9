// Package persontest holds boundary persons for tests, each in the positions and the
// pose that a solver chose for two example briefs.
//
// They were written once, in November 2026, by solving the arm-pad station and the
// reclined levers of specs/examples with boundary persons from the 2012 survey. They
// are test data, not a golden: they need not follow the solver.
package persontest

import (
	"embed"
	"encoding/json"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/elbow"
	"armwright/geometry/person"

	"gonum.org/v1/gonum/spatial/r3"
)

//go:embed *.json
var files embed.FS

// Station is one example's persons, with what of its frame they were placed by.
type Station struct {
	Persons []Sitter
	Loaded  [2]float64 // ends of the range of flexion, rad
	Seat    struct{ Lowest, Pitch, Front, Depth, Width float64 }
	Pad     struct{ Slope, Offset, Near, Far, Width float64 }
	Pivots  struct{ Height, Spacing float64 }
	// Old is the crossbar that the example's frame had between its pivots when the
	// persons were written: a square tube of Side across the lap at (X, Z), Half to
	// either side of the midline.
	Old struct{ X, Z, Half, Side float64 } `json:"old_crossbar"`
}

// Vector is x, y, z in a file.
type Vector [3]float64

// Vec is the vector.
func (v Vector) Vec() r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

// Sitter is one person, seated.
type Sitter struct {
	Label         string
	Woman         bool
	Mass, Stature float64 // kg, mm
	Sizes         person.Sizes

	Hip          Vector
	Lean, Behind float64
	Seat, Ground float64 // heights of the seat and of what the feet stand on
	Shoulder     Vector
	Elbow        Vector
	Path         [3]Vector
	Grip         Vector

	Axis, Position, Handle int // axis, seat and handle positions
}

// Pose is how the person sits.
func (s *Sitter) Pose() person.Pose {
	arm := person.Arm{Shoulder: s.Shoulder.Vec(), Elbow: s.Elbow.Vec(), Grip: s.Grip.Vec(),
		Path: elbow.Path{Still: s.Path[0].Vec(), Sin: s.Path[1].Vec(), Cos: s.Path[2].Vec()}}
	return person.Pose{Hip: s.Hip.Vec(), Lean: s.Lean, Behind: s.Behind, Seat: s.Seat, Ground: s.Ground, Arms: [2]person.Arm{arm, arm.Mirrored()}}
}

// Positions are the person's positions on the station.
func (s *Sitter) Positions() assembly.Pose {
	return assembly.Pose{Axis: s.Axis, Seat: s.Position, Handle: s.Handle}
}

// Read returns the 50 boundary persons of an example: "arm-pad" or "reclined".
func Read(t testing.TB, name string) Station {
	t.Helper()
	data, err := files.ReadFile(name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	var s Station
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
