package sheet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// gridCell is the size of a cell, paper mm: about that of a value, so that a
// question about one looks into a few cells.
const gridCell = 8.0

// cell is a square of the paper.
type cell struct{ x, y int }

func cellOf(p r2.Vec) cell {
	return cell{int(math.Floor(p.X / gridCell)), int(math.Floor(p.Y / gridCell))}
}

// segmentGrid holds segments by the cells they pass, so that those near a
// place are found without looking at all.
type segmentGrid struct {
	all   []segment
	cells map[cell][]int
	asked []int // number of the question that a segment was last looked at for
	tick  int
}

func (g *segmentGrid) add(s segment) {
	if g.cells == nil {
		g.cells = map[cell][]int{}
	}
	i := len(g.all)
	g.all, g.asked = append(g.all, s), append(g.asked, 0)
	a, b := s.a, s.b
	if a.X > b.X {
		a, b = b, a
	}
	from, to := cellOf(a).x, cellOf(b).x
	// Upright ones on a border of cells may be in both columns.
	upright := from == to || b.X-a.X < 1e-9
	height := func(x float64) float64 { // of the segment at x
		return a.Y + (b.Y-a.Y)*math.Min(1, math.Max(0, (x-a.X)/(b.X-a.X)))
	}
	for x := from; x <= to; x++ {
		lo, hi := a.Y, b.Y
		if !upright {
			lo, hi = height(float64(x)*gridCell), height(float64(x+1)*gridCell)
		}
		// A hair more, for a segment that runs along a border of cells.
		const hair = 1e-9
		low := cellOf(r2.Vec{Y: math.Min(lo, hi) - hair}).y
		high := cellOf(r2.Vec{Y: math.Max(lo, hi) + hair}).y
		for y := low; y <= high; y++ {
			g.cells[cell{x, y}] = append(g.cells[cell{x, y}], i)
		}
	}
}

// near calls f for every segment whose box meets the given one, each once,
// until f says that it has seen enough.
func (g *segmentGrid) near(box r2.Box, f func(segment) bool) {
	g.tick++
	from, to := cellOf(box.Min), cellOf(box.Max)
	for x := from.x; x <= to.x; x++ {
		for y := from.y; y <= to.y; y++ {
			for _, i := range g.cells[cell{x, y}] {
				if g.asked[i] == g.tick {
					continue
				}
				g.asked[i] = g.tick
				if !g.all[i].misses(box) && !f(g.all[i]) {
					return
				}
			}
		}
	}
}
