package report

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"armwright/export/plot"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/specs/people"
)

// explorerPlot shows who fits by stature and carrying angle, women above men: a field is
// as full as the share who fit, with that share in percent; where few persons stand, a dot
// each at most.
func explorerPlot(r *Report) template.HTML {
	cells := r.People.Explorer
	if len(cells) == 0 {
		return ""
	}
	const left, right, top, row, gap = 58.0, 22.0, 30.0, 17.0, 40.0
	const wide, turn = judge.CellStature, judge.CellCarrying / specs.Degree
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)} // stature, carrying angle
	for _, c := range cells {
		low[0], high[0] = math.Min(low[0], c.Stature), math.Max(high[0], c.Stature+wide)
		low[1], high[1] = math.Min(low[1], c.Carrying), math.Max(high[1], c.Carrying+turn)
	}
	px := func(stature float64) float64 { return left + (stature-low[0])/(high[0]-low[0])*(plot.Width-left-right) }
	tall := (high[1] - low[1]) / turn * row
	d := &plot.Drawing{}
	for i, sex := range []people.Sex{people.Woman, people.Man} {
		bottom := top + tall + float64(i)*(tall+gap)
		py := func(carrying float64) float64 { return bottom - (carrying-low[1])/turn*row }
		d.Text(left, bottom-tall-8, "start", map[people.Sex]string{people.Woman: "women", people.Man: "men"}[sex]+", carrying angle in degrees; share who fit, %")
		for a := low[1]; a <= high[1]; a += 2 * turn {
			d.Text(left-6, py(a)+4, "end", fmt.Sprintf("%.0f", a))
		}
		for _, t := range (plot.Extent{Low: r.Units.In(low[0], "mm"), High: r.Units.In(high[0], "mm")}).Ticks() {
			x := px(t / r.Units.In(1, "mm"))
			d.Line("grid", x, bottom, x, bottom-tall)
			d.Text(x, bottom+15, "middle", fmt.Sprintf("%g", t))
		}
		d.Line("grid", left, bottom, plot.Width-right, bottom)
		for _, c := range cells {
			if c.Sex != sex.String() {
				continue
			}
			x, y, w := px(c.Stature), py(c.Carrying+turn), px(c.Stature+wide)-px(c.Stature)
			if c.Persons < fewest {
				d.Dot("dot few", x+w/2, y+row/2, 1.5, line(c))
				continue
			}
			share := float64(c.Fit) / float64(c.Persons)
			d.Rect("bar one", x+0.5, y+0.5+(row-1)*(1-share), w-1, (row-1)*share)
			d.Rect("cell", x+0.5, y+0.5, w-1, row-1)
			d.Text(x+w/2, y+row/2+4, "middle", fmt.Sprintf("%.0f", 100*share))
		}
	}
	bottom := top + 2*tall + gap
	d.Text(left, bottom+32, "start", "stature, "+r.Units.Symbol("mm")+"; a dot stands for fewer than five persons")
	return d.SVG(plot.Width, bottom+40, "Who fits by stature and carrying angle")
}

// explorerTitle tells beside who fits how many do if near misses of limits of comfort count.
func explorerTitle(r *Report) string {
	title := "Who fits, by stature and carrying angle"
	if s := r.People.Shrug; s != nil {
		title += fmt.Sprintf("; counting near misses of comfort %.0f %% of all", 100**s)
	}
	return title
}

// line is a cell in a line.
func line(c Cell) string {
	var away []string
	for _, m := range c.Away {
		away = append(away, fmt.Sprintf("%s %d", m.ID, m.Count))
	}
	text := fmt.Sprintf("%d of %d fit", c.Fit, c.Persons)
	if len(away) > 0 {
		text += "; turned away most by " + strings.Join(away, ", ")
	}
	return text
}
