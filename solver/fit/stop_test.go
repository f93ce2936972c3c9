package fit

import (
	"context"
	"errors"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// A search that is stopped gives the best station that it knows: once there is one,
// however early or late it is stopped, there is one, and it is what check says of it.
func TestStoppedSearchKeepsTheBest(t *testing.T) {
	testdata.Long(t)
	b := solvertest.Brief(t, "arm-pad-station")
	steps := 0
	whole, err := Solve(context.Background(), b, &Options{Progress: func(Progress) { steps++ }, Starts: 1, Terse: true})
	if err != nil || whole.Verdict != judge.Met || steps < 20 {
		t.Fatalf("whole search: %d steps, %v", steps, err)
	}
	known := 0
	for _, at := range []int{1, steps / 4, steps / 2, 3 * steps / 4, steps - 1} {
		ctx, stop := context.WithCancel(context.Background())
		n := 0
		r, err := Solve(ctx, b, &Options{Starts: 1, Terse: true, Progress: func(Progress) {
			if n++; n == at {
				stop()
			}
		}})
		stop()
		if err == nil {
			continue // it was at its end
		}
		if !errors.Is(err, context.Canceled) {
			t.Fatalf("stopped at step %d: %v", at, err)
		}
		if r == nil {
			if known > 0 {
				t.Errorf("stopped at step %d there is no station, but there was one before", at)
			}
			continue
		}
		known++
		if r.Verdict == judge.Infeasible || len(r.Requirements) == 0 || r.Search.Status != "stopped" {
			t.Errorf("stopped at step %d: verdict %s, %d requirements, search %q", at, r.Verdict, len(r.Requirements), r.Search.Status)
		}
		again, err := judge.CheckPeople(r.Frame, judge.Random(b.People))
		if err != nil || again.Verdict != r.Verdict || len(again.Requirements) != len(r.Requirements) {
			t.Errorf("stopped at step %d: check says %v, %v", at, again, err)
		}
	}
	if known == 0 {
		t.Errorf("in %d steps no station was known", steps)
	}
}
