package page

import (
	"math"

	"armwright/export/report"
	"armwright/specs"
)

func overOf(r *report.Report) over {
	d := &r.Resistance
	out := over{Angles: d.Angles, Rows: []told{}}
	add := func(name string, values []float64, unit string) {
		if len(values) != len(d.Angles) || len(values) == 0 {
			return
		}
		in := make([]float64, len(values))
		for i, v := range values {
			in[i] = rounded(r.Units.In(v, unit))
		}
		out.Rows = append(out.Rows, told{name, r.Units.Symbol(unit), in})
	}
	for _, l := range d.Loads {
		if l.Load != "middle" {
			continue
		}
		add("torque wanted", l.Target, "N·m")
		add("torque delivered", l.Delivered, "N·m")
		if d.Drive == "cam" {
			add("going up", l.Lifting, "N·m")
			add("coming down", l.Lowering, "N·m")
		}
	}
	add("moment arm of the cable", d.Cam.MomentArm, "mm")
	if len(r.Seated) > 0 {
		s := &r.Seated[0]
		who := ", " + s.Person
		add("on the seat"+who, s.Seat, "N")
		add("on both pads"+who, s.Pad, "N")
		add("on the back pad"+who, s.Back, "N")
		add("on the chest pad"+who, s.Chest, "N")
	}
	return out
}

// movable is at how many points a curve that is no table can be taken hold of.
const movable = 8

// curveOf is the strength curve as points that can be moved: those of the brief's own
// table within the range, or of another curve evenly apart.
func curveOf(r *report.Report, a *specs.Asked) *curve {
	d := &r.Resistance
	peak, n := 0.0, len(d.Angles)
	for i, s := range d.Strength {
		if s > 0.5 && i < len(d.Target) && n > 1 {
			peak = r.Units.In(d.Target[i]/s, "N·m")
			break
		}
	}
	if peak == 0 || len(d.Strength) != n {
		return nil
	}
	out := &curve{Own: a.Resistance.Curve == specs.CurveTable, Peak: rounded(peak)}
	at := func(x float64) float64 {
		for i := 1; i < n; i++ {
			if x <= d.Angles[i] || i == n-1 {
				t := (x - d.Angles[i-1]) / (d.Angles[i] - d.Angles[i-1])
				return d.Strength[i-1] + t*(d.Strength[i]-d.Strength[i-1])
			}
		}
		return 0
	}
	if out.Own {
		table, err := specs.ParseCurve(a.Resistance.CurveTable)
		if err != nil {
			return nil // a valid brief's is read
		}
		most := 0.0
		for _, q := range table {
			most = max(most, q.Strength)
		}
		for _, q := range table {
			out.Points = append(out.Points, [2]float64{rounded(q.Theta / specs.Degree), thousandth(q.Strength / most)})
		}
		return out
	}
	for i := range movable {
		x := d.Angles[0] + (d.Angles[n-1]-d.Angles[0])*float64(i)/(movable-1)
		out.Points = append(out.Points, [2]float64{rounded(x), thousandth(at(x))})
	}
	return out
}

// thousandth rounds a share to what a hand can set.
func thousandth(x float64) float64 { return math.Round(x*1000)/1000 + 0 }
