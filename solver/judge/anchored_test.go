package judge

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// Anchored stations have no rows of tipping; the pull of the anchors is told,
// and that they are a must.
func TestAnchored(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 100
	const tilt = 15 * specs.Degree
	f.Limits.TiltOccupied = tilt
	base := *f.Geometry.Base
	base.Rear = 0
	f.Geometry.Base = &base
	loose, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	if q, ok := loose.Requirement("tilt-occupied"); !ok || q.Met {
		t.Fatalf("a station with rear feet below the pivots holds: %+v", q)
	}
	f.Space.Anchor = "yes"
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"tilt-empty", "tilt-occupied", "tilt-entry"} {
		if _, ok := r.Requirement(id); ok {
			t.Errorf("anchored: %s is asked for", id)
		}
	}
	// The pull by moments about the edge that tips first: two anchors a side.
	least := r.Least
	reach := base.Front - base.Rear - 2*44 // between feet, 44 mm from the ends
	inside := math.Tan(least.Tilt) * least.Z
	pull := least.Mass * 9.80665 * (least.Z*math.Tan(tilt) - inside) / reach / 2
	if least.Edge != "rear" || r.Balance.AnchorPull < pull-1e-6 || pull <= 0 {
		t.Errorf("anchors pull %.1f N, the least tilt over the %s alone asks for %.1f", r.Balance.AnchorPull, least.Edge, pull)
	}
	if !r.Balance.Anchored {
		t.Error("the result does not say so")
	}
}

// Every joint is told, each with a limit and a source, in both postures.
func TestProtectionTellsEveryJoint(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 100
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, p := range r.Protection {
		seen[p.Joint] = true
		if p.Source == "" || p.Person == "" || math.IsInf(p.Value, 0) || p.Limit == 0 {
			t.Errorf("%+v", p)
		}
		if p.Met != (p.Value <= p.Limit+1e-9) {
			t.Errorf("%s: %g against %g: met %v", p.What, p.Value, p.Limit, p.Met)
		}
	}
	for _, joint := range []string{"elbow", "wrist", "shoulder", "spine", "head and neck"} {
		if !seen[joint] {
			t.Errorf("nothing about the %s", joint)
		}
	}
}
