package report

import (
	"armwright/solver/fit"
	"armwright/specs/stock"
	"armwright/specs/strength"
)

func resistance(r *fit.Result) Resistance {
	in, g := &r.Resistance, &r.Frame.Geometry
	middle := load("middle", in.Middle)
	out := Resistance{
		Drive: r.Frame.Asked.Resistance.Drive, LoadMass: middle.Mass,
		Angles: each(in.Angles, deg), Strength: each(in.Strength, share), Gravity: each(in.Gravity, torque),
		Target: middle.Target, Delivered: middle.Delivered, RMS: middle.RMS, MaxError: middle.MaxError,
		WorstAngle: middle.WorstAngle, HardestAngle: middle.HardestAngle,
		Loads:  []Load{load("light", in.Light), middle, load("heavy", in.Heavy)},
		Ratios: []Ratio{},
		Cam:    Cam{MomentArm: each(in.MomentArm, mm)},
	}
	out.BandLow, out.BandHigh = make([]float64, len(in.Angles)), make([]float64, len(in.Angles))
	for i, theta := range in.Angles {
		low, high := strength.Band(theta)
		out.BandLow[i], out.BandHigh[i] = share(low), share(high)
	}
	for _, c := range in.Ratios {
		q := Ratio{Ratio: round(c.Ratio, fine), ArmTeeth: c.ArmTeeth, DrivenTeeth: c.DrivenTeeth, Feasible: c.Feasible, Chosen: c.Chosen}
		if c.Feasible {
			q.RMS, q.MaxError = some(share(c.RMS)), some(share(c.MaxError))
			q.LeastRadius, q.WrapAngle = some(mm(c.LeastRadius)), some(deg(c.WrapAngle))
		}
		out.Ratios = append(out.Ratios, q)
	}
	if c := g.Cam; c != nil {
		out.Cam.Ratio = some(round(c.Ratio, fine))
		out.Cam.Centre = Point{some(mm(c.CentreX)), some(mm(c.CentreY))}
		out.Cam.Guide = Guide{Point{some(mm(c.GuideX)), some(mm(c.GuideY))}, some(mm(c.GuideR)), named(c.Side)}
		if rope, err := stock.Cable(r.Frame.Stock.Cable); err == nil {
			out.Cam.CableDiameter = some(mm(rope.Diameter))
		}
		out.Cam.CableTension = some(round(in.Tension, decimals))
		out.Cam.LeastRadius, out.Cam.RequiredRadius = some(mm(in.LeastRadius)), some(mm(in.RequiredRadius))
		out.Cam.WrapAngle, out.Cam.TakeUp = some(deg(in.WrapAngle)), some(mm(in.TakeUp))
	}
	if v := g.Lever; v != nil {
		out.Lever = Lever{some(mm(v.Radius)), some(deg(v.Phase))}
	}
	if c := g.Counterweight; c != nil {
		out.Counter = Counterweight{some(kg(c.Mass)), some(mm(c.Radius))}
	}
	return out
}

func load(name string, t fit.Torque) Load {
	return Load{
		Load: name, Mass: kg(t.Load), Target: each(t.Target, torque), Delivered: each(t.Delivered, torque),
		RMS: share(t.RMS), MaxError: share(t.MaxError), WorstAngle: deg(t.WorstAngle), HardestAngle: deg(t.Hardest),
	}
}
