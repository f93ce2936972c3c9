package drive

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/cam"
	"armwright/specs"
	"armwright/specs/people"
)

// State is the resistance of one geometry.
type State struct {
	Resistance
	Level        float64   // peak of the matched curve at the heaviest load, one arm, N·mm
	HeavyTension float64   // of one cable at the heaviest load, N; 0 for a lever
	Unit         []float64 // delivered at each angle by 1 kg of load, N·mm/kg
	Own          []float64 // what parts of the drive add to Gravity beyond what a geometry states, N·mm; nil until weighed or designed with
}

// Tension of one arm's cable at a stack mass. Both arms' cables are the two ends of
// one cable under a floating sheave on a shared stack, so each carries half; of a
// pair of stacks each arm carries its own, and on a bench there is but one cable.
func (s *Designer) Tension(mass float64) float64 { return mass * balance.G * s.StackShare() }

// StackShare is the part of one stack that one arm's cable carries, and of its
// lift that one arm alone gives it.
func (s *Designer) StackShare() float64 {
	if s.Pair() || s.Bench() {
		return 1
	}
	return 0.5
}

// Pair reports whether each arm has a stack of its own.
func (s *Designer) Pair() bool { return s.Asked.Resistance.Stack == "pair" }

// torque compares delivered with the curve scaled to fit it best in the least
// squares: shape is judged, level follows from the load.
func (s *Designer) torque(load float64, delivered []float64) Torque {
	var ds, ss float64
	for i, d := range delivered {
		ds += d * s.Shape[i]
		ss += s.Shape[i] * s.Shape[i]
	}
	c := ds / ss
	t := Torque{Load: load, Delivered: delivered, Target: make([]float64, len(delivered))}
	var sum, hardest float64
	for i, d := range delivered {
		t.Target[i] = c * s.Shape[i]
		e := (d - t.Target[i]) / c
		sum += e * e
		if math.Abs(e) > t.MaxError {
			t.MaxError, t.WorstAngle = math.Abs(e), s.Angles[i]
		}
		if h := d / s.Shape[i]; i == 0 || h > hardest {
			hardest, t.Hardest = h, s.Angles[i]
		}
	}
	t.RMS = math.Sqrt(sum / float64(len(delivered)))
	return t
}

// Evaluate works out the resistance from the geometry as it stands, but for the
// outline of a cam, on which no requirement hangs.
func (s *Designer) Evaluate(g *specs.Geometry) (State, error) {
	var d State
	d.Angles, d.Strength = s.Angles, s.Shape
	d.Gravity = s.GravityMoments(g)
	unit := make([]float64, len(s.Angles))
	switch {
	case g.Cam != nil:
		p, err := camProfile(s.Asked, g.Cam)
		if err != nil {
			return d, err
		}
		d.Profile, d.Cable = p, s.Cable
		d.LeastRadius = math.Inf(1)
		for i, theta := range s.Angles {
			h, _, _ := p.Law.At(theta)
			d.MomentArm = append(d.MomentArm, h)
			unit[i] = g.Cam.Ratio * h * s.Tension(1)
		}
		first, last := s.Angles[0], s.Angles[len(s.Angles)-1]
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
		d.Tension = s.Tension(s.Asked.Resistance.Load.Middle)
		d.HeavyTension = s.Tension(s.Asked.Resistance.Load.Heavy)
		d.TakeUp = p.TakeUp(first, last)
		if d.WrapAngle, err = p.WrapAngle(first, last); err != nil {
			return d, err
		}
	case g.Lever != nil || g.Linkage != nil:
		var err error
		var bars []float64
		if unit, bars, err = s.PlateMoments(g); err != nil {
			return d, err
		}
		if bars != nil {
			for i, v := range bars {
				d.Gravity[i] += v
			}
			d.Linkage = s.LinkageState(g)
			d.Linkage.Bars = bars
		}
	}
	d.Unit = unit
	s.load(&d)
	return d, nil
}

// Loads is the torque of the three loads of which 1 kg gives unit, N·mm/kg, and the arm
// without one gravity, N·mm, at each angle.
func (s *Designer) Loads(unit, gravity []float64) (light, middle, heavy Torque) {
	at := func(mass float64) Torque {
		t := make([]float64, len(unit))
		for i := range t {
			t[i] = mass*unit[i] + gravity[i]
		}
		return s.torque(mass, t)
	}
	load := s.Asked.Resistance.Load
	return at(load.Light), at(load.Middle), at(load.Heavy)
}

