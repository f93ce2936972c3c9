package sheet

import (
	"math"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// block is an oriented rectangle: the space a text takes.
type block struct {
	centre        r2.Vec
	along, across r2.Vec // unit vectors
	w, h          float64
}

// space gives the rectangle of a label, from its descenders to its capitals.
func (l Label) block() block {
	w, d := TextWidth(l.Value, l.Height), depth(l.Value, l.Height)
	u := polar(l.Rotation)
	v := left(u)
	x := w / 2
	switch l.H {
	case Middle:
		x = 0
	case Right:
		x = -w / 2
	}
	return block{along(along(l.At, u, x), v, (l.Height-d)/2), u, v, w, l.Height + d}
}

func (b block) corners() [4]r2.Vec {
	u, v := r2.Scale(b.w/2, b.along), r2.Scale(b.h/2, b.across)
	return [4]r2.Vec{
		r2.Sub(r2.Sub(b.centre, u), v), r2.Sub(r2.Add(b.centre, u), v),
		r2.Add(r2.Add(b.centre, u), v), r2.Add(r2.Sub(b.centre, u), v),
	}
}

func (b block) box() r2.Box {
	box := boxes.Empty()
	for _, c := range b.corners() {
		box = boxes.Grow(box, c)
	}
	return box
}

// padded grows the rectangle by m on every side; m may be negative.
func (b block) padded(m float64) block {
	b.w, b.h = math.Max(0, b.w+2*m), math.Max(0, b.h+2*m)
	return b
}

// overlaps is the separating axis test on the four directions of two
// rectangles.
func (b block) overlaps(o block) bool {
	d := r2.Sub(o.centre, b.centre)
	for _, axis := range [...]r2.Vec{b.along, b.across, o.along, o.across} {
		reach := b.reach(axis) + o.reach(axis)
		if math.Abs(r2.Dot(d, axis)) >= reach {
			return false
		}
	}
	return true
}

// reach is half the extent of the rectangle along a unit vector.
func (b block) reach(axis r2.Vec) float64 {
	return b.w/2*math.Abs(r2.Dot(b.along, axis)) + b.h/2*math.Abs(r2.Dot(b.across, axis))
}

// crosses reports whether the segment p-q has a point inside the rectangle
// (Liang and Barsky's clipping, in the rectangle's own axes).
func (b block) crosses(p, q r2.Vec) bool {
	local := func(v r2.Vec) r2.Vec {
		d := r2.Sub(v, b.centre)
		return r2.Vec{X: r2.Dot(d, b.along), Y: r2.Dot(d, b.across)}
	}
	s, e := local(p), local(q)
	d := r2.Sub(e, s)
	t0, t1 := 0.0, 1.0
	for _, c := range [...][2]float64{
		{-d.X, s.X + b.w/2}, {d.X, b.w/2 - s.X}, {-d.Y, s.Y + b.h/2}, {d.Y, b.h/2 - s.Y},
	} {
		switch {
		case c[0] == 0:
			if c[1] <= 0 {
				return false
			}
		case c[0] < 0:
			t0 = max(t0, c[1]/c[0])
		default:
			t1 = min(t1, c[1]/c[0])
		}
	}
	return t0 < t1
}

// segment is a straight piece of something already drawn.
type segment = boxes.Segment[Role]

// covers reports whether a line runs through a point.
func (c *clearance) covers(p r2.Vec) bool {
	const half = WideLine / 2
	spot := block{p, r2.Vec{X: 1}, r2.Vec{Y: 1}, 2 * half, 2 * half}
	hit := false
	c.segments.Near(spot.box(), func(s segment) bool {
		hit = spot.crosses(s.A, s.B)
		return !hit
	})
	return hit
}

// disc is a small circle that has been drawn: a bore, a hole, a shaft.
type disc struct {
	centre r2.Vec
	radius float64
}

// pierced reports whether the segment a-b runs through the circle; one that
// ends on its rim or inside does not.
func (d disc) pierced(a, b r2.Vec) bool {
	const rim = 0.1 // mm
	if (segment{A: a, B: b}).Misses(around(d.centre, d.radius+rim)) {
		return false
	}
	if r2.Norm(r2.Sub(a, d.centre)) < d.radius+rim || r2.Norm(r2.Sub(b, d.centre)) < d.radius+rim {
		return false
	}
	ab := r2.Sub(b, a)
	t := r2.Dot(r2.Sub(d.centre, a), ab) / r2.Norm2(ab)
	return t > 0 && t < 1 && r2.Norm(r2.Sub(along(a, ab, t), d.centre)) < d.radius
}

// around is the box of a circle, and a hair.
func around(centre r2.Vec, radius float64) r2.Box {
	r := r2.Vec{X: radius + hair, Y: radius + hair}
	return r2.Box{Min: r2.Sub(centre, r), Max: r2.Add(centre, r)}
}

// hair is the distance, mm, by which quick tests are wider than what they stand for.
const hair = 1e-6

// text is the space that a text takes, with the box round it and what is kept free.
type text struct {
	block, padded block
	box           r2.Box
}

func textOf(b block) text {
	t := text{block: b, padded: b.padded(freeGap)}
	t.box = t.padded.box()
	t.box.Min, t.box.Max = r2.Sub(t.box.Min, r2.Vec{X: hair, Y: hair}), r2.Add(t.box.Max, r2.Vec{X: hair, Y: hair})
	return t
}

// freeGap is kept free around a text, mm.
const freeGap = 0.6

// clearance knows what has been drawn in a view, to keep texts clear of it.
type clearance struct {
	texts    []text
	segments boxes.Grid[Role]
	holes    []disc
	extent   r2.Box
}

func (c *clearance) add(prims ...Primitive) {
	for _, p := range prims {
		c.extent = boxes.Union(c.extent, primitiveBox(p))
		switch p := p.(type) {
		case Stroke:
			if centre, radius, ok := p.Circle(); ok && p.Role == Visible && radius < largestHole {
				c.holes = append(c.holes, disc{centre, radius})
			}
			pts := flatten(p.Path, p.Closed, clearChord)
			for i := 1; i < len(pts); i++ {
				c.segments.Add(segment{A: pts[i-1], B: pts[i], Role: p.Role})
			}
		case Label:
			c.texts = append(c.texts, textOf(p.block()))
		case Fill:
			for _, loop := range p.Loops {
				pts := flatten(loop, true, clearChord)
				for i := 1; i < len(pts); i++ {
					c.segments.Add(segment{A: pts[i-1], B: pts[i], Role: p.Role})
				}
			}
		}
	}
}

// largestHole is the radius, paper mm, up to which a circle counts as a hole
// that leaders keep out of.
const largestHole = 20.0

// Costs of a candidate place. A text over a text is ruled out as long as
// anything else is possible; a text over an outline is worse than one over a
// narrow line; the rest are preferences.
const (
	costTextOnText = 1e4
	costLineOnText = 2e3
	costOnWide     = 200
	costOnNarrow   = 60
	costCrossing   = 2
	costCrossWide  = 8
	costThrough    = 100  // through a hole
	costPerLength  = 0.25 // per mm of leader
	costPerGrowth  = 0.5  // per mm by which the view grows
)

// cost judges a set of primitives as an addition to what is drawn: less is
// better. It gives up, with a number not below it, once the limit is reached.
func (c *clearance) cost(limit float64, prims ...Primitive) float64 {
	sum := 0.0
	if !boxes.IsEmpty(c.extent) {
		box := boxes.Union(c.extent, boxOf(prims))
		w0, h0 := boxes.Size(c.extent)
		w1, h1 := boxes.Size(box)
		sum = costPerGrowth * (w1 - w0 + h1 - h0)
	}
	for _, p := range prims {
		if sum >= limit {
			return sum
		}
		switch p := p.(type) {
		case Label:
			b := p.block().padded(freeGap)
			sum += c.onText(b) + c.onLines(b)
		case Stroke:
			if centre, radius, ok := p.Circle(); ok {
				// The ring of a balloon: nothing may run through it.
				ring := block{centre, r2.Vec{X: 1}, r2.Vec{Y: 1}, 2 * radius, 2 * radius}
				sum += c.onText(ring) + c.onLines(ring)
				continue
			}
			pts := flatten(p.Path, p.Closed, clearChord)
			for i := 1; i < len(pts) && sum < limit; i++ {
				sum += costPerLength * r2.Norm(r2.Sub(pts[i], pts[i-1]))
				piece := segment{A: pts[i-1], B: pts[i]}
				for k := range c.texts {
					if t := &c.texts[k]; !piece.Misses(t.box) && t.padded.crosses(piece.A, piece.B) {
						sum += costLineOnText
					}
				}
				for _, h := range c.holes {
					if h.pierced(piece.A, piece.B) {
						sum += costThrough
					}
				}
				sum += c.alongLines(pts[i-1], pts[i])
			}
		}
	}
	return sum
}

// onText is the cost of putting a block over texts.
func (c *clearance) onText(b block) float64 {
	sum, box := 0.0, b.box()
	for k := range c.texts {
		if t := &c.texts[k]; boxes.Meet(box, t.box) && b.overlaps(t.block) {
			sum += costTextOnText
		}
	}
	return sum
}

// onLines is the cost of putting a block over lines.
func (c *clearance) onLines(b block) float64 {
	sum := 0.0
	c.segments.Near(b.box(), func(s segment) bool {
		switch {
		case !b.crosses(s.A, s.B):
		case s.Role == Visible || s.Role == Cut:
			sum += costOnWide
		default:
			sum += costOnNarrow
		}
		return true
	})
	return sum
}

// alongLines is the cost of a new line a-b across or along what is drawn.
func (c *clearance) alongLines(a, b r2.Vec) float64 {
	margin := r2.Vec{X: lineGap, Y: lineGap}
	box := boxes.Grow(boxes.Grow(boxes.Empty(), a), b)
	box = r2.Box{Min: r2.Sub(box.Min, margin), Max: r2.Add(box.Max, margin)}
	sum := 0.0
	c.segments.Near(box, func(s segment) bool {
		if cross(a, b, s.A, s.B) {
			if s.Role == Visible || s.Role == Cut {
				sum += costCrossWide
			} else {
				sum += costCrossing
			}
		}
		if confusable(a, b, s.A, s.B) {
			sum += costOnNarrow
		}
		return true
	})
	return sum
}

// lineGap is the least distance of parallel lines (ISO 128-2), mm.
const lineGap = 0.7

// confusable reports whether a new line a-b runs along an old one p-q so
// closely that the two are read as one.
func confusable(a, b, p, q r2.Vec) bool {
	const alike = 0.1 // rad
	ab, pq := r2.Sub(b, a), r2.Sub(q, p)
	// Most are told apart without a root; what is near the limit is left to the next line.
	if turn := r2.Cross(ab, pq); turn*turn > 1.001*alike*alike*r2.Norm2(ab)*r2.Norm2(pq) {
		return false
	}
	n, m := r2.Norm(ab), r2.Norm(pq)
	if n < lineGap || m < lineGap || math.Abs(r2.Cross(ab, pq)) > alike*n*m {
		return false
	}
	u := r2.Scale(1/n, ab)
	middle := r2.Scale(0.5, r2.Add(a, b))
	return block{middle, u, left(u), n, 2 * lineGap}.crosses(p, q)
}

// cross reports whether two segments properly cross.
func cross(a, b, p, q r2.Vec) bool {
	side := func(o, d, x r2.Vec) float64 { return r2.Cross(r2.Sub(d, o), r2.Sub(x, o)) }
	return side(a, b, p)*side(a, b, q) < 0 && side(p, q, a)*side(p, q, b) < 0
}

// best gives the cheapest candidate; among equals the first.
func (c *clearance) best(candidates [][]Primitive) int {
	least, which := math.Inf(1), 0
	for i, prims := range candidates {
		if cost := c.cost(least, prims...); cost < least-1e-9 {
			least, which = cost, i
		}
	}
	return which
}

func primitiveBox(p Primitive) r2.Box {
	switch p := p.(type) {
	case Stroke:
		return pathBox(p.Path, p.Closed)
	case Fill:
		box := boxes.Empty()
		for _, loop := range p.Loops {
			box = boxes.Union(box, pathBox(loop, true))
		}
		return box
	case Label:
		return p.block().box()
	}
	panic("sheet: unknown primitive")
}

func boxOf(prims []Primitive) r2.Box {
	box := boxes.Empty()
	for _, p := range prims {
		box = boxes.Union(box, primitiveBox(p))
	}
	return box
}

// moved gives the primitive shifted on the paper.
func moved(p Primitive, by r2.Vec) Primitive {
	path := func(in []Vertex) []Vertex {
		out := make([]Vertex, len(in))
		for i, v := range in {
			out[i] = Vertex{r2.Add(v.Vec, by), v.Bulge}
		}
		return out
	}
	switch p := p.(type) {
	case Stroke:
		p.Path = path(p.Path)
		return p
	case Fill:
		loops := make([][]Vertex, len(p.Loops))
		for i, loop := range p.Loops {
			loops[i] = path(loop)
		}
		p.Loops = loops
		return p
	case Label:
		p.At = r2.Add(p.At, by)
		return p
	}
	panic("sheet: unknown primitive")
}
