package fit

import (
	"math"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
)

// Inertia does no work over the whole stroke, since the motion starts and ends
// at rest; it grows with the square of the cadence, and vanishes with it.
func TestInertia(t *testing.T) {
	r := solve(t, solvertest.Brief(t, "cam-study"))
	at := func(cadence float64) []float64 {
		f := r.Frame
		f.Resistance.Cadence = cadence
		c, err := judge.CheckPeople(f, judge.Random(f.People))
		if err != nil {
			t.Fatal(err)
		}
		return c.Resistance.Heavy.Inertia
	}
	one, two, none := at(10), at(20), at(0)
	work, most := 0.0, 0.0
	step := r.Resistance.Angles[1] - r.Resistance.Angles[0]
	for i, v := range one {
		if math.Abs(two[i]-4*v) > 1e-9*math.Abs(two[i]) || none[i] != 0 {
			t.Fatalf("at cadence 0, 10, 20: %g, %g, %g", none[i], v, two[i])
		}
		weight := step
		if i == 0 || i == len(one)-1 {
			weight /= 2
		}
		work += weight * v
		most = math.Max(most, math.Abs(v))
	}
	if span := step * float64(len(one)-1); math.Abs(work) > 2e-3*most*span {
		t.Errorf("inertia does %g N·mm of work, its peak over the stroke would do %g", work, most*span)
	}
}
