package contour

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Triangulate divides the area between straight loops into triangles: an outer
// loop that runs counter-clockwise and holes in it that run clockwise, none
// meeting itself or another. Triangles are counter-clockwise and name points by
// their place in all loops one after the other; every point is a corner, so
// that neighbours which share the loops' points fit without gaps. Loops that
// meet give as many triangles as can be cut, with an *Error.
//
// Holes are joined to the outer loop by bridges and ears cut off one by one
// (Eberly 2008, Triangulation by Ear Clipping; from memory).
func Triangulate(loops ...[]r2.Vec) ([][3]int, error) {
	var points []r2.Vec
	var ring []int
	type hole struct{ start, end, right int }
	var holes []hole
	for i, loop := range loops {
		start := len(points)
		points = append(points, loop...)
		if i == 0 {
			for k := range loop {
				ring = append(ring, k)
			}
			continue
		}
		h := hole{start: start, end: len(points), right: start}
		for k := start; k < h.end; k++ {
			if points[k].X > points[h.right].X {
				h.right = k
			}
		}
		holes = append(holes, h)
	}
	// From the right, so that a bridge never has to cross another hole.
	slices.SortStableFunc(holes, func(a, b hole) int { return cmp.Compare(points[b.right].X, points[a.right].X) })
	for _, h := range holes {
		at := bridge(points, ring, points[h.right])
		if at < 0 {
			return nil, &Error{Index: h.start, Defect: "a hole is not inside the outer loop", Hint: "check the loops"}
		}
		joined := slices.Clone(ring[:at+1])
		for k := range h.end - h.start + 1 {
			joined = append(joined, h.start+(h.right-h.start+k)%(h.end-h.start))
		}
		ring = append(joined, ring[at:]...)
	}
	return clip(points, ring)
}

// bridge returns the place in the ring of a corner that can be seen from a
// hole's rightmost point q, or -1.
func bridge(points []r2.Vec, ring []int, q r2.Vec) int {
	n := len(ring)
	best, at := 0.0, -1
	var hit r2.Vec
	for i := range n {
		a, b := points[ring[i]], points[ring[(i+1)%n]]
		// Edges with the area on their left run upward on the right of q.
		if !(a.Y <= q.Y && q.Y < b.Y) {
			continue
		}
		x := a.X + (q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		if x < q.X || at >= 0 && x >= best {
			continue
		}
		best, hit = x, r2.Vec{X: x, Y: q.Y}
		at = i
		if b.X > a.X && a.Y != q.Y {
			at = (i + 1) % n
		}
	}
	if at < 0 {
		return at
	}
	// Corners in the triangle of q, what the ray hits and that corner hide it: the
	// one nearest the ray's direction, and of those the nearest, is seen.
	corner := points[ring[at]]
	steep, far := -1.0, 0.0
	for i := range n {
		p := points[ring[i]]
		before, after := points[ring[(i+n-1)%n]], points[ring[(i+1)%n]]
		if r2.Cross(r2.Sub(p, before), r2.Sub(after, p)) > 0 && p != corner || !within(p, q, hit, corner) {
			continue
		}
		d := r2.Sub(p, q)
		if d.X <= 0 || d.X > hit.X-q.X && p != corner {
			continue
		}
		length := r2.Norm(d)
		c := d.X / length
		// Where corners lie in one place, at the ends of bridges, the one whose
		// angle opens toward q.
		if c > steep || c == steep && (length < far || length == far && opens(before, p, after, q)) {
			steep, far, at = c, length, i
		}
	}
	return at
}

// opens reports whether q lies in the angle at p on the left of the way from
// before over p to after.
func opens(before, p, after, q r2.Vec) bool {
	in := r2.Cross(r2.Sub(p, before), r2.Sub(q, p)) >= 0
	out := r2.Cross(r2.Sub(after, p), r2.Sub(q, p)) >= 0
	if r2.Cross(r2.Sub(p, before), r2.Sub(after, p)) > 0 {
		return in && out
	}
	return in || out
}

// within reports whether p is in the triangle or on its edge, whichever way
// round that runs.
func within(p, a, b, c r2.Vec) bool {
	u, v, w := orient(a, b, p), orient(b, c, p), orient(c, a, p)
	return u >= 0 && v >= 0 && w >= 0 || u <= 0 && v <= 0 && w <= 0
}

// orient is twice the area of the triangle a, b, c, above 0 where it runs counter-clockwise.
// It is worked out from the points in one order, so that a point all but on a line that
// two triangles share is never, by rounding, beyond it as seen from both.
func orient(a, b, c r2.Vec) float64 {
	sign := 1.0
	order := func(p, q *r2.Vec) {
		if q.X < p.X || q.X == p.X && q.Y < p.Y {
			*p, *q, sign = *q, *p, -sign
		}
	}
	order(&a, &b)
	order(&b, &c)
	order(&a, &b)
	return sign * r2.Cross(r2.Sub(b, a), r2.Sub(c, a))
}

// clip cuts a ring into triangles.
func clip(points []r2.Vec, ring []int) ([][3]int, error) {
	ring = slices.Clone(ring)
	out := make([][3]int, 0, len(ring))
	ear := func(i int, strict bool) bool {
		n := len(ring)
		a, b, c := points[ring[(i+n-1)%n]], points[ring[i]], points[ring[(i+1)%n]]
		if area := orient(a, b, c); area < 0 || area == 0 && strict {
			return false
		}
		for k := range n - 3 {
			p := points[ring[(i+2+k)%n]]
			if p != a && p != b && p != c && within(p, a, b, c) {
				return false
			}
		}
		return true
	}
	at := 0
	for len(ring) > 3 {
		n := len(ring)
		found := -1
		for _, strict := range [...]bool{true, false} {
			for k := range n {
				if i := (at + k) % n; ear(i, strict) {
					found = i
					break
				}
			}
			if found >= 0 {
				break
			}
		}
		if found < 0 {
			return out, &Error{Index: ring[0], Defect: "loops meet", Hint: "the area must be bounded by simple loops"}
		}
		out = append(out, [3]int{ring[(found+n-1)%n], ring[found], ring[(found+1)%n]})
		ring = slices.Delete(ring, found, found+1)
		at = found + 1 // the next ear elsewhere makes fewer slivers than a fan
	}
	return append(out, [3]int(ring)), nil
}
