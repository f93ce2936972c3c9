package record

import (
	"fmt"
	"math"
	"slices"

	"armwright/export/plot"
)

// Plot is a plot of two figures of a study's designs as an SVG file of its
// own: a dot for every place with designs, filled where one of them meets its
// requirements, and the front of those that none betters as a line. It holds a
// raster, so its memory does not grow with the study.
type Plot struct {
	X, Y   string // columns
	x, y   plot.Extent
	met    [rasterRows][rasterColumns]bool
	others [rasterRows][rasterColumns]bool
	front  [][2]float64
}

// Raster of a plot, finer than its dots are wide, size and margins of its paper.
const (
	rasterColumns, rasterRows = 160, 120
	paperWidth, paperHeight   = 720.0, 520.0
	paperLeft, paperRight     = 78.0, 20.0
	paperTop, paperBottom     = 40.0, 52.0
)

// NewPlot returns an empty plot over the ranges of two figures, least and
// greatest value of each.
func NewPlot(x, y string, xRange, yRange [2]float64) *Plot {
	return &Plot{X: x, Y: y, x: plot.NewExtent(xRange[0], xRange[1]), y: plot.NewExtent(yRange[0], yRange[1])}
}

// Add marks a design.
func (p *Plot) Add(x, y float64, met bool) {
	row, column := cell(p.y, y, rasterRows), cell(p.x, x, rasterColumns)
	if met {
		p.met[row][column] = true
	} else {
		p.others[row][column] = true
	}
}

// Front sets the designs that none betters.
func (p *Plot) Front(points [][2]float64) {
	p.front = slices.SortedFunc(slices.Values(points), func(a, b [2]float64) int {
		switch {
		case a[0] < b[0]:
			return -1
		case a[0] > b[0]:
			return 1
		}
		return 0
	})
}

// SVG is the plot as a file.
func (p *Plot) SVG() []byte {
	px := func(v float64) float64 {
		return paperLeft + (v-p.x.Low)/(p.x.High-p.x.Low)*(paperWidth-paperLeft-paperRight)
	}
	py := func(v float64) float64 {
		return paperHeight - paperBottom - (v-p.y.Low)/(p.y.High-p.y.Low)*(paperHeight-paperTop-paperBottom)
	}
	d := &plot.Drawing{}
	for _, v := range p.x.Ticks() {
		d.Line("grid", px(v), paperTop, px(v), paperHeight-paperBottom)
		d.Text(px(v), paperHeight-paperBottom+18, "middle", fmt.Sprintf("%.6g", v))
	}
	for _, v := range p.y.Ticks() {
		d.Line("grid", paperLeft, py(v), paperWidth-paperRight, py(v))
		d.Text(paperLeft-8, py(v)+4, "end", fmt.Sprintf("%.6g", v))
	}
	d.Rect("frame", paperLeft, paperTop, paperWidth-paperLeft-paperRight, paperHeight-paperTop-paperBottom)
	d.Text((paperLeft+paperWidth-paperRight)/2, paperHeight-12, "middle", p.X)
	d.Text(8, 18, "start", p.Y)
	d.Text(paperWidth-paperRight, 18, "end", "filled: requirements met; line: none better in both")

	for row := range rasterRows {
		for column := range rasterColumns {
			x := p.x.Low + (p.x.High-p.x.Low)*(float64(column)+0.5)/rasterColumns
			y := p.y.Low + (p.y.High-p.y.Low)*(float64(row)+0.5)/rasterRows
			switch {
			case p.met[row][column]:
				d.Dot("met", px(x), py(y), 3, "")
			case p.others[row][column]:
				d.Dot("unmet", px(x), py(y), 2.5, "")
			}
		}
	}
	if len(p.front) > 0 {
		d.Open(`<path class="front" d="M`)
		for _, q := range p.front {
			d.Point(px(q[0]), py(q[1]))
		}
		d.Close(`"/>`)
	}
	for _, q := range p.front {
		d.Dot("best", px(q[0]), py(q[1]), 3.5, "")
	}
	return d.File(paperWidth, paperHeight, p.Y+" against "+p.X,
		".met{fill:#2a6f97}.unmet{fill:none;stroke:#999}.front{stroke:#b5432c;stroke-width:1.6;fill:none}.best{fill:#b5432c}")
}

// cell is the number of the cell of n that a value falls into.
func cell(e plot.Extent, v float64, n int) int {
	return int(math.Max(0, math.Min(float64(n-1), math.Floor((v-e.Low)/(e.High-e.Low)*float64(n)))))
}
