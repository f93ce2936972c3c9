package fit

import (
	"math"
	"testing"

	"armwright/geometry/linkage"
	"armwright/specs"
)

// countered is the lever example with a way of choosing the counterweight,
// designed for its first geometry.
func countered(t *testing.T, way string) (*program, *specs.Geometry, drive) {
	b := example(t, "reclined-levers")
	b.Resistance.Counter = way
	return designed(t, b)
}

// Balanced, the empty arm stays where it is left: moments about the axis are
// equal, m1 r1 = m2 r2.
func TestBalancingCounterweight(t *testing.T) {
	s, g, d := countered(t, "balance")
	c := g.Counterweight
	if got, want := c.Mass*c.Radius, g.Handle.ArmMass*g.Handle.ArmCentre; math.Abs(got-want) > 1e-9 {
		t.Errorf("counterweight %.3f kg·mm, arm %.3f", got, want)
	}
	for i, m := range d.Gravity {
		if math.Abs(m) > 1e-6 {
			t.Errorf("%.3g N·mm left at %.0f deg", m, s.angles[i]/deg)
		}
	}
}

// After the counterweight that follows the curve, what is left of the arm's
// moment is a share of the curve's own harmonic, so that a lever misses the curve
// alike at every load; and it is lighter than the balancing one, being the
// shorter way from the arm's moment to that line than to its origin.
func TestCurveCounterweight(t *testing.T) {
	s, g, d := countered(t, "curve")
	left := linkage.NearestHarmonic(s.angles, d.Gravity)
	curve := linkage.NearestHarmonic(s.angles, s.shape)
	value, at := left.Peak()
	_, want := curve.Peak()
	if off := math.Abs(math.Remainder(at-want, 2*math.Pi)); off > 1e-6 || value <= 0 {
		t.Errorf("the arm's moment of %.0f N·mm peaks at %.3f deg, the curve's harmonic at %.3f", value, at/deg, want/deg)
	}
	_, balanced, _ := countered(t, "balance")
	if g.Counterweight.Mass >= balanced.Counterweight.Mass {
		t.Errorf("%.2f kg, to balance %.2f", g.Counterweight.Mass, balanced.Counterweight.Mass)
	}
	_, _, bare := countered(t, "none")
	t.Logf("light, middle, heavy load: %.2f %.2f %.2f %%; without %.2f %.2f %.2f %%; %.2f kg, %.1f deg",
		100*d.Light.RMS, 100*d.Middle.RMS, 100*d.Heavy.RMS, 100*bare.Light.RMS, 100*bare.Middle.RMS, 100*bare.Heavy.RMS, g.Counterweight.Mass, g.Counterweight.Phase/deg)
	if math.Abs(d.Light.RMS-d.Heavy.RMS) > 1e-3 || d.Light.RMS >= bare.Light.RMS {
		t.Errorf("rms %.4f at the light load, %.4f at the heavy; without a counterweight %.4f at the light", d.Light.RMS, d.Heavy.RMS, bare.Light.RMS)
	}
}
