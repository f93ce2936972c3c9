package report

import (
	"math"

	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs/stock"
	"armwright/specs/strength"

	"gonum.org/v1/gonum/spatial/r3"
)

func resistance(r *solver.Result) Resistance {
	in, g := &r.Resistance, &r.Frame.Geometry
	middle := load("middle", in.Middle)
	out := Resistance{
		Drive: r.Frame.Asked.Resistance.Drive, LoadMass: middle.Mass,
		Angles: each(in.Angles, deg), Strength: each(in.Strength, share), Gravity: each(in.Gravity, torque),
		DeadMass: kg(in.Dead),
		Target:   middle.Target, Delivered: middle.Delivered, RMS: middle.RMS, MaxError: middle.MaxError,
		WorstAngle: middle.WorstAngle, HardestAngle: middle.HardestAngle,
		Loads:     []Load{load("light", in.Light), middle, load("heavy", in.Heavy)},
		Positions: []Position{}, Ratios: []Ratio{}, Departures: []Departure{}, Levels: []Level{}, Steps: []Step{},
		Cadence: round(r.Frame.Asked.Resistance.Cadence, decimals),
		Cam:     Cam{MomentArm: each(in.MomentArm, mm)},
	}
	out.BandLow, out.BandHigh = make([]float64, len(in.Angles)), make([]float64, len(in.Angles))
	for i, theta := range in.Angles {
		low, high := strength.Band(theta)
		out.BandLow[i], out.BandHigh[i] = share(low), share(high)
	}
	for i := range in.Positions {
		out.Positions = append(out.Positions, position(r, i))
	}
	for i := range in.Ratios {
		out.Ratios = append(out.Ratios, ratio(&in.Ratios[i]))
	}
	for _, d := range in.Departures {
		out.Departures = append(out.Departures, Departure{deg(d.From), deg(d.To), deg(d.Worst), share(d.By), words.Cause(d.Cause, r.Frame.Drawing.Reads())})
	}
	for _, l := range in.Levels {
		out.Levels = append(out.Levels, Level{l.Person, torque(l.Strength), torque(l.Moving), kg(l.Load),
			torque(l.Range[0]), torque(l.Range[1]), kg(l.Loads[0]), kg(l.Loads[1])})
	}
	for _, v := range in.Steps {
		step := Step{Mass: kg(v.Mass), Share: share(v.Share)}
		if v.Weak > 0 {
			step.Weak = some(share(v.Weak))
		}
		out.Steps = append(out.Steps, step)
	}
	out.Forearm = Limb{r.Frame.Asked.Resistance.Forearm == "counted", kg(in.Limb.Mass), mm(in.Limb.Centre), each(in.Limb.Moment, torque), each(in.Limb.RMS[:], share)}
	if v := in.Shoulder; v != nil {
		out.Shoulder = &Shoulder{deg(r.Frame.Asked.Resistance.Shoulder), deg(v.Flexion), deg(v.Least), deg(v.Most), share(v.Curve), share(v.Match)}
	}
	if e := in.Energy; e.Stack > 0 {
		out.Energy = Energy{some(mm(e.StackTravel)), some(torque(e.Stack)), some(torque(e.Torque))}
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
		if in.Outline.Root.Len() > 0 {
			out.Cam.Hub = hub(&in.Hub, in.Plate.Bore)
		}
		if c.ArmTeeth > 0 {
			if v := in.Transmission; v != nil {
				out.Cam.Pull, out.Cam.PullFactor = some(round(v.Pull, decimals)), some(round(v.Factor, decimals))
				out.Cam.PullWanted, out.Cam.PullBasis = some(round(v.Wanted, decimals)), named(v.Basis)
				if v.Width > 0 {
					out.Cam.BeltWidth = some(mm(v.Width))
				}
			}
			out.Cam.Transmission = named(r.Frame.Stock.Transmission)
			teeth := *c
			out.Cam.ArmTeeth, out.Cam.DrivenTeeth, out.Cam.Pitches = &teeth.ArmTeeth, &teeth.DrivenTeeth, &teeth.Pitches
		}
	}
	if v := g.Lever; v != nil {
		out.Lever = Lever{some(mm(v.Radius)), some(deg(v.Phase))}
	}
	if v := in.Route; v != nil {
		out.Route = route(v)
	}
	if v := g.Linkage; v != nil {
		out.Linkage = Linkage{some(mm(v.Ground)), some(deg(v.Direction)), some(mm(v.Input)), some(mm(v.Coupler)), some(mm(v.Output)),
			named(v.Assembly), some(deg(v.InputPhase)), some(mm(v.Radius)), some(deg(v.Phase)),
			some(deg(in.Linkage.LeastTransmission)), some(round(in.Linkage.PinForce, decimals)), some(share(in.Linkage.LeverRMS))}
	}
	if c := g.Counterweight; c != nil {
		out.Counter = Counterweight{some(kg(c.Mass)), some(mm(c.Radius)), some(deg(c.Phase))}
	}
	if e := g.Eccentric; e != nil {
		out.Eccentric = Eccentric{some(kg(e.Mass)), some(mm(e.Radius)), some(deg(e.Phase))}
	}
	return out
}

