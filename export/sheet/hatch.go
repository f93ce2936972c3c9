package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

const defaultHatchSpacing = 3.0 // mm

// hatchLines clips parallel lines to the inside of paper loops, even-odd, and to the
// outside of others.
func hatchLines(loops, without [][]Vertex, angle, spacing float64) []Primitive {
	u := polar(angle)
	n := left(u)
	edges, spare := sides(loops, u), sides(without, u)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, e := range edges {
		lo, hi = min(lo, e[0].Y, e[1].Y), max(hi, e[0].Y, e[1].Y)
	}
	var out []Primitive
	// Lines lie at multiples of the spacing, so hatching of one part in several
	// loops is in step.
	for k := math.Ceil(lo / spacing); k*spacing < hi; k++ {
		y := k * spacing
		for _, x := range outside(inside(edges, y), inside(spare, y)) {
			if x[1]-x[0] < NarrowLine {
				continue
			}
			at := func(x float64) r2.Vec { return r2.Add(r2.Scale(x, u), r2.Scale(y, n)) }
			out = append(out, Stroke{Role: Hatching, Path: straight(at(x[0]), at(x[1]))})
		}
	}
	return out
}

// sides are those of loops, in the axes of lines along u: x along, y across.
func sides(loops [][]Vertex, u r2.Vec) [][2]r2.Vec {
	var out [][2]r2.Vec
	n := left(u)
	for _, loop := range loops {
		pts := flatten(loop, true, ChordError)
		for i := range pts {
			p := r2.Vec{X: r2.Dot(pts[i], u), Y: r2.Dot(pts[i], n)}
			if i > 0 {
				out[len(out)-1][1] = p
			}
			if i < len(pts)-1 {
				out = append(out, [2]r2.Vec{p, p})
			}
		}
	}
	return out
}

// inside are the stretches of the line at y that lie within sides, even-odd, in order.
func inside(edges [][2]r2.Vec, y float64) [][2]float64 {
	var xs []float64
	for _, e := range edges {
		if (e[0].Y <= y) != (e[1].Y <= y) {
			xs = append(xs, e[0].X+(y-e[0].Y)/(e[1].Y-e[0].Y)*(e[1].X-e[0].X))
		}
	}
	slices.Sort(xs)
	var out [][2]float64
	for i := 0; i+1 < len(xs); i += 2 {
		out = append(out, [2]float64{xs[i], xs[i+1]})
	}
	return out
}

// outside is what stretches leave of others.
func outside(of, without [][2]float64) [][2]float64 {
	for _, w := range without {
		var left [][2]float64
		for _, x := range of {
			if w[0] > x[0] {
				left = append(left, [2]float64{x[0], min(x[1], w[0])})
			}
			if w[1] < x[1] {
				left = append(left, [2]float64{max(x[0], w[1]), x[1]})
			}
		}
		of = left
	}
	return of
}
