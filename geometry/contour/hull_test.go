package contour

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func TestHull(t *testing.T) {
	points := []r2.Vec{{X: 4, Y: 4}, {X: 2, Y: 2}, {}, {X: 4}, {X: 2}, {Y: 4}, {X: 4}, {X: 1, Y: 3}}
	got := Hull(points)
	want := []r2.Vec{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("hull %v, want %v", got, want)
	}
	if points[0] != (r2.Vec{X: 4, Y: 4}) {
		t.Error("Hull changed its argument")
	}
	for n, line := range [][]r2.Vec{{}, {{X: 1}}, {{X: 1}, {X: 2}, {X: 3}, {X: 1}}} {
		if h := Hull(line); len(h) != n {
			t.Errorf("hull of %v is %v", line, h)
		}
	}
}

// Check 19 (D): feet at x -0.40..0.60, combined centre of mass at x 0.188889,
// z 0.572222: tilt angles 35.6952 and 45.8224 degrees.
func TestHullDistance(t *testing.T) {
	feet := Hull([]r2.Vec{{X: -.4, Y: -.5}, {X: .6, Y: -.5}, {X: .6, Y: .5}, {X: -.4, Y: .5}})
	cg := r2.Vec{X: .188889}
	d, edge := HullDistance(feet, cg)
	near9(t, "nearest", math.Atan2(d, .572222)/deg, 35.6952, 1e-4)
	near9(t, "farthest", math.Atan2(EdgeDistance(feet, (edge+2)%4, cg), .572222)/deg, 45.8224, 1e-4)
	if d, _ := HullDistance(feet, r2.Vec{X: .7}); math.Abs(d+.1) > 1e-12 {
		t.Errorf("outside: %v", d)
	}
	if _, edge := HullDistance(nil, cg); edge != -1 {
		t.Errorf("no hull: edge %d", edge)
	}
	if d, _ := HullDistance([]r2.Vec{{X: 3}, {X: 5}}, r2.Vec{X: 4, Y: 1}); d != -1 {
		t.Errorf("a line has an inside: %v", d)
	}
}

// The hull holds every point, is convex, and its support function is that of
// the points.
func TestHullProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) r2.Vec {
			return r2.Vec{X: float64(rapid.IntRange(-9, 9).Draw(t, "x")), Y: float64(rapid.IntRange(-9, 9).Draw(t, "y"))}
		}), 1, 40).Draw(t, "points")
		hull := Hull(points)
		if len(hull) < 3 {
			return
		}
		for _, p := range points {
			if d, _ := HullDistance(hull, p); d < -1e-12 {
				t.Fatalf("%v lies %v outside", p, -d)
			}
		}
		for k := range 36 {
			s, c := math.Sincos(float64(k) * 10 * deg)
			n := r2.Vec{X: c, Y: s}
			h, _ := Polygon(hull...).Support(n)
			most := math.Inf(-1)
			for _, p := range points {
				most = math.Max(most, r2.Dot(n, p))
			}
			if math.Abs(h-most) > 1e-12 {
				t.Fatalf("support %v, want %v", h, most)
			}
		}
	})
}
