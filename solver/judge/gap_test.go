package judge

import (
	"math"
	"testing"

	"armwright/solver/screen/crush"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// The rows of crushing pass over what cannot be nearest; the list of hazards
// passes over nothing. Both must find the same least gap.
func TestGapsAgreeWithTheHazards(t *testing.T) {
	for _, name := range testdata.Few(1, "arm-pad-station", "reclined-levers", "reclined-linkage") {
		t.Run(name, func(t *testing.T) {
			solved := solvertest.Frame(t, name)
			// As solved, and with posts and pads where parts that swing come near them.
			for _, move := range []func(g *specs.Geometry){
				func(*specs.Geometry) {},
				func(g *specs.Geometry) { g.Base.PadPost += 150 },
				func(g *specs.Geometry) { g.Base.Front += 150 },
				func(g *specs.Geometry) { g.Pivots.Height -= 250 },
				func(g *specs.Geometry) { g.Pivots.Height, g.Pivots.Spacing = g.Pivots.Height-300, 500 },
			} {
				g := Clone(&solved.Geometry)
				move(g)
				r, err := CheckPeople(specs.Frame{Format: solved.Format, Name: name, Asked: solved.Asked, Geometry: *g}, Persons{})
				if err != nil {
					t.Fatal(err)
				}
				least, entry := math.Inf(1), math.Inf(1)
				for _, p := range r.Hazards.Pairs {
					least = math.Min(least, p.Gap)
					if p.Part != crush.Finger {
						entry = math.Min(entry, p.Gap/p.Part.LeastGap())
					}
				}
				crush, _ := r.Requirement("crush-gap")
				enter, _ := r.Requirement("entry-gap")
				if crush.Value != least || enter.Value != entry {
					t.Errorf("crush-gap %g and entry-gap %g, by the hazards %g and %g", crush.Value, enter.Value, least, entry)
				}
			}
		})
	}
}
