package drive

import (
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/stock"
)

// A cam that is too small for its hub is made larger: the study with a thicker shaft
// has a cam with every moment arm above the least one asked.
func TestLargerCamForItsHub(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	b.Resistance.LeastArm, b.Stock.Shaft = 18, 30
	s := designerFor(t, &b.Asked)
	g := s.BenchRig()
	if best, why := s.camAmong(g, 0, 0, false); best != nil || !hubless(why) {
		t.Fatalf("a cam %v without enlarging it, %v: the test shows nothing", best, why)
	}
	d, err := s.Design(g, nil)
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

// Belt and chain that are too weak, or too wide for where they run, are told.
func TestDriveStrengthIsTold(t *testing.T) {
	v := &stock.DriveStrength{Factor: 2, Wanted: 1, Width: wheelRoom - 1}
	weak, slim, wide := *v, *v, *v
	weak.Factor = weak.Wanted / 2
	slim.Width, wide.Width = wheelRoom, wheelRoom+1
	if len(TransmissionNotes(v, specs.Metric)) != 0 || len(TransmissionNotes(&weak, specs.Metric)) != 1 || len(TransmissionNotes(&slim, specs.Metric)) != 0 || len(TransmissionNotes(&wide, specs.Metric)) != 1 {
		t.Error("what is told of the drive's strength does not follow factor and width")
	}
}
