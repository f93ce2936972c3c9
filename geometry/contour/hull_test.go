package contour

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
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
			for i, a := range hull {
				if side := r2.Cross(r2.Sub(hull[(i+1)%len(hull)], a), r2.Sub(p, a)); side < 0 {
					t.Fatalf("%v lies outside the edge from %v", p, a)
				}
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

// Of very many points most are left out before they are sorted; the hull is the same.
func TestHullOfMany(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		points := make([]r2.Vec, rapid.IntRange(65, 400).Draw(t, "number"))
		for i := range points {
			points[i] = r2.Vec{X: 30 * r.NormFloat64(), Y: 10 * r.NormFloat64()}
		}
		hull := Hull(points)
		on := map[r2.Vec]bool{}
		for i, a := range hull {
			on[a] = true
			b := hull[(i+1)%len(hull)]
			for _, p := range points {
				if side := r2.Cross(r2.Sub(b, a), r2.Sub(p, a)); side < -1e-9 {
					t.Fatalf("%v lies outside the edge from %v to %v", p, a, b)
				}
			}
		}
		for _, a := range hull {
			if !slices.Contains(points, a) {
				t.Fatalf("%v is none of the points", a)
			}
		}
		if len(on) != len(hull) || len(hull) < 3 {
			t.Fatalf("hull %v", hull)
		}
		if n := len(outer(points)); n > len(points)/2+8 {
			t.Fatalf("%d of %d points are left to sort", n, len(points))
		}
	})
}
