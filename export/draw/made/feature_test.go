package made

import (
	"math"
	"testing"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// A bore that a slot opens is one, a notch with a half-round end and a fillet are none.
func TestOpenBores(t *testing.T) {
	v := func(x, y, bulge float64) contour.Vertex { return contour.Vertex{X: x, Y: y, Bulge: bulge} }
	path := func(list ...contour.Vertex) contour.Path { return contour.Path{Closed: true, Vertices: list} }
	// Bore of 10 about the origin, opened to the right by a slot of 6: it goes round by
	// 2 pi - 2 asin(3/5).
	sweep := 2*math.Pi - 2*math.Asin(0.6)
	x := math.Sqrt(25 - 9)
	for _, c := range []struct {
		name    string
		outline contour.Path
		bores   int
	}{
		{"split hub", path(v(-20, -20, 0), v(20, -20, 0), v(20, -3, 0), v(x, -3, -math.Tan(sweep/4)), v(x, 3, 0), v(20, 3, 0), v(20, 20, 0), v(-20, 20, 0)), 1},
		{"half-round notch", path(v(-20, -20, 0), v(20, -20, 0), v(20, -3, 0), v(0, -3, -1), v(0, 3, 0), v(20, 3, 0), v(20, 20, 0), v(-20, 20, 0)), 0},
		{"rounded corner", contour.Rectangle(40, 40, 5), 0},
		{"round", contour.Circle(r2.Vec{}, 10), 0},
	} {
		got := openBores(c.outline)
		if len(got) != c.bores {
			t.Errorf("%s: %d open bores, want %d", c.name, len(got), c.bores)
			continue
		}
		if c.bores > 0 && (r2.Norm(got[0].Centre) > 1e-9 || math.Abs(got[0].Radius-5) > 1e-9) {
			t.Errorf("%s: radius %g about %v, want 5 about the origin", c.name, got[0].Radius, got[0].Centre)
		}
	}
}
