package contour

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// checkTriangles holds triangles to what they are to be: counter-clockwise, of
// the loops' area together, edges of the loops once and all others twice.
func checkTriangles(t interface {
	Errorf(string, ...any)
	Fatalf(string, ...any)
}, loops ...[]r2.Vec) {
	triangles, err := Triangulate(loops...)
	if err != nil {
		t.Fatalf("%v", err)
		return
	}
	var points []r2.Vec
	edges := map[[2]int]int{}
	area := 0.0
	for _, l := range loops {
		start := len(points)
		points = append(points, l...)
		for k := range l {
			edges[[2]int{start + (k+1)%len(l), start + k}]++ // seen from beyond
		}
		area += Polygon(l...).Area()
	}
	sum := 0.0
	for _, f := range triangles {
		a, b, c := points[f[0]], points[f[1]], points[f[2]]
		s := r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) / 2
		if s < -1e-9 {
			t.Errorf("triangle %v runs clockwise", f)
		}
		sum += s
		for k := range f {
			edges[[2]int{f[k], f[(k+1)%3]}]++
		}
	}
	if math.Abs(sum-area) > 1e-9*area {
		t.Errorf("area %v, want %v", sum, area)
	}
	for e, n := range edges {
		if n != 1 || edges[[2]int{e[1], e[0]}] != 1 {
			t.Errorf("edge %v is met %d times and %d the other way", e, n, edges[[2]int{e[1], e[0]}])
		}
	}
	if want := len(points) + 2*len(loops) - 4; len(triangles) != want {
		t.Errorf("%d triangles, want %d", len(triangles), want)
	}
}

func clockwise(ps []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(ps))
	for i, p := range ps {
		out[len(ps)-1-i] = p
	}
	return out
}

func TestTriangulate(t *testing.T) {
	square := func(x, y, s float64) []r2.Vec {
		return []r2.Vec{{X: x, Y: y}, {X: x + s, Y: y}, {X: x + s, Y: y + s}, {X: x, Y: y + s}}
	}
	tests := map[string][][]r2.Vec{
		"square":           {square(0, 0, 10)},
		"angle":            {{{}, {X: 10}, {X: 10, Y: 2}, {X: 2, Y: 2}, {X: 2, Y: 10}, {Y: 10}}},
		"hole":             {square(0, 0, 10), clockwise(square(3, 3, 4))},
		"holes in a row":   {square(0, 0, 30), clockwise(square(2, 3, 4)), clockwise(square(10, 3, 4)), clockwise(square(20, 3, 4)), clockwise(square(10, 13, 4))},
		"points on a side": {{{}, {X: 5}, {X: 10}, {X: 10, Y: 5}, {X: 10, Y: 10}, {X: 5, Y: 10}, {Y: 10}, {Y: 5}}, clockwise(square(4, 4, 2))},
		"comb": {{{}, {X: 9}, {X: 9, Y: 9}, {X: 8, Y: 9}, {X: 8, Y: 1}, {X: 6, Y: 1}, {X: 6, Y: 9}, {X: 4, Y: 9},
			{X: 4, Y: 1}, {X: 2, Y: 1}, {X: 2, Y: 9}, {Y: 9}}},
		// A corner of one hole lies, but for 2e-15, on the line between corners of two.
		"in line by rounding": {
			{{X: 60}, {X: 42.42640687119285, Y: 42.426406871192846}, {X: 3.6739403974420544e-15, Y: 60}, {X: -42.426406871192846, Y: 42.42640687119285}, {X: -60, Y: 7.347880794884109e-15},
				{X: -42.42640687119286, Y: -42.426406871192846}, {X: -1.1021821192326163e-14, Y: -60}, {X: 42.426406871192846, Y: -42.42640687119286}},
			{{X: -1.5000000000000013, Y: -2.598076211353315}, {X: -5.999999999999997, Y: 10.392304845413266}, {X: 3}},
			{{X: 26.5, Y: -1.598076211353316}, {X: 23.5, Y: -1.5980762113533151}, {X: 22, Y: 1.0000000000000004}, {X: 23.5, Y: 3.5980762113533165}, {X: 26.5, Y: 3.598076211353316}, {X: 28, Y: 1}},
			{{X: -22.701866670643067, Y: -4.928362829059619}, {X: -24.47905546699921, Y: -5.954423259036624}, {X: -26.5, Y: -5.598076211353315}, {X: -27.819077862357727, Y: -4.026060429977006}, {X: -27.819077862357723, Y: -1.9739395700229934},
				{X: -30.999999999999996, Y: 7.392304845413266}, {X: -24.47905546699921, Y: -0.045576740963375606}, {X: -22.701866670643064, Y: -1.0716371709403822}, {X: -22, Y: -3}},
			{{X: 6.0080512387545415, Y: 20.531249999999996}, {X: 6, Y: 13.607695154586736}, {X: -2.2043642384652327e-15, Y: 12}, {X: -1.5000000000000013, Y: 21.401923788646684}, {X: -2.5980762113533165, Y: 22.5}, {X: -3, Y: 24},
				{X: -2.598076211353316, Y: 25.5}, {X: -1.4999999999999993, Y: 26.598076211353316}, {X: 1.8369701987210272e-16, Y: 27}, {X: 1.5000000000000004, Y: 26.598076211353316}, {X: 2.598076211353316, Y: 25.5}, {X: 3, Y: 24}},
		},
		"ring of holes": {
			Circle(r2.Vec{}, 100).Points(.2), clockwise(Circle(r2.Vec{}, 30).Points(.2)),
			clockwise(Circle(r2.Vec{X: 60}, 8).Points(.2)), clockwise(Circle(r2.Vec{X: -60}, 8).Points(.2)),
			clockwise(Circle(r2.Vec{Y: 60}, 8).Points(.2)), clockwise(Circle(r2.Vec{Y: -60}, 8).Points(.2)),
		},
	}
	for name, loops := range tests {
		t.Run(name, func(t *testing.T) { checkTriangles(t, loops...) })
	}
	if _, err := Triangulate(square(0, 0, 1), clockwise(square(3, 3, 1))); err == nil {
		t.Error("a hole outside is no error")
	}
}

func TestTriangulateAnyStar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "corners")
		star := func(centre r2.Vec, low, high float64, n int, name string) []r2.Vec {
			ps := make([]r2.Vec, n)
			for i := range ps {
				s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
				r := rapid.Float64Range(low, high).Draw(t, name)
				ps[i] = r2.Vec{X: centre.X + r*c, Y: centre.Y + r*s}
			}
			return ps
		}
		loops := [][]r2.Vec{star(r2.Vec{}, 60, 100, max(n, 8), "radius")}
		for i, c := range []r2.Vec{{}, {X: 25, Y: 1}, {X: -25, Y: -3}, {Y: 24}, {X: 3, Y: -30}}[:rapid.IntRange(0, 5).Draw(t, "holes")] {
			loops = append(loops, clockwise(star(c, 3, 12, 3+i*3, "hole")))
		}
		checkTriangles(t, loops...)
	})
}
