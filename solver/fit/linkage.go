package fit

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/linkage"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The linkage of a frame: what it delivers, where it stands in the station, how
// it moves and what it carries. leverbars.go finds its lengths.

// LinkageState is how the linkage works over the loaded range.
type LinkageState struct {
	LeastTransmission float64   // between coupler and output, rad
	Ratio             []float64 // turn of the output per turn of the arm, at each angle
	LeverRMS          float64   // what the best single lever would leave at the middle load, share of the peak
	PinForce          float64   // greatest force in the coupler at the heaviest load, by the plates alone, N
}

// Train is the linkage of a frame in the terms of geometry.
func Train(v *specs.Linkage) linkage.Train {
	return linkage.Train{
		Bars:      linkage.FourBar{Ground: v.Ground, Input: v.Input, Coupler: v.Coupler, Output: v.Output, Crossed: v.Assembly == "crossed"},
		Direction: v.Direction, InputPhase: v.InputPhase, Radius: v.Radius, Phase: v.Phase,
	}
}

// perArea is the mass of the plate that bars are cut from, kg/mm².
func (s *study) perArea() float64 { return s.asked.Stock.CamPlate * stock.SteelDensity }

// barWeights are the bars of a train reduced to its joints.
func (s *study) barWeights(t linkage.Train) linkage.Weights {
	return station.NewTrainBars(t, s.asked.Stock.Shaft, s.asked.Stock.CamPlate).Weights(s.perArea())
}

// vertical is the upward direction's components in the plane across an axis,
// along the projection of forward and across it.
func vertical(axis r3.Vec) r2.Vec {
	forward := across(r3.Vec{X: 1}, axis)
	return r2.Vec{X: forward.Z, Y: r3.Cross(axis, forward).Z}
}

// linkageMoments returns, over the loaded range, the moment of a unit plate mass
// and that of the bars themselves, N·mm/kg and N·mm, resisting flexion: by
// virtual work. The output shaft is parallel to the arm's in every axis
// position, since both stand on one bracket. The error is a *linkage.Error where
// the linkage does not close or has a dead point.
func (s *study) linkageMoments(g *specs.Geometry) (unit, own []float64, err error) {
	t := Train(g.Linkage)
	if err := t.Clear(s.angles[0], s.angles[len(s.angles)-1]); err != nil {
		return nil, nil, err
	}
	up := vertical(middleAxis(newMachine(g)))
	bars := s.barWeights(t)
	for _, theta := range s.angles {
		p, err := t.At(theta)
		if err != nil {
			return nil, nil, err
		}
		unit = append(unit, p.Resistance(linkage.Weights{Plates: 1}, up))
		own = append(own, p.Resistance(bars, up))
	}
	return unit, own, nil
}

// linkageState tells ratio, transmission angle and pin force of a frame's
// linkage that closes over the range.
func (s *study) linkageState(g *specs.Geometry) LinkageState {
	t := Train(g.Linkage)
	up := vertical(middleAxis(newMachine(g)))
	out := LinkageState{LeastTransmission: math.Pi / 2, LeverRMS: s.bestLever(g)}
	for _, theta := range s.angles {
		p, _ := t.At(theta)
		out.LeastTransmission = math.Min(out.LeastTransmission, p.Transmission)
		out.Ratio = append(out.Ratio, p.Ratio)
		plates := p.Resistance(linkage.Weights{Plates: s.asked.Resistance.Load.Heavy}, up) / p.Ratio
		out.PinForce = math.Max(out.PinForce, math.Abs(plates)/(t.Bars.Output*math.Sin(p.Transmission)))
	}
	return out
}

// linkageInertia is the torque at the arm, N·mm, that a motion asks for to move
// bars and plates: with J of the pose, J θ" + J' θ'²/2 (Lagrange).
func (s *study) linkageInertia(v *specs.Linkage, plates, theta, acceleration, speed2 float64) float64 {
	const h, metre = 1e-4, 1000
	t := Train(v)
	w := s.barWeights(t)
	w.Plates += plates
	at, err := t.At(theta)
	before, err1 := t.At(theta - h)
	after, err2 := t.At(theta + h)
	if err != nil || err1 != nil || err2 != nil {
		return 0
	}
	slope := (after.Inertia(w) - before.Inertia(w)) / (2 * h)
	return (at.Inertia(w)*acceleration + slope/2*speed2) / metre
}

// linkageDirection is where the output shaft stands from the arm's: on the bar
// that carries the bearings from the post behind when reclined, so that the bar
// is the ground link; otherwise on a bar that goes on down the pad's slope, beside
// the forearm and below it.
func (s *study) linkageDirection(g *specs.Geometry) float64 {
	if s.reclined() {
		return math.Pi
	}
	return -newMachine(g).rest.Slope
}

const (
	// bearingHalf is half the length along its seat of a bearing's housing, mm
	// (own choice, for shafts up to 40 mm).
	bearingHalf = 75.0
	// bearingApart is the distance of a shaft's two bearings, middle to middle, mm
	// (own choice, as drawn).
	bearingApart = 70.0
)

