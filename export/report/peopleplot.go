package report

import (
	"html/template"
	"math"

	"armwright/export/plot"
	"armwright/specs"
)

// coverageChart shows the share who fit in each band of stature, in its
// confidence interval.
func coverageChart(r *Report) template.HTML {
	c := byStature(r, "Share who fit by stature, with the 95 % interval", "fit", "%")
	c.Zero = true
	var share, low, high []float64
	for _, b := range r.People.Chart() {
		share, low, high = append(share, 100*b.Coverage), append(low, 100*b.Low), append(high, 100*b.High)
	}
	c.Shade("95 % interval", low, high)
	c.Add("fit, of the persons of that stature", "one", share)
	return c.SVG()
}

// setting is one kind of position in the settings chart.
type setting struct {
	who, class string
	of         func(*Band) *Usual
}

// settingChart shows the positions taken in each band of stature.
func settingChart(r *Report, title, up string, list ...setting) template.HTML {
	c := byStature(r, title, up, "")
	c.Whole = true
	for _, s := range list {
		var usual, low, high []float64
		for _, b := range r.People.Chart() {
			at := [3]float64{math.NaN(), math.NaN(), math.NaN()}
			if u := s.of(&b); u != nil {
				at = [3]float64{float64(u.Usual), float64(u.Low), float64(u.High)}
			}
			usual, low, high = append(usual, at[0]), append(low, at[1]), append(high, at[2])
		}
		if len(plot.Runs(usual)) == 0 {
			continue
		}
		name := "usual"
		if s.who != "" {
			name += ", " + s.who
		}
		c.Shade("eight in ten of those who fit", low, high)
		c.Add(name, s.class, usual)
	}
	if len(c.Lines) == 0 {
		return ""
	}
	return c.SVG()
}

// byStature is a chart over the middles of the bands of stature.
func byStature(r *Report, title, up, unit string) plot.Chart {
	c := plot.Chart{Title: title, Across: "stature, " + r.Units.Symbol("mm"), Every: 100, Up: up, Unit: unit, Units: r.Units}
	if r.Units == specs.InchPound {
		c.Every = 4
	}
	for _, b := range r.People.Chart() {
		c.X = append(c.X, r.Units.In((b.From+b.To)/2, "mm"))
	}
	return c
}

// personsPlot shows, person by person, the largest distance between hand and
// handle on this station and on one straight common axis.
func personsPlot(r *Report) template.HTML {
	list := r.People.Boundary
	if len(list) == 0 {
		return ""
	}
	const row, left, right, top = 16.0, 12.0, 20.0, 36.0
	const names = 84.0
	told := func(v float64) float64 { return r.Units.In(v, "mm") }
	most := 0.0
	for _, p := range list {
		most = math.Max(most, told(math.Max(p.HandPath, p.CommonPath)))
	}
	step := plot.Tick(most)
	most = math.Max(math.Ceil(most/step)*step, step)
	px := func(v float64) float64 { return names + v/most*(plot.Width-names-right) }
	bottom := top + row*float64(len(list))

	d := &plot.Drawing{}
	d.Text(left, 12, "start", "largest distance of hand and handle, "+r.Units.Symbol("mm"))
	for i := 0; float64(i)*step <= most+step/2; i++ {
		v := float64(i) * step
		d.Line("grid", px(v), top, px(v), bottom)
		if i%2 == 0 {
			d.Text(px(v), top-6, "middle", plot.Label(v, step))
		}
	}
	key := plot.Legend{Drawing: d, X: left, Y: bottom + 4}
	if i := indexOf(r.Requirements, "hand-path"); i >= 0 && told(r.Requirements[i].Limit) <= most {
		x := px(told(r.Requirements[i].Limit))
		d.Line("limit", x, top, x, bottom)
		key.Entry("limit", func(x, y float64) { d.Line("limit", x, y, x+22, y) })
	}
	for i, p := range list {
		y := top + row*(float64(i)+0.5)
		d.Text(names-8, y+4, "end", abridged(p.Label))
		d.Line("grid", px(told(p.HandPath)), y, px(told(p.CommonPath)), y)
		d.Rect("other", px(told(p.CommonPath))-3.5, y-3.5, 7, 7)
		d.Dot("dot one here", px(told(p.HandPath)), y, 4, "")
	}
	key.Entry("this station", func(x, y float64) { d.Dot("dot one", x+11, y, 4, "") })
	key.Entry("one straight common axis", func(x, y float64) { d.Rect("other", x+8, y-3.5, 7, 7) })
	return d.SVG(plot.Width, key.Y+8, "Hand path of every boundary person, on this station and on one straight common axis")
}

// abridged is a label short enough for its place beside a plot.
func abridged(label string) string { return Clip(Short(label), 28) }

func indexOf(list []Requirement, id string) int {
	for i := range list {
		if list[i].ID == id {
			return i
		}
	}
	return -1
}
