package sheettest

import (
	"math"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// fillCell is the side of the squares, paper mm, that a sheet is counted in: what stands
// closer belongs together.
const fillCell = 20.0

// Filled is the share of the squares within a sheet's frame in which something stands, a
// line, a letter or the title block.
func Filled(d *sheet.Drawing) float64 {
	const inside = 1.0 // of the frame, whose lines count for nothing
	low := r2.Vec{X: sheet.FilingMargin + inside, Y: sheet.Margin + inside}
	w, h := d.Width-low.X-sheet.Margin-inside, d.Height-low.Y-sheet.Margin-inside
	nx, ny := int(math.Ceil(w/fillCell)), int(math.Ceil(h/fillCell))
	taken := map[[2]int]bool{}
	mark := func(p r2.Vec) {
		x, y := p.X-low.X, p.Y-low.Y
		if x > 0 && y > 0 && x < w && y < h {
			taken[[2]int{int(x / fillCell), int(y / fillCell)}] = true
		}
	}
	const step = fillCell / 8
	line := func(a, b r2.Vec) {
		n := math.Ceil(r2.Norm(r2.Sub(b, a))/step) + 1
		for k := 0.0; k <= n; k++ {
			mark(r2.Add(a, r2.Scale(k/n, r2.Sub(b, a))))
		}
	}
	path := func(list []sheet.Vertex, closed bool) {
		for i, v := range list {
			if i == len(list)-1 && !closed {
				break
			}
			next := list[(i+1)%len(list)].Vec
			if v.Bulge == 0 {
				line(v.Vec, next)
				continue
			}
			centre, radius, start, sweep := sheet.ArcOf(v.Vec, next, v.Bulge)
			n := math.Ceil(radius*math.Abs(sweep)/step) + 1
			for k := 0.0; k <= n; k++ {
				sin, cos := math.Sincos(start + sweep*k/n)
				mark(r2.Add(centre, r2.Vec{X: radius * cos, Y: radius * sin}))
			}
		}
	}
	for p := range d.All() {
		switch p := p.(type) {
		case sheet.Stroke:
			path(p.Path, p.Closed)
		case sheet.Fill:
			for _, l := range p.Loops {
				path(l, true)
			}
		case sheet.Label:
			long := sheet.TextWidth(p.Value, p.Height)
			sin, cos := math.Sincos(p.Rotation)
			along := r2.Vec{X: cos, Y: sin}
			from := r2.Sub(p.At, r2.Scale(map[sheet.HAlign]float64{sheet.Middle: long / 2, sheet.Right: long}[p.H], along))
			line(from, r2.Add(from, r2.Scale(long, along)))
		}
	}
	return float64(len(taken)) / float64(nx*ny)
}
