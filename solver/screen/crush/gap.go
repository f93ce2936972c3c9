// Package crush knows how wide gaps between moving parts must be so that they crush
// no part of a body, and how far behind an opening a danger must lie (ISO 13854,
// ISO 13857).
package crush

import (
	"fmt"
	"slices"
)

// Part is a part of the body that a gap may crush.
type Part int

// The parts of ISO 13854:2017, the narrowest first.
const (
	Finger Part = iota
	Toes
	Hand // wrist and fist as well
	WholeArm
	Foot
	Leg
	Head
	Trunk
)

// String names the part.
func (p Part) String() string {
	return [...]string{"finger", "toes", "hand", "arm", "foot", "leg", "head", "body"}[p]
}

// LeastGap returns the gap below which the part is crushed between a moving
// and another part, mm (ISO 13854:2017 table 1, S). It holds for crushing, not
// for impact, shear or drawing-in.
func (p Part) LeastGap() float64 {
	return [...]float64{25, 50, 100, 120, 120, 180, 300, 500}[p]
}

// Admits returns the largest part that a gap of the given width, mm, leaves
// whole; ok is false for a gap too narrow even for a finger.
func Admits(gap float64) (p Part, ok bool) {
	for q := Trunk; q >= Finger; q-- {
		if gap >= q.LeastGap() {
			return q, true
		}
	}
	return Finger, false
}

// FingerStop is the width of a gap that keeps a finger out altogether, mm
// (EN 957-1 5.3, M).
const FingerStop = 9.5

// Opening is the shape of an opening in a guard.
type Opening int

// The shapes of ISO 13857:2019 table 4.
const (
	Slot Opening = iota
	Square
	Round
)

// WidthError says that an opening is wider than a guard against reaching
// through may have.
type WidthError struct{ Width float64 }

func (e *WidthError) Error() string {
	return fmt.Sprintf("opening of %g mm: wider than 120 mm, the whole body gets through", e.Width)
}

// SafetyDistance returns how far behind an opening of width e, mm (side of a
// square, diameter of a round), a danger must lie to be out of reach of
// persons of 14 years and above, mm: ISO 13857:2019 table 4 (second hand;
// rows to 20, 30 and 40 mm from memory). A width of 0 is no opening. Wider
// than 120 mm is a *WidthError.
func SafetyDistance(shape Opening, e float64) (float64, error) {
	if e <= 0 {
		return 0, nil
	}
	type line struct {
		upTo     float64
		distance [3]float64
	}
	table := []line{
		{4, [3]float64{2, 2, 2}}, {6, [3]float64{10, 5, 5}}, {8, [3]float64{20, 15, 5}}, {10, [3]float64{80, 25, 20}},
		{12, [3]float64{100, 80, 80}}, {20, [3]float64{120, 120, 120}}, {30, [3]float64{850, 120, 120}},
		{40, [3]float64{850, 200, 120}}, {120, [3]float64{850, 850, 850}},
	}
	i := slices.IndexFunc(table, func(l line) bool { return e <= l.upTo })
	if i < 0 {
		return 0, &WidthError{e}
	}
	return table[i].distance[shape], nil
}

// GuardHeight is how far up moving weights must be covered, mm above the
// floor: their highest place, but no higher than 1800 (EN 957-2 5.4, M).
func GuardHeight(top float64) float64 { return min(top, 1800) }
