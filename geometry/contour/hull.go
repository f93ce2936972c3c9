package contour

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Hull returns the corners of the convex hull of the points,
// counter-clockwise from the leftmost, the lowest of those; points in line on
// an edge are left out. The points are not changed. Fewer than three corners
// mean that all points lie on a line or in one place. (Andrew 1979, monotone
// chain.)
func Hull(points []r2.Vec) []r2.Vec {
	ps := outer(points)
	slices.SortFunc(ps, func(a, b r2.Vec) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	ps = slices.Compact(ps)
	if len(ps) < 3 {
		return ps
	}
	hull := chain(nil, ps)
	slices.Reverse(ps)
	upper := chain(nil, ps)
	// Each chain ends where the other starts.
	return append(hull[:len(hull)-1], upper[:len(upper)-1]...)
}

// outer returns a copy of the points without those inside the polygon of the
// outermost ones in eight directions (Akl and Toussaint 1978): of many points few
// are left to sort.
func outer(points []r2.Vec) []r2.Vec {
	const few = 64
	if len(points) <= few {
		return slices.Clone(points)
	}
	var far [8]r2.Vec
	for i := range far {
		s, c := math.Sincos(float64(i) * math.Pi / 4)
		most := math.Inf(-1)
		for _, p := range points {
			if d := c*p.X + s*p.Y; d > most {
				most, far[i] = d, p
			}
		}
	}
	core := Hull(far[:])
	var out []r2.Vec
	for _, p := range points {
		inside := len(core) >= 3
		for i := 0; inside && i < len(core); i++ {
			a, b := core[i], core[(i+1)%len(core)]
			inside = r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) > 0
		}
		if !inside {
			out = append(out, p)
		}
	}
	return out
}

// chain appends the points that keep the chain turning left.
func chain(hull, ps []r2.Vec) []r2.Vec {
	for _, p := range ps {
		for len(hull) >= 2 {
			a, b := hull[len(hull)-2], hull[len(hull)-1]
			if r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) > 0 {
				break
			}
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	return hull
}
