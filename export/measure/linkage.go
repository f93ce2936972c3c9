package measure

import (
	"fmt"
	"math"
	"slices"

	"armwright/export/dxf"
	"armwright/export/report"
	"armwright/geometry/linkage"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// bush is how much wider than its pin a plain bush is, mm (ISO 2795, walls of 2).
const bush = 4.0

// linkage measures the bars' cut files: the distances of their bores, the bores
// that take one pin or shaft, and the torque that bars of those lengths pass on.
func (m *measurer) linkage() {
	r := &m.report.Resistance
	v := &r.Linkage
	bars := [...]struct {
		path   string
		length *float64
		bores  [2]float64 // diameters, at the origin and away from it
	}{{path: "cut/input-bar.dxf", length: v.Input}, {path: "cut/coupler.dxf", length: v.Coupler},
		{path: "cut/output-bar.dxf", length: v.Output}, {path: "cut/plate-lever.dxf", length: v.Radius}}
	if m.drawings[bars[0].path] == nil {
		return
	}
	given := []*float64{v.Ground, v.Direction, v.Input, v.Coupler, v.Output, v.InputPhase, v.Radius, v.Phase}
	if slices.Contains(given, nil) || v.Assembly == nil || len(r.Gravity) != len(r.Angles) || len(r.Delivered) != len(r.Angles) {
		m.out.fault(reportPath, "linkage", "a cut file is listed, but the linkage is not reported in full")
		return
	}
	var lengths [4]float64
	for i := range bars {
		b := &bars[i]
		p, ok := plate{}, false
		if d := m.drawings[b.path]; d != nil {
			p, ok = plateOf(d)
		}
		if !ok || len(p.holes) != 2 {
			m.out.fault(b.path, "bar", "want a closed outline and two bores on layer "+dxf.CutLayer)
			return
		}
		near, far := p.holes[0], p.holes[1]
		if distance(far.Centre, dxf.Point{}) < distance(near.Centre, dxf.Point{}) {
			near, far = far, near
		}
		lengths[i] = distance(near.Centre, far.Centre)
		b.bores = [2]float64{2 * near.Radius, 2 * far.Radius}
		m.out.compare(b.path, "from bore to bore", "mm", *b.length, lengths[i], placeTolerance)
	}
	for _, c := range [...]struct {
		file       int
		what       string
		want, have float64
	}{
		{1, "bore for the bush on the input bar's pin", bars[0].bores[1] + bush, bars[1].bores[0]},
		{1, "bore for the bush on the output bar's pin", bars[2].bores[1] + bush, bars[1].bores[1]},
		{2, "bore for the pin", bars[0].bores[1], bars[2].bores[1]},
		{3, "bore for the output shaft", bars[2].bores[0], bars[3].bores[0]},
	} {
		m.out.compare(bars[c.file].path, c.what, "mm", c.want, c.have, placeTolerance)
	}

	up := vertical(m.report)
	torque := func(l [4]float64, angle float64) (float64, error) {
		t := linkage.Train{
			Bars:      linkage.FourBar{Ground: *v.Ground, Input: l[0], Coupler: l[1], Output: l[2], Crossed: *v.Assembly == "crossed"},
			Direction: *v.Direction * specs.Degree, InputPhase: *v.InputPhase * specs.Degree, Radius: l[3], Phase: *v.Phase * specs.Degree,
		}
		p, err := t.At(angle * specs.Degree)
		return p.Resistance(linkage.Weights{Plates: r.LoadMass}, up) / 1000, err
	}
	for i, angle := range r.Angles {
		what := fmt.Sprintf("torque at %g°", angle)
		got, err := torque(lengths, angle)
		if err != nil {
			m.out.fault(bars[0].path, what, err.Error())
			continue
		}
		// What each length moves by the tolerance of its bores, and the report's
		// rounding of angles and torques.
		const rounding = 4 * quantum
		tolerance := rounding + math.Abs(got)*rounding*specs.Degree
		for k := range lengths {
			off := lengths
			off[k] += placeTolerance
			if moved, err := torque(off, angle); err == nil {
				tolerance += math.Abs(moved - got)
			}
		}
		m.out.compare(bars[0].path, what, "N m", r.Delivered[i], got+r.Gravity[i], tolerance)
	}
}

// vertical is the upward direction's components along the x and y of the plane
// across the mean of the axis positions.
func vertical(r *report.Report) r2.Vec {
	var sum r3.Vec
	for _, a := range r.Pivots.Right.Axes {
		sum = r3.Add(sum, r3.Vec{X: a.Vector[0], Y: a.Vector[1], Z: a.Vector[2]})
	}
	axis := r3.Unit(sum)
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(axis.X, axis)))
	return r2.Vec{X: forward.Z, Y: r3.Cross(axis, forward).Z}
}
