// Package stroke turns straight lines, drawn over each other and in pieces, into
// the fewest polylines that show the same.
package stroke

import (
	"cmp"
	"math"
	"slices"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// Span is a closed interval.
type Span struct{ From, To float64 }

// Spans is a set of intervals.
type Spans []Span

// leastSpan is the length below which nothing is left of an interval.
const leastSpan = 1e-9

// Union returns the set as disjoint intervals in rising order.
func (s Spans) Union() Spans {
	if len(s) < 2 {
		return s
	}
	sorted := slices.Clone(s)
	slices.SortFunc(sorted, func(a, b Span) int {
		return cmp.Compare(a.From, b.From)
	})
	var out Spans
	for _, x := range sorted {
		if n := len(out); n > 0 && x.From <= out[n-1].To+leastSpan {
			out[n-1].To = math.Max(out[n-1].To, x.To)
			continue
		}
		out = append(out, x)
	}
	return out
}

// Minus returns what the disjoint, rising set o leaves of s.
func (s Spans) Minus(o Spans) Spans {
	var out Spans
	for _, x := range s {
		at := x.From
		for _, y := range o {
			if y.To <= at || y.From >= x.To {
				continue
			}
			if y.From-at > leastSpan {
				out = append(out, Span{at, y.From})
			}
			at = math.Max(at, y.To)
		}
		if x.To-at > leastSpan {
			out = append(out, Span{at, x.To})
		}
	}
	return out
}

// Line is a straight line of a view, in model mm.
type Line struct {
	A, B r2.Vec
	Role sheet.Role
}

// Step is the coarseness, mm, at which points and lines count as the same.
const Step = 0.02

// carrier is the infinite line that carries strokes: direction and distance
// from the origin, rounded.
type carrier struct{ angle, offset int }

// carrierOf returns the carrier of a stroke with the direction that the
// positions of its ends count along.
func carrierOf(s Line) (carrier, r2.Vec) {
	u := r2.Unit(r2.Sub(s.B, s.A))
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y < 0 {
		u = r2.Scale(-1, u)
	}
	return carrier{
		int(math.Round(math.Atan2(u.Y, u.X) / 1e-4)),
		int(math.Round(r2.Cross(u, s.A) / (2 * Step))),
	}, u
}

// lines are the strokes on one carrier.
type lines struct {
	u, at r2.Vec   // direction, and the point nearest to the origin
	by    [4]Spans // in the order of strength
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

// Tidy draws every line once: strokes of one role on one line are joined, and
// what would lie under a stronger role is left out, visible before hidden
// before phantom.
func Tidy(strokes []Line) []Line {
	order := strength()
	groups := make(map[carrier]*lines, len(strokes))
	var all []*lines // in order of first appearance
	for _, s := range strokes {
		key, u := carrierOf(s)
		g := nearest(groups, key)
		if g == nil {
			foot := r2.Sub(s.A, r2.Scale(r2.Dot(s.A, u), u))
			g = &lines{u: u, at: foot}
			groups[key] = g
			all = append(all, g)
		}
		x, y := r2.Dot(s.A, g.u), r2.Dot(s.B, g.u)
		if i := slices.Index(order[:], s.Role); i >= 0 {
			g.by[i] = append(g.by[i], Span{min(x, y), max(x, y)})
		}
	}
	out := make([]Line, 0, len(strokes))
	for _, g := range all {
		var drawn Spans
		for i, role := range order {
			if len(g.by[i]) == 0 {
				continue
			}
			own := g.by[i].Union()
			for _, s := range own.Minus(drawn) {
				if s.To-s.From > Step {
					out = append(out, Line{r2.Add(g.at, r2.Scale(s.From, g.u)), r2.Add(g.at, r2.Scale(s.To, g.u)), role})
				}
			}
			drawn = append(slices.Clip(drawn), own...).Union()
		}
	}
	return out
}

// node is a rounded point.
type node struct{ x, y int }

func nodeOf(p r2.Vec) node {
	return node{int(math.Round(p.X / (2 * Step))), int(math.Round(p.Y / (2 * Step)))}
}

// Join makes polylines of strokes that meet two by two, so that dashes run
// round corners and curves.
func Join(strokes []Line) []sheet.Entity {
	type end struct {
		role sheet.Role
		node node
	}
	// The first two strokes that end there, and how many do.
	type meeting struct{ first, second, n int }
	at := make(map[end]meeting, 2*len(strokes))
	for i, s := range strokes {
		for _, p := range [...]r2.Vec{s.A, s.B} {
			k := end{s.Role, nodeOf(p)}
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
	// Line goes on from there.
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
			p := strokes[i].B
			if nodeOf(p) == nodeOf(last) {
				p = strokes[i].A
			}
			points = append(points, p)
		}
	}
	for i, s := range strokes {
		if used[i] {
			continue
		}
		used[i] = true
		points := grow(s.Role, []r2.Vec{s.A, s.B})
		closed := len(points) > 3 && nodeOf(points[0]) == nodeOf(points[len(points)-1])
		if closed {
			points = points[:len(points)-1]
		} else {
			slices.Reverse(points)
			points = grow(s.Role, points)
		}
		p := sheet.Polyline{Role: s.Role, Closed: closed, Vertices: make([]sheet.Vertex, len(points))}
		for k, q := range points {
			p.Vertices[k].Vec = q
		}
		out = append(out, p)
	}
	return out
}
