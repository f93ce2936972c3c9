package measure

import (
	"fmt"
	"math"
	"strings"

	"armwright/export/dxf"
	"armwright/export/report"
	"armwright/specs"
)

// sheet is the path of a sheet by the name its file bears after the number, ""
// if the folder has none.
func (m *measurer) sheet(name string) string {
	for _, path := range m.out.Files {
		if strings.HasPrefix(path, "drawings/") && strings.HasSuffix(path, "-"+name+".dxf") {
			return path
		}
	}
	return ""
}

// direction is what a dimension measures along.
type direction int

const (
	across  direction = iota // horizontal distance
	upright                  // vertical distance
	angle
	height // vertical ordinate
	along  // aligned distance
)

func (d direction) of(q dimension) bool {
	switch d {
	case across:
		return q.Kind == dxf.Rotated && math.Abs(math.Sin(q.Angle)) < 1e-6
	case upright:
		return q.Kind == dxf.Rotated && math.Abs(math.Cos(q.Angle)) < 1e-6
	case angle:
		return q.Kind == dxf.Angular
	case height:
		return q.Kind == dxf.Ordinate && !q.XOrdinate
	}
	return q.Kind == dxf.Aligned
}

// size is a figure of the report that a sheet gives by a dimension.
type size struct {
	what string
	kind direction
	want *float64 // mm or deg; nil is not there to be given
}

// places holds the sheets' dimensions against the report: each size must be
// measured by one, within the rounding of coordinates and report.
func (m *measurer) places() {
	r := m.report
	right := r.Pivots.Right
	m.sizes("general-arrangement",
		size{"pivot height", upright, &right.Z},
		size{"pivot spacing", across, apart(r)},
		size{"base length", across, r.Footprint.Length},
		size{"base width", across, r.Footprint.Width},
		size{"lowest seat", upright, end(r.Seat.Positions, 0)},
		size{"highest seat", upright, end(r.Seat.Positions, -1)},
		size{"slope of the pad, or angle of the back pad", angle, leaning(r)},
	)
	list := []size{{"pivot spacing", across, apart(r)}}
	if n := len(right.Axes); n > 0 {
		for _, i := range [...]int{0, n - 1} {
			toe, cant := math.Abs(right.Axes[i].Toe), math.Abs(right.Axes[i].Cant)
			list = append(list, size{fmt.Sprintf("toe of axis position %d", i+1), angle, &toe},
				size{fmt.Sprintf("cant of axis position %d", i+1), angle, &cant})
		}
	}
	m.sizes("pivots", list...)
	m.sides("pivots")
	m.axisTable("pivots")
	c := r.Resistance.Cam
	list = []size{{"guide sheave, forward of the cam axis", across, c.Guide.X}, {"guide sheave, above the cam axis", upright, c.Guide.Y}}
	if c.Ratio != nil && *c.Ratio != 1 {
		list = append(list, size{"cam axis, forward of the pivot", across, c.Centre.X}, size{"cam axis, above the pivot", upright, c.Centre.Y})
	}
	m.sizes("cam", list...)
	way := across
	if p := r.Resistance.Counter.Phase; p != nil && *p != 0 {
		way = along
	}
	m.sizes("arm",
		size{"innermost grip", across, end(r.Handle.Positions, 0)},
		size{"plates from the axis", along, r.Resistance.Lever.Radius},
		size{"counterweight from the axis", way, r.Resistance.Counter.Radius},
		size{"input bar", along, r.Resistance.Linkage.Input},
	)
	v := r.Resistance.Linkage
	list = []size{{"input bar", across, v.Input}, {"coupler", across, v.Coupler}, {"output bar", across, v.Output}, {"plate lever", across, v.Radius}}
	if v.Ground != nil && v.Direction != nil {
		sin, cos := math.Sincos(*v.Direction * specs.Degree)
		forward, up := *v.Ground*cos, *v.Ground*sin
		list = append(list, size{"output shaft, forward of the axis", across, &forward}, size{"output shaft, above the axis", upright, &up})
	}
	m.sizes("linkage", list...)
	list = []size{{"pivot to the pad's lower edge", across, r.Pad.Near}, {"pivot axis to the pad's face", upright, r.Pad.Offset},
		{"width of the pad", upright, r.Pad.Width}, {"pivot spacing", upright, apart(r)}, {"depth of the seat", across, r.Seat.Depth},
		{"length of the back pad", along, r.Back.Length}, {"angle of the back pad", angle, r.Back.Angle}}
	for i := range r.Seat.Positions {
		list = append(list, size{fmt.Sprintf("seat position %d", i+1), height, &r.Seat.Positions[i]})
	}
	m.sizes("pads-and-seat", list...)
	m.sizes("base",
		size{"base length", across, r.Footprint.Length},
		size{"base width", upright, r.Footprint.Width},
	)
}

