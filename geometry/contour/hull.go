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

// EdgeDistance returns the signed distance of a point from the line through
// edge i of a counter-clockwise hull, from corner i to the next, inside
// positive. The hull must have at least three corners.
func EdgeDistance(hull []r2.Vec, i int, p r2.Vec) float64 {
	a, b := hull[i], hull[(i+1)%len(hull)]
	e := r2.Sub(b, a)
	return r2.Cross(e, r2.Sub(p, a)) / r2.Norm(e)
}

// HullDistance returns the least signed distance of a point from the edges of
// a counter-clockwise hull, positive inside, and the index of that edge. Inside
// it is the distance from the hull's boundary. A hull of fewer than three
// corners has no inside: the distance from the point or line, negative, is
// returned with edge 0, and with no corner at all 0 and edge -1.
func HullDistance(hull []r2.Vec, p r2.Vec) (float64, int) {
	switch len(hull) {
	case 0:
		return 0, -1
	case 1:
		return -r2.Norm(r2.Sub(p, hull[0])), 0
	case 2:
		return -newElement(hull[0], hull[1], 0).Distance(p), 0
	}
	least, at := math.Inf(1), 0
	for i := range hull {
		if d := EdgeDistance(hull, i, p); d < least {
			least, at = d, i
		}
	}
	return least, at
}
