package fit

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// The cable runs from the cam to the stack in one piece: each line is tangent to
// the sheaves at its ends, the radii keep the cable's bend, the fleet angle stays
// within the hard limit of 4 degrees (rope makers' tables, S), the redirect
// sheaves lie between base and tower top and clear the stack, and what the cam
// draws in is what the stack rises.
func TestRoute(t *testing.T) {
	r := solve(t, solvertest.Brief(t, "arm-pad-station"))
	route := r.Resistance.Route
	if route == nil {
		t.Fatal("no route")
	}
	if len(route.Sheaves) != 4+1 {
		t.Fatalf("%d sheaves", len(route.Sheaves))
	}
	l := r.Layout
	for i, s := range route.Sheaves {
		t.Logf("%-24s centre (%.0f, %.0f, %.0f) axis (%.3f, %.3f, %.3f) radius %.1f turn %.0f deg fleet %.2f deg",
			s.Name, s.Centre.X, s.Centre.Y, s.Centre.Z, s.Axis.X, s.Axis.Y, s.Axis.Z, s.Radius, s.Turn/specs.Degree, s.Fleet/specs.Degree)
		if s.Radius < r.Resistance.RequiredRadius {
			t.Errorf("%s: radius %.1f mm, the cable needs %.1f", s.Name, s.Radius, r.Resistance.RequiredRadius)
		}
		if s.Fleet > 1e-6 {
			t.Errorf("%s: fleet angle %.2f deg", s.Name, s.Fleet/specs.Degree)
		}
		if s.Centre.Z-s.Radius < 0 || s.Centre.Z+s.Radius > l.TowerTall {
			t.Errorf("%s stands at %.0f mm", s.Name, s.Centre.Z)
		}
		if i == 0 {
			continue
		}
		before := route.Sheaves[i-1]
		line := r3.Sub(s.In, before.Out)
		for _, v := range []float64{r3.Dot(line, r3.Sub(s.In, s.Centre)), r3.Dot(line, r3.Sub(before.Out, before.Centre))} {
			if math.Abs(v) > 1e-6*r3.Norm(line)*s.Radius {
				t.Errorf("line from %s to %s is no tangent: %g", before.Name, s.Name, v)
			}
		}
		if along := r3.Dot(r3.Cross(s.Axis, r3.Sub(s.In, s.Centre)), line); along <= 0 {
			t.Errorf("%s turns against the cable", s.Name)
		}
	}
	t.Logf("fleet angle at the cam %.2f deg, guide sheave swivels %.1f deg, cable %.0f mm an arm", route.CamFleet/specs.Degree, route.Sheaves[0].Swivel/specs.Degree, route.Length)
	if q, _ := r.Requirement("fleet-angle"); route.CamFleet > 4*specs.Degree || q.Value != route.CamFleet {
		t.Errorf("fleet angle at the cam %.2f deg, the requirement's %.2f", route.CamFleet/specs.Degree, q.Value/specs.Degree)
	}
	if y := -route.Sheaves[1].Centre.Y + route.Sheaves[1].Radius; y > 550 {
		t.Errorf("the outer redirect sheave reaches %.0f mm from the middle, half the space is 550", y)
	}
	// The rising cable passes outside the stack and inside the uprights.
	if y := -route.Sheaves[2].Out.Y; y < l.StackLong/2 || y > l.TowerHalf()-l.Side/2 {
		t.Errorf("the rising cable stands %.0f mm from the middle", y)
	}
	// The raised floating sheave stays below the top sheave.
	raised := route.Sheaves[4].Centre.Z + r.Resistance.TakeUp + route.Sheaves[4].Radius
	if top := route.Sheaves[3].Centre.Z; raised > top+route.Sheaves[3].Radius {
		t.Errorf("the floating sheave reaches %.0f mm, the top sheave %.0f", raised, top)
	}
}
