package draw

import (
	"cmp"
	"math"
	"slices"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// span is a closed interval.
type span struct{ from, to float64 }

// spans is a set of intervals.
type spans []span

// leastSpan is the length below which nothing is left of an interval.
const leastSpan = 1e-9

// union returns the set as disjoint intervals in rising order.
func (s spans) union() spans {
	if len(s) < 2 {
		return s
	}
	sorted := slices.Clone(s)
	slices.SortFunc(sorted, func(a, b span) int {
		return cmp.Compare(a.from, b.from)
	})
	var out spans
	for _, x := range sorted {
		if n := len(out); n > 0 && x.from <= out[n-1].to+leastSpan {
			out[n-1].to = math.Max(out[n-1].to, x.to)
			continue
		}
		out = append(out, x)
	}
	return out
}

// minus returns what the disjoint, rising set o leaves of s.
func (s spans) minus(o spans) spans {
	var out spans
	for _, x := range s {
		at := x.from
		for _, y := range o {
			if y.to <= at || y.from >= x.to {
				continue
			}
			if y.from-at > leastSpan {
				out = append(out, span{at, y.from})
			}
			at = math.Max(at, y.to)
		}
		if x.to-at > leastSpan {
			out = append(out, span{at, x.to})
		}
	}
	return out
}

// stroke is a straight line of a view, in model mm.
type stroke struct {
	a, b r2.Vec
	role sheet.Role
}

// lineStep is the coarseness, mm, at which points and lines count as the same.
const lineStep = 0.02

// carrier is the infinite line that carries strokes: direction and distance
// from the origin, rounded.
type carrier struct{ angle, offset int }

// carrierOf returns the carrier of a stroke with the direction that the
// positions of its ends count along.
func carrierOf(s stroke) (carrier, r2.Vec) {
	u := r2.Unit(r2.Sub(s.b, s.a))
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 {
		u = r2.Scale(-1, u)
	}
	return carrier{
		int(math.Round(math.Atan2(u.Y, u.X) / 1e-4)),
		int(math.Round(r2.Cross(u, s.a) / (2 * lineStep))),
	}, u
}

// lines are the strokes on one carrier.
type lines struct {
	u, at r2.Vec   // direction, and the point nearest to the origin
	by    [4]spans // in the order of strength
}

// strength gives the roles of lines of bodies, the strongest first.
func strength() [4]sheet.Role {
	return [4]sheet.Role{sheet.Visible, sheet.Hidden, sheet.Phantom, sheet.Thin}
}

// nearest returns the group of a carrier or of one that differs from it by the
// rounding only.
func nearest(groups map[carrier]*lines, key carrier) *lines {
	for _, da := range [...]int{0, -1, 1} {
		for _, do := range [...]int{0, -1, 1} {
			if g := groups[carrier{key.angle + da, key.offset + do}]; g != nil {
				return g
			}
		}
	}
	return nil
}

// tidy draws every line once: strokes of one role on one line are joined, and
// what would lie under a stronger role is left out, visible before hidden
// before phantom.
func tidy(strokes []stroke) []stroke {
	order := strength()
	groups := make(map[carrier]*lines, len(strokes))
	var all []*lines // in order of first appearance
	for _, s := range strokes {
		key, u := carrierOf(s)
		g := nearest(groups, key)
		if g == nil {
			foot := r2.Sub(s.a, r2.Scale(r2.Dot(s.a, u), u))
			g = &lines{u: u, at: foot}
			groups[key] = g
			all = append(all, g)
		}
		x, y := r2.Dot(s.a, g.u), r2.Dot(s.b, g.u)
		if i := slices.Index(order[:], s.role); i >= 0 {
			g.by[i] = append(g.by[i], span{min(x, y), max(x, y)})
		}
	}
	out := make([]stroke, 0, len(strokes))
	for _, g := range all {
		var drawn spans
		for i, role := range order {
			if len(g.by[i]) == 0 {
				continue
			}
			own := g.by[i].union()
			for _, s := range own.minus(drawn) {
				if s.to-s.from > lineStep {
					out = append(out, stroke{r2.Add(g.at, r2.Scale(s.from, g.u)), r2.Add(g.at, r2.Scale(s.to, g.u)), role})
				}
			}
			drawn = append(slices.Clip(drawn), own...).union()
		}
	}
	return out
}

// node is a rounded point.
type node struct{ x, y int }

func nodeOf(p r2.Vec) node {
	return node{int(math.Round(p.X / (2 * lineStep))), int(math.Round(p.Y / (2 * lineStep)))}
}

// chains joins strokes that meet two by two into polylines, so that dashes run
// round corners and curves.
func chains(strokes []stroke) []sheet.Entity {
	type end struct {
		role sheet.Role
		node node
	}
	// The first two strokes that end there, and how many do.
	type meeting struct{ first, second, n int }
	at := make(map[end]meeting, 2*len(strokes))
	for i, s := range strokes {
		for _, p := range [...]r2.Vec{s.a, s.b} {
			k := end{s.role, nodeOf(p)}
			m := at[k]
			switch m.n++; m.n {
			case 1:
				m.first = i
			case 2:
				m.second = i
			}
			at[k] = m
		}
	}
	used := make([]bool, len(strokes))
	var out []sheet.Entity
	// grow extends a chain from its last point as long as exactly one other
	// stroke goes on from there.
	grow := func(role sheet.Role, points []r2.Vec) []r2.Vec {
		for {
			last := points[len(points)-1]
			next := at[end{role, nodeOf(last)}]
			if next.n != 2 {
				return points
			}
			i := next.first
			if used[i] {
				i = next.second
			}
			if used[i] {
				return points
			}
			used[i] = true
			p := strokes[i].b
			if nodeOf(p) == nodeOf(last) {
				p = strokes[i].a
			}
			points = append(points, p)
		}
	}
	for i, s := range strokes {
		if used[i] {
			continue
		}
		used[i] = true
		points := grow(s.role, []r2.Vec{s.a, s.b})
		closed := len(points) > 3 && nodeOf(points[0]) == nodeOf(points[len(points)-1])
		if closed {
			points = points[:len(points)-1]
		} else {
			slices.Reverse(points)
			points = grow(s.role, points)
		}
		p := sheet.Polyline{Role: s.role, Closed: closed, Vertices: make([]sheet.Vertex, len(points))}
		for k, q := range points {
			p.Vertices[k].Vec = q
		}
		out = append(out, p)
	}
	return out
}