// load works out the torque of the loads.
func (s *Designer) load(d *State) {
	d.Light, d.Middle, d.Heavy = s.Loads(d.Unit, d.Gravity)
	d.Level = s.Peak(&d.Heavy)
}

// PlateMoments are the moments of 1 kg of plates on a lever or, where there is none,
// behind a linkage, N·mm/kg, and of the linkage's own bars, N·mm, at each angle, resisting
// flexion; bars is nil of a lever. The errors are those of a linkage that does not close.
func (s *Designer) PlateMoments(g *specs.Geometry) (unit, bars []float64, err error) {
	if g.Lever != nil {
		return s.LeverMoments(g, *g.Lever), nil, nil
	}
	return s.LinkageMoments(g)
}

// Held is a state worked out before, on a geometry that differs from its own: plates and
// gravity as they are there, a cam and its guide as they were, whatever g says of them.
// What the drive's parts weigh is not among it: see Weigh; nor are the loads matched before
// that. The errors are those of a linkage that does not close.
func (s *Designer) Held(g *specs.Geometry, d State) (State, error) {
	d.HeavyTension -= s.Tension(d.Dead)
	d.Own, d.Dead, d.Positions = nil, 0, nil
	d.Gravity = s.GravityMoments(g)
	if g.Cam != nil {
		return d, nil
	}
	unit, bars, err := s.PlateMoments(g)
	if err != nil {
		return d, err
	}
	d.Unit, d.Linkage.Bars = unit, bars
	for i, v := range bars {
		d.Gravity[i] += v
	}
	return d, nil
}

// Weigh adds to a state what its drive's parts weigh beyond what the geometry states,
// N·mm at each angle, and what rises with the load of one stack, kg, which is among it.
func (s *Designer) Weigh(d *State, own []float64, dead float64) {
	for i, v := range own {
		d.Gravity[i] += v
	}
	d.Own, d.Dead = own, dead
	d.HeavyTension += s.Tension(dead)
	s.load(d)
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

// wantedLevel is what the heaviest load should ask for at the curve's peak, one arm,
// N·mm: what the brief asks for, with a little in hand, or else the strongest boundary
// person's strength.
func (s *Designer) wantedLevel() float64 {
	if most := s.Asked.Resistance.Torque.To; most > 0 {
		return most * inHand
	}
	var most float64
	for _, p := range s.Persons {
		most = math.Max(most, p.ElbowStrength())
	}
	return most
}

// inHand is what a drive is given beyond the torque that is asked for, so that what a
// cam's closest match and the weights of its parts take off leaves enough.
const inHand = 1.02

// Own choices of the tower, mm.
const (
	StackRest     = 40.0  // stack's underside above the base tube
	stackHeadroom = 120.0 // above the raised stack, for its head and the top sheaves
	CableBeside   = 15.0  // between the stack's side and the cable that rises beside it
	SheaveBelow   = 5.0   // between the top sheave's rim and the tower's top tube
)

// BenchRig is the bench on which a cam is studied alone: a level axis, the
// median man's forearm, no user.
func (s *Designer) BenchRig() *specs.Geometry {
	man := Population(s.Asked.People).Median(people.Man)
	reach := math.Round(man.AxisToGrip)
	g := &specs.Geometry{
		Pivots: specs.Pivots{Height: 900, Spacing: 400, Axes: []specs.Axis{{}}},
		Handle: specs.Handle{Least: reach, Pitch: s.Asked.Posture.HandlePitch, Positions: 1, Diameter: Grip,
			GripLength: math.Ceil(man.HandBreadth + GripRoom)},
	}
	g.Handle.ArmMass, g.Handle.ArmCentre = ArmMass(s.Arm.Mass, reach)
	return g
}

// TopHeadroom is what the tower needs above the raised stack for the top sheave
// and the floating one.
func (s *Designer) TopHeadroom() float64 {
	return math.Max(stackHeadroom, s.TopRadius()+s.Asked.Resistance.SheaveRadius+2*SheaveBelow)
}

// TopRadius is the top sheave's radius: it spans from the cable beside the stack
// to the floating sheave, or to the middle of the arm's own stack.
func (s *Designer) TopRadius() float64 {
	over := s.Plate.Length/2 + CableBeside
	if !s.Pair() {
		over -= s.Asked.Resistance.SheaveRadius
	}
	return over / 2
}

// peak is the factor of the strength curve that Target stands for.
func (t *Torque) peak(shape []float64) float64 {
	for i, v := range shape {
		if v > 0 {
			return t.Target[i] / v
		}
	}
	return 0
}
