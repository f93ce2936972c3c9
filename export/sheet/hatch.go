package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

const defaultHatchSpacing = 3.0 // mm

// hatchLines clips parallel lines to the inside of paper loops, even-odd.
func hatchLines(loops [][]Vertex, angle, spacing float64) []Primitive {
	u := polar(angle)
	n := left(u)
	var edges [][2]r2.Vec // in the axes of the lines: x along, y across
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, loop := range loops {
		pts := flatten(loop, true, ChordError)
		for i := range pts {
			p := r2.Vec{X: r2.Dot(pts[i], u), Y: r2.Dot(pts[i], n)}
			lo, hi = math.Min(lo, p.Y), math.Max(hi, p.Y)
			if i > 0 {
				edges[len(edges)-1][1] = p
			}
			if i < len(pts)-1 {
				edges = append(edges, [2]r2.Vec{p, p})
			}
		}
	}
	var out []Primitive
	// Lines lie at multiples of the spacing, so hatching of one part in several
	// loops is in step.
	for k := math.Ceil(lo / spacing); k*spacing < hi; k++ {
		y := k * spacing
		var xs []float64
		for _, e := range edges {
			if (e[0].Y <= y) != (e[1].Y <= y) {
				xs = append(xs, e[0].X+(y-e[0].Y)/(e[1].Y-e[0].Y)*(e[1].X-e[0].X))
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if xs[i+1]-xs[i] < NarrowLine {
				continue
			}
			at := func(x float64) r2.Vec { return r2.Add(r2.Scale(x, u), r2.Scale(y, n)) }
			out = append(out, Stroke{Role: Hatching, Path: straight(at(xs[i]), at(xs[i+1]))})
		}
	}
	return out
}
