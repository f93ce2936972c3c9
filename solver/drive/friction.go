package drive

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/specs"
	"armwright/specs/stock"
)

// Friction, inertia, energy and level of the resistance of one geometry: what
// the user meets beyond the torque at rest without friction.

// motion is the arm's angular motion at a cadence: from the first angle to the
// last and back as a cosine of time, so that speed and acceleration are the same
// at an angle going up and coming down.
type motion struct {
	middle, swing, rate float64 // rad, rad, rad/s
}

func (s *Designer) motion() motion {
	from, to := s.Angles[0], s.Angles[len(s.Angles)-1]
	const minute = 60
	return motion{(from + to) / 2, (to - from) / 2, 2 * math.Pi * s.Asked.Resistance.Cadence / minute}
}

// at returns the angular acceleration, rad/s², and the squared angular
// velocity, rad²/s², at flexion theta.
func (m motion) at(theta float64) (acceleration, speed2 float64) {
	x := theta - m.middle
	w2 := m.rate * m.rate
	return -w2 * x, w2 * math.Max(0, m.swing*m.swing-x*x)
}

// armInertia is the moment of inertia about the pivot, kg·mm², of what turns
// with one arm: tube and grip, counterweight, eccentric weight, plates of a
// lever, and the cam at its own speed.
func (s *Designer) armInertia(g *specs.Geometry, d *State, plates float64) float64 {
	reach := g.Handle.Greatest()
	inertia := g.Handle.ArmMass * armGyration(s.Arm.Mass, reach)
	if c := g.Counterweight; c != nil {
		inertia += c.Mass * sq(c.Radius)
	}
	if e := g.Eccentric; e != nil {
		inertia += e.Mass * sq(e.Radius)
	}
	if v := g.Lever; v != nil {
		inertia += plates * sq(v.Radius)
	}
	if g.Cam != nil {
		inertia += sq(g.Cam.Ratio) * s.Asked.Stock.CamPlate * stock.SteelDensity * polarArea(d.Outline.Blank)
	}
	return inertia
}

// polarArea is the polar second moment of area about the origin, mm⁴, of a
// closed path, by its polygon within 0.1 mm.
func polarArea(p contour.Path) float64 {
	if p.Len() == 0 {
		return 0
	}
	const sagitta = 0.1
	points := p.Points(sagitta)
	sum := 0.0
	for i, a := range points {
		b := points[(i+1)%len(points)]
		cross := a.X*b.Y - a.Y*b.X
		sum += cross * (a.X*a.X + a.X*b.X + b.X*b.X + a.Y*a.Y + a.Y*b.Y + b.Y*b.Y) / 12
	}
	return math.Abs(sum)
}

// Moving fills in what the user meets beyond the torque at rest without
// friction: with the cable's friction going up and coming down, and the inertia
// at the stated cadence with both arms moving.
//
// Going up each sheave raises the tension at the cam to F/η, coming down it
// lowers it to F η. A stack lifted by y, dy = k h dθ, asks of each arm for
// (M/2) k h (k h θ″ + k h' θ'²), twice that where the arm has it alone; for a linkage
// see linkageInertia.
func (s *Designer) Moving(g *specs.Geometry, d *State, t *Torque) {
	r := s.Asked.Resistance
	m := s.motion()
	lost := 1.0
	if g.Cam != nil {
		lost = math.Pow(r.Efficiency, float64(r.Sheaves))
	}
	plates := 0.0
	if g.Lever != nil {
		plates = t.Load
	}
	inertia := s.armInertia(g, d, plates)
	var up, down, quick Torque
	var lifting, lowering, atCadence []float64
	const metre = 1000
	for i, theta := range s.Angles {
		cable := (t.Load + d.Dead) * d.Unit[i] // what passes over the sheaves; a lever's plates do not
		rest := t.Delivered[i] - cable
		lifting = append(lifting, cable/lost+rest)
		lowering = append(lowering, cable*lost+rest)
		acceleration, speed2 := m.at(theta)
		extra := inertia * acceleration / metre
		if g.Cam != nil {
			h, h1, _ := d.Profile.Law.At(theta)
			k := g.Cam.Ratio
			extra += t.Load * s.StackShare() * k * h * (k*h*acceleration + k*h1*speed2) / metre
		}
		if v := g.Linkage; v != nil {
			extra += s.linkageInertia(v, t.Load, theta, acceleration, speed2)
		}
		t.Inertia = append(t.Inertia, extra)
		atCadence = append(atCadence, lifting[i]+extra)
	}
	up, down, quick = s.torque(t.Load, lifting), s.torque(t.Load, lowering), s.torque(t.Load, atCadence)
	t.Lifting, t.Lowering = lifting, lowering
	t.LiftingRMS, t.LoweringRMS, t.CadenceRMS = up.RMS, down.RMS, quick.RMS
}

