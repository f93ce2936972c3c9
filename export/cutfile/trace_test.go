package cutfile

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A square tube of 40 stands on a plate of 100 by 100 with a hole of 20 on its edge:
// traced is the outline of the tube without what is within 2 mm of the hole. Under the
// plate lies a bar. Worked by hand: sides at 20 mm from the middle, the hole's centre on
// the right one, so that 2 x (10 + 2) mm of it are left out.
func TestTraces(t *testing.T) {
	var b assembly.Builder
	g := b.Group("frame", -1, nil)
	add := func(id string, s solid.Solid, at r3.Vec) int {
		return b.Add(assembly.Part{ID: id, Title: id, Group: g, Solid: s, Place: solid.Shift(at), Mass: 1})
	}
	hole := solid.Disc(20).Outer().Place(0, r2.Vec{X: 20})
	plate := add("plate", solid.Straight(solid.NewProfile(solid.Rect(100, 100, 0).Outer(), hole), 8), r3.Vec{X: 500, Z: 100})
	tube := add("tube", solid.Straight(solid.RectTube(40, 40, 3, 0), 200), r3.Vec{X: 500, Z: 108})
	bar := add("bar", solid.Straight(solid.Rect(30, 10, 0), 50), r3.Vec{X: 475, Z: 50})
	b.Join(assembly.Weld, plate, tube, r3.Vec{X: 500, Z: 108}, assembly.Detail{Throat: 3, Run: 100})
	b.Join(assembly.Weld, bar, plate, r3.Vec{X: 475, Z: 100}, assembly.Detail{Throat: 3, Run: 60})
	near, far := 0.0, 0.0
	right := 0.0
	for _, l := range Traces(&b.Assembly, plate) {
		long := r2.Norm(r2.Sub(l.B, l.A))
		if l.Far {
			far += long
			continue
		}
		near += long
		if l.A.X == 20 && l.B.X == 20 {
			right += long
			for _, q := range [2]r2.Vec{l.A, l.B} {
				if math.Abs(q.Y) < 12-1e-9 {
					t.Errorf("%v is %.2f mm from the hole's centre", q, math.Abs(q.Y))
				}
			}
		}
	}
	if math.Abs(far-80) > 0.01 {
		t.Errorf("%.2f mm of the bar under the plate are traced, want 80", far)
	}
	if right < 12 || right > 16 {
		t.Errorf("%.2f mm of the right side, want 2 x 8 less a step each", right)
	}
	// Outside of the tube 160, inside 136, less what the hole takes of both right sides.
	if near < 190 || near > 160+136-24 {
		t.Errorf("%.2f mm are traced", near)
	}
	if got := Traces(&b.Assembly, tube); len(got) != 0 {
		t.Errorf("a tube has %d traces on its ends", len(got))
	}
}
