package cable

import (
	"math"
	"testing"

	"armwright/geometry/cam"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// Between sheaves that stand a little askew the cable is square to both radii where it
// leaves and where it meets.
func TestTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
		s, c := math.Sincos(draw("askew", -0.25, 0.25))
		from := cam.Sheave{Axis: r3.Vec{X: s, Y: c}, Radius: draw("radius", 30, 80), Centre: r3.Vec{X: draw("x", -100, 100), Y: draw("y", -15, 15), Z: draw("z", 300, 900)}}
		to := cam.Sheave{Axis: r3.Vec{Y: rapid.SampledFrom([]float64{1, -1}).Draw(t, "side")}, Radius: 48, In: r3.Vec{X: 48}}
		leave, meet := tangent(&from, &to)
		line := r3.Sub(meet, leave)
		for _, x := range []struct {
			s *cam.Sheave
			p r3.Vec
		}{{&from, leave}, {&to, meet}} {
			arm := r3.Sub(x.p, x.s.Centre)
			if math.Abs(r3.Norm(arm)-x.s.Radius) > 1e-9 || math.Abs(r3.Dot(arm, x.s.Axis)) > 1e-9 {
				t.Fatalf("%v is not on the sheave", x.p)
			}
			if off := r3.Dot(arm, line) / r3.Norm(arm) / r3.Norm(line); math.Abs(off) > 1e-4 {
				t.Fatalf("%v: the cable is %.2g off the tangent", x.p, off)
			}
			if r3.Dot(r3.Cross(x.s.Axis, arm), line) < 0 {
				t.Fatalf("%v: against the sheave's turn", x.p)
			}
		}
	})
}
