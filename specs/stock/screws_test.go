package stock

import (
	"math"
	"strings"
	"testing"
)

// Stress areas of coarse inch threads as tables of SAE J429 and ASME B1.1 print them, in²,
// from memory (M), and the percentage of full thread that their tap drills leave, which
// handbooks give as 69 to 84 for these (M).
func TestUnifiedThreads(t *testing.T) {
	areas := map[float64]float64{4: 0.0140, 5: 0.0175, 6: 0.0318, 8: 0.0524, 10: 0.0775, 12: 0.1419, 14: 0.182, 16: 0.226, 20: 0.334}
	for d, want := range areas {
		u, ok := UnifiedCoarse.Thread(d)
		if !ok || !strings.HasSuffix(u.Name, "UNC") {
			t.Fatalf("no inch thread for M%g: %+v", d, u)
		}
		if got := u.Stress / inch / inch; math.Abs(got-want) > 0.005*want+0.00005 {
			t.Errorf("%s: stress area %.4f in², want %.4f", u.Name, got, want)
		}
		// Full depth on a side 0.6495 of the pitch: ASME B1.1.
		if share := (u.Diameter - UnifiedCoarse.Core(d)) / (2 * 0.6495 * u.Pitch); share < 0.68 || share > 0.84 {
			t.Errorf("%s: the drill leaves %.0f %% of the thread", u.Name, 100*share)
		}
		// It goes through the clearance hole of the metric screw, and grade 8 bears its
		// preload: 0.7 of 640 N/mm² on the metric stress area, 0.7 of 130 ksi on its own.
		m, _ := ThreadFor(d)
		if hole := m.Diameter + 1; u.Diameter > hole-0.3 && d > 5 {
			t.Errorf("%s: %.2f mm does not go through the hole of %.1f", u.Name, u.Diameter, hole)
		}
		if 640*m.Stress > 130*6.895*u.Stress {
			t.Errorf("%s of grade 8 does not bear the preload of M%g 8.8", u.Name, d)
		}
		if got, want := UnifiedCoarse.Torque(d), m.Torque()*u.Diameter/d; math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s: %g N·mm, want %g", u.Name, got, want)
		}
	}
	for d, want := range map[float64]string{8: "5/16-18 UNC", 12: "1/2-13 UNC", 7: "M7"} {
		if got := UnifiedCoarse.Name(d); got != want {
			t.Errorf("in the place of M%g: %q, want %q", d, got, want)
		}
	}
	// As handbooks list them for sale (M).
	if a, b := MetricCoarse.Drill(8), MetricCoarse.Drill(10); a != 6.8 || b != 8.5 || UnifiedCoarse.Drill(8) != 0.257*inch {
		t.Errorf("drills %g, %g, %g", a, b, UnifiedCoarse.Drill(8))
	}
	if got := MetricCoarse.Name(8); got != "M8" || MetricCoarse.Core(8) != CoreHole(8) || MetricCoarse.Torque(8) == 0 {
		t.Errorf("metric: %q, core %g, torque %g", got, MetricCoarse.Core(8), MetricCoarse.Torque(8))
	}
}

func TestFraction(t *testing.T) {
	for _, c := range []struct {
		n, of int
		want  string
	}{{5, 8, "5/8"}, {8, 8, "1"}, {10, 8, "1 1/4"}, {16, 8, "2"}, {3, 16, "3/16"}, {22, 8, "2 3/4"}} {
		if got := Fraction(c.n, c.of); got != c.want {
			t.Errorf("%d/%d is %q, want %q", c.n, c.of, got, c.want)
		}
	}
}
