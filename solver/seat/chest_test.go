package seat

import (
	"math"
	"testing"

	"armwright/specs"
)

func TestNearestPositionOfTheChestPad(t *testing.T) {
	pad := &specs.ChestPad{Rear: -200, Pitch: 20, Positions: 4}
	for _, c := range []struct {
		chest    float64
		position int
		gap      float64
	}{
		{-200, 0, 0}, {-191, 0, -9}, {-189, 1, 9}, {-145, 3, 5}, {-100, 3, -40}, {-260, 0, 60},
	} {
		if p, gap := lean(pad, c.chest); p != c.position || math.Abs(gap-c.gap) > 1e-9 {
			t.Errorf("chest at %g: position %d, %g ahead; want %d, %g", c.chest, p, gap, c.position, c.gap)
		}
		who := Person{Chest: c.position, ChestGap: c.gap}
		at, ok := ChestFace(pad, &who)
		if want := math.Abs(c.gap) <= 15; ok != want || ok && at.X != c.chest {
			t.Errorf("chest at %g: lies on the pad %v at %g", c.chest, ok, at.X)
		}
	}
}
