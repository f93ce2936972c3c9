package judge

import (
	"reflect"
	"testing"

	"armwright/solver/build"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// Whatever was judged before, a station is judged as if it were the first: loads dragged
// one after the other, then the heaviest load, the limits, the geometry.
func TestNothingRecalledWrongly(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	j, err := New(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	recalled := 0
	for i, change := range []func(*specs.Frame){
		func(*specs.Frame) {},
		func(f *specs.Frame) { f.Resistance.Load.Middle += 3 },
		func(f *specs.Frame) { f.Resistance.Load.Light -= 2; f.Resistance.Load.Middle -= 1 },
		func(f *specs.Frame) { f.Resistance.Load.Heavy += 5 },
		func(f *specs.Frame) { f.Limits.HandPath /= 2 },
		func(f *specs.Frame) { f.Posture.LiftingTurn += 0.02 },
		func(f *specs.Frame) { f.Geometry = *Clone(&f.Geometry); f.Geometry.Seat.Lowest += 4 },
		func(f *specs.Frame) { f.Geometry = *Clone(&f.Geometry); f.Geometry.Pivots.Axes[0].Toe += 0.01 },
		func(f *specs.Frame) { f.Resistance.Load.Middle += 1 },
	} {
		change(&f)
		f = f.Quantised()
		if j, err = j.For(&f.Asked); err != nil {
			t.Fatal(err)
		}
		before := j.recall.last
		got, err := j.Check(f, Persons{})
		if err != nil {
			t.Fatal(err)
		}
		if j.recall.last == before {
			recalled++
		}
		want, err := CheckPeople(f, Persons{})
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(told(got), told(want)) {
			t.Errorf("after change %d another result", i)
		}
	}
	if recalled != 3 {
		t.Errorf("%d of the three changes of a lighter load alone were spared", recalled)
	}
}

// told is a result without the assembly, whose profiles are shared between stations.
func told(r *Result) Result {
	v := *r
	v.Station = build.Station{}
	return v
}
