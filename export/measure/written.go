package measure

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"armwright/export/dxf"
	"armwright/specs"
)

const millimetresPerInch = 25.4

// step is the coarseness of written coordinates, mm of paper, and with it of
// what a reader measures: two points, each off by half a diagonal of a step.
const step = 1e-4 * math.Sqrt2

// leastDecimals is the number of decimals to which a value in mm or degrees is
// rounded before trailing zeros are dropped: "12" stands for 11.95 to 12.05.
const leastDecimals = 1

// Value is a dimension's text taken apart.
type Value struct {
	Number   float64
	Decimals int  // written
	Angle    bool // degrees

	// In square brackets behind inches: mm, and its decimals.
	Dual           bool
	Second         float64
	SecondDecimals int
}

// valuePattern is what sheets write: a count, a symbol, the number, a degree
// sign; a tolerance or a fit may follow.
var valuePattern = regexp.MustCompile(`^\(?(?:\d+x )?[RØ⌀]?(-?(?:\d+(?:\.\d+)?|\.\d+))(°?)(?: \[(-?\d+(?:\.(\d+))?)\])?`)

// ParseValue reads the nominal size in a dimension's text, such as "4x Ø9",
// "(R120.5)", "12.25°" or "3.15 [80]". ok is false when there is none.
func ParseValue(text string) (v Value, ok bool) {
	m := valuePattern.FindStringSubmatch(text)
	if m == nil {
		return Value{}, false
	}
	n, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return Value{}, false
	}
	_, fraction, _ := strings.Cut(m[1], ".")
	v = Value{Number: n, Decimals: len(fraction), Angle: m[2] != ""}
	if m[3] != "" {
		v.Dual, v.SecondDecimals = true, len(m[4])
		if v.Second, err = strconv.ParseFloat(m[3], 64); err != nil {
			return Value{}, false
		}
	}
	return v, true
}

// rounding is half a unit of the last place that the value was rounded to.
func (v Value) rounding(inches bool) float64 {
	decimals := v.Decimals
	if !inches || v.Angle {
		decimals = max(decimals, leastDecimals)
	}
	return 0.5 * math.Pow10(-decimals)
}

// unitCaption stands above the unit in a sheet's title block.
const unitCaption = "Dimensions in"

// inches reads from the title block whether dimensions are in inches.
func inches(d *dxf.Document) bool {
	const cell = 11.0 // mm, height of the field
	var caption *dxf.Text
	for _, e := range d.Entities {
		if t, ok := e.(dxf.Text); ok && t.Value == unitCaption {
			caption = &t
			break
		}
	}
	if caption == nil {
		return false
	}
	for _, e := range d.Entities {
		t, ok := e.(dxf.Text)
		if down := caption.At.Y - t.At.Y; ok && math.Abs(t.At.X-caption.At.X) < 2*step && down > 0 && down < cell {
			return strings.HasPrefix(t.Value, "in")
		}
	}
	return false
}

// dimension is one dimension of a sheet as measured.
type dimension struct {
	dxf.Dimension
	factor float64 // real length per paper length
	value  float64 // mm or deg
	slack  float64 // of value, from the rounding of coordinates
}

// dimensions measures the dimensions of a sheet by the points they stand on.
func dimensions(d *dxf.Document) []dimension {
	factors := map[string]float64{}
	for _, s := range d.DimStyles {
		factors[strings.ToUpper(s.Name)] = s.LinearFactor
	}
	var out []dimension
	for _, e := range d.Entities {
		v, ok := e.(dxf.Dimension)
		if !ok {
			continue
		}
		factor, ok := factors[strings.ToUpper(v.Style)]
		if !ok {
			factor = 1
		}
		q := dimension{Dimension: v, factor: factor, value: v.Measure(factor), slack: step * factor}
		if v.Kind == dxf.Angular {
			side := math.Min(distance(v.First, v.Vertex), distance(v.Second, v.Vertex))
			q.value, q.slack = q.value/specs.Degree, 2*step/math.Max(side, step)/specs.Degree
		}
		out = append(out, q)
	}
	return out
}

func distance(a, b dxf.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// unit is that of the dimension's measured value.
func (d dimension) unit() string {
	if d.Kind == dxf.Angular {
		return "deg"
	}
	return "mm"
}

// written holds every dimension of a sheet against the points it stands on:
// what its text says, what the picture of it says, and the measurement stored
// with it.
func (m *measurer) written(path string) {
	d := m.drawings[path]
	inch := inches(d)
	for i, q := range dimensions(d) {
		what := fmt.Sprintf("dimension %d, %q", i+1, q.Text)
		v, ok := ParseValue(q.Text)
		if !ok || v.Angle != (q.Kind == dxf.Angular) {
			m.out.fault(path, what, "the text is no size of its kind")
			continue
		}
		said, tolerance := v.Number, v.rounding(inch)
		if inch && !v.Angle {
			said, tolerance = said*millimetresPerInch, tolerance*millimetresPerInch
		}
		m.out.compare(path, what+" as written", q.unit(), q.value, said, tolerance+q.slack)
		if v.Dual {
			second := Value{Number: v.Second, Decimals: v.SecondDecimals}
			m.out.compare(path, what+" as written in brackets", q.unit(), q.value, v.Second, second.rounding(false)+q.slack)
		}
		stored := q.Measurement
		if q.Kind == dxf.Angular {
			stored /= specs.Degree
		}
		m.out.compare(path, what+" as stored", q.unit(), q.value, stored, 2*q.slack)
		m.out.check(shows(q.Picture, q.Text), path, what, "its picture says something else")
	}
}

// shows reports whether the text is lettered in a dimension's picture.
func shows(picture []dxf.Entity, text string) bool {
	for _, e := range picture {
		if t, ok := e.(dxf.Text); ok && t.Value == text {
			return true
		}
	}
	return false
}