func position(r *solver.Result, i int) Position {
	t := &r.Resistance.Positions[i]
	out := Position{Position: i + 1, Used: judge.UsesAxis(r.People.Boundary, i), Delivered: []float64{}, MomentArm: each(t.MomentArm, mm)}
	if t.Fault != nil {
		out.Fault = t.Fault.Error()
		return out
	}
	worst, name := t.Worst(), "light"
	switch worst {
	case &t.Middle:
		name = "middle"
	case &t.Heavy:
		name = "heavy"
	}
	out.RMS, out.Load = some(share(worst.RMS)), named(name)
	out.MaxError, out.WorstAngle = some(share(worst.MaxError)), some(deg(worst.WorstAngle))
	out.Delivered = each(t.Middle.Delivered, torque)
	if t.MomentArm != nil {
		out.Fleet, out.Slack, out.GuideRise = some(deg(t.Fleet)), some(mm(t.Slack)), some(mm(t.Rise))
	}
	return out
}

func hub(h *drive.Hub, bore float64) *Hub {
	out := &Hub{Kind: h.Kind, Bore: mm(bore), Torque: torque(h.Torque)}
	switch h.Kind {
	case "keyway":
		k := h.Key
		out.KeyWidth, out.KeyHeight = some(mm(k.Width)), some(mm(k.Height))
		out.ShaftKeyway, out.HubKeyway = some(mm(k.ShaftDepth)), some(mm(k.HubDepth))
		out.Pressure = some(round(h.Pressure, decimals))
	case "clamp":
		out.ClampScrew, out.Holding = some(mm(h.Screw.Thread)), some(torque(h.Holding))
	}
	return out
}

func route(v *drive.Route) *Route {
	point := func(p r3.Vec) [3]float64 { return [3]float64{mm(p.X), mm(p.Y), mm(p.Z)} }
	out := &Route{CamFleet: deg(v.CamFleet), Length: mm(v.Length), Cables: v.Cables(), Cut: mm(v.Cut)}
	for _, s := range v.Sheaves {
		out.Sheaves = append(out.Sheaves, Sheave{
			s.Name, point(s.Centre), [3]float64{round(s.Axis.X, fine), round(s.Axis.Y, fine), round(s.Axis.Z, fine)}, mm(s.Radius),
			point(s.In), point(s.Out), deg(s.Turn), deg(s.Fleet), newton(s.Load), deg(s.Swivel),
		})
	}
	return out
}

func ratio(c *drive.RatioChoice) Ratio {
	q := Ratio{Ratio: round(c.Ratio, fine), ArmTeeth: c.ArmTeeth, DrivenTeeth: c.DrivenTeeth, Pitches: c.Pitches,
		Parts: c.Parts, Allowed: c.Allowed, Feasible: c.Feasible, Chosen: c.Chosen, Reason: c.Reason}
	if c.HasEccentric {
		q.Eccentric = some(kg(c.Eccentric))
	}
	if !c.Feasible {
		return q
	}
	q.RMS, q.MaxError, q.WorstRMS = some(share(c.RMS)), some(share(c.MaxError)), some(share(c.WorstRMS))
	q.LeastRadius, q.WrapAngle, q.Size = some(mm(c.LeastRadius)), some(deg(c.WrapAngle)), some(mm(c.Size))
	k := c.Optimality
	q.Optimality = some(round(math.Max(math.Max(k.Stationarity, k.Violation), math.Max(k.Complementarity, k.DualInfeasibility)), fine))
	if c.ArmTeeth > 0 {
		q.Centre, q.Pull = some(mm(c.Centre)), some(round(c.Strength.Pull, decimals))
		q.Factor = some(round(c.Strength.Factor, decimals))
	}
	return q
}

func load(name string, t drive.Torque) Load {
	return Load{
		Load: name, Mass: kg(t.Load), Target: each(t.Target, torque), Delivered: each(t.Delivered, torque),
		RMS: share(t.RMS), MaxError: share(t.MaxError), WorstAngle: deg(t.WorstAngle), HardestAngle: deg(t.Hardest),
		Lifting: each(t.Lifting, torque), Lowering: each(t.Lowering, torque), Inertia: each(t.Inertia, torque),
		LiftingRMS: share(t.LiftingRMS), LoweringRMS: share(t.LoweringRMS), CadenceRMS: share(t.CadenceRMS),
	}
}
