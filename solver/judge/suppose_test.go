package judge

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// What is supposed as the brief asks is what the station was judged by; each input
// has that once; and a turn during the lift never parts hand and handle farther, the
// positions being chosen anew.
func TestSuppositions(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 100
	f.Posture.LiftingTurn = 3 * specs.Degree // between those that are always told
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	path, _ := r.Requirement("hand-path")
	tilt, _ := r.Requirement("axis-tilt")
	asked := map[string]int{}
	for _, v := range r.Suppositions {
		if v.Of != len(r.People.Boundary) || v.Fit > v.Of || (v.Fit == v.Of) != (len(v.Fails) == 0) {
			t.Errorf("%s %g%s: %d of %d fit, %v fails", v.Key, v.Value, v.Word, v.Fit, v.Of, v.Fails)
		}
		if v.Asked {
			asked[v.Key]++
			if math.Abs(v.HandPath-path.Value) > 1e-9 || math.Abs(v.AxisTilt-tilt.Value) > 1e-9 {
				t.Errorf("%s as asked: %g mm and %g rad, the station's are %g and %g", v.Key, v.HandPath, v.AxisTilt, path.Value, tilt.Value)
			}
		}
		if v.Key == "people.axis_share" && v.Value == 0.64 && v.AxisTilt <= tilt.Value {
			t.Errorf("an axis share of 64 %% tilts no axis farther on a station made for 50 %%: %+v, %g rad as asked", v, tilt.Value)
		}
	}
	for _, key := range []string{"people.axis_share", "people.grip_rule", "posture.lifting_turn"} {
		if asked[key] != 1 {
			t.Errorf("%s is told as asked %d times", key, asked[key])
		}
	}
	if r.TurnTold != f.Posture.LiftingTurn {
		t.Errorf("told for a turn of %g rad", r.TurnTold)
	}
	for _, p := range r.People.Boundary {
		if p.Turning != p.HandPath {
			t.Errorf("%s: %g mm with the turn asked for, judged by %g", p.Person.Label, p.Turning, p.HandPath)
		}
		if p.Turning > p.Still+0.05 {
			t.Errorf("%s: %g mm turning, %g held still", p.Person.Label, p.Turning, p.Still)
		}
	}
}
