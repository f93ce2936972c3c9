package report

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"
)

// chart is a line plot over flexion, drawn as SVG. Lines differ by dashes as
// well as by colour, which the page's style sheet sets from the class.
type chart struct {
	title  string
	x      []float64 // deg
	y      string    // what goes up, with its unit
	bands  []band
	lines  []line
	format string // of the numbers up the axis
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

// Size of a chart and of its margins, in user units.
const (
	chartWidth, chartHeight                       = 640.0, 300.0
	leftMargin, rightMargin, topMargin, endMargin = 52.0, 150.0, 26.0, 36.0
)

// svg draws the chart, or nothing of fewer than two angles.
func (c chart) svg() template.HTML {
	if len(c.x) < 2 {
		return ""
	}
	low, high := 0.0, 0.0
	reach := func(list []float64) {
		for _, v := range list {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	for _, b := range c.bands {
		reach(b.low)
		reach(b.high)
	}
	for _, l := range c.lines {
		reach(l.y)
	}
	step := tick(high - low)
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	first, last := c.x[0], c.x[len(c.x)-1]
	px := func(v float64) float64 {
		return leftMargin + (v-first)/(last-first)*(chartWidth-leftMargin-rightMargin)
	}
	py := func(v float64) float64 {
		return chartHeight - endMargin - (v-low)/(high-low)*(chartHeight-topMargin-endMargin)
	}

	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 %g %g" role="img" aria-label="%s">`, chartWidth, chartHeight, template.HTMLEscapeString(c.title))
	label := func(x, y float64, anchor, s string) {
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" text-anchor="%s">%s</text>`, x, y, anchor, template.HTMLEscapeString(s))
	}
	label(leftMargin, 14, "start", c.y)
	for i := 0; ; i++ {
		v := low + float64(i)*step
		if v > high+step/2 {
			break
		}
		fmt.Fprintf(&b, `<path class="grid" d="M%.1f %.1fH%.1f"/>`, leftMargin, py(v), chartWidth-rightMargin)
		label(leftMargin-6, py(v)+4, "end", fmt.Sprintf(c.format, v+0))
	}
	for v := math.Ceil(first/30) * 30; v <= last; v += 30 {
		fmt.Fprintf(&b, `<path class="grid" d="M%.1f %.1fV%.1f"/>`, px(v), topMargin, chartHeight-endMargin)
		label(px(v), chartHeight-endMargin+16, "middle", strconv.FormatFloat(v, 'f', 0, 64))
	}
	label((leftMargin+chartWidth-rightMargin)/2, chartHeight-4, "middle", "elbow flexion, deg")

	points := func(y []float64) []string {
		out := make([]string, len(y))
		for i, v := range y {
			out[i] = fmt.Sprintf("%.1f %.1f", px(c.x[i]), py(v))
		}
		return out
	}
	row := topMargin + 8
	legend := func(mark, name string) {
		b.WriteString(mark)
		label(chartWidth-rightMargin+40, row+4, "start", name)
		row += 18
	}
	for _, v := range c.bands {
		there, back := points(v.high), points(v.low)
		for i, j := 0, len(back)-1; i < j; i, j = i+1, j-1 {
			back[i], back[j] = back[j], back[i]
		}
		fmt.Fprintf(&b, `<path class="band" d="M%sZ"/>`, strings.Join(append(there, back...), "L"))
		legend(fmt.Sprintf(`<rect class="band" x="%.1f" y="%.1f" width="26" height="10"/>`, chartWidth-rightMargin+8, row-5), v.name)
	}
	for _, l := range c.lines {
		fmt.Fprintf(&b, `<path class="%s" d="M%s"/>`, l.class, strings.Join(points(l.y), "L"))
		legend(fmt.Sprintf(`<path class="%s" d="M%.1f %.1fh26"/>`, l.class, chartWidth-rightMargin+8, row), l.name)
	}
	b.WriteString("</svg>")
	return template.HTML(b.String())
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

// torqueChart shows target and delivered at the three loads.
func torqueChart(r *Report) template.HTML {
	c := chart{title: "Torque wanted and delivered at three loads", x: r.Resistance.Angles, y: "torque of one arm, N·m", format: "%.4g"}
	for _, l := range r.Resistance.Loads {
		c.lines = append(c.lines,
			line{l.Load + ", target", "target " + l.Load, l.Target},
			line{l.Load + ", delivered", "delivered " + l.Load, l.Delivered})
	}
	return c.svg()
}

// effortChart shows what the user meets at the middle load: going up and coming
// down with the cable's friction, and going up at the cadence.
func effortChart(r *Report) template.HTML {
	for _, l := range r.Resistance.Loads {
		if l.Load != "middle" || len(l.Lifting) == 0 {
			continue
		}
		quick := make([]float64, len(l.Lifting))
		for i, v := range l.Lifting {
			quick[i] = v + l.Inertia[i]
		}
		return chart{
			title: "Torque with friction and inertia at the middle load", x: r.Resistance.Angles, y: "torque of one arm, N·m", format: "%.4g",
			lines: []line{
				{"going up", "delivered heavy", l.Lifting}, {"coming down", "delivered light", l.Lowering}, {"up at cadence", "target middle", quick},
			},
		}.svg()
	}
	return ""
}

// strengthChart shows the chosen curve in the band of the published ones.
func strengthChart(r *Report) template.HTML {
	d := &r.Resistance
	return chart{
		title: "Strength curve in the band of measured and model curves", x: d.Angles, y: "strength, share of its peak", format: "%.1f",
		bands: []band{{"all curves", d.BandLow, d.BandHigh}},
		lines: []line{{"chosen", "delivered middle", d.Strength}},
	}.svg()
}

// pathChart shows, person by person, the hand path on this station and on one
// straight common axis.
func pathChart(r *Report) template.HTML {
	list := r.People.Boundary
	if len(list) == 0 {
		return ""
	}
	const row, left, right, top = 15.0, 250.0, 20.0, 34.0
	most := 0.0
	for _, p := range list {
		most = math.Max(most, math.Max(p.HandPath, p.CommonPath))
	}
	step := tick(most)
	most = math.Max(math.Ceil(most/step)*step, step)
	px := func(v float64) float64 { return left + v/most*(chartWidth-left-right) }
	bottom := top + row*float64(len(list))

	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 %g %g" role="img" aria-label="Hand path of every boundary person">`, chartWidth, bottom+14)
	fmt.Fprintf(&b, `<text x="%g" y="12" text-anchor="start">largest distance of hand and handle, mm: dot here, square on one straight common axis</text>`, 8.0)
	for i := 0; float64(i)*step <= most+step/2; i++ {
		v := float64(i) * step
		fmt.Fprintf(&b, `<path class="grid" d="M%.1f %.1fV%.1f"/><text x="%.1f" y="%.1f" text-anchor="middle">%.4g</text>`, px(v), top, bottom, px(v), top-6, v)
	}
	if i := indexOf(r.Requirements, "hand-path"); i >= 0 && r.Requirements[i].Limit <= most {
		fmt.Fprintf(&b, `<path class="limit" d="M%.1f %.1fV%.1f"/>`, px(r.Requirements[i].Limit), top, bottom)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" text-anchor="middle">limit</text>`, px(r.Requirements[i].Limit), bottom+12)
	}
	for i, p := range list {
		y := top + row*(float64(i)+0.5)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" text-anchor="end">%s</text>`, left-8, y+4, template.HTMLEscapeString(p.Label))
		fmt.Fprintf(&b, `<path class="grid" d="M%.1f %.1fH%.1f"/>`, px(p.HandPath), y, px(p.CommonPath))
		fmt.Fprintf(&b, `<rect class="other" x="%.1f" y="%.1f" width="7" height="7"/>`, px(p.CommonPath)-3.5, y-3.5)
		fmt.Fprintf(&b, `<circle class="here" cx="%.1f" cy="%.1f" r="4"/>`, px(p.HandPath), y)
	}
	b.WriteString("</svg>")
	return template.HTML(b.String())
}

func indexOf(list []Requirement, id string) int {
	for i := range list {
		if list[i].ID == id {
			return i
		}
	}
	return -1
}
