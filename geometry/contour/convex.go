package contour

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// ConvexLoops divides the area inside a straight loop into convex ones: triangles, joined
// as long as what they make turns left at every corner, by no less than minus a tolerance,
// the sine of the angle. The loops are of indices of points. The error is that of
// Triangulate.
func ConvexLoops(points []r2.Vec, tolerance float64) ([][]int, error) {
	triangles, err := Triangulate(points)
	if err != nil {
		return nil, err
	}
	loops := make([][]int, len(triangles))
	for i, t := range triangles {
		loops[i] = t[:]
	}
	for i := 0; i < len(loops); i++ {
		for k := i + 1; k < len(loops); k++ {
			if joined := joinConvex(points, loops[i], loops[k], tolerance); joined != nil {
				loops[i] = joined
				loops = slices.Delete(loops, k, k+1)
				k = i // what was refused before may fit now
			}
		}
	}
	return loops, nil
}

// joinConvex returns the loop of two convex ones that share an edge, or nil if they share
// none or it would not be convex.
func joinConvex(points []r2.Vec, a, b []int, tolerance float64) []int {
	for i := range a {
		from, to := a[i], a[(i+1)%len(a)]
		k := slices.Index(b, to)
		if k < 0 || b[(k+1)%len(b)] != from {
			continue
		}
		// Round a from the edge's end to its start, then round b likewise.
		out := make([]int, 0, len(a)+len(b)-2)
		for n := range len(a) - 1 {
			out = append(out, a[(i+1+n)%len(a)])
		}
		for n := range len(b) - 1 {
			out = append(out, b[(k+1+n)%len(b)])
		}
		for _, n := range [2]int{0, len(a) - 1} { // the edge's corners: the others are as they were
			q := points[out[n]]
			in, on := r2.Sub(q, points[out[(n+len(out)-1)%len(out)]]), r2.Sub(points[out[(n+1)%len(out)]], q)
			if r2.Cross(in, on) < -tolerance*r2.Norm(in)*r2.Norm(on) {
				return nil
			}
		}
		return out
	}
	return nil
}
