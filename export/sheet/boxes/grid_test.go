package boxes

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A line that is upright but for rounding, on the border of two columns of cells, is
// found along all of its length from both sides.
func TestUprightOnBorder(t *testing.T) {
	for _, s := range []Segment[int]{
		{A: r2.Vec{X: -1e-15, Y: -50}, B: r2.Vec{X: 1e-15, Y: 50}},
		{A: r2.Vec{X: 1e-14, Y: 50}, B: r2.Vec{X: -1e-14, Y: -50}},
		{A: r2.Vec{X: 8, Y: -50}, B: r2.Vec{X: 8 - 1e-13, Y: 50}},
	} {
		var g Grid[int]
		g.Add(s)
		for y := -49.0; y < 50; y++ {
			found := false
			g.Near(r2.Box{Min: r2.Vec{X: s.A.X - 1, Y: y}, Max: r2.Vec{X: s.A.X + 1, Y: y + 0.5}}, func(Segment[int]) bool { found = true; return true })
			if !found {
				t.Fatalf("%v is not found at %g", s, y)
			}
		}
	}
}
