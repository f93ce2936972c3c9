package build

import (
	"math"
	"slices"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/linkage"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// What the station delivers is about the rise of everything that moves with one arm.
// The drive takes the bars' eyes and the plates' sleeve by their joints, and leaves
// out collars, caps and pins: 2 % of the torque's peak.
func TestLinkageTorqueIsTheRiseOfItsParts(t *testing.T) {
	f := solvertest.Frame(t, "reclined-linkage")
	g := &f.Geometry
	s := builderFor(t, &f.Asked)
	d, err := s.Evaluate(g)
	if err != nil {
		t.Fatal(err)
	}
	a := s.Station(g, &d, nil).Assembly
	pose := a.Reference
	pose.Handle = (g.Handle.Positions - 1) / 2 // where the arm is weighed
	height := func(theta float64) float64 {    // N·mm, of the right side
		pose.Flexion[0] = theta
		places := a.At(pose, nil)
		sum := 0.0
		for i := range a.Parts {
			if p := &a.Parts[i]; p.Side == assembly.Right && p.Is(assembly.Turns) {
				sum += p.Mass * places[p.Group].Point(p.Centre).Z
			}
		}
		return linkage.G * sum
	}
	const h = 1e-4
	most := slices.Max(d.Heavy.Delivered)
	for k, theta := range s.Angles {
		rise := (height(theta+h) - height(theta-h)) / (2 * h)
		if diff := d.Heavy.Delivered[k] - rise; math.Abs(diff) > 0.02*most {
			t.Errorf("at %.0f deg %.1f N·mm, by rise %.1f", theta/specs.Degree, d.Heavy.Delivered[k], rise)
		}
	}
}
