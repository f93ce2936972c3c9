package solid

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// The gap to a box against a dense search along the segment, with points of
// the box found by clamping each coordinate.
func TestBoxGap(t *testing.T) {
	coordinate := rapid.Float64Range(-500, 500)
	vector := rapid.Custom(func(t *rapid.T) r3.Vec {
		return r3.Vec{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y"), Z: coordinate.Draw(t, "z")}
	})
	rapid.Check(t, func(t *rapid.T) {
		half := [3]float64{rapid.Float64Range(0, 200).Draw(t, "a"), rapid.Float64Range(0, 200).Draw(t, "b"), rapid.Float64Range(0, 200).Draw(t, "c")}
		b := Box{Centre: vector.Draw(t, "centre"), Axes: [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}, Half: half}
		p, q := vector.Draw(t, "p"), vector.Draw(t, "q")
		const n = 2000
		least := math.Inf(1)
		for i := range n + 1 {
			x := r3.Sub(r3.Add(p, r3.Scale(float64(i)/n, r3.Sub(q, p))), b.Centre)
			clamp := func(v, h float64) float64 { return v - math.Max(-h, math.Min(h, v)) }
			least = math.Min(least, r3.Norm(r3.Vec{X: clamp(x.X, half[0]), Y: clamp(x.Y, half[1]), Z: clamp(x.Z, half[2])}))
		}
		got := math.Max(0, b.Gap(p, q)) // below zero where they meet
		if got > least+1e-9 || got < least-r3.Norm(r3.Sub(q, p))/n {
			t.Fatalf("gap %g, dense search %g", got, least)
		}
	})
}

// Gaps of segments to the box of an upright tube.
func TestUprightBoxGap(t *testing.T) {
	b := Box{Centre: r3.Vec{X: 100, Y: -50, Z: 360}, Axes: [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}, Half: [3]float64{30, 20, 300}}
	// 60 along x, 40 along y: 70 in front of the face at x = 130, 80 outside at y = -70.
	if g := b.Gap(r3.Vec{X: 200, Y: -50, Z: 300}, r3.Vec{X: 200, Y: -50, Z: 400}); math.Abs(g-70) > 1e-9 {
		t.Errorf("in front: %g", g)
	}
	if g := b.Gap(r3.Vec{X: 100, Y: -150, Z: 300}, r3.Vec{X: 110, Y: -150, Z: 300}); math.Abs(g-80) > 1e-9 {
		t.Errorf("beside: %g", g)
	}
	if g := b.Gap(r3.Vec{X: 0, Y: -50, Z: 300}, r3.Vec{X: 300, Y: -50, Z: 300}); g >= 0 {
		t.Errorf("through: %g", g)
	}
}