// movers of the linkage of one arm: its bars as round bars of their eyes' size,
// the plates as a disc, and the sleeve that the plates hang on.
func (s *study) linkageMovers(g *specs.Geometry, l station.Layout) []mover {
	t := Train(g.Linkage)
	n := len(s.angles)
	path := func(from, to func(linkage.Pose) r2.Vec) [][2]r2.Vec {
		ends := make([][2]r2.Vec, n)
		for k, theta := range s.angles {
			p, _ := t.At(theta)
			ends[k] = [2]r2.Vec{from(p), to(p)}
		}
		return ends
	}
	arm := func(linkage.Pose) r2.Vec { return r2.Vec{} }
	pin := func(p linkage.Pose) r2.Vec { return p.Pin }
	joint := func(p linkage.Pose) r2.Vec { return p.Joint }
	shaft := func(p linkage.Pose) r2.Vec { return p.Shaft }
	plates := func(p linkage.Pose) r2.Vec { return p.Plates }
	eye := l.BarThick / 2
	list := []mover{
		{name: inputName, w1: l.CamPlane(), w2: l.CamPlane(), radius: eye, places: path(arm, pin)},
		{name: couplerName, w1: l.CouplerPlane(), w2: l.CouplerPlane(), radius: eye, places: path(pin, joint)},
		{name: outputName, w1: l.CamPlane(), w2: l.CamPlane(), radius: eye, places: path(shaft, joint)},
		{name: leverName, w1: l.LeverPlane(), w2: l.LeverPlane(), radius: eye, places: path(shaft, plates)},
	}
	const diameters = 8
	for i := range diameters {
		sin, cos := math.Sincos(math.Pi * float64(i) / diameters)
		rim := r2.Vec{X: plateRim * cos, Y: plateRim * sin}
		list = append(list, mover{name: plateName, w1: l.PlatePlane(), w2: l.PlatePlane(), radius: plateThickness(l.PlatesEachArm) / 2,
			places: path(func(p linkage.Pose) r2.Vec { return r2.Sub(p.Plates, rim) }, func(p linkage.Pose) r2.Vec { return r2.Add(p.Plates, rim) })})
	}
	return list
}

// plateThickness is that of plates of full diameter, mm.
func plateThickness(mass float64) float64 {
	return mass / (math.Pi * plateRim * plateRim * stock.SteelDensity)
}

// ownLinkageGaps are the gaps between parts of a linkage that pass each other in
// parallel planes: they stay as they are.
func ownLinkageGaps(l station.Layout) []ownGap {
	pins := l.CouplerPlane() + l.BarThick/2
	return []ownGap{
		{inputName, "its bearing bar", l.CamPlane() - l.BarThick/2 - l.BearingPlane() - l.ArmTube/2},
		{leverName, couplerName, l.LeverPlane() - l.BarThick/2 - pins},
		{plateName, couplerName, l.PlatePlane() - plateThickness(l.PlatesEachArm)/2 - pins},
	}
}

// ownGap is a gap that stays.
type ownGap struct {
	moving, fixed string
	gap           float64
}

// linkageChecks screens what a linkage adds: output shaft with its bearings,
// pins, the welds of bars on shafts, and the bar that carries the output shaft.
// Each is at the heaviest load with the factors of frameLoads.
func (s *study) linkageChecks(g *specs.Geometry, l station.Layout, level float64, add func(id, part, what string, value, limit float64, unit, source, mark string) *StrengthCheck) {
	of := func(id string) float64 { return s.limits[s.index[id]] }
	state := s.linkageState(g)
	weight := dynamicFactor * l.PlatesEachArm * balance.G
	force := dynamicFactor * state.PinForce
	const strength = "2.5 times the load, bright bar of the tubes' grade"

	over := l.PlatePlane() - l.BearingPlane() - bearingApart/2
	_, _, equivalent := stock.Shaft(s.asked.Stock.Shaft, weight*over+force*(l.CamPlane()-l.BearingPlane()-bearingApart/2), weight*g.Linkage.Radius)
	add("member-stress", "output shaft", "bending with torsion (von Mises)", loadFactor*equivalent/s.steel.Yield, of("member-stress"), "%", strength, "M")
	// The pin stands in the input or output bar and carries the coupler beside it.
	bend := force * (l.CouplerPlane() - l.CamPlane())
	_, _, equivalent = stock.Shaft(station.PinAcross(l.BarThick), bend, 0)
	add("member-stress", "coupler pins", "bending, coupler beside its bar", loadFactor*equivalent/s.steel.Yield, of("member-stress"), "%", strength, "M")
	// A fillet round the hub of a bar: shear by the torque over its ring.
	ring := math.Pi * sq(s.asked.Stock.Shaft) / 2 * throat
	torque := dynamicFactor * math.Max(level, l.PlatesEachArm*balance.G*g.Linkage.Radius)
	add("member-stress", "welds of the bars on their shafts", "throat of "+s.size(3)+" all round", loadFactor*torque/ring/s.steel.WeldStrength(), of("member-stress"), "%",
		"EN 1993-1-8 simplified method, gamma M2 1.25", "S")
	carrier := combined(s.arm, weight*g.Linkage.Ground, 0, weight*(l.PlatePlane()-l.BearingPlane()))
	add("member-stress", "bar to the output shaft", "bending with torsion under the plates", loadFactor*carrier/s.steel.Yield, of("member-stress"), "%",
		"2.5 times the load (EN 957-2 5.2); yield strength of the grade", "M")
	load := weight*(1+over/bearingApart) + force
	add("bearing-static", "output shaft's bearing next to the plates", "static rating over the load", s.bearing.StaticFactor(load), of("bearing-static"), "", "ISO 76, oscillating pivots", "M")
}

// linkageReach is how far outward along the machine's y the plates come on an axis,
// mm from the pivot.
func (s *study) linkageReach(g *specs.Geometry, l station.Layout, axis r3.Vec) float64 {
	t := Train(g.Linkage)
	sw := station.NewSwing(r3.Vec{}, axis, 0)
	rim := plateRim * math.Hypot(sw.Forward.Y, sw.Up.Y)
	most := 0.0
	for _, theta := range s.angles {
		p, _ := t.At(theta)
		most = math.Max(most, rim-sw.InPlane(p.Plates.X, p.Plates.Y, l.DriveEnd()).Y)
	}
	return most
}
