package cable

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// Tangent finds a line that touches the sheave's circle, and the turn from it down to
// the plumb line.
func TestTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
		radius := draw("radius", 30, 80)
		r := Route{Hang: r3.Vec{X: draw("x", -500, 500), Y: -300, Z: 600}, Rise: []float64{0}, radius: radius}
		from := r3.Add(r.Hang, r3.Vec{X: draw("dx", 200, 500), Y: draw("dy", -200, 200), Z: draw("dz", -100, 400)})
		turn, leave := r.Tangent(0, from)
		level := r3.Sub(from, r.Hang)
		level.Z = 0
		level = r3.Unit(level)
		centre := r3.Add(r.Hang, r3.Scale(radius, level))
		arm, line := r3.Sub(leave, centre), r3.Sub(leave, from)
		if math.Abs(r3.Norm(arm)-radius) > 1e-9 || math.Abs(r3.Dot(arm, line)) > 1e-6 {
			t.Fatalf("%v is no tangent", leave)
		}
		if across := r3.Cross(level, r3.Vec{Z: 1}); math.Abs(r3.Dot(across, arm)) > 1e-9 {
			t.Fatalf("out of the sheave's plane")
		}
		if want := math.Acos(-r3.Unit(line).Z); math.Abs(turn-want) > 1e-9 {
			t.Fatalf("turn %v, want %v", turn, want)
		}
	})
}
