package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/solver/drive"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Size of the chart's frame, paper mm.
const (
	chartWide = 210.0
	chartTall = 130.0
)

// torqueSheet is sheet 07: the torque wanted and delivered over the loaded
// range at the three loads, and the cable's way to the stack.
func (d *drafter) torqueSheet() sheet.Sheet {
	size := small
	if d.r.Resistance.Route != nil {
		size = medium
	}
	s := d.sheet(size, "Resistance", "Diagram")
	r, u := d.r.Resistance, d.reads()
	unit := u.Symbol("N·m")
	in := func(nmm float64) float64 { return u.In(nmm/1000, "N·m") }
	least, most := 0.0, 0.0
	for _, t := range [...]drive.Torque{r.Light, r.Middle, r.Heavy} {
		for i := range t.Target {
			most = math.Max(most, math.Max(t.Target[i], t.Delivered[i]))
			least = math.Min(least, t.Delivered[i])
		}
	}
	step := niceStep(in(most) / 6)
	top, bottom := step*math.Ceil(in(most)/step), step*math.Floor(in(least)/step)
	left, right := 10*math.Floor(d.first/specs.Degree/10), 10*math.Ceil(d.last/specs.Degree/10)
	place := func(theta, torque float64) r2.Vec {
		return at((theta/specs.Degree-left)/(right-left)*chartWide, (in(torque)-bottom)/(top-bottom)*chartTall)
	}
	v := sheet.View{Title: "Torque at one arm, " + unit + ", over elbow flexion, °", NotToScale: true}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	for k := math.Round(bottom / step); k*step <= top+1e-9; k++ {
		y := (k*step - bottom) / (top - bottom) * chartTall
		add(sheet.Line{Role: sheet.Hatching, A: at(0, y), B: at(chartWide, y)},
			sheet.Text{Role: sheet.Lettering, At: at(-3, y), Value: sheet.Millimetres.Length(k*step, 2), Height: sheet.SmallText, H: sheet.Right, V: sheet.HalfHeight})
	}
	for x := left; x <= right+1e-9; x += 10 {
		px := (x - left) / (right - left) * chartWide
		add(sheet.Line{Role: sheet.Hatching, A: at(px, 0), B: at(px, chartTall)},
			sheet.Text{Role: sheet.Lettering, At: at(px, -3), Value: strconv.FormatFloat(x, 'f', 0, 64), Height: sheet.SmallText, H: sheet.Middle, V: sheet.CapTop})
	}
	t := sheet.Table{Title: "Match", Columns: sheet.Columns("<Load", ">"+u.Symbol("kg"), ">Rms %", ">Largest %", ">At °", ">Hardest at °")}
	for _, c := range [...]struct {
		name string
		t    drive.Torque
	}{{"light", r.Light}, {"middle", r.Middle}, {"heavy", r.Heavy}} {
		curve := func(role sheet.Role, values []float64) {
			p := sheet.Polyline{Role: role}
			for i, q := range values {
				p.Vertices = append(p.Vertices, sheet.Vertex{Vec: place(r.Angles[i], q)})
			}
			add(p)
		}
		curve(sheet.Hidden, c.t.Target)
		curve(sheet.Visible, c.t.Delivered)
		last := len(r.Angles) - 1
		end := place(r.Angles[last], c.t.Delivered[last])
		add(sheet.Text{Role: sheet.Lettering, At: r2.Vec{X: chartWide + 3, Y: end.Y}, Value: c.name, Height: sheet.SmallText, H: sheet.Left, V: sheet.HalfHeight})
		share := func(x float64) string { return strconv.FormatFloat(100*x, 'f', 1, 64) }
		t.Rows = append(t.Rows, []string{c.name, strconv.FormatFloat(u.In(c.t.Load, "kg"), 'f', 1, 64), share(c.t.RMS), share(c.t.MaxError),
			sheet.Degrees(c.t.WorstAngle, 0), sheet.Degrees(c.t.Hardest, 0)})
	}
	s.Views = append([]sheet.View{v}, d.routeViews()...)
	s.Views = append(s.Views, d.barView("Guide sheave's stem", "guide-stem-right")...)
	for _, id := range [...]string{"selector-bar", "selector-bar-right"} { // one stack, or one of a pair
		s.Views = append(s.Views, d.barView("Selector bar", id)...)
	}
	s.Tables = []sheet.Table{t}
	s.Notes = []string{
		"Full lines: delivered, with the weight of arm, handle and counterweight. Dashed lines: the strength curve " + d.r.Frame.Resistance.Curve +
			", scaled to the load. Without friction and inertia.",
	}
	if d.r.Resistance.Route != nil {
		if len(d.geo.Pivots.Axes) > 1 {
			s.Tables = append(s.Tables, d.guideTable())
		}
		s.Tables = append(s.Tables, d.routeTable())
		s.Notes = append(s.Notes, d.routeNotes()...)
	}
	return s
}

// niceStep is the smallest of 1, 2, 5 times a power of ten that is not below
// x.
func niceStep(x float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, k := range [...]float64{1, 2, 5} {
		if k*p >= x {
			return k * p
		}
	}
	return 10 * p
}
