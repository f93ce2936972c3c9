// Package plot draws charts as SVG: lines and bands over a variable for pages,
// whose style sheet colours them by class, and pictures as files of their own.
package plot

import (
	"cmp"
	"html/template"
	"math"
	"slices"
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
	Whole  bool // it counts: only whole numbers stand at it, and nothing lies between them
	Bands  []Band
	Lines  []Line
	Marks  []Mark
	Keys   []Key
}

// Key is an entry of the legend that is not a line's own: what dashes mean.
type Key struct{ Name, Class string }

// Band is the room between two lines; bands of one name next to each other have
// one entry in the legend.
type Band struct {
	Name      string
	Low, High []float64
}

// Line is a line. Its name stands at its end, or in the legend if it is long; an empty
// one nowhere.
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
	leftMargin, rightMargin, topMargin, endMargin = 46.0, 18.0, 24.0, 38.0
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

// direct is the longest name, in letters, that stands at the end of its line.
const direct = 16

// frame is where the values of a chart lie on its paper.
type frame struct {
	first, last, low, high, right float64
}

func (f *frame) px(v float64) float64 {
	return leftMargin + (v-f.first)/(f.last-f.first)*(f.right-leftMargin)
}

func (f *frame) py(v float64) float64 {
	return topMargin + (f.high-v)/(f.high-f.low)*(plotHeight-topMargin)
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
	f := &frame{first: c.X[0], last: c.X[len(c.X)-1], low: math.Floor(low/step) * step, high: math.Ceil(high/step) * step, right: Width - rightMargin}
	for _, l := range c.Lines {
		if n := len([]rune(l.Name)); n > 0 && n <= direct && !c.Whole {
			f.right = math.Min(f.right, Width-18-letter*float64(n))
		}
	}
	if c.Whole { // room for the first and the last bar
		half := (f.last - f.first) / float64(2*(len(c.X)-1))
		f.first, f.last = f.first-half, f.last+half
	}

	d := &Drawing{}
	d.Text(leftMargin-38, 12, "start", c.Up)
	for i := 0; f.low+float64(i)*step <= f.high+step/2; i++ {
		v := f.low + float64(i)*step
		d.Line("grid", leftMargin, f.py(v), f.right, f.py(v))
		d.Text(leftMargin-6, f.py(v)+4, "end", Label(v, step))
	}
	for v := math.Ceil(f.first/c.Every) * c.Every; v <= f.last; v += c.Every {
		d.Line("grid", f.px(v), topMargin, f.px(v), plotHeight)
		d.Text(f.px(v), plotHeight+15, "middle", strconv.FormatFloat(v, 'f', 0, 64))
	}
	d.Text((leftMargin+f.right)/2, plotHeight+31, "middle", c.Across)

	key := &Legend{Drawing: d, X: leftMargin, Y: plotHeight + endMargin + 4}
	if c.Whole {
		c.positions(f, key)
	} else {
		c.continuous(f, key)
	}
	named := ""
	for _, m := range c.Marks {
		d.Dot("dot "+m.Class, f.px(m.X), f.py(m.Y), 4, "")
		if m.Name != named {
			named = m.Name
			key.Entry(m.Name, func(x, y float64) { d.Dot("dot", x+11, y, 4, "") })
		}
	}
	for _, k := range c.Keys {
		key.Entry(k.Name, func(x, y float64) { d.Line(k.Class, x, y, x+22, y) })
	}
	return d.SVG(Width, key.Y+8, c.Title)
}

// continuous draws bands and lines, with the lines' names at their ends.
func (c *Chart) continuous(f *frame, key *Legend) {
	d := key.Drawing
	for i, b := range c.Bands {
		for _, run := range Runs(b.Low) {
			d.Open(`<path class="band" d="M`)
			for i := run[0]; i < run[1]; i++ {
				d.Point(f.px(c.X[i]), f.py(b.High[i]))
			}
			for i := run[1] - 1; i >= run[0]; i-- {
				d.Point(f.px(c.X[i]), f.py(b.Low[i]))
			}
			d.Close(`Z"/>`)
		}
		if i == 0 || b.Name != c.Bands[i-1].Name {
			key.Entry(b.Name, func(x, y float64) { d.Rect("band", x, y-5, 22, 10) })
		}
	}
	var ends []end
	for _, l := range c.Lines {
		runs := Runs(l.Y)
		for _, run := range runs {
			d.Open(`<path class="` + l.Class + `" d="M`)
			for i := run[0]; i < run[1]; i++ {
				d.Point(f.px(c.X[i]), f.py(l.Y[i]))
			}
			if run[1]-run[0] == 1 { // a short stroke, to be seen
				d.Point(f.px(c.X[run[0]])+4, f.py(l.Y[run[0]]))
			}
			d.Close(`"/>`)
		}
		if n := len(runs); n > 0 && l.Name != "" && len([]rune(l.Name)) <= direct {
			ends = append(ends, end{f.py(l.Y[runs[n-1][1]-1]), l})
			continue
		}
		key.Entry(l.Name, func(x, y float64) { d.Line(l.Class, x, y, x+22, y) })
	}
	for _, e := range spread(ends) {
		d.Line(e.line.Class, f.right+3, e.y, f.right+13, e.y)
		d.Text(f.right+16, e.y+4, "start", e.line.Name)
	}
}

// end is where a line's name stands.
type end struct {
	y    float64
	line Line
}

// spread moves names apart that would lie on one another, and keeps them on the chart.
func spread(list []end) []end {
	const row = 13.0
	slices.SortStableFunc(list, func(a, b end) int { return cmp.Compare(a.y, b.y) })
	for i := range list {
		if i > 0 {
			list[i].y = math.Max(list[i].y, list[i-1].y+row)
		}
	}
	floor := plotHeight - 4
	for i := len(list) - 1; i >= 0; i-- {
		list[i].y = math.Min(list[i].y, floor)
		floor = list[i].y - row
	}
	return list
}

// positions draws whole numbers: for each place a bar from the low to the high one and
// a mark at the usual one, lines beside one another, with nothing between places.
func (c *Chart) positions(f *frame, key *Legend) {
	const aside, half = 9.0, 3.5
	d := key.Drawing
	mark := func(k int, class string, x, y float64) {
		if k%2 == 0 {
			d.Dot("dot "+class, x, y, 3.6, "")
		} else {
			d.Rect("dot "+class, x-3.2, y-3.2, 6.4, 6.4)
		}
	}
	for k, l := range c.Lines {
		dx := (float64(k) - float64(len(c.Lines)-1)/2) * aside
		for i, v := range l.Y {
			if math.IsNaN(v) {
				continue
			}
			x := f.px(c.X[i]) + dx
			if k < len(c.Bands) {
				top, bottom := f.py(c.Bands[k].High[i]), f.py(c.Bands[k].Low[i])
				d.Rect("bar "+l.Class, x-half, top-half, 2*half, bottom-top+2*half)
			}
			mark(k, l.Class, x, f.py(v))
		}
		key.Entry(l.Name, func(x, y float64) { mark(k, l.Class, x+11, y) })
	}
	if len(c.Bands) > 0 {
		key.Entry(c.Bands[0].Name, func(x, y float64) { d.Rect("bar "+c.Lines[0].Class, x, y-half, 22, 2*half) })
	}
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
