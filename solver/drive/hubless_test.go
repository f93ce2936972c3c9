package drive

import (
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// A cam that is too small for its hub is made larger: the study with a thicker shaft
// has a cam with every moment arm above the least one asked.
func TestLargerCamForItsHub(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	b.Resistance.LeastArm, b.Stock.Shaft = 18, 30
	b.Resistance.Load = specs.Loads{Light: 2.5, Middle: 10, Heavy: 20}
	s := designerFor(t, &b.Asked)
	g := s.BenchRig()
	if best, why := s.camAmong(g, 0, 0, false); best != nil || !hubless(why) {
		t.Fatalf("a cam %v without enlarging it, %v: the test shows nothing", best, why)
	}
	d, err := s.Design(g, nil, NewMachine(g).Rest.Slope)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Outline(d.Profile, d.LeastRadius); err != nil {
		t.Errorf("the outline does not close: %v", err)
	}
	for _, h := range d.MomentArm {
		if h <= b.Resistance.LeastArm {
			t.Errorf("moment arm %.2f mm", h)
		}
	}
}
