package report

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"

	"armwright/specs"
)

// chart is a plot of lines and bands over one variable, drawn as SVG. A value
// that is not a number leaves a gap. Lines differ by dashes as well as by
// colour, which the style sheet sets from the class.
type chart struct {
	title  string
	x      []float64
	across string  // what goes across, with its unit
	every  float64 // between the figures across
	up     string  // what goes up
	unit   string  // its metric unit
	units  specs.Units
	zero   bool // the axis takes in zero
	whole  bool // it counts, so that only whole numbers stand at it
	bands  []band
	lines  []line
	marks  []mark
	format string // of the figures up the axis
}

type band struct {
	name      string
	low, high []float64
}

type line struct {
	name  string
	class string
	y     []float64
}

// mark is a dot on a line of the same class.
type mark struct {
	name  string
	class string
	x, y  float64
}

// Size of a chart and of its margins, in user units. It is drawn at about that
// many pixels on a telephone and at up to a third more on a desk, so that its
// letters are readable on both.
const (
	chartWidth, plotHeight                        = 400.0, 210.0
	leftMargin, rightMargin, topMargin, endMargin = 46.0, 12.0, 24.0, 38.0
	legendRow, letter                             = 17.0, 7.2 // width of a letter, on average
)

// flexion is a chart over the angles of resistance.
func flexion(r *Report, title, up, unit string) chart {
	return chart{title: title, x: r.Resistance.Angles, across: "elbow flexion, deg", every: 30, up: up, unit: unit, units: r.Units, zero: true, format: "%.4g"}
}

// torqueUp is what goes up in plots of torque.
const torqueUp = "torque of one arm"

// told is the chart in the units of its reader.
func (c chart) told() chart {
	if unit := c.units.Symbol(c.unit); unit != "" {
		c.up += ", " + unit
	}
	in := func(v float64) float64 { return c.units.In(v, c.unit) }
	scaled := func(list []float64) []float64 { return each(list, in) }
	bands, lines, marks := c.bands, c.lines, c.marks
	c.bands, c.lines, c.marks = nil, nil, nil
	for _, b := range bands {
		c.bands = append(c.bands, band{b.name, scaled(b.low), scaled(b.high)})
	}
	for _, l := range lines {
		c.lines = append(c.lines, line{l.name, l.class, scaled(l.y)})
	}
	for _, m := range marks {
		c.marks = append(c.marks, mark{m.name, m.class, m.x, in(m.y)})
	}
	return c
}

// svg draws the chart, or nothing of fewer than two places.
func (c chart) svg() template.HTML {
	if len(c.x) < 2 {
		return ""
	}
	c = c.told()
	low, high := c.reach()
	step := tick(high - low)
	if c.whole {
		step = math.Max(1, math.Ceil(step))
	}
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	first, last := c.x[0], c.x[len(c.x)-1]
	px := func(v float64) float64 {
		return leftMargin + (v-first)/(last-first)*(chartWidth-leftMargin-rightMargin)
	}
	py := func(v float64) float64 {
		return topMargin + (high-v)/(high-low)*(plotHeight-topMargin)
	}
	end := plotHeight + endMargin

	d := &drawing{}
	d.text(leftMargin-38, 12, "start", c.up)
	for i := 0; low+float64(i)*step <= high+step/2; i++ {
		v := low + float64(i)*step
		d.line("grid", leftMargin, py(v), chartWidth-rightMargin, py(v))
		d.text(leftMargin-6, py(v)+4, "end", fmt.Sprintf(c.format, v+0))
	}
	for v := math.Ceil(first/c.every) * c.every; v <= last; v += c.every {
		d.line("grid", px(v), topMargin, px(v), plotHeight)
		d.text(px(v), plotHeight+15, "middle", strconv.FormatFloat(v, 'f', 0, 64))
	}
	d.text((leftMargin+chartWidth-rightMargin)/2, plotHeight+31, "middle", c.across)

	key := legend{drawing: d, x: leftMargin, y: end + 4}
	for i, b := range c.bands {
		for _, run := range runs(b.low) {
			d.open(`<path class="band" d="M`)
			for i := run[0]; i < run[1]; i++ {
				d.point(px(c.x[i]), py(b.high[i]))
			}
			for i := run[1] - 1; i >= run[0]; i-- {
				d.point(px(c.x[i]), py(b.low[i]))
			}
			d.close(`Z"/>`)
		}
		if i == 0 || b.name != c.bands[i-1].name {
			key.entry(b.name, func(x, y float64) { d.rect("band", x, y-5, 22, 10) })
		}
	}
	for _, l := range c.lines {
		for _, run := range runs(l.y) {
			d.open(`<path class="` + l.class + `" d="M`)
			for i := run[0]; i < run[1]; i++ {
				d.point(px(c.x[i]), py(l.y[i]))
			}
			if run[1]-run[0] == 1 { // a short stroke, to be seen
				d.point(px(c.x[run[0]])+4, py(l.y[run[0]]))
			}
			d.close(`"/>`)
		}
		key.entry(l.name, func(x, y float64) { d.line(l.class, x, y, x+22, y) })
	}
	named := ""
	for _, m := range c.marks {
		d.dot("dot "+m.class, px(m.x), py(m.y), 4, "")
		if m.name != named {
			named = m.name
			key.entry(m.name, func(x, y float64) { d.dot("dot", x+11, y, 4, "") })
		}
	}
	return d.svg(chartWidth, key.y+8, c.title)
}

