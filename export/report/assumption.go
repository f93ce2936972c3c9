package report

import (
	"fmt"

	"armwright/geometry/balance"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/stock"
)

// assumptions lists what the result rests on, so that whoever signs can check
// it. Names that are not known have been refused long before.
func assumptions(r *solver.Result, u specs.Units) []Assumption {
	a := &r.Frame.Asked
	list := []Assumption{}
	add := func(what, value, source, mark string) {
		list = append(list, Assumption{what, value, source, mark})
	}
	if a.Kind != "cam-study" {
		w := a.People
		mass := "body mass of a 2009-2012 national health survey of civilians"
		if w.Population == "survey" {
			mass = "body mass of the same survey"
		}
		span := fmt.Sprintf("from %.4g %% of the women to %.4g %% of the men", 100*w.Low, 100*w.High)
		if w.Boundary == "ellipsoid" {
			span = fmt.Sprintf("on the ellipsoid that holds %.4g %% of each sex", 100*w.Share)
		}
		add("body sizes", fmt.Sprintf("%s persons %s, %.4g %% women", w.Population, span, 100*w.Women),
			"2012 anthropometric survey (Gordon et al. 2014), "+mass+"; joint sizes by a Gaussian copula", "S, D")
		source, mark := "brief", "own"
		if own := people.DefaultCarrying(); own.Mean == [2]float64{people.Woman: w.Carrying.WomenMean, people.Man: w.Carrying.MenMean} {
			source, mark = "Van Roy et al. 2005, 20 adults", "S"
		}
		add("carrying angle", fmt.Sprintf("women %.1f +/- %.1f deg, men %.1f +/- %.1f deg",
			w.Carrying.WomenMean/specs.Degree, w.Carrying.WomenSD/specs.Degree, w.Carrying.MenMean/specs.Degree, w.Carrying.MenSD/specs.Degree), source, mark)
		add("elbow axis", fmt.Sprintf("%.4g %% of the carrying angle is tilt of the axis, grip rule %s", 100*w.AxisShare, w.GripRule), "brief", "own")
		add("strength of a person", "isometric elbow flexion by sex, age and size", "see docs/people.md", "S, D")
		add("random persons", fmt.Sprintf("%d, seed %d; interval by Wilson 1927", w.Sample, w.Seed), "brief", "own")
		add("rated user", u.Size(a.Stock.MaxUser, "kg"), "brief", "own")
	}
	if c, err := a.Resistance.StrengthCurve(); err == nil {
		add("strength curve", c.Name+": "+c.Title, c.Source, c.Mark)
	}
	if a.Resistance.Drive == "cam" {
		if c, err := stock.Cable(a.Stock.Cable); err == nil {
			ratio := c.CriticalRatio
			if a.Stock.BendRule == "desirable" {
				ratio = c.DesirableRatio
			}
			add("cable", fmt.Sprintf("%s, breaking load %s, tread ratio %.4g (%s)", c.Name, u.Size(c.Breaking, "N"), ratio, a.Stock.BendRule), c.Source, c.Mark)
		}
		add("cable friction", fmt.Sprintf("%d sheaves at %.4g %% each", a.Resistance.Sheaves, 100*a.Resistance.Efficiency), "brief", "own")
		add("guide and bearing friction", fmt.Sprintf("none counted; a drag of %s on the guides of a stack asks up to %s more of an arm going up, and gives as much less coming down; ball bearings take %s for each %s on a shaft of %s",
			u.Size(guideDrag, "N"), u.Figure(dragTorque(&r.Resistance, guideDrag)/newtonMetre, "N·m"), u.Figure(ballFriction*bearingLoad*a.Stock.Shaft/2/newtonMetre, "N·m"), u.Size(bearingLoad, "N"), u.Size(a.Stock.Shaft, "mm")),
			"virtual work; friction of ball bearings 0.0015 of their load (handbooks)", "D, M")
	}
	if a.Resistance.Drive == "linkage" {
		add("linkage", "bars of "+u.Size(a.Stock.CamPlate, "mm")+" plate with their weight, transmission angle at least 40 deg, no friction", "common bound of machine design", "M")
	}
	if a.Kind != "cam-study" {
		if s, err := stock.Member(a.Stock.Member); err == nil {
			add("tube", s.Name+", "+u.Figure(s.Mass, "kg/m"), s.Source, s.Mark)
		}
		if s, err := stock.SteelGrade(a.Stock.Steel); err == nil {
			add("steel", s.Name+", yield "+u.Size(s.Yield, "N/mm²"), s.Source, s.Mark)
		}
		if b, err := stock.Bearing(a.Stock.Bearing); err == nil {
			add("bearing", b.Name+", static rating "+u.Size(b.Static, "N"), b.Source, b.Mark)
		}
	}
	return list
}

// What the friction that is not counted is told for.
const (
	guideDrag    = 10.0   // N, along a stack's guides
	bearingLoad  = 1000.0 // N, on a bearing
	ballFriction = 0.0015 // torque over load and half the shaft's diameter (handbooks, M)
)

// dragTorque is the most that a drag against what hangs on the cable, N, adds to an
// arm's torque, N·mm: as much as a load of that weight.
func dragTorque(d *drive.Resistance, drag float64) float64 {
	most := 0.0
	for i, heavy := range d.Heavy.Delivered {
		most = max(most, heavy-d.Light.Delivered[i])
	}
	return most / (d.Heavy.Load - d.Light.Load) * drag / balance.G
}
