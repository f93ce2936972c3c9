package fit

import (
	"context"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// What is quick must say the same as what is whole, and a search begun from the
// answer must find it again.
func TestJudgeAndWarmStart(t *testing.T) {
	testdata.Long(t)
	b, r := solved(t, "arm-pad-station")
	j, err := judge.New(&r.Frame.Asked)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := j.Frame("x", r.Frame.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	quick, err := j.Margins(&r.Frame.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(whole.Requirements, r.Requirements) {
		t.Errorf("solved %v, judged %v", r.Requirements, whole.Requirements)
	}
	// How persons are held is not asked of margins alone.
	asked := slices.DeleteFunc(slices.Clone(r.Requirements), func(q judge.Requirement) bool { return q.ID == "contact" })
	if len(quick) != len(asked) || len(asked) != len(r.Requirements)-1 {
		t.Fatalf("%d requirements, want %d", len(quick), len(asked))
	}
	for i, q := range asked {
		q.Case = require.Phrase{}
		if !reflect.DeepEqual(quick[i], q) {
			t.Errorf("%s: judged %v, quickly %v", q.ID, q, quick[i])
		}
	}

	again, err := Solve(context.Background(), b, &Options{Start: &r.Frame.Geometry, Starts: 1})
	if err != nil {
		t.Fatal(err)
	}
	if again.Verdict != judge.Met || len(again.Search.Axes) != 1 || again.Search.Iterations >= r.Search.Iterations {
		t.Errorf("from the answer: %s after %d iterations, %+v; from nothing %d iterations", again.Verdict, again.Search.Iterations, again.Search.Axes, r.Search.Iterations)
	}
}

// A judge made from another must judge as one made afresh.
func TestJudgeForAnotherBrief(t *testing.T) {
	b, r := solved(t, "arm-pad-station")
	first, err := judge.New(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(*specs.Asked){
		"other limit, same people": func(a *specs.Asked) { a.Limits.HandPath = 12; a.Posture.GripRotation = 0.5 },
		"other people":             func(a *specs.Asked) { a.People.Low = 0.1 },
	} {
		a := b.Asked
		change(&a)
		derived, err := first.For(&a)
		if err != nil {
			t.Fatal(err)
		}
		afresh, err := judge.New(&a)
		if err != nil {
			t.Fatal(err)
		}
		got, err := derived.Margins(&r.Frame.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		want, err := afresh.Margins(&r.Frame.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, want) || reflect.DeepEqual(got, r.Requirements) {
			t.Errorf("%s: %v, want %v, which differ from before", name, got, want)
		}
	}
}

// What the quick judgement passes over because it cannot govern must not govern:
// on stations moved off their answer every requirement reads as in full.
func TestMarginsPassOverNothingThatGoverns(t *testing.T) {
	for _, name := range testdata.Few(1, "arm-pad-station", "reclined-levers", "reclined-linkage") {
		t.Run(name, func(t *testing.T) {
			n := 3
			if testdata.IsLong() {
				n = 8
			}
			frame := solvertest.Frame(t, name)
			asked := frame.Asked
			asked.People.Carrying.Sides = 2 * specs.Degree // the arms differ
			for _, a := range []specs.Asked{frame.Asked, asked} {
				j, err := NewProgram(&a)
				if err != nil {
					t.Fatal(err)
				}
				rng := rand.New(rand.NewPCG(1, 2))
				for range n {
					g := judge.Clone(&frame.Geometry)
					for _, v := range j.Variables(g) {
						*v.at = max(v.low, min(v.high, *v.at+v.scale*(2*rng.Float64()-1)))
					}
					j.derive(g)
					f := judge.FrameFor("x", &a, g)
					whole, err := j.Check(f, judge.Persons{})
					if err != nil {
						t.Fatal(err)
					}
					quick, err := j.Margins(&f.Geometry)
					if err != nil {
						t.Fatal(err)
					}
					// Who holds the load is looked at in a verdict alone.
					asked := slices.DeleteFunc(slices.Clone(whole.Requirements), func(q judge.Requirement) bool { return q.ID == "contact" })
					if len(asked) != len(quick) {
						t.Fatalf("%d requirements, quickly %d", len(asked), len(quick))
					}
					for i, q := range asked {
						q.Case = require.Phrase{}
						if !reflect.DeepEqual(quick[i], q) {
							t.Errorf("%s: %v, quickly %v", q.ID, q, quick[i])
						}
					}
				}
			}
		})
	}
}
