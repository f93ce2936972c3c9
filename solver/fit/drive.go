package fit

import (
	"math"
	"slices"

	"armwright/geometry/balance"
	"armwright/geometry/cam"
	"armwright/geometry/linkage"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

// drive is the resistance of one geometry.
type drive struct {
	Resistance
	level        float64 // peak of the matched curve at the heaviest load, one arm, N·mm
	heavyTension float64 // of one cable at the heaviest load, N; 0 for a lever
}

// middleAxis is the mean of the axis positions.
func middleAxis(m machine) r3.Vec {
	var sum r3.Vec
	for _, a := range m.axes {
		sum = r3.Add(sum, a)
	}
	return r3.Unit(sum)
}

// tension of one arm's cable at a stack mass. Both arms' cables are the two ends of
// one cable under a floating sheave on a shared stack, so each carries half; of a
// pair of stacks each arm carries its own.
func (s *study) tension(mass float64) float64 { return mass * balance.G * s.stackShare() }

// stackShare is the part of one stack that one arm's cable carries, and of its
// lift that one arm alone gives it.
func (s *study) stackShare() float64 {
	if s.pair() {
		return 1
	}
	return 0.5
}

// pair tells whether each arm has a stack of its own.
func (s *study) pair() bool { return s.asked.Resistance.Stack == "pair" }

// resisting returns the moment about the right arm's axis of a mass (kg) at a
// distance (mm) from the pivot in a direction that turns with the arm, at
// flexion theta, resisting flexion positive: the full three-dimensional
// moment, N·mm. direction is the unit vector at flexion 0.
func resisting(axis, direction r3.Vec, mass, distance, theta float64) float64 {
	w := linkage.Weight{Mass: mass, Axis: axis, Arm: r3.Scale(distance, direction)}
	return -w.Torque(theta)
}

// across removes a direction's component along the axis.
func across(v, axis r3.Vec) r3.Vec {
	return r3.Unit(r3.Sub(v, r3.Scale(r3.Dot(v, axis), axis)))
}

// armDirection is where the arm points at flexion 0: down the pad.
func armDirection(m machine, axis r3.Vec) r3.Vec {
	s, c := math.Sincos(m.rest.Slope)
	return across(r3.Vec{X: c, Z: -s}, axis)
}

// gravity returns the moment of arm, handle, counterweight and eccentric weight
// at a flexion about an axis, resisting flexion positive.
func (s *study) gravity(g *specs.Geometry, axis r3.Vec) func(theta float64) float64 {
	direction := armDirection(newMachine(g), axis)
	add := func(mass, distance float64) linkage.Harmonic {
		h := linkage.Weight{Mass: mass, Axis: axis, Arm: r3.Scale(distance, direction)}.Moment()
		return linkage.Harmonic{Cos: -h.Cos, Sin: -h.Sin}
	}
	sum := add(g.Handle.ArmMass, g.Handle.ArmCentre)
	if c := g.Counterweight; c != nil {
		sum = sum.Add(add(c.Mass, -c.Radius).Ahead(c.Phase))
	}
	if e := g.Eccentric; e != nil {
		sum = sum.Add(eccentricMoment(axis, *e))
	}
	return sum.At
}

// gravityMoments are those moments over the loaded range, with the axis in its
// middle position.
func (s *study) gravityMoments(g *specs.Geometry) []float64 {
	moment := s.gravity(g, middleAxis(newMachine(g)))
	out := make([]float64, len(s.angles))
	for i, theta := range s.angles {
		out[i] = moment(theta)
	}
	return out
}

// leverMoments of a unit plate mass over the loaded range, N·mm/kg.
func (s *study) leverMoments(g *specs.Geometry, v specs.Lever) []float64 {
	axis := middleAxis(newMachine(g))
	forward := across(r3.Vec{X: 1}, axis)
	out := make([]float64, len(s.angles))
	for i, theta := range s.angles {
		out[i] = resisting(axis, forward, 1, v.Radius, theta+v.Phase)
	}
	return out
}

// torque compares delivered with the curve scaled to fit it best in the least
// squares: shape is judged, level follows from the load.
func (s *study) torque(load float64, delivered []float64) Torque {
	var ds, ss float64
	for i, d := range delivered {
		ds += d * s.shape[i]
		ss += s.shape[i] * s.shape[i]
	}
	c := ds / ss
	t := Torque{Load: load, Delivered: delivered, Target: make([]float64, len(delivered))}
	var sum, hardest float64
	for i, d := range delivered {
		t.Target[i] = c * s.shape[i]
		e := (d - t.Target[i]) / c
		sum += e * e
		if math.Abs(e) > t.MaxError {
			t.MaxError, t.WorstAngle = math.Abs(e), s.angles[i]
		}
		if h := d / s.shape[i]; i == 0 || h > hardest {
			hardest, t.Hardest = h, s.angles[i]
		}
	}
	t.RMS = math.Sqrt(sum / float64(len(delivered)))
	return t
}

// drive works out the resistance from the geometry as it stands, but for the
// outline of a cam, on which no requirement hangs.
func (s *study) drive(g *specs.Geometry) (drive, error) {
	var d drive
	d.Angles, d.Strength = s.angles, s.shape
	d.Gravity = s.gravityMoments(g)
	unit := make([]float64, len(s.angles)) // delivered per kg of load
	switch {
	case g.Cam != nil:
		p, err := camProfile(s.asked, g.Cam)
		if err != nil {
			return d, err
		}
		d.Profile, d.Cable = p, s.cable
		d.LeastRadius = math.Inf(1)
		for i, theta := range s.angles {
			h, _, _ := p.Law.At(theta)
			d.MomentArm = append(d.MomentArm, h)
			unit[i] = g.Cam.Ratio * h * s.tension(1)
		}
		first, last := s.angles[0], s.angles[len(s.angles)-1]
		steps := radiusFiner * (len(g.Cam.Law) - 1)
		for i := 0; i <= steps; i++ {
			theta := first + (last-first)*float64(i)/float64(steps)
			rho, err := p.Radius(theta)
			if err != nil {
				return d, err
			}
			d.LeastRadius = min(d.LeastRadius, rho)
		}
		d.RequiredRadius = s.requiredRadius()
		d.Tension = s.tension(s.asked.Resistance.Load.Middle)
		d.heavyTension = s.tension(s.asked.Resistance.Load.Heavy)
		d.TakeUp = p.TakeUp(first, last)
		if d.WrapAngle, err = p.WrapAngle(first, last); err != nil {
			return d, err
		}
	case g.Lever != nil:
		unit = s.leverMoments(g, *g.Lever)
	case g.Linkage != nil:
		var err error
		var own []float64
		if unit, own, err = s.linkageMoments(g); err != nil {
			return d, err
		}
		for i := range own {
			d.Gravity[i] += own[i]
		}
		d.Linkage = s.linkageState(g)
	}
	at := func(mass float64) Torque {
		t := make([]float64, len(unit))
		for i := range t {
			t[i] = mass*unit[i] + d.Gravity[i]
		}
		return s.torque(mass, t)
	}
	load := s.asked.Resistance.Load
	d.Light, d.Middle, d.Heavy = at(load.Light), at(load.Middle), at(load.Heavy)
	for i, v := range d.Heavy.Target {
		if s.shape[i] > 0 {
			d.level = v / s.shape[i]
			break
		}
	}
	return d, nil
}

// radiusFiner is the number of steps between two nodes of the law at which the
// cam's radius of curvature is looked at: the law is a cubic between nodes, so
// the radius has at most a few extremes there.
const radiusFiner = 16

func camProfile(a *specs.Asked, c *specs.Cam) (cam.Profile, error) {
	law, err := cam.NewLaw(a.Resistance.Loaded.From, a.Resistance.Loaded.To, c.Law)
	if err != nil {
		return cam.Profile{}, err
	}
	return cam.Profile{Law: law, Guide: cam.Guide{X: c.GuideX, Y: c.GuideY, Radius: c.GuideR, Side: sideOf(c)}, Ratio: c.Ratio}, nil
}

func sideOf(c *specs.Cam) int {
	if c.Side == "crossed" {
		return cam.Crossed
	}
	return cam.Open
}

// wantedLevel is the strongest boundary person's strength: what the heaviest
// load should ask for at the curve's peak, one arm, N·mm.
func (s *study) wantedLevel() float64 {
	var most float64
	for _, p := range s.persons {
		most = math.Max(most, p.ElbowStrength())
	}
	return most
}

// towerFor is the height of a tower that holds the stack and its travel.
func (s *study) towerFor(d drive) float64 {
	if d.heavyTension == 0 {
		return 0
	}
	_, stack := s.plate.Stack(s.asked.Resistance.Load.Heavy)
	return math.Ceil(2*s.member.H + stackRest + stack + d.TakeUp + s.topHeadroom())
}

// designAnew is design, nothing remembered.
func (s *study) designAnew(g *specs.Geometry) (drive, error) {
	goal := s.limits[s.index["torque-match"]] * 0.98
	try := func(counter *specs.Counterweight) (drive, error) {
		g.Counterweight, g.Eccentric = counter, nil
		switch s.asked.Resistance.Drive {
		case "lever":
			s.designLever(g)
			return s.drive(g)
		case "linkage":
			var err error
			if g.Linkage != nil {
				g.Linkage, err = s.refineBars(g)
			} else {
				g.Linkage, err = s.solveBars(g, barSeed)
			}
			if err != nil {
				return drive{}, err
			}
			return s.drive(g)
		}
		return s.designCam(g, goal, 0)
	}
	d, err := s.counterChoice(g, goal, try)
	if most := s.asked.Resistance.Eccentric; err == nil && most > 0 && g.Cam != nil {
		trial := *g
		trial.Counterweight = nil
		e, failed := s.designCam(&trial, goal, most)
		meets := failed == nil && e.worst() <= goal
		if meets && (d.worst() > goal || trial.Cam.Ratio < g.Cam.Ratio) || failed == nil && !meets && e.worst() < d.worst() {
			*g, d = trial, e
		}
	}
	if err == nil && g.Base != nil {
		g.Base.TowerTall = s.towerFor(d)
	}
	return d, err
}

// counterChoice chooses among the counterweights that the brief allows: the first
// that lets all three loads meet the goal is taken, or else the best.
//
// What the arm's own weight spoils can be told beforehand: were the middle load
// matched exactly, the light and the heavy load would miss the curve by the
// moment of gravity times what they differ from it. Only where a drive
// must be worked out is it: for the first share that promises the goal and, if
// that one breaks its promise, for all.
func (s *study) counterChoice(g *specs.Geometry, goal float64, try func(*specs.Counterweight) (drive, error)) (drive, error) {
	list := s.counterweights(g)
	if s.asked.Resistance.Drive == "cam" {
		promises := func(c *specs.Counterweight) bool { return s.promise(g, c) <= goal }
		if i := slices.IndexFunc(list, promises); i >= 0 {
			if d, err := try(list[i]); err == nil && d.worst() <= goal {
				return d, nil
			}
		}
	}
	var best drive
	var chosen specs.Geometry
	for i, counter := range list {
		d, err := try(counter)
		if err != nil {
			return d, err
		}
		if i == 0 || d.worst() < best.worst()-1e-6 {
			best, chosen = d, *g
		}
		if d.worst() <= goal {
			break
		}
	}
	*g = chosen
	return best, nil
}

// promise is the largest rms difference from the curve over the three loads with
// a counterweight, were the middle load's match perfect and of the wanted level.
func (s *study) promise(g *specs.Geometry, counter *specs.Counterweight) float64 {
	bare := *g
	bare.Eccentric, bare.Counterweight = nil, counter
	gravity := s.gravityMoments(&bare)
	load := s.asked.Resistance.Load
	level := s.wantedLevel() * load.Middle / load.Heavy
	worst := 0.0
	for _, mass := range []float64{load.Light, load.Heavy} {
		k := mass / load.Middle
		t := make([]float64, len(s.shape))
		for i, v := range s.shape {
			t[i] = k*(level*v-gravity[i]) + gravity[i]
		}
		worst = math.Max(worst, s.torque(mass, t).RMS)
	}
	return worst
}

// designLever sets radius and phase of the plates: the phase with the least
// rms difference from the curve at the middle load, the radius by level.
func (s *study) designLever(g *specs.Geometry) {
	r := s.asked.Resistance
	gravity := s.gravityMoments(g)
	v := specs.Lever{Radius: r.LeverRadius.From}
	set := func(phase float64) float64 {
		v.Phase = phase
		v.Radius = 1
		unit := s.leverMoments(g, v)
		t := s.torque(r.Load.Heavy, unit)
		peak := t.Target[len(t.Target)-1] / s.shape[len(s.shape)-1]
		v.Radius = s.wantedLevel() / (peak * r.Load.Heavy)
		v.Radius = math.Max(r.LeverRadius.From, math.Min(r.LeverRadius.To, v.Radius))
		unit = s.leverMoments(g, v)
		for i := range unit {
			unit[i] = unit[i]*r.Load.Middle + gravity[i]
		}
		return s.torque(r.Load.Middle, unit).RMS
	}
	// The lever is level where the curve peaks, give or take; the rms has one
	// minimum there.
	lo, hi := -140*deg, -20*deg
	const golden = 0.6180339887498949
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fa, fb := set(a), set(b)
	for hi-lo > 1e-5 {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - golden*(hi-lo)
			fa = set(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + golden*(hi-lo)
			fb = set(b)
		}
	}
	set((lo + hi) / 2)
	g.Lever = &v
}

// driveRows adds the requirements of the drive.
func (s *study) driveRows(g *specs.Geometry, d drive, out *rows) {
	for _, v := range []struct {
		name string
		t    Torque
	}{{"light load", d.Light}, {"middle load", d.Middle}, {"heavy load", d.Heavy}} {
		out.add("torque-match", -1, v.t.RMS).at(v.t.WorstAngle).named(v.name)
	}
	c := g.Cam
	if c == nil {
		return
	}
	out.add("cam-bend", -1, d.LeastRadius).named("cam")
	out.add("cam-bend", -1, c.GuideR).named("guide sheave")
	tread := 2 * math.Min(d.LeastRadius, c.GuideR)
	keep := stock.BendStrength(tread / s.cable.Diameter)
	lifting := math.Pow(s.asked.Resistance.Efficiency, float64(s.asked.Resistance.Sheaves))
	out.add("cable-factor", -1, s.cable.Breaking*keep*lifting/d.heavyTension).named("heavy load, lifting")
	out.add("stack-travel", -1, d.TakeUp)
	at, _ := s.fleet(g, d.Profile)
	out.add("fleet-angle", -1, at).named("cable to the cam's plane")
}

// benchRig is the bench on which a cam is studied alone: a level axis, the
// median man's forearm, no user.
func (s *study) benchRig() *specs.Geometry {
	man := population(s.asked.People).Median(people.Man)
	reach := math.Round(man.AxisToGrip)
	g := &specs.Geometry{
		Pivots: specs.Pivots{Height: 900, Spacing: 400, Axes: []specs.Axis{{}}},
		Handle: specs.Handle{Least: reach, Pitch: s.asked.Posture.HandlePitch, Positions: 1, Diameter: grip,
			GripLength: math.Ceil(man.HandBreadth + gripRoom)},
	}
	g.Handle.ArmMass, g.Handle.ArmCentre = armMass(s.arm.Mass, reach)
	return g
}
