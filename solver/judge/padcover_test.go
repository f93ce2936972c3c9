package judge

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
)

// The least room beside an upper arm is worked out again from the persons' sizes: pad and
// elbow in the side view at one place, the arm turned in by what the shoulder is narrower.
func TestPadCover(t *testing.T) {
	for _, width := range []float64{120, 180} {
		f := solvertest.Frame(t, "arm-pad-station")
		f.Geometry.Pad.Width = width
		r, err := Check(f)
		if err != nil {
			t.Fatal(err)
		}
		want, who := math.Inf(1), ""
		for _, p := range r.People.Boundary {
			in := f.Geometry.Pivots.Spacing/2 - p.Body.ShoulderHalf
			spread := math.Abs(in) / math.Sqrt(p.Body.UpperArm*p.Body.UpperArm-in*in) // tangent
			if room := width/2 - p.Person.UpperArmGirth/(2*math.Pi) - spread*f.Geometry.Pad.Far; room < want {
				want, who = room, p.Person.Label
			}
		}
		q, ok := r.Requirement("pad-cover")
		if !ok || math.Abs(q.Value-want) > 1e-6 || q.Person != who || q.Met != (want >= 0) {
			t.Errorf("pads of %g mm: %.3f mm beside %s, met %v; want %.3f beside %s", width, q.Value, q.Person, q.Met, want, who)
		}
	}
}
