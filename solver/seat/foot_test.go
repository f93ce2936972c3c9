package seat

import (
	"testing"

	"armwright/specs"
)

// A sole at 210 mm stands on the plate at 200, one at 30 nearer to the floor
// than to a plate at 100; a floor too near is no fault.
func TestStand(t *testing.T) {
	plate := &specs.FootPlate{Lowest: 100, Pitch: 50, Positions: 3}
	for _, c := range []struct {
		sole     float64
		position int
		gap      float64
	}{{210, 2, 10}, {260, 2, 60}, {130, 1, -20}, {120, 0, 20}, {30, -1, 30}, {-40, -1, -40}, {60, 0, -40}} {
		if position, gap := stand(plate, c.sole); position != c.position || gap != c.gap {
			t.Errorf("sole at %g: position %d, gap %g; want %d, %g", c.sole, position, gap, c.position, c.gap)
		}
	}
	if position, gap := stand(nil, 80); position != -1 || gap != 80 {
		t.Errorf("without a plate: %d, %g", position, gap)
	}
}