// armGyration is the squared radius of gyration about the pivot, mm², of the
// arm of armMass: the hub at the axis, a thin tube, the grip at its end.
func armGyration(perMetre, reach float64) float64 {
	const metre = 1000
	length := reach + gripPast - hubReach
	tube := length / metre * perMetre
	mass, _ := ArmMass(perMetre, reach)
	return (tube*(sq(length)/12+sq(hubReach+length/2)) + GripMass*sq(reach)) / mass
}

// Energy measures both works from the outline's arcs.
func (s *Designer) Energy(c *specs.Cam, d *State) (Energy, error) {
	from, to := s.Angles[0], s.Angles[len(s.Angles)-1]
	p, half := d.Profile, s.Cable.Diameter/2
	travel, err := cam.MeasureTakeUp(d.Outline.Root, 2*half, p.Guide, c.Ratio, from, to)
	if err != nil {
		return Energy{}, err
	}
	// Simpson's rule at half degrees: the torque is smooth but for the fourth
	// derivative, which steps at the arcs' joints.
	gauge, err := cam.NewGauge(d.Outline.Root, 2*half, p.Guide, c.Ratio)
	if err != nil {
		return Energy{}, err
	}
	n := 2 * int(math.Ceil((to-from)/specs.Degree))
	work := 0.0
	for i := range n + 1 {
		reading, err := gauge.At(from + (to-from)*float64(i)/float64(n))
		if err != nil {
			return Energy{}, err
		}
		weight := 2.0
		switch {
		case i == 0 || i == n:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		work += weight / 3 * (to - from) / float64(n) * c.Ratio * reading.Arm
	}
	load := s.Asked.Resistance.Load.Middle
	arms := 2.0 // lift one stack, or two; on a bench there is one
	if s.Bench() {
		arms = 1
	}
	e := Energy{StackTravel: travel, Stack: arms * s.StackShare() * load * balance.G * travel, Torque: arms * s.Tension(load) * work}
	e.Difference = math.Abs(e.Torque-e.Stack) / e.Stack
	return e, nil
}

const (
	departing = 0.005            // share of the peak above which a difference is told
	touching  = 0.75             // mm from a limit within which the limit holds the cam
	looked    = 1 * specs.Degree // step at which a cam's limits are looked at
)

// Departures tells where the delivered torque departs from the curve at the middle
// load, and what keeps the cam from it: the differences are those that the middle
// load's RMS and MaxError are of, with the weight of every part that moves with an arm.
func (s *Designer) Departures(g *specs.Geometry, d *State) []Departure {
	peak := d.Middle.peak(s.Shape)
	if g.Cam == nil || !(peak > 0) {
		return nil
	}
	by := make([]float64, len(s.Angles))
	for i := range by {
		by[i] = (d.Middle.Delivered[i] - d.Middle.Target[i]) / peak
	}
	// edge is where the difference passes what is told between two angles.
	edge := func(in, out int) float64 {
		bar := math.Copysign(departing, by[in])
		return s.Angles[in] + (s.Angles[out]-s.Angles[in])*(by[in]-bar)/(by[in]-by[out])
	}
	var list []Departure
	for i, theta := range s.Angles {
		if math.Abs(by[i]) < departing {
			continue
		}
		if i == 0 || math.Abs(by[i-1]) < departing || by[i]*by[i-1] < 0 {
			from := theta
			if i > 0 {
				from = edge(i, i-1)
			}
			list = append(list, Departure{From: from, Worst: theta, By: by[i]})
		}
		now := &list[len(list)-1]
		if now.To = theta; i+1 < len(by) && (math.Abs(by[i+1]) < departing || by[i]*by[i+1] < 0) {
			now.To = edge(i, i+1)
		}
		if math.Abs(by[i]) > math.Abs(now.By) {
			now.By, now.Worst = by[i], theta
		}
	}
	for k := range list {
		list[k].Cause = s.cause(d, list[k])
	}
	return list
}

// cause finds the limit that holds the cam on a stretch: the one met nearest to
// where the difference is largest.
func (s *Designer) cause(d *State, v Departure) Cause {
	r := s.Asked.Resistance
	from, to := s.Angles[0], s.Angles[len(s.Angles)-1]
	least := s.requiredRadius()
	rooms := bendRooms()
	room := rooms[len(rooms)-1] + touching
	n := int(math.Ceil((to-from)/looked - 1e-9))
	cause := Cause{At: math.Inf(1)}
	for i := range n + 1 {
		theta := from + (to-from)*float64(i)/float64(n)
		if math.Abs(theta-v.Worst) >= math.Abs(cause.At-v.Worst) {
			continue
		}
		h, _, _ := d.Profile.Law.At(theta)
		state, err := d.Profile.At(theta)
		switch {
		case err == nil && state.Rho < least+room:
			cause = Cause{Holds: BendRadius, Size: least, At: theta}
		case h < r.LeastArm+touching:
			cause = Cause{Holds: LeastArm, Size: r.LeastArm, At: theta}
		case h > r.GreatestArm-touching:
			cause = Cause{Holds: GreatestArm, Size: r.GreatestArm, At: theta}
		}
	}
	if cause.Holds == Smoothness {
		return Cause{}
	}
	cause.Beyond = cause.At < v.From || cause.At > v.To
	return cause
}
