package station

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// [30] of reference/standards.md: ISO 13854:2017 table 1 (S), exact. A gap one
// millimetre short does not admit the part.
func TestLeastGaps(t *testing.T) {
	for p, want := range map[Part]float64{Finger: 25, Toes: 50, Hand: 100, WholeArm: 120, Foot: 120, Leg: 180, Head: 300, Trunk: 500} {
		if got := p.LeastGap(); got != want {
			t.Errorf("%v: %g mm, want %g", p, got, want)
		}
	}
	for gap, want := range map[float64]Part{25: Finger, 49: Finger, 50: Toes, 99: Toes, 100: Hand, 119: Hand, 120: Foot, 180: Leg, 299: Leg, 300: Head, 500: Trunk, 9999: Trunk} {
		if got, ok := Admits(gap); got != want || !ok {
			t.Errorf("%g mm admits %v, want %v", gap, got, want)
		}
	}
	if _, ok := Admits(24.9); ok {
		t.Error("24.9 mm admits something")
	}
}

// [31] ISO 13857:2019 table 4 (second hand), exact.
func TestSafetyDistances(t *testing.T) {
	for _, v := range []struct {
		shape   Opening
		e, want float64
	}{
		{Slot, 8, 20}, {Square, 8, 15}, {Round, 8, 5}, {Round, 40, 120}, {Slot, 4, 2}, {Slot, 10, 80}, {Square, 12, 80},
		{Slot, 20, 120}, {Square, 40, 200}, {Slot, 120, 850}, {Round, 120, 850}, {Slot, 0, 0},
	} {
		if got, err := SafetyDistance(v.shape, v.e); got != v.want || err != nil {
			t.Errorf("shape %d, %g mm: %g %v, want %g", v.shape, v.e, got, err, v.want)
		}
	}
	var wide *WidthError
	if _, err := SafetyDistance(Slot, 121); !errors.As(err, &wide) || wide.Width != 121 {
		t.Errorf("121 mm: %v", err)
	}
}

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

// A swing keeps radius and place along the axis, and flexion is right-handed
// about the outward axis: forward comes up.
func TestSwing(t *testing.T) {
	axis := r3.Unit(r3.Vec{X: -0.2, Y: -1, Z: 0.1})
	s := NewSwing(r3.Vec{Y: -200, Z: 800}, axis, 0.6)
	for _, theta := range []float64{-0.1, 0.5, 2.3} {
		d := r3.Sub(s.At(300, 40, theta), s.Pivot)
		if w := r3.Dot(d, axis); math.Abs(w-40) > 1e-9 || math.Abs(r3.Norm2(d)-300*300-40*40) > 1e-6 {
			t.Errorf("at %g: %v", theta, d)
		}
	}
	if a, b := s.At(300, 0, 0.1), s.At(300, 0, 0.2); b.Z <= a.Z || a.X <= 0 {
		t.Errorf("flexion does not lift the hand: %v, then %v", a, b)
	}
	if got := r3.Dot(r3.Cross(s.Forward, s.Up), axis); math.Abs(got-1) > 1e-12 {
		t.Errorf("forward, up, axis: %g", got)
	}
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
