package report

import (
	"fmt"
	"html/template"
	"math"
	"slices"
)

// StudyPlot is a plot of two figures of a study's designs as an SVG file of its
// own: a dot for every place with designs, filled where one of them meets its
// requirements, and the front of those that none betters as a line. It holds a
// raster, so its memory does not grow with the study.
type StudyPlot struct {
	X, Y   string // columns
	x, y   extent
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

// extent is the range of a figure.
type extent struct{ low, high float64 }

// newExtent widens a range so that it is not empty and nothing lies on its edge.
func newExtent(low, high float64) extent {
	room := (high - low) / 25
	if room == 0 {
		room = math.Max(math.Abs(low)/25, 1)
	}
	return extent{low - room, high + room}
}

func (e extent) cell(v float64, n int) int {
	return int(math.Max(0, math.Min(float64(n-1), math.Floor((v-e.low)/(e.high-e.low)*float64(n)))))
}

// NewStudyPlot returns an empty plot over the ranges of two figures, least and
// greatest value of each.
func NewStudyPlot(x, y string, xRange, yRange [2]float64) *StudyPlot {
	return &StudyPlot{X: x, Y: y, x: newExtent(xRange[0], xRange[1]), y: newExtent(yRange[0], yRange[1])}
}

// Add marks a design.
func (p *StudyPlot) Add(x, y float64, met bool) {
	row, column := p.y.cell(y, rasterRows), p.x.cell(x, rasterColumns)
	if met {
		p.met[row][column] = true
	} else {
		p.others[row][column] = true
	}
}

// Front sets the designs that none betters.
func (p *StudyPlot) Front(points [][2]float64) {
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
func (p *StudyPlot) SVG() []byte {
	px := func(v float64) float64 {
		return paperLeft + (v-p.x.low)/(p.x.high-p.x.low)*(paperWidth-paperLeft-paperRight)
	}
	py := func(v float64) float64 {
		return paperHeight - paperBottom - (v-p.y.low)/(p.y.high-p.y.low)*(paperHeight-paperTop-paperBottom)
	}
	d := &drawing{}
	for _, v := range ticks(p.x) {
		d.line("grid", px(v), paperTop, px(v), paperHeight-paperBottom)
		d.text(px(v), paperHeight-paperBottom+18, "middle", fmt.Sprintf("%.6g", v))
	}
	for _, v := range ticks(p.y) {
		d.line("grid", paperLeft, py(v), paperWidth-paperRight, py(v))
		d.text(paperLeft-8, py(v)+4, "end", fmt.Sprintf("%.6g", v))
	}
	d.rect("frame", paperLeft, paperTop, paperWidth-paperLeft-paperRight, paperHeight-paperTop-paperBottom)
	d.text((paperLeft+paperWidth-paperRight)/2, paperHeight-12, "middle", p.X)
	d.text(8, 18, "start", p.Y)
	d.text(paperWidth-paperRight, 18, "end", "filled: requirements met; line: none better in both")

	for row := range rasterRows {
		for column := range rasterColumns {
			x := p.x.low + (p.x.high-p.x.low)*(float64(column)+0.5)/rasterColumns
			y := p.y.low + (p.y.high-p.y.low)*(float64(row)+0.5)/rasterRows
			switch {
			case p.met[row][column]:
				d.dot("met", px(x), py(y), 3, "")
			case p.others[row][column]:
				d.dot("unmet", px(x), py(y), 2.5, "")
			}
		}
	}
	if len(p.front) > 0 {
		d.open(`<path class="front" d="M`)
		for _, q := range p.front {
			d.point(px(q[0]), py(q[1]))
		}
		d.close(`"/>`)
	}
	for _, q := range p.front {
		d.dot("best", px(q[0]), py(q[1]), 3.5, "")
	}
	return d.file(paperWidth, paperHeight, p.Y+" against "+p.X,
		".met{fill:#2a6f97}.unmet{fill:none;stroke:#999}.front{stroke:#b5432c;stroke-width:1.6;fill:none}.best{fill:#b5432c}")
}

// PlotMark is how a plot's file begins, by which it is known to be one of ours.
const PlotMark = `<svg xmlns="http://www.w3.org/2000/svg" data-program="armwright"`

// file is the picture as a file of its own, on white paper, with a style for
// its classes beside those of text, grid and frame.
func (d *drawing) file(width, height float64, name, style string) []byte {
	return fmt.Appendf(nil, PlotMark+` viewBox="0 0 %g %g" width="%g" height="%g" role="img">
<title>%s</title>
<style>text{font:13px sans-serif;fill:#222}.grid{stroke:#ddd;fill:none}.frame{stroke:#444;fill:none}%s</style>
<rect width="%g" height="%g" fill="#fff"/>
%s
</svg>
`, width, height, width, height, template.HTMLEscapeString(name), style, width, height, d.String())
}

// ticks are the round values within a range.
func ticks(e extent) []float64 {
	step := tick(e.high - e.low)
	var list []float64
	for i := math.Ceil(e.low / step); i*step <= e.high; i++ {
		list = append(list, round(i*step, fine))
	}
	return list
}
