package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/export/stationtest"
)

// A drag of 10 N on a stack's guides counts as 10 N hung on the stack, of which either
// arm's cable has half: by virtual work ratio times moment arm times 5 N of torque, a
// bench's one cable the whole.
func TestDragOnTheGuides(t *testing.T) {
	for kind, share := range map[string]float64{"arm-pad-station": 0.5, "cam-study": 1} {
		r := stationtest.Result(t, kind)
		c := r.Frame.Geometry.Cam
		want := 10 * share * c.Ratio * slices.Max(c.Law)
		if got := dragTorque(&r.Resistance, 10); math.Abs(got-want) > 0.01*want {
			t.Errorf("%s: %.1f N mm, want %.1f", kind, got, want)
		}
		told := false
		for _, a := range New(r, "p", nil).Assumptions {
			told = told || a.What == "guide and bearing friction" && strings.Contains(a.Value, fmt.Sprintf("up to %.2f N·m", want/1000)) && strings.Contains(a.Mark, "M")
		}
		if !told {
			t.Errorf("%s: %.1f N·m is not told", kind, want/1000)
		}
	}
}

// What the report says of friction, inertia and work agrees with itself: going
// up and coming down straddle the torque at rest by the square of the cable's
// efficiency, both works are one, and each departure lies in the range.
func TestEffortAgreesWithItself(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "cam-study"} {
		r := New(stationtest.Result(t, kind), "p", nil)
		d := &r.Resistance
		if len(d.Loads) != 3 || len(d.Levels) != 2 || d.Levels[0].Load >= d.Levels[1].Load {
			t.Fatalf("%s: %d loads, levels %+v", kind, len(d.Loads), d.Levels)
		}
		for _, l := range d.Loads {
			for i := range d.Angles {
				rest := (l.Delivered[i] - d.Gravity[i]) * (1 + d.DeadMass/l.Mass) // hangs on the cable
				other := l.Delivered[i] - rest
				up, down := l.Lifting[i]-other, l.Lowering[i]-other
				if math.Abs(up*down-rest*rest) > 2e-3*rest*rest || up < down {
					t.Fatalf("%s, %s at %.0f deg: up %.4f, at rest %.4f, down %.4f", kind, l.Load, d.Angles[i], up, rest, down)
				}
			}
		}
		if e := d.Energy; e.Stack == nil || math.Abs(*e.Stack-*e.Torque) > 1e-3**e.Stack {
			t.Errorf("%s: energy %+v", kind, e)
		}
		for _, v := range d.Departures {
			if v.From < d.Angles[0] || v.To > d.Angles[len(d.Angles)-1] || v.Worst < v.From || v.Worst > v.To || v.Cause == "" {
				t.Errorf("%s: %+v", kind, v)
			}
		}
		if (d.Route != nil) != (kind == "arm-pad-station") {
			t.Errorf("%s: route %+v", kind, d.Route)
		}
		if text := strings.Join(EffortSentences(r), "\n"); !strings.Contains(text, "work of the torque measured on the outline") {
			t.Errorf("%s: %s", kind, text)
		}
	}
}
