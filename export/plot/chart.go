// Package plot draws charts as SVG: lines and bands over a variable for pages,
// whose style sheet colours them by class, and pictures as files of their own.
package plot

import (
	"fmt"
	"html/template"
	"math"
	"strconv"

	"armwright/specs"
)

// Chart is a plot of lines and bands over one variable, drawn as SVG. A value
// that is not a number leaves a gap. Lines differ by dashes as well as by
// colour, which the style sheet sets from the class.
type Chart struct {
	Title  string
	X      []float64
	Across string  // what goes across, with its unit
	Every  float64 // between the figures across
	Up     string  // what goes up
	Unit   string  // its metric unit
	Units  specs.Units
	Zero   bool // the axis takes in zero
	Whole  bool // it counts, so that only whole numbers stand at it
	Bands  []Band
	Lines  []Line
	Marks  []Mark
	Format string // of the figures up the axis
}

// Band is the room between two lines; bands of one name next to each other have
// one entry in the legend.
type Band struct {
	Name      string
	Low, High []float64
}

// Line is a line, with a legend unless its name is empty.
type Line struct {
	Name  string
	Class string
	Y     []float64
}

// Mark is a dot on a line of the same class.
type Mark struct {
	Name  string
	Class string
	X, Y  float64
}

// Add puts a line on the chart.
func (c *Chart) Add(name, class string, y []float64) {
	c.Lines = append(c.Lines, Line{name, class, y})
}

// Shade puts a band on the chart.
func (c *Chart) Shade(name string, low, high []float64) {
	c.Bands = append(c.Bands, Band{name, low, high})
}

// Dot puts a mark on the chart.
func (c *Chart) Dot(name, class string, x, y float64) {
	c.Marks = append(c.Marks, Mark{name, class, x, y})
}

// Width is that of a chart, in user units.
const Width = 400.0

// Height of a chart, and its margins, in user units. It is drawn at about that
// many pixels on a telephone and at up to a third more on a desk, so that its
// letters are readable on both.
const (
	plotHeight                                    = 210.0
	leftMargin, rightMargin, topMargin, endMargin = 46.0, 12.0, 24.0, 38.0
	legendRow, letter                             = 17.0, 7.2 // width of a letter, on average
)

// Field is where the lines of a chart are drawn, in user units: left, right, bottom and
// top, for what is laid over it.
func Field() [4]float64 {
	return [4]float64{leftMargin, Width - rightMargin, plotHeight, topMargin}
}

// told is the chart in the units of its reader.
func (c Chart) told() Chart {
	if unit := c.Units.Symbol(c.Unit); unit != "" {
		c.Up += ", " + unit
	}
	in := func(v float64) float64 { return c.Units.In(v, c.Unit) }
	scaled := func(list []float64) []float64 {
		out := make([]float64, len(list))
		for i, v := range list {
			out[i] = in(v)
		}
		return out
	}
	bands, lines, marks := c.Bands, c.Lines, c.Marks
	c.Bands, c.Lines, c.Marks = nil, nil, nil
	for _, b := range bands {
		c.Bands = append(c.Bands, Band{b.Name, scaled(b.Low), scaled(b.High)})
	}
	for _, l := range lines {
		c.Lines = append(c.Lines, Line{l.Name, l.Class, scaled(l.Y)})
	}
	for _, m := range marks {
		c.Marks = append(c.Marks, Mark{m.Name, m.Class, m.X, in(m.Y)})
	}
	return c
}

// SVG draws the chart, or nothing of fewer than two places.
func (c Chart) SVG() template.HTML {
	if len(c.X) < 2 {
		return ""
	}
	c = c.told()
	low, high := c.reach()
	step := Tick(high - low)
	if c.Whole {
		step = math.Max(1, math.Ceil(step))
	}
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	first, last := c.X[0], c.X[len(c.X)-1]
	px := func(v float64) float64 {
		return leftMargin + (v-first)/(last-first)*(Width-leftMargin-rightMargin)
	}
	py := func(v float64) float64 {
		return topMargin + (high-v)/(high-low)*(plotHeight-topMargin)
	}
	end := plotHeight + endMargin

	d := &Drawing{}
	d.Text(leftMargin-38, 12, "start", c.Up)
	for i := 0; low+float64(i)*step <= high+step/2; i++ {
		v := low + float64(i)*step
		d.Line("grid", leftMargin, py(v), Width-rightMargin, py(v))
		d.Text(leftMargin-6, py(v)+4, "end", fmt.Sprintf(c.Format, v+0))
	}
	for v := math.Ceil(first/c.Every) * c.Every; v <= last; v += c.Every {
		d.Line("grid", px(v), topMargin, px(v), plotHeight)
		d.Text(px(v), plotHeight+15, "middle", strconv.FormatFloat(v, 'f', 0, 64))
	}
	d.Text((leftMargin+Width-rightMargin)/2, plotHeight+31, "middle", c.Across)

	key := Legend{Drawing: d, X: leftMargin, Y: end + 4}
	for i, b := range c.Bands {
		for _, run := range Runs(b.Low) {
			d.Open(`<path class="band" d="M`)
			for i := run[0]; i < run[1]; i++ {
				d.Point(px(c.X[i]), py(b.High[i]))
			}
			for i := run[1] - 1; i >= run[0]; i-- {
				d.Point(px(c.X[i]), py(b.Low[i]))
			}
			d.Close(`Z"/>`)
		}
		if i == 0 || b.Name != c.Bands[i-1].Name {
			key.Entry(b.Name, func(x, y float64) { d.Rect("band", x, y-5, 22, 10) })
		}
	}
	for _, l := range c.Lines {
		for _, run := range Runs(l.Y) {
			d.Open(`<path class="` + l.Class + `" d="M`)
			for i := run[0]; i < run[1]; i++ {
				d.Point(px(c.X[i]), py(l.Y[i]))
			}
			if run[1]-run[0] == 1 { // a short stroke, to be seen
				d.Point(px(c.X[run[0]])+4, py(l.Y[run[0]]))
			}
			d.Close(`"/>`)
		}
		key.Entry(l.Name, func(x, y float64) { d.Line(l.Class, x, y, x+22, y) })
	}
	named := ""
	for _, m := range c.Marks {
		d.Dot("dot "+m.Class, px(m.X), py(m.Y), 4, "")
		if m.Name != named {
			named = m.Name
			key.Entry(m.Name, func(x, y float64) { d.Dot("dot", x+11, y, 4, "") })
		}
	}
	return d.SVG(Width, key.Y+8, c.Title)
}

// reach is what the axis must take in.
func (c Chart) reach() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	take := func(list []float64) {
		for _, v := range list {
			if !math.IsNaN(v) {
				low, high = math.Min(low, v), math.Max(high, v)
			}
		}
	}
	for _, b := range c.Bands {
		take(b.Low)
		take(b.High)
	}
	for _, l := range c.Lines {
		take(l.Y)
	}
	if c.Zero || low > high {
		low, high = math.Min(low, 0), math.Max(high, 0)
	}
	if high == low {
		high = low + 1
	}
	return low, high
}