// reach is what the axis must take in.
func (c chart) reach() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	take := func(list []float64) {
		for _, v := range list {
			if !math.IsNaN(v) {
				low, high = math.Min(low, v), math.Max(high, v)
			}
		}
	}
	for _, b := range c.bands {
		take(b.low)
		take(b.high)
	}
	for _, l := range c.lines {
		take(l.y)
	}
	if c.zero || low > high {
		low, high = math.Min(low, 0), math.Max(high, 0)
	}
	if high == low {
		high = low + 1
	}
	return low, high
}

// runs are the stretches of a list without gaps, as first and end.
func runs(list []float64) (out [][2]int) {
	for i := 0; i < len(list); i++ {
		from := i
		for i < len(list) && !math.IsNaN(list[i]) {
			i++
		}
		if i > from {
			out = append(out, [2]int{from, i})
		}
	}
	return out
}

// tick is a round step that divides a span into four to ten.
func tick(span float64) float64 {
	if !(span > 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(span)))
	for _, f := range []float64{0.1, 0.2, 0.5} {
		if span/(f*p) <= 10 {
			return f * p
		}
	}
	return p
}

// drawing is an SVG being written.
type drawing struct {
	strings.Builder
	joined bool // a path's next point needs a line to it
}

func (d *drawing) text(x, y float64, anchor, s string) {
	fmt.Fprintf(d, `<text x="%.1f" y="%.1f" text-anchor="%s">%s</text>`, x, y, anchor, template.HTMLEscapeString(s))
}

func (d *drawing) line(class string, x0, y0, x1, y1 float64) {
	fmt.Fprintf(d, `<path class="%s" d="M%.1f %.1fL%.1f %.1f"/>`, class, x0, y0, x1, y1)
}

func (d *drawing) rect(class string, x, y, w, h float64) {
	fmt.Fprintf(d, `<rect class="%s" x="%.1f" y="%.1f" width="%.1f" height="%.1f"/>`, class, x, y, w, h)
}

// dot draws a circle; a title is told by what points at it.
func (d *drawing) dot(class string, x, y, radius float64, title string) {
	fmt.Fprintf(d, `<circle class="%s" cx="%.1f" cy="%.1f" r="%g"`, class, x, y, radius)
	if title == "" {
		d.WriteString("/>")
		return
	}
	fmt.Fprintf(d, `><title>%s</title></circle>`, template.HTMLEscapeString(title))
}

// open begins a path whose points follow, close ends it.
func (d *drawing) open(s string) {
	d.joined = false
	d.WriteString(s)
}

func (d *drawing) point(x, y float64) {
	if d.joined {
		d.WriteByte('L')
	}
	d.joined = true
	fmt.Fprintf(d, "%.1f %.1f", x, y)
}

func (d *drawing) close(s string) { d.WriteString(s) }

// svg is the whole picture, with the name that those who do not see it hear.
func (d *drawing) svg(width, height float64, name string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="plot" viewBox="0 0 %g %.0f" role="img" aria-label="%s">%s</svg>`,
		width, height, template.HTMLEscapeString(name), d.String()))
}

// legend sets its entries one after another, on as many rows as it takes.
type legend struct {
	*drawing
	x, y float64 // where the next row begins and lies
	at   float64 // how far the row is filled
}

func (l *legend) entry(name string, sample func(x, y float64)) {
	if name == "" {
		return
	}
	width := 28 + letter*float64(len([]rune(name))) + 12
	if l.at == 0 {
		l.at, l.y = l.x, l.y+legendRow-8
	} else if l.at+width-12 > chartWidth {
		l.at, l.y = l.x, l.y+legendRow
	}
	sample(l.at, l.y)
	l.text(l.at+28, l.y+4, "start", name)
	l.at += width
}
