package judge

import (
	"math"
	"testing"

	"armwright/geometry/posture"
	"armwright/solver/seat"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r3"
)

// The range of torque asked for is judged at both ends of the loads, by the level of
// the curve that fits each best.
func TestTorqueRangeIsJudged(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 100
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := r.Requirement("torque-range"); ok {
		t.Error("a brief that asks for no torque is judged by it")
	}
	peak := func(target []float64) float64 { // of the curve, whose own peak is among the angles
		most := 0.0
		for _, v := range target {
			most = math.Max(most, v)
		}
		return most
	}
	light, heavy := peak(r.Resistance.Light.Target), peak(r.Resistance.Heavy.Target)
	for _, c := range []struct {
		from, to float64
		value    float64
		at       string
		met      bool
	}{
		{light * 1.1, heavy * 0.9, 1 / 1.1, "light load", true},
		{light * 1.1, heavy * 1.05, 1.05, "heavy load", false},
		{light * 0.8, heavy * 0.9, 1.25, "light load", false},
		{0, heavy * 0.9, 0.9, "heavy load", true},
	} {
		f.Resistance.Torque.From, f.Resistance.Torque.To = c.from, c.to
		r, err := Check(f)
		if err != nil {
			t.Fatal(err)
		}
		q, ok := r.Requirement("torque-range")
		if !ok || math.Abs(q.Value-c.value) > 0.01 || q.Met != c.met {
			t.Errorf("%g to %g N·mm: %+v, want %g %v", c.from, c.to, q, c.value, c.met)
		}
	}
}

// The shoulder is square where the arm is level before an upright trunk, and flexed by what
// the trunk leans back less (plane angles).
func TestShoulderFlexion(t *testing.T) {
	sin, cos := math.Sincos(20 * math.Pi / 180)
	for _, c := range []struct {
		hip, proximal r3.Vec
		want          float64
	}{
		{r3.Vec{Z: -400}, r3.Vec{X: -1}, 90},
		{r3.Vec{Z: -400}, r3.Vec{Z: 1}, 0},
		{r3.Vec{X: 400 * sin, Z: -400 * cos}, r3.Vec{X: -1}, 70},
	} {
		p := seat.Person{Pose: posture.Pose{Hip: c.hip, Proximal: c.proximal}}
		if got := shoulderFlexion(&p) * 180 / math.Pi; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %g deg, want %g", c.proximal, got, c.want)
		}
	}
}
