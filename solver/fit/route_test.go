package fit

import (
	"math"
	"testing"

	"armwright/geometry/solid"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// The cable runs from the cam to the stack in one piece: each line is tangent to
// the sheaves at its ends, the radii keep the cable's bend, the fleet angle stays
// within the hard limit of 4 degrees (rope makers' tables, S), the redirect
// sheaves lie between floor and tower top, and what the cam draws in is what the
// stack rises.
func TestRoute(t *testing.T) {
	_, r := solved(t, "arm-pad-station")
	route := r.Resistance.Route
	if route == nil {
		t.Fatal("no route")
	}
	if len(route.Sheaves) != 5+1 {
		t.Fatalf("%d sheaves", len(route.Sheaves))
	}
	top := 0.0
	for _, p := range r.Station.Assembly.Parts {
		if p.Item == "tower-top" {
			_, high := solid.Bounds(p.Solid, p.Place)
			top = high.Z
		}
	}
	for i, s := range route.Sheaves {
		t.Logf("%-24s centre (%.0f, %.0f, %.0f) axis (%.3f, %.3f, %.3f) radius %.1f turn %.0f deg fleet %.2f deg",
			s.Name, s.Centre.X, s.Centre.Y, s.Centre.Z, s.Axis.X, s.Axis.Y, s.Axis.Z, s.Radius, s.Turn/specs.Degree, s.Fleet/specs.Degree)
		if s.Radius < r.Resistance.RequiredRadius {
			t.Errorf("%s: radius %.1f mm, the cable needs %.1f", s.Name, s.Radius, r.Resistance.RequiredRadius)
		}
		if s.Fleet > 1e-6 {
			t.Errorf("%s: fleet angle %.2f deg", s.Name, s.Fleet/specs.Degree)
		}
		if s.Centre.Z-s.Radius < 0 || s.Centre.Z+s.Radius > top {
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
	if route.CamFleet > 4*specs.Degree {
		t.Errorf("fleet angle at the cam %.2f deg", route.CamFleet/specs.Degree)
	}
	// The raised floating sheave stays below the top sheaves.
	raised := route.Sheaves[5].Centre.Z + r.Resistance.TakeUp + route.Sheaves[5].Radius
	if over := route.Sheaves[4].Centre.Z; raised > over+route.Sheaves[4].Radius {
		t.Errorf("the floating sheave reaches %.0f mm, the top sheave %.0f", raised, over)
	}
}
