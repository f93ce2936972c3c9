package stock

import (
	"math"
	"testing"
)

// Masses of a thousand pieces as lists of hexagon screws, nuts and washers print them,
// kg, from memory (M): M8 x 25 12.0 to 13.4, M12 x 40 43 to 49, nut M8 5.1, M12 16.3,
// washer M8 1.83, M12 6.3; torque of M8 and M12, class 8.8, slightly oiled, 21 to 25
// and 72 to 86 N·m.
func TestThreads(t *testing.T) {
	for _, c := range []struct {
		d, length               float64
		screw, nut, washer, nmm [2]float64
	}{
		{8, 25, [2]float64{11.5, 14}, [2]float64{4.8, 5.8}, [2]float64{1.7, 2.0}, [2]float64{20.5e3, 25.5e3}},
		{12, 40, [2]float64{42, 50}, [2]float64{14, 17.5}, [2]float64{5.7, 6.6}, [2]float64{71e3, 87e3}},
	} {
		s, ok := ThreadFor(c.d)
		if !ok {
			t.Fatalf("no M%g", c.d)
		}
		for _, v := range []struct {
			what string
			got  float64
			want [2]float64
		}{{"screw", 1000 * s.ScrewMass(c.length), c.screw}, {"nut", 1000 * s.NutMass(), c.nut}, {"washer", 1000 * s.WasherMass(), c.washer}, {"torque", s.Torque(), c.nmm}} {
			if !(v.got >= v.want[0] && v.got <= v.want[1]) {
				t.Errorf("M%g %s: %g, want %v", c.d, v.what, v.got, v.want)
			}
		}
	}
	// Tap drills of ISO 2306 (M).
	for d, want := range map[float64]float64{4: 3.3, 5: 4.2, 6: 5, 8: 6.75, 10: 8.5, 12: 10.25, 14: 12, 16: 14, 20: 17.5} {
		if got := CoreHole(d); math.Abs(got-want) > 1e-9 {
			t.Errorf("core hole of M%g is %g, want %g", d, got, want)
		}
	}
	if _, ok := ThreadFor(7); ok {
		t.Error("M7 is listed")
	}
}
