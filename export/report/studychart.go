package report

import (
	"fmt"
	"html"
	"math"
	"slices"
	"strings"
)

// StudyPlot is a plot of two figures of a study's designs as an SVG file of its
// own: a dot for every place with designs, filled where one of them meets its
// requirements, and the front of those that none betters as a line. It holds a
// raster, so its memory does not grow with the study.
type StudyPlot struct {
	X, Y   string // columns
	x, y   extent
	met    [plotRows][plotColumns]bool
	others [plotRows][plotColumns]bool
	front  [][2]float64
}

// Raster of a plot: finer than its dots are wide.
const (
	plotColumns, plotRows = 160, 120
	plotWidth, plotHeight = 720.0, 520.0
	plotLeft, plotRight   = 78.0, 20.0
	plotTop, plotBottom   = 40.0, 52.0
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
	row, column := p.y.cell(y, plotRows), p.x.cell(x, plotColumns)
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
		return plotLeft + (v-p.x.low)/(p.x.high-p.x.low)*(plotWidth-plotLeft-plotRight)
	}
	py := func(v float64) float64 {
		return plotHeight - plotBottom - (v-p.y.low)/(p.y.high-p.y.low)*(plotHeight-plotTop-plotBottom)
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" width="%g" height="%g" role="img">`, plotWidth, plotHeight, plotWidth, plotHeight)
	fmt.Fprintf(&b, "\n<title>%s against %s of a study</title>\n", html.EscapeString(p.Y), html.EscapeString(p.X))
	b.WriteString("<style>text{font:13px sans-serif;fill:#222}.grid{stroke:#ddd;fill:none}.frame{stroke:#444;fill:none}" +
		".met{fill:#2a6f97}.other{fill:none;stroke:#999}.front{stroke:#b5432c;stroke-width:1.6;fill:none}.best{fill:#b5432c}</style>\n")
	fmt.Fprintf(&b, `<rect width="%g" height="%g" fill="#fff"/>`+"\n", plotWidth, plotHeight)
	text := func(x, y float64, anchor, s string) {
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" text-anchor="%s">%s</text>`+"\n", x, y, anchor, html.EscapeString(s))
	}
	for _, v := range ticks(p.x) {
		fmt.Fprintf(&b, `<path class="grid" d="M%.1f %.1fV%.1f"/>`, px(v), plotTop, plotHeight-plotBottom)
		text(px(v), plotHeight-plotBottom+18, "middle", fmt.Sprintf("%.6g", v))
	}
	for _, v := range ticks(p.y) {
		fmt.Fprintf(&b, `<path class="grid" d="M%.1f %.1fH%.1f"/>`, plotLeft, py(v), plotWidth-plotRight)
		text(plotLeft-8, py(v)+4, "end", fmt.Sprintf("%.6g", v))
	}
	fmt.Fprintf(&b, `<rect class="frame" x="%g" y="%g" width="%g" height="%g"/>`+"\n", plotLeft, plotTop, plotWidth-plotLeft-plotRight, plotHeight-plotTop-plotBottom)
	text((plotLeft+plotWidth-plotRight)/2, plotHeight-12, "middle", p.X)
	text(8, 18, "start", p.Y)
	text(plotWidth-plotRight, 18, "end", "filled: requirements met; line: none better in both")

	for row := range plotRows {
		for column := range plotColumns {
			class, radius := "met", 3.0
			switch {
			case p.met[row][column]:
			case p.others[row][column]:
				class, radius = "other", 2.5
			default:
				continue
			}
			x := p.x.low + (p.x.high-p.x.low)*(float64(column)+0.5)/plotColumns
			y := p.y.low + (p.y.high-p.y.low)*(float64(row)+0.5)/plotRows
			fmt.Fprintf(&b, `<circle class="%s" cx="%.1f" cy="%.1f" r="%g"/>`+"\n", class, px(x), py(y), radius)
		}
	}
	if len(p.front) > 0 {
		var line []string
		for _, q := range p.front {
			line = append(line, fmt.Sprintf("%.1f %.1f", px(q[0]), py(q[1])))
			fmt.Fprintf(&b, `<circle class="best" cx="%.1f" cy="%.1f" r="4"/>`+"\n", px(q[0]), py(q[1]))
		}
		fmt.Fprintf(&b, `<path class="front" d="M%s"/>`+"\n", strings.Join(line, "L"))
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
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
