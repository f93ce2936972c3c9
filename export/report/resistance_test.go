package report

import (
	"math"
	"strings"
	"testing"

	"armwright/export/stationtest"
)

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
