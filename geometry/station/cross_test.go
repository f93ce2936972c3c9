package station

import (
	"math"
	"strings"
	"testing"
)

// No two cross members take the same place, and something ties the rails near
// either end, wherever the posts stand.
func TestCrossMembersDoNotOverlap(t *testing.T) {
	for seat := -500.0; seat <= -200; seat += 7 {
		l := Layout{
			Side: 60, Rear: -540, Front: 600, Width: 560, PadPost: 60, SeatPost: seat, Tower: 510, TowerTall: 900,
			PivotHeight: 820, PivotSpacing: 430, SeatTop: 420, ArmTube: 40,
		}
		var places []float64
		for _, m := range l.Build().Members {
			if strings.HasPrefix(m.ID, "cross-") {
				places = append(places, m.A.X)
			}
		}
		rear, front := math.Inf(1), math.Inf(-1)
		for i, x := range places {
			rear, front = math.Min(rear, x), math.Max(front, x)
			for _, y := range places[:i] {
				if math.Abs(x-y) < l.Side {
					t.Errorf("seat post at %g: cross members at %g and %g", seat, x, y)
				}
			}
		}
		if rear-l.Rear > 1.5*l.Side || l.Front-front > 1.5*l.Side {
			t.Errorf("seat post at %g: tied from %g to %g only", seat, rear, front)
		}
	}
}
