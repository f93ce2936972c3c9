package drive

import (
	"math"
	"testing"

	"armwright/geometry/cam"
)

// A constant arm of 100 mm on a cam that turns 1.5 times as fast takes up 150 mm a radian.
func TestLift(t *testing.T) {
	law, err := cam.NewLaw(.1, 2.1, []float64{100, 100, 100, 100, 100})
	if err != nil {
		t.Fatal(err)
	}
	r := Resistance{Angles: []float64{.1, 1.1, 2.1}, MomentArm: []float64{100, 100, 100}, Profile: cam.Profile{Law: law, Ratio: 1.5}}
	for flexion, want := range map[float64]float64{-1: 0, .1: 0, .6: 75, 2.1: 300, 3: 300} {
		if up := r.Lift(flexion); math.Abs(up-want) > 1e-9 {
			t.Errorf("at %v the stack is up %v mm, want %v", flexion, up, want)
		}
	}
	if up := new(Resistance).Lift(1); up != 0 {
		t.Errorf("without a cam it is up %v mm", up)
	}
}
