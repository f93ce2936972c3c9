package report

import (
	"html/template"

	"armwright/export/plot"
)

// flexion is a chart over the angles of resistance.
func flexion(r *Report, title, up, unit string) plot.Chart {
	return plot.Chart{Title: title, X: r.Resistance.Angles, Across: "elbow flexion, deg", Every: 30, Up: up, Unit: unit, Units: r.Units, Zero: true}
}

// torqueUp is what goes up in plots of torque.
const torqueUp = "torque of one arm"

// middle is the middle load, or nil in a report without loads.
func (r *Report) middle() *Load {
	for i := range r.Resistance.Loads {
		if r.Resistance.Loads[i].Load == "middle" {
			return &r.Resistance.Loads[i]
		}
	}
	return nil
}

// torqueChart shows the middle load: what is wanted, in the band that the
// published curves span at the same peak, what is delivered at rest, and what
// the user meets going up and coming down against the cable's friction.
func torqueChart(r *Report) template.HTML {
	l, d := r.middle(), &r.Resistance
	if l == nil {
		return ""
	}
	c := flexion(r, "Torque wanted and delivered at the middle load, with friction and the band of strength curves", torqueUp, "N·m")
	if peak := targetPeak(d, l); peak > 0 && len(d.BandLow) == len(d.Angles) {
		scaled := func(list []float64) []float64 { return each(list, func(v float64) float64 { return v * peak }) }
		c.Shade("published curves", scaled(d.BandLow), scaled(d.BandHigh))
	}
	c.Add("wanted", "dashed", l.Target)
	c.Add("delivered", "two", l.Delivered)
	if len(l.Lifting) > 0 && d.Drive == "cam" { // levers have no cable to rub
		c.Add("going up", "three", l.Lifting)
		c.Add("coming down", "one", l.Lowering)
	}
	return c.SVG()
}

// targetPeak is the torque wanted where strength has its peak of 1.
func targetPeak(d *Resistance, l *Load) float64 {
	for i, s := range d.Strength {
		if s > 0 && i < len(l.Target) {
			return l.Target[i] / s
		}
	}
	return 0
}

// hardnessChart shows torque over strength at the middle load: a level line is
// equally hard everywhere, and its highest point the hardest.
func hardnessChart(r *Report) template.HTML {
	l, d := r.middle(), &r.Resistance
	if l == nil || len(d.Strength) != len(d.Angles) {
		return ""
	}
	c := flexion(r, "Torque over strength at the middle load, with the hardest point", "torque over share of strength", "N·m")
	c.Zero = false
	show := func(name, class string, torque []float64) {
		if len(torque) != len(d.Strength) {
			return
		}
		y, hardest := make([]float64, len(torque)), 0
		for i, s := range d.Strength {
			if !(s > 0) {
				return
			}
			if y[i] = torque[i] / s; y[i] > y[hardest] {
				hardest = i
			}
		}
		c.Add(name, class, y)
		c.Dot("hardest point", class, d.Angles[hardest], y[hardest])
	}
	show("at rest", "two", l.Delivered)
	if len(l.Lifting) > 0 && len(l.Lifting) == len(l.Inertia) {
		if d.Drive == "cam" {
			show("going up", "three", l.Lifting)
			show("coming down", "one", l.Lowering)
		}
		quick := make([]float64, len(l.Lifting))
		for i, v := range l.Lifting {
			quick[i] = v + l.Inertia[i]
		}
		show("at the cadence", "three dashed", quick)
	}
	return c.SVG()
}

// loadsChart shows target and delivered at the three loads.
func loadsChart(r *Report) template.HTML {
	c := flexion(r, "Torque wanted and delivered at three loads", torqueUp, "N·m")
	for i, l := range r.Resistance.Loads {
		class := [...]string{"one", "two", "three"}[i%3]
		c.Add("", class+" dashed", l.Target)
		c.Add(l.Load, class, l.Delivered)
	}
	c.Keys = []plot.Key{{Name: "delivered"}, {Name: "wanted", Class: "dashed"}}
	return c.SVG()
}
