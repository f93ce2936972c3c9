package strength

import (
	"errors"
	"math"
	"testing"

	"armwright/specs/angle"

	"pgregory.net/rapid"
)

// Total torque of the three flexors at 90 degrees with the shoulder at 0, 45
// and 90: 66.3, 64.5, 64.6 N·m by an earlier rebuild of the same model with its
// ellipsoid about the head of the bone (D); a ball here, so 1 %.
func TestShoulder(t *testing.T) {
	for _, w := range [][2]float64{{0, 66.3}, {45, 64.5}, {90, 64.6}} {
		total := 0.0
		muscles := flexors(w[0] * angle.Degree)
		for _, m := range muscles[:3] {
			total += m.torque(90*angle.Degree) / 1000
		}
		near(t, "torque", total, w[1], 0.01*w[1])
	}
	side, _ := ByName("model-three")
	same, _ := ByNameAt("model-three", 0)
	raised, err := ByNameAt("model-three", 60*angle.Degree)
	if err != nil {
		t.Fatal(err)
	}
	if side.At(1) != same.At(1) {
		t.Error("shoulder at 0 is not the plain curve")
	}
	// A raised arm slackens biceps, which tells most where it is shortest.
	if raised.At(125*angle.Degree) >= side.At(125*angle.Degree) {
		t.Errorf("at 125 degrees %.3f with the arm raised, %.3f at the side", raised.At(125*angle.Degree), side.At(125*angle.Degree))
	}
	var e *UnknownCurveError
	if _, err := ByNameAt("none", 1); !errors.As(err, &e) {
		t.Errorf("unknown curve: %v", err)
	}
}

// A table of points of a parabola gives the parabola, which is its own spline.
func TestTableOfParabola(t *testing.T) {
	f := func(x float64) float64 { return 50 - 12*(x-1.3)*(x-1.3) }
	var points []Point
	for d := 5.0; d <= 130; d += 25 {
		points = append(points, Point{d * angle.Degree, f(d * angle.Degree)})
	}
	c, err := Table("table", "", "", points)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "peak", c.Peak, 1.3, 1e-4)
	for d := 5.0; d <= 130; d++ {
		near(t, "value", c.At(d*angle.Degree), f(d*angle.Degree)/50, 1e-6)
	}
	if c.At(0) != c.At(5*angle.Degree) {
		t.Error("the curve goes on below its first point")
	}
}

func TestTableErrors(t *testing.T) {
	good := []Point{{0.1, 40}, {0.7, 50}, {1.4, 60}, {2.2, 45}}
	for name, change := range map[string]func(p []Point) []Point{
		"too few":    func(p []Point) []Point { return p[:3] },
		"backwards":  func(p []Point) []Point { p[1].Theta = 0.05; return p },
		"twice":      func(p []Point) []Point { p[1].Theta = 0.1; return p },
		"zero":       func(p []Point) []Point { p[2].Strength = 0; return p },
		"not finite": func(p []Point) []Point { p[2].Strength = math.NaN(); return p },
		"outside":    func(p []Point) []Point { p[3].Theta = 4; return p },
		"strays":     func(p []Point) []Point { p[1] = Point{0.14, 400}; p[3].Strength = 1; return p },
	} {
		var e *TableError
		if _, err := Table("table", "", "", change(append([]Point(nil), good...))); !errors.As(err, &e) || e.Hint() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestTableProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 12).Draw(t, "n")
		var points []Point
		theta := rapid.Float64Range(-0.1, 0.3).Draw(t, "from")
		for range n {
			points = append(points, Point{theta, rapid.Float64Range(20, 80).Draw(t, "strength")})
			theta += rapid.Float64Range(0.05, 0.2).Draw(t, "step")
		}
		c, err := Table("table", "", "", points)
		if err != nil {
			var e *TableError
			if !errors.As(err, &e) {
				t.Fatalf("%T", err)
			}
			return
		}
		for i, p := range points {
			ratio := c.At(p.Theta) / c.At(points[0].Theta)
			if want := p.Strength / points[0].Strength; math.Abs(ratio-want) > 1e-9*want {
				t.Fatalf("point %d: %g, want %g", i, ratio, want)
			}
		}
	})
}
