package build

import (
	"math"
	"testing"

	"armwright/geometry/linkage"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// What the station delivers is the rise of everything that moves: arm, bars,
// sleeve and plates, each with its weight, as the layout places them. The layout
// takes the axis level, so the axes here are.
func TestLinkageTorqueIsTheRiseOfItsParts(t *testing.T) {
	f := solvertest.Frame(t, "reclined-linkage")
	g := &f.Geometry
	s := builderFor(t, &f.Asked)
	for i := range g.Pivots.Axes {
		g.Pivots.Axes[i] = specs.Axis{}
	}
	d, err := s.Evaluate(g)
	if err != nil {
		t.Fatal(err)
	}
	l := s.Layout(g)
	plates := s.Asked.Resistance.Load.Heavy
	height := func(theta float64) float64 { // N·mm
		_, moment, at := l.Swinging(theta - s.Angles[0])
		return linkage.G * (moment.Z + plates*at.Z)
	}
	const h = 1e-5
	for k, theta := range s.Angles {
		rise := (height(theta+h) - height(theta-h)) / (2 * h)
		if diff := d.Heavy.Delivered[k] - rise; math.Abs(diff) > 1e-4*d.Heavy.Delivered[k] {
			t.Errorf("at %.0f deg %.1f N·mm, by rise %.1f", theta/specs.Degree, d.Heavy.Delivered[k], rise)
		}
	}
}
