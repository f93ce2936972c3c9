package report

import (
	"math"
	"slices"
	"testing"

	"armwright/export/stationtest"
)

// The plotted paths carry what the solver found by itself: the largest distance
// of hand and handle on the station, and on one straight common axis. A hand on
// a common axis drifts inward by the oblique hinge's law,
// L (sin A(0) - sin A(θ)), sin A = sinγ cosβ + cosγ sinβ cosθ, whatever the axis
// does not take up.
func TestHandPaths(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "reclined-levers"} {
		r := written(t, kind)
		if len(r.Elbow.Paths) != 3 {
			t.Fatalf("%s: %d paths", kind, len(r.Elbow.Paths))
		}
		last := 0.0
		for i := range r.Elbow.Paths {
			p := &r.Elbow.Paths[i]
			who := slices.IndexFunc(r.People.Boundary, func(q Person) bool { return q.Label == p.Person })
			if who < 0 {
				t.Fatalf("%s: nobody is %s", kind, p.Person)
			}
			q := r.People.Boundary[who]
			if q.Stature < last {
				t.Errorf("%s: %s is not taller than the one before", kind, p.Person)
			}
			last = q.Stature
			near(t, kind+", "+p.Person+": handle radius", p.Here.HandleRadial, q.HandleRadius, 1e-9)
			near(t, kind+", "+p.Person+": here", slices.Max(p.Here.gaps()), q.HandPath, 3e-4)
			near(t, kind+", "+p.Person+": common axis", slices.Max(p.Common.gaps()), q.CommonPath, 3e-4)

			hinge := stationtest.Result(t, kind).People.Boundary[who].Body.Hinge // as the grip leaves it
			sinA := func(deg float64) float64 {
				return math.Sin(hinge.Valgus)*math.Cos(hinge.Tilt) + math.Cos(hinge.Valgus)*math.Sin(hinge.Tilt)*math.Cos(deg*math.Pi/180)
			}
			a := r.Resistance.Angles
			n := len(a) - 1
			length := math.Hypot(p.Common.Radial[0], p.Common.Axial[0]) // the forearm, from the elbow
			near(t, kind+", "+p.Person+": drift", p.Common.Axial[0]-p.Common.Axial[n], length*(sinA(a[0])-sinA(a[n])), 0.02)
		}
	}
	if got := written(t, "cam-study").Elbow.Paths; len(got) != 0 {
		t.Errorf("a cam study has %d hand paths", len(got))
	}
}
