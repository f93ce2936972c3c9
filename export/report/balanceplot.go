package report

import (
	"html/template"
	"math"

	"armwright/export/plot"
)

// seatedChart shows what holds one person.
func seatedChart(r *Report, s Seated) template.HTML {
	c := flexion(r, "What holds "+s.Person, "force", "N")
	c.Add("both pads", "three", s.Pad)
	c.Add("seat", "one", s.Seat)
	c.Add("feet", "one dashed", s.Feet)
	if len(s.Chest) > 0 {
		c.Add("chest pad", "two", s.Chest)
	}
	if len(s.Back) > 0 {
		c.Add("back pad", "two", s.Back)
	}
	c.Add("body weight", "limit", constant(s.Weight, len(s.Seat)))
	return c.SVG()
}

// seatPlaceChart shows where the seat's reaction acts.
func seatPlaceChart(r *Report) template.HTML {
	if len(r.Seated) == 0 {
		return ""
	}
	c := flexion(r, "Where the seat's reaction acts", "x of the seat's reaction", "mm")
	if f, d := r.Seat.Front, r.Seat.Depth; f != nil && d != nil {
		n := len(r.Resistance.Angles)
		c.Shade("the seat, from rear to front", constant(*f-*d, n), constant(*f, n))
	}
	for i, s := range r.Seated {
		c.Add(s.Why, [...]string{"one", "two", "three"}[i%3], s.SeatX)
	}
	return c.SVG()
}

func constant(v float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// footprintPlot shows feet, the envelope of the centres of mass and where the
// floor's resultant acts while somebody gets on, from above, front to the right.
func footprintPlot(r *Report) template.HTML {
	feet := r.Footprint.Feet
	if len(feet) < 3 || len(r.Stability.Envelope) == 0 {
		return ""
	}
	const border, top = 24.0, 30.0
	low, high := feet[0], feet[0]
	for _, list := range [][][2]float64{feet, r.Stability.Envelope} {
		for _, p := range list {
			for i := range p {
				low[i], high[i] = math.Min(low[i], p[i]), math.Max(high[i], p[i])
			}
		}
	}
	scale := math.Min((plot.Width-2*border)/(high[0]-low[0]), 300/(high[1]-low[1]))
	px := func(x float64) float64 { return border + (x-low[0])*scale }
	py := func(y float64) float64 { return top + (high[1]-y)*scale }
	d := &plot.Drawing{}
	outline := func(class string, list [][2]float64) {
		d.Open(`<path class="` + class + `" d="M`)
		for _, p := range list {
			d.Point(px(p[0]), py(p[1]))
		}
		d.Close(`Z"/>`)
	}
	d.Text(border, 14, "start", "rear")
	d.Text(px(high[0]), 14, "end", "front")
	d.Line("grid", px(low[0]), py(0), px(high[0]), py(0))
	outline("one", feet)
	outline("band", r.Stability.Envelope)
	outline("three", r.Stability.Envelope)
	for _, c := range r.Stability.Entry {
		d.Dot("dot two here", px(c.Point[0]), py(c.Point[1]), 4, c.Case)
	}
	key := plot.Legend{Drawing: d, X: border, Y: py(low[1]) + 8}
	key.Entry("feet", func(x, y float64) { d.Line("one", x, y, x+22, y) })
	key.Entry("hull of the centres of mass of all cases", func(x, y float64) { d.Line("three", x, y, x+22, y) })
	key.Entry("resultant while somebody gets on, or pushes", func(x, y float64) { d.Dot("dot two", x+11, y, 4, "") })
	return d.SVG(plot.Width, key.Y+8, "Feet, envelope of the centres of mass, and getting on, from above")
}