// sizes looks for each size among the dimensions of a sheet. What is zero has
// no dimension.
func (m *measurer) sizes(name string, list ...size) {
	path := m.sheet(name)
	if path == "" {
		return
	}
	all := dimensions(m.drawings[path])
	for _, s := range list {
		if s.want == nil || math.Abs(*s.want) < leastSize {
			continue
		}
		want := *s.want
		if s.kind != height {
			want = math.Abs(want)
		}
		got, slack := nearestValue(all, s.kind.of, want)
		unit := "mm"
		if s.kind == angle {
			unit = "deg"
		}
		m.out.compare(path, s.what, unit, want, got, 2*slack+2*quantum)
	}
}

// nearestValue is the measured value, of the dimensions that count, which is nearest to one
// that is looked for, and by how much it may be off; NaN where none counts.
func nearestValue(all []dimension, counts func(dimension) bool, want float64) (got, slack float64) {
	got = math.NaN()
	for _, q := range all {
		if counts(q) && !(math.Abs(q.value-want) >= math.Abs(got-want)) {
			got, slack = q.value, q.slack
		}
	}
	return got, slack
}

// ordinateX tells a place told along x.
func ordinateX(q dimension) bool { return q.Kind == dxf.Ordinate && q.XOrdinate }

// leastSize is the size, mm or deg, below which sheets have no dimension.
const leastSize = 0.05

func apart(r *report.Report) *float64 {
	v := r.Pivots.Left.Y - r.Pivots.Right.Y
	return &v
}

// leaning is the one slope on the general arrangement.
func leaning(r *report.Report) *float64 {
	if r.Back.Angle != nil {
		return r.Back.Angle
	}
	return r.Pad.Slope
}

// end is an element of a list counted from its beginning or, negative, its
// end; nil for an empty list.
func end(list []float64, i int) *float64 {
	if len(list) == 0 {
		return nil
	}
	return &list[(i+len(list))%len(list)]
}

// sides makes sure that left is left: the angles of front view and plan are
// given at the right pivot, which stands on the left of what is seen from the
// front.
func (m *measurer) sides(name string) {
	path := m.sheet(name)
	if path == "" {
		return
	}
	all := dimensions(m.drawings[path])
	right := 0
	for i, q := range all {
		if q.Kind != dxf.Angular {
			continue
		}
		for _, s := range all {
			if !across.of(s) {
				continue
			}
			a, b := s.First, s.Second
			if a.X > b.X {
				a, b = b, a
			}
			if distance(a, q.Vertex) < 2*step {
				right++
			}
			m.out.check(distance(b, q.Vertex) >= 2*step, path, fmt.Sprintf("dimension %d, %q", i+1, q.Text), "stands at the left pivot, but is the right one's")
		}
	}
	want := 2 * min(2, len(m.report.Pivots.Right.Axes)) // toe and cant, of the first and the last position
	m.out.check(right >= want, path, "toe and cant", fmt.Sprintf("%d angles stand at the right pivot, want %d", right, want))
}

// axisTable holds the columns of the sheet's table of axis positions against the
// report: toe, cant and the axis' vector, rounded on the sheet and once before in
// the report.
func (m *measurer) axisTable(name string) {
	path := m.sheet(name)
	if path == "" {
		return
	}
	d, list := m.drawings[path], m.report.Pivots.Right.Axes
	for _, c := range [...]struct {
		heading  string
		unit     string
		decimals int
		of       func(report.Axis) float64
	}{
		{"Toe °", "deg", 2, func(a report.Axis) float64 { return a.Toe }},
		{"Cant °", "deg", 2, func(a report.Axis) float64 { return a.Cant }},
		{"Axis x", "", 5, func(a report.Axis) float64 { return a.Vector[0] }},
		{"Axis y", "", 5, func(a report.Axis) float64 { return a.Vector[1] }},
		{"Axis z", "", 5, func(a report.Axis) float64 { return a.Vector[2] }},
	} {
		figures := column(d, c.heading)
		m.out.check(len(figures) == len(list), path, "column "+c.heading, fmt.Sprintf("%d figures stand under this heading, want %d", len(figures), len(list)))
		for i, a := range list[:min(len(list), len(figures))] {
			m.out.compare(path, fmt.Sprintf("axis position %d, %s in the table", i+1, c.heading), c.unit, c.of(a), figures[i], 0.6*math.Pow10(-c.decimals))
		}
	}
}
