package cutfile

import (
	"testing"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// A name stays in the material, off every edge, and is left out where there is no room.
func TestName(t *testing.T) {
	plate := contour.Polygon(r2.Vec{}, r2.Vec{X: 60}, r2.Vec{X: 60, Y: 40}, r2.Vec{Y: 40})
	hole := contour.Circle(r2.Vec{X: 30, Y: 20}, 8)
	marks := Name("index-plate-2", plate, []contour.Path{hole})
	if len(marks) < 13 {
		t.Fatalf("%d strokes", len(marks))
	}
	for _, m := range marks {
		for _, q := range m {
			edge, _ := plate.Distance(q)
			rim, _ := hole.Distance(q)
			if !plate.Contains(q) || hole.Contains(q) || edge < etchClear || rim < etchClear {
				t.Errorf("a stroke at %v: %.2f mm from the edge, %.2f from the hole", q, edge, rim)
			}
		}
	}
	small := contour.Polygon(r2.Vec{}, r2.Vec{X: 8}, r2.Vec{X: 8, Y: 8}, r2.Vec{Y: 8})
	if marks := Name("index-plate", small, nil); marks != nil {
		t.Errorf("%d strokes on a plate of 8 mm", len(marks))
	}
}
