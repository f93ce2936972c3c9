package person

import (
	"math"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Silhouette is the outline of bodies seen together along parallel rays: open lines, mm,
// in the plane of see, which must keep lengths across the rays. Round parts are followed
// by chords that stand off by at most sagitta, mm, above 0; what lies within another body
// is left out to a step of as much as a chord is long.
func Silhouette(bodies []Body, see func(r3.Vec) r2.Vec, sagitta float64) [][]r2.Vec {
	hulls := make([][]r2.Vec, len(bodies))
	for i := range bodies {
		hulls[i] = shadow(&bodies[i], see, sagitta)
	}
	var out [][]r2.Vec
	for i, hull := range hulls {
		var line []r2.Vec
		flush := func() {
			if len(line) > 1 {
				out = append(out, line)
			}
			line = nil
		}
		for k, a := range hull {
			b := hull[(k+1)%len(hull)]
			n := max(1, int(math.Ceil(r2.Norm(r2.Sub(b, a))/silhouetteStep)))
			for s := range n {
				from, to := r2.Add(a, r2.Scale(float64(s)/float64(n), r2.Sub(b, a))), r2.Add(a, r2.Scale(float64(s+1)/float64(n), r2.Sub(b, a)))
				if covered(hulls, i, r2.Scale(0.5, r2.Add(from, to))) {
					flush()
					continue
				}
				if line == nil {
					line = []r2.Vec{from}
				}
				line = append(line, to)
			}
		}
		flush()
	}
	return out
}

// silhouetteStep is how long a piece of an outline is that is kept or left out as a whole,
// mm: half a millimetre on a sheet at 1:10.
const silhouetteStep = 5.0

// shadow is the outline of one body, counter-clockwise.
func shadow(b *Body, see func(r3.Vec) r2.Vec, sagitta float64) []r2.Vec {
	var points []r2.Vec
	for _, v := range b.Balls() {
		c := see(v.Centre)
		n := max(8, int(math.Ceil(math.Pi/math.Acos(1-math.Min(1, sagitta/v.Radius)))))
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			points = append(points, r2.Vec{X: c.X + v.Radius*cos, Y: c.Y + v.Radius*sin})
		}
	}
	return contour.Hull(points)
}

// covered says whether a point lies inside another outline than the own; of two that run
// along each other the first is seen.
func covered(hulls [][]r2.Vec, own int, p r2.Vec) bool {
	const touching = 1e-6 // mm
	for i, hull := range hulls {
		if i == own {
			continue
		}
		depth := math.Inf(1) // of the point below the nearest edge
		for k, a := range hull {
			edge := r2.Sub(hull[(k+1)%len(hull)], a)
			depth = math.Min(depth, r2.Cross(edge, r2.Sub(p, a))/r2.Norm(edge))
		}
		if depth > touching || depth > -touching && i < own {
			return true
		}
	}
	return false
}
