package contour

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// curve samples a parametric curve and its derivative.
func curve(n int, from, to float64, at, slope func(float64) r2.Vec) (ps, ts []r2.Vec) {
	for i := range n + 1 {
		u := from + (to-from)*float64(i)/float64(n)
		ps = append(ps, at(u))
		ts = append(ts, r2.Unit(slope(u)))
	}
	return ps, ts
}

// Known curves: the arcs stay within the tolerance of points between the
// samples, join smoothly, and have the curve's length (ellipse: check 7, D).
func TestFit(t *testing.T) {
	sincos := func(u float64) (float64, float64) { return math.Sincos(u) }
	tests := []struct {
		name      string
		from, to  float64
		at, slope func(float64) r2.Vec
		length    float64
	}{
		{"ellipse", 0, math.Pi,
			func(u float64) r2.Vec { s, c := sincos(u); return r2.Vec{X: 100 * c, Y: 60 * s} },
			func(u float64) r2.Vec { s, c := sincos(u); return r2.Vec{X: -100 * s, Y: 60 * c} },
			510.539977 / 2},
		{"circle", 0, 3,
			func(u float64) r2.Vec { s, c := sincos(u); return r2.Vec{X: 50 * c, Y: 50 * s} },
			func(u float64) r2.Vec { s, c := sincos(u); return r2.Vec{X: -s, Y: c} },
			150},
		{"straight", 0, 70,
			func(u float64) r2.Vec { return r2.Vec{X: u, Y: 2 * u} },
			func(u float64) r2.Vec { return r2.Vec{X: 1, Y: 2} },
			70 * math.Sqrt(5)},
		{"parabola", -20, 20,
			func(u float64) r2.Vec { return r2.Vec{X: u, Y: u * u / 20} },
			func(u float64) r2.Vec { return r2.Vec{X: 1, Y: u / 10} },
			20*math.Sqrt(5) + 10*math.Asinh(2)},
	}
	for _, tt := range tests {
		for _, tol := range []float64{.02, .002} {
			ps, ts := curve(400, tt.from, tt.to, tt.at, tt.slope)
			p, err := Fit(ps, ts, tol)
			if err != nil {
				t.Errorf("%s: %v", tt.name, err)
				continue
			}
			if p.Len() > 60 {
				t.Errorf("%s within %v takes %d arcs", tt.name, tol, p.Len())
			}
			if a, i := p.MaxCorner(); a > 1e-7 {
				t.Errorf("%s: corner %v at %d", tt.name, a, i)
			}
			near9(t, tt.name+" length", p.Length(), tt.length, tol)
			between, _ := curve(1201, tt.from, tt.to, tt.at, tt.slope)
			for _, q := range between {
				if d, i := p.Distance(q); d > tol*1.01 {
					t.Errorf("%s: %v off at arc %d", tt.name, d, i)
					break
				}
			}
			if err := p.Validate(); err != nil {
				t.Errorf("%s: %v", tt.name, err)
			}
		}
	}
}

func TestFitErrors(t *testing.T) {
	x, y := r2.Vec{X: 1}, r2.Vec{Y: 1}
	tests := []struct {
		name   string
		ps, ts []r2.Vec
		tol    float64
		index  int
	}{
		{"one point", []r2.Vec{x}, []r2.Vec{x}, .1, 0},
		{"no tangents", []r2.Vec{x, y}, nil, .1, 0},
		{"tolerance", []r2.Vec{x, y}, []r2.Vec{x, y}, 0, 0},
		{"coincident", []r2.Vec{x, y, y}, []r2.Vec{x, y, y}, .1, 2},
		{"long tangent", []r2.Vec{x, y}, []r2.Vec{x, {X: 2}}, .1, 1},
		{"backwards", []r2.Vec{{}, x, {X: 2}}, []r2.Vec{x, x, {X: -1}}, .1, 1},
		{"nan", []r2.Vec{{X: math.NaN()}, y}, []r2.Vec{x, y}, .1, 0},
	}
	for _, tt := range tests {
		var e *Error
		if _, err := Fit(tt.ps, tt.ts, tt.tol); !errors.As(err, &e) || e.Index != tt.index {
			t.Errorf("%s: %v, want an error at %d", tt.name, err, tt.index)
		}
	}
}

func BenchmarkFit(b *testing.B) {
	ps, ts := curve(400, 0, math.Pi,
		func(u float64) r2.Vec { s, c := math.Sincos(u); return r2.Vec{X: 100 * c, Y: 60 * s} },
		func(u float64) r2.Vec { s, c := math.Sincos(u); return r2.Vec{X: -100 * s, Y: 60 * c} })
	for b.Loop() {
		if _, err := Fit(ps, ts, .005); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleFit() {
	var points, tangents []r2.Vec
	for i := range 201 {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / 200)
		points = append(points, r2.Vec{X: 100 * c, Y: 60 * s})
		tangents = append(tangents, r2.Unit(r2.Vec{X: -100 * s, Y: 60 * c}))
	}
	arcs, err := Fit(points, tangents, .02)
	fmt.Println(arcs.Len(), "arcs for a quarter of an ellipse,", err)
	// Output:
	// 10 arcs for a quarter of an ellipse, <nil>
}
