package drive

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// Hand calculation: 2 kg at 200 mm level ahead resist with 3.923 N·m.
func TestEccentricMoment(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	g := designerFor(t, &b.Asked).BenchRig()
	h := eccentricMoment(g.Pivots.MeanAxis(), specs.Eccentric{Mass: 2, Radius: 200})
	if v := h.At(0); math.Abs(v-2*9.80665*200) > 1 {
		t.Errorf("moment %g", v)
	}
}

// A point mass m lifted by a round drum of radius h: torque m h² θ″. Hand
// calculation of the motion: 15 a minute over 120 degrees, θ″ = (2π/4)²·60°
// = 2.584 rad/s² at the start.
func TestMotion(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	s := designerFor(t, &b.Asked)
	m := motion{middle: 1, swing: 60 * specs.Degree, rate: 2 * math.Pi / 4}
	acceleration, speed2 := m.at(1 - 60*specs.Degree)
	if math.Abs(acceleration-2.5839) > 1e-3 || speed2 > 1e-12 {
		t.Errorf("at the start %g rad/s², speed² %g", acceleration, speed2)
	}
	if math.Abs(s.motion().rate-2*math.Pi*15/60) > 1e-12 {
		t.Errorf("15 a minute is %g rad/s", s.motion().rate)
	}
}
