package report

import "html/template"

// Plot is a plot as an SVG fragment, whose colours and dashes are set from the
// classes of its lines by the style sheet of the page around it.
type Plot struct {
	Name string // "torque", "effort", "strength", "hand-path"
	SVG  template.HTML
}

// Plots draws the plots that a report shows of a station, those that there is
// something to draw of.
func Plots(r *Report) []Plot {
	var out []Plot
	for _, p := range [...]Plot{
		{"torque", torqueChart(r)}, {"effort", effortChart(r)}, {"strength", strengthChart(r)}, {"hand-path", pathChart(r)},
	} {
		if p.SVG != "" {
			out = append(out, p)
		}
	}
	return out
}
