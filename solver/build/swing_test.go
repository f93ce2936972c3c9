package build

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

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
