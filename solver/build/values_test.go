package build_test

import (
	"math"
	"testing"

	"armwright/geometry/station"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// Every kept station has a body: parts that weigh what their volumes say, stack plates
// that add up to the load.
func TestValuesOfFrames(t *testing.T) {
	for _, name := range testdata.Frames() {
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			d, err := drive.New(&f.Asked, &drive.Designer{})
			if err != nil {
				t.Fatal(err)
			}
			b := build.Builder{Designer: d}
			state, err := b.Evaluate(&f.Geometry)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := b.Complete(&f.Geometry, &state); err != nil {
				t.Fatal(err)
			}
			if f.Geometry.Pad == nil {
				t.Skip("nobody sits on a bench")
			}
			values := b.Values(&f.Geometry, &state)
			a, needs, err := new(station.Maker).Build(&values)
			if err != nil {
				t.Fatal(err)
			}
			for _, n := range needs {
				if math.IsNaN(n.Slack) {
					t.Errorf("need %s is not a number", n.ID)
				}
			}
			plates := 0.0
			for i := range a.Parts {
				p := &a.Parts[i]
				if err := p.Solid.Validate(); err != nil {
					t.Errorf("%s: %v", p.ID, err)
				}
				if p.Item == "stack-plate" {
					plates = max(plates, p.Mass)
				}
			}
			if f.Geometry.Cam != nil && math.Abs(plates-d.Plate.Mass) > 1e-3*plates {
				t.Errorf("a stack plate weighs %g kg, not %g", plates, d.Plate.Mass)
			}
		})
	}
}
