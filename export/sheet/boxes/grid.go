package boxes

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// gridCell is the size of a cell, paper mm: about that of a value, so that a
// question about one looks into a few cells.
const gridCell = 8.0

// cell is a square of the paper.
type cell struct{ x, y int }

// farCell is beyond the largest paper from anything on it: what lies farther off, where no
// text is sought room for, counts to the last cells.
const farCell = 256

func cellOf(p r2.Vec) cell {
	of := func(x float64) int { return int(min(farCell, max(-farCell, math.Floor(x/gridCell)))) }
	return cell{of(p.X), of(p.Y)}
}

// Segment is a straight piece of something already drawn, with what its user knows it by.
type Segment[R any] struct {
	A, B r2.Vec
	Role R
}

// Misses is a quick test that the segment is outside a box.
func (s Segment[R]) Misses(b r2.Box) bool {
	return max(s.A.X, s.B.X) < b.Min.X || min(s.A.X, s.B.X) > b.Max.X ||
		max(s.A.Y, s.B.Y) < b.Min.Y || min(s.A.Y, s.B.Y) > b.Max.Y
}

// Grid holds segments by the cells they pass, so that those near a
// place are found without looking at all.
type Grid[R any] struct {
	all   []Segment[R]
	asked []int // number of the question that a segment was last looked at for
	tick  int

	low        cell    // the corner of the cells that there are
	wide, high int     // how many they are
	heads      []int32 // column by column, the last entry in each cell, and 1
	entries    []entry
}

// entry is a segment in a cell, before another.
type entry struct{ segment, next int32 }

// at is the place of a cell's head.
func (g *Grid[R]) at(x, y int) *int32 { return &g.heads[(x-g.low.x)*g.high+y-g.low.y] }

// reach makes cells from one to another, and some more all round so that this is seldom.
func (g *Grid[R]) reach(from, to cell) {
	if len(g.heads) > 0 && from.x >= g.low.x && from.y >= g.low.y && to.x < g.low.x+g.wide && to.y < g.low.y+g.high {
		return
	}
	const more = 12 // cells
	old := *g
	if len(old.heads) > 0 {
		from, to = cell{min(from.x, old.low.x), min(from.y, old.low.y)}, cell{max(to.x, old.low.x+old.wide-1), max(to.y, old.low.y+old.high-1)}
	}
	g.low = cell{from.x - more, from.y - more}
	g.wide, g.high = to.x-from.x+1+2*more, to.y-from.y+1+2*more
	g.heads = make([]int32, g.wide*g.high)
	for x := range old.wide {
		copy(g.heads[(old.low.x+x-g.low.x)*g.high+old.low.y-g.low.y:], old.heads[x*old.high:(x+1)*old.high])
	}
}

func (g *Grid[R]) Add(s Segment[R]) {
	i := len(g.all)
	g.all, g.asked = append(g.all, s), append(g.asked, 0)
	a, b := s.A, s.B
	if a.X > b.X {
		a, b = b, a
	}
	from, to := cellOf(a).x, cellOf(b).x
	// Upright ones on a border of cells may be in both columns.
	upright := from == to || b.X-a.X < 1e-9
	height := func(x float64) float64 { // of the segment at x
		return a.Y + (b.Y-a.Y)*min(1, max(0, (x-a.X)/(b.X-a.X)))
	}
	// A hair more, for a segment that runs along a border of cells.
	const hair = 1e-9
	g.reach(cell{from, cellOf(r2.Vec{Y: min(a.Y, b.Y) - hair}).y}, cell{to, cellOf(r2.Vec{Y: max(a.Y, b.Y) + hair}).y})
	for x := from; x <= to; x++ {
		lo, hi := a.Y, b.Y
		if !upright {
			lo, hi = height(float64(x)*gridCell), height(float64(x+1)*gridCell)
		}
		low := cellOf(r2.Vec{Y: min(lo, hi) - hair}).y
		high := cellOf(r2.Vec{Y: max(lo, hi) + hair}).y
		for y := low; y <= high; y++ {
			head := g.at(x, y)
			g.entries = append(g.entries, entry{int32(i), *head})
			*head = int32(len(g.entries))
		}
	}
}

// Near calls f for every segment whose box meets the given one, each once,
// until f says that it has seen enough.
func (g *Grid[R]) Near(box r2.Box, f func(Segment[R]) bool) {
	g.tick++
	from, to := cellOf(box.Min), cellOf(box.Max)
	for x := max(from.x, g.low.x); x <= min(to.x, g.low.x+g.wide-1); x++ {
		for y := max(from.y, g.low.y); y <= min(to.y, g.low.y+g.high-1); y++ {
			for k := *g.at(x, y); k > 0; k = g.entries[k-1].next {
				i := g.entries[k-1].segment
				if g.asked[i] == g.tick {
					continue
				}
				g.asked[i] = g.tick
				if !g.all[i].Misses(box) && !f(g.all[i]) {
					return
				}
			}
		}
	}
}
