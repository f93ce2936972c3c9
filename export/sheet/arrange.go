package sheet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Distances on the paper in mm.
const (
	frameGap = 5.0  // from anything to the frame
	blockGap = 6.0  // between tables, notes and views
	viewGap  = 10.0 // between aligned views
	denseGap = 9.0  // between views that stand close
	gridStep = 4.0  // of the places tried
	roomy    = 22.0 // clearance beyond which more is no better
)

// cluster is something that is placed as a whole: a table, the notes, a free
// view, or the front view with those aligned to it. Its boxes keep clear of
// all others; they may leave a corner free for another cluster to use.
type cluster struct {
	boxes []r2.Box
}

func (c cluster) extent() r2.Box {
	box := emptyBox()
	for _, b := range c.boxes {
		box = union(box, b)
	}
	return box
}

// floor is the drawing space with what stands in it.
type floor struct {
	room  r2.Box
	taken []r2.Box
	hit   int // of taken: what the last place that did not fit ran into, as the next may
}

// apart is the distance of two boxes, negative where they overlap. Where it is not less
// than enough it may fall short of it, down to enough: most boxes are far from each other.
func apart(a, b r2.Box, enough float64) float64 {
	dx := max(a.Min.X-b.Max.X, b.Min.X-a.Max.X)
	dy := max(a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y)
	far := max(dx, dy)
	if dx > 0 && dy > 0 && far < enough {
		return math.Hypot(dx, dy)
	}
	return far
}

// clearance is the least distance of the cluster, shifted, from what is taken
// and from the edge of the room; negative when it does not fit there.
func (f *floor) clearance(c cluster, by r2.Vec, gap float64) float64 {
	least := math.Inf(1)
	for _, b := range c.boxes {
		s := shift(b, by)
		edge := min(s.Min.X-f.room.Min.X, f.room.Max.X-s.Max.X, s.Min.Y-f.room.Min.Y, f.room.Max.Y-s.Max.Y)
		if edge < -1e-9 {
			return -1
		}
		least = min(least, edge+gap)
		if f.hit < len(f.taken) && apart(s, f.taken[f.hit], gap) < gap-1e-9 {
			return -1
		}
		for i, t := range f.taken {
			d := apart(s, t, max(least, gap))
			if d < gap-1e-9 {
				f.hit = i
				return -1
			}
			least = min(least, d)
		}
	}
	return least
}

// put finds the place of the cluster with the least cost and takes it. More
// clearance must never cost more.
func (f *floor) put(c cluster, gap float64, cost func(at r2.Box, clear float64) float64) (by r2.Vec, ok bool) {
	box := c.extent()
	w, h := size(box)
	best := math.Inf(1)
	steps := func(room, need float64) (int, float64) {
		spare := room - need
		if spare < -1e-9 {
			return -1, 0
		}
		n := int(math.Ceil(spare / gridStep))
		if n == 0 {
			return 0, 0
		}
		return n, spare / float64(n)
	}
	rw, rh := size(f.room)
	nx, dx := steps(rw, w)
	ny, dy := steps(rh, h)
	for i := 0; i <= nx; i++ {
		for j := 0; j <= ny; j++ {
			at := r2.Vec{X: f.room.Min.X + float64(i)*dx - box.Min.X, Y: f.room.Min.Y + float64(j)*dy - box.Min.Y}
			// However clear, it would be no better.
			if cost(shift(box, at), math.Inf(1)) >= best-1e-9 {
				continue
			}
			clear := f.clearance(c, at, gap)
			if clear < 0 {
				continue
			}
			if k := cost(shift(box, at), clear); k < best-1e-9 {
				best, by, ok = k, at, true
			}
		}
	}
	if ok {
		for _, b := range c.boxes {
			f.taken = append(f.taken, shift(b, by))
		}
	}
	return by, ok
}

// corner gives the cost of a place for tables and notes: the distance to one
// corner of the room, kx and ky -1 for left and low, +1 for right and high.
func (f *floor) corner(kx, ky float64) func(r2.Box, float64) float64 {
	return func(at r2.Box, _ float64) float64 {
		dx, dy := at.Min.X-f.room.Min.X, at.Min.Y-f.room.Min.Y
		if kx > 0 {
			dx = f.room.Max.X - at.Max.X
		}
		if ky > 0 {
			dy = f.room.Max.Y - at.Max.Y
		}
		return dx + 0.9*dy // along the edge first where both are as near
	}
}

// airy is the cost of a place for views: clear of everything as far as that
// matters, then near the middle of the room.
func (f *floor) airy(at r2.Box, clear float64) float64 {
	mid := r2.Scale(0.5, r2.Add(f.room.Min, f.room.Max))
	own := r2.Scale(0.5, r2.Add(at.Min, at.Max))
	return -4*math.Min(clear, roomy) + 0.2*r2.Norm(r2.Sub(own, mid))
}

// offsets gives the places of the aligned views on the front view's paper:
// first angle puts what is seen from above below, from the left on the right;
// third angle the other way round.
func offsets(p Projection, views map[Position]laidView) map[Position]r2.Vec {
	front := views[Front].extent
	out := map[Position]r2.Vec{}
	for pos, v := range views {
		below := front.Min.Y - viewGap - v.extent.Max.Y
		above := front.Max.Y + viewGap - v.extent.Min.Y
		right := front.Max.X + viewGap - v.extent.Min.X
		before := front.Min.X - viewGap - v.extent.Max.X
		first := p == FirstAngle
		switch {
		case pos == Front:
			out[pos] = r2.Vec{}
		case (pos == FromAbove) == first && (pos == FromAbove || pos == FromBelow):
			out[pos] = r2.Vec{Y: below}
		case pos == FromAbove || pos == FromBelow:
			out[pos] = r2.Vec{Y: above}
		case (pos == FromLeft) == first:
			out[pos] = r2.Vec{X: right}
		default:
			out[pos] = r2.Vec{X: before}
		}
	}
	return out
}
