package drive

import (
	"math"
	"testing"

	"armwright/geometry/linkage"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// countered is the lever example with a way of choosing the counterweight,
// designed for its station.
func countered(t *testing.T, way string) (*Designer, *specs.Geometry, State) {
	b := solvertest.Brief(t, "reclined-levers")
	b.Resistance.Counter = way
	return designed(t, b, "reclined-levers")
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
			t.Errorf("%.3g N·mm left at %.0f deg", m, s.Angles[i]/specs.Degree)
		}
	}
}

// After the counterweight that follows the curve, what is left of the arm's
// moment is a share of the curve's own harmonic, so that a lever misses the curve
// alike at every load; and it is lighter than the balancing one, being the
// shorter way from the arm's moment to that line than to its origin.
func TestCurveCounterweight(t *testing.T) {
	s, g, d := countered(t, "curve")
	left := linkage.NearestHarmonic(s.Angles, d.Gravity)
	curve := linkage.NearestHarmonic(s.Angles, s.Shape)
	value, at := left.Peak()
	_, want := curve.Peak()
	if off := math.Abs(math.Remainder(at-want, 2*math.Pi)); off > 1e-6 || value <= 0 {
		t.Errorf("the arm's moment of %.0f N·mm peaks at %.3f deg, the curve's harmonic at %.3f", value, at/specs.Degree, want/specs.Degree)
	}
	_, balanced, _ := countered(t, "balance")
	if g.Counterweight.Mass >= balanced.Counterweight.Mass {
		t.Errorf("%.2f kg, to balance %.2f", g.Counterweight.Mass, balanced.Counterweight.Mass)
	}
	_, _, bare := countered(t, "none")
	t.Logf("light, middle, heavy load: %.2f %.2f %.2f %%; without %.2f %.2f %.2f %%; %.2f kg, %.1f deg",
		100*d.Light.RMS, 100*d.Middle.RMS, 100*d.Heavy.RMS, 100*bare.Light.RMS, 100*bare.Middle.RMS, 100*bare.Heavy.RMS, g.Counterweight.Mass, g.Counterweight.Phase/specs.Degree)
	if math.Abs(d.Light.RMS-d.Heavy.RMS) > 1e-3 || d.Light.RMS >= bare.Light.RMS {
		t.Errorf("rms %.4f at the light load, %.4f at the heavy; without a counterweight %.4f at the light", d.Light.RMS, d.Heavy.RMS, bare.Light.RMS)
	}
}

// A weight that has the arm's own moment the other way leaves nothing of it.
func TestArmWithoutWeight(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s, g := designerFor(t, &f.Asked), f.Geometry
	h := g.Handle
	g.Counterweight = &specs.Counterweight{Mass: h.ArmMass * h.ArmCentre / counterRadius, Radius: counterRadius}
	for _, v := range s.GravityMoments(&g) {
		if math.Abs(v) > 1e-9 {
			t.Fatalf("counterweighted arm still weighs %g N·mm", v)
		}
	}
}
