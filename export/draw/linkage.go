package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/geometry/linkage"

	"gonum.org/v1/gonum/spatial/r2"
)

// pinAcross is the diameter of a drawn pin, mm.
const pinAcross = 12.0

// linkageSheet is sheet 03 of a linkage drive: the bars as lines from pin to
// pin, at the first angle with their lengths, and over the travel.
func (d *drafter) linkageSheet() sheet.Sheet {
	s := d.sheet(medium, "Linkage", "Detail drawing")
	s.Views = []sheet.View{d.barLengths(), d.barTravel()}
	s.Tables = []sheet.Table{d.barTable(), d.barData()}
	s.Notes = []string{
		"Bars are drawn as the lines between their pins; lengths are from pin to pin. Seen from the user's right, forward to the right.",
		"Input bar: on the arm's shaft. Output bar and plate lever: on the output shaft, fixed to each other.",
		"The torque at the arm is the plates' moment about the output shaft times the ratio. Without friction and without the weight of the bars.",
	}
	return s
}

// joined is the linkage at one elbow angle: the places of its pins and of the
// plates from the arm's axis, forward and up.
type joined struct {
	linkage.Position
	input, joint, shaft, plates r2.Vec
	lever                       float64 // plates above forward horizontal, rad
}

// bars places the linkage. False at an angle where it does not close, which a
// judged frame may have.
func (m *machine) bars(theta float64) (joined, bool) {
	v := m.geo.Linkage
	f := linkage.FourBar{Ground: v.Ground, Input: v.Input, Coupler: v.Coupler, Output: v.Output, Crossed: v.Assembly == "crossed"}
	p, err := f.At(theta + v.InputPhase)
	if err != nil {
		return joined{}, false
	}
	turn := func(q r2.Vec) r2.Vec { return r2.Rotate(q, v.Direction, r2.Vec{}) }
	j := joined{Position: p, input: turn(p.InputPin), joint: turn(p.Joint), shaft: turn(r2.Vec{X: v.Ground}), lever: p.Output + v.Phase}
	sin, cos := math.Sincos(j.lever)
	j.plates = r2.Add(j.shaft, r2.Scale(v.Radius, at(cos, sin)))
	return j, true
}

// lines draws the bars and their pins.
func (j joined) lines(role sheet.Role) []sheet.Entity {
	out := []sheet.Entity{
		sheet.Line{Role: role, B: j.input}, sheet.Line{Role: role, A: j.input, B: j.joint},
		sheet.Line{Role: role, A: j.shaft, B: j.joint}, sheet.Line{Role: role, A: j.shaft, B: j.plates},
	}
	for _, p := range [...]r2.Vec{j.input, j.joint} {
		out = append(out, sheet.Circle{Role: role, Centre: p, Radius: pinAcross / 2})
	}
	return append(out, sheet.Circle{Role: role, Centre: j.plates, Radius: pinAcross})
}

// shafts marks the two axes that stand still.
func (d *drafter) shafts(j joined) []sheet.Entity {
	r := d.r.Frame.Stock.Shaft / 2
	var out []sheet.Entity
	for _, p := range [...]r2.Vec{{}, j.shaft} {
		out = append(out, sheet.Circle{Role: sheet.Visible, Centre: p, Radius: r}, sheet.CentreMark{Centre: p, Radius: r})
	}
	return out
}

// barLengths is the linkage at the first loaded angle.
func (d *drafter) barLengths() sheet.View {
	v := sheet.View{Title: "Bars at " + degrees(d.first, 0) + "°", Position: sheet.Front}
	j, ok := d.bars(d.first)
	if !ok {
		return v
	}
	v.Entities = append(j.lines(sheet.Visible), d.shafts(j)...)
	// Dimension lines stand on the side away from the next bar.
	length := func(a, b, next r2.Vec) sheet.Dimension {
		offset := 14.0
		if r2.Cross(r2.Sub(b, a), r2.Sub(next, a)) > 0 {
			offset = -offset
		}
		return sheet.Dimension{Kind: sheet.Aligned, A: a, B: b, Offset: offset}
	}
	v.Entities = append(v.Entities,
		sheet.CentreLine{B: j.shaft},
		length(r2.Vec{}, j.input, j.joint), length(j.input, j.joint, r2.Vec{}), length(j.shaft, j.joint, j.input), length(j.shaft, j.plates, j.joint),
		sheet.Leader{At: r2.Vec{}, Note: "arm's axis"}, sheet.Leader{At: j.shaft, Note: "output shaft"}, sheet.Leader{At: j.plates, Note: "plates"})
	for _, b := range [...]struct {
		title string
		a, b  r2.Vec
	}{{"Input bar", r2.Vec{}, j.input}, {"Coupler", j.input, j.joint}, {"Output bar", j.shaft, j.joint}, {"Plate lever", j.shaft, j.plates}} {
		if item := d.itemOf(b.title); item != "" {
			v.Entities = append(v.Entities, sheet.Balloon{At: r2.Add(b.a, r2.Scale(0.3, r2.Sub(b.b, b.a))), Item: item})
		}
	}
	v.Entities = append(v.Entities, offsets(j.shaft, sheet.Below, sheet.Leftward)...)
	return v
}

// barTravel shows the bars at the first, the middle and the last loaded angle.
func (d *drafter) barTravel() sheet.View {
	middle := (d.first + d.last) / 2
	v := sheet.View{Title: "Travel: first angle, middle and last in phantom lines"}
	for i, theta := range [...]float64{d.first, middle, d.last} {
		j, ok := d.bars(theta)
		if !ok {
			continue
		}
		role := sheet.Phantom
		if i == 0 {
			role = sheet.Visible
			v.Entities = append(v.Entities, d.shafts(j)...)
		}
		v.Entities = append(v.Entities, j.lines(role)...)
		note := degrees(theta, 0) + "°"
		v.Entities = append(v.Entities, sheet.Leader{At: j.input, Note: note}, sheet.Leader{At: j.plates, Note: note})
	}
	return v
}

// barTable gives the bars' angles over the loaded range.
func (d *drafter) barTable() sheet.Table {
	t := sheet.Table{Title: "Angles, above forward horizontal", Columns: columns(">Elbow °", ">Input bar °", ">Output bar °", ">Plates °", ">Ratio", ">Transmission °")}
	for _, theta := range d.r.Resistance.Angles {
		row := []string{degrees(theta, 1), "-", "-", "-", "-", "-"}
		if j, ok := d.bars(theta); ok {
			level := func(a float64) string { return degrees(math.Remainder(a, 2*math.Pi), 1) }
			way := d.geo.Linkage.Direction
			row = []string{row[0], level(j.Input + way), level(j.Output + way), level(j.lever),
				unsigned(strconv.FormatFloat(j.Ratio, 'f', 3, 64)), degrees(j.Transmission, 1)}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// barData lists what the linkage is built by.
func (d *drafter) barData() sheet.Table {
	v := d.geo.Linkage
	t := sheet.Table{Title: "Linkage", Columns: columns("<Quantity", ">Value")}
	row := func(name, value string) { t.Rows = append(t.Rows, []string{name, value}) }
	row("Between the axes", d.measure(v.Ground))
	row("Output shaft from the arm's axis, above forward", degrees(v.Direction, 1)+"°")
	row("Input bar", d.measure(v.Input))
	row("Coupler", d.measure(v.Coupler))
	row("Output bar", d.measure(v.Output))
	row("Plate lever", d.measure(v.Radius))
	row("Assembly", v.Assembly)
	row("Least transmission angle, loaded range", degrees(d.r.Resistance.Linkage.LeastTransmission, 1)+"°")
	return t
}
