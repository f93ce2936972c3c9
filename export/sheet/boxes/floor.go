package boxes

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	gridStep = 4.0  // of the places tried, mm
	roomy    = 22.0 // clearance beyond which more is no better, mm
)

// Cluster is something that is placed as a whole: a table, the notes, a free
// view, or the front view with those aligned to it. Its boxes keep clear of
// all others; they may leave a corner free for another cluster to use.
type Cluster struct {
	Boxes []r2.Box
}

func (c Cluster) extent() r2.Box {
	box := Empty()
	for _, b := range c.Boxes {
		box = Union(box, b)
	}
	return box
}

// Floor is the drawing space with what stands in it.
type Floor struct {
	Room  r2.Box
	Taken []r2.Box
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
func (f *Floor) clearance(c Cluster, by r2.Vec, gap float64) float64 {
	least := math.Inf(1)
	for _, b := range c.Boxes {
		s := Shift(b, by)
		edge := min(s.Min.X-f.Room.Min.X, f.Room.Max.X-s.Max.X, s.Min.Y-f.Room.Min.Y, f.Room.Max.Y-s.Max.Y)
		if edge < -1e-9 {
			return -1
		}
		least = min(least, edge+gap)
		if f.hit < len(f.Taken) && apart(s, f.Taken[f.hit], gap) < gap-1e-9 {
			return -1
		}
		for i, t := range f.Taken {
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

// Put finds the place of the cluster with the least cost and takes it. More
// clearance must never cost more.
func (f *Floor) Put(c Cluster, gap float64, cost func(at r2.Box, clear float64) float64) (by r2.Vec, ok bool) {
	box := c.extent()
	w, h := Size(box)
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
	rw, rh := Size(f.Room)
	nx, dx := steps(rw, w)
	ny, dy := steps(rh, h)
	for i := 0; i <= nx; i++ {
		for j := 0; j <= ny; j++ {
			at := r2.Vec{X: f.Room.Min.X + float64(i)*dx - box.Min.X, Y: f.Room.Min.Y + float64(j)*dy - box.Min.Y}
			// However clear, it would be no better.
			if cost(Shift(box, at), math.Inf(1)) >= best-1e-9 {
				continue
			}
			clear := f.clearance(c, at, gap)
			if clear < 0 {
				continue
			}
			if k := cost(Shift(box, at), clear); k < best-1e-9 {
				best, by, ok = k, at, true
			}
		}
	}
	if ok {
		for _, b := range c.Boxes {
			f.Taken = append(f.Taken, Shift(b, by))
		}
	}
	return by, ok
}

// Corner gives the cost of a place for tables and notes: the distance to one
// corner of the room, kx and ky -1 for left and low, +1 for right and high.
func (f *Floor) Corner(kx, ky float64) func(r2.Box, float64) float64 {
	return func(at r2.Box, _ float64) float64 {
		dx, dy := at.Min.X-f.Room.Min.X, at.Min.Y-f.Room.Min.Y
		if kx > 0 {
			dx = f.Room.Max.X - at.Max.X
		}
		if ky > 0 {
			dy = f.Room.Max.Y - at.Max.Y
		}
		return dx + 0.9*dy // along the edge first where both are as near
	}
}

// Airy is the cost of a place for views: clear of everything as far as that
// matters, then near the middle of the room.
func (f *Floor) Airy(at r2.Box, clear float64) float64 {
	mid := r2.Scale(0.5, r2.Add(f.Room.Min, f.Room.Max))
	own := r2.Scale(0.5, r2.Add(at.Min, at.Max))
	return -4*math.Min(clear, roomy) + 0.2*r2.Norm(r2.Sub(own, mid))
}
