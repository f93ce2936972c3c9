package crush

import (
	"errors"
	"testing"
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
