package drive

import (
	"math"

	"armwright/geometry/linkage"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The linkage of a frame: what it delivers, where it stands in the station, how
// it moves and what it carries. leverbars.go finds its lengths.

// Train is the linkage of a frame in the terms of geometry.
func Train(v *specs.Linkage) linkage.Train {
	return linkage.Train{
		Bars:      linkage.FourBar{Ground: v.Ground, Input: v.Input, Coupler: v.Coupler, Output: v.Output, Crossed: v.Assembly == "crossed"},
		Direction: v.Direction, InputPhase: v.InputPhase, Radius: v.Radius, Phase: v.Phase,
	}
}

// PerArea is the mass of the plate that bars are cut from, kg/mm².
func (s *Designer) PerArea() float64 { return s.Asked.Stock.CamPlate * stock.SteelDensity }

// barWeights are the bars of a train reduced to its joints.
func (s *Designer) barWeights(t linkage.Train) linkage.Weights {
	return NewTrainBars(t, s.Asked.Stock.Shaft, s.Asked.Stock.CamPlate).Weights(s.PerArea())
}

// vertical is the upward direction's components in the plane across an axis,
// along the projection of forward and across it.
func vertical(axis r3.Vec) r2.Vec {
	forward := Across(r3.Vec{X: 1}, axis)
	return r2.Vec{X: forward.Z, Y: r3.Cross(axis, forward).Z}
}

// LinkageMoments returns, over the loaded range, the moment of a unit plate mass
// and that of the bars themselves, N·mm/kg and N·mm, resisting flexion: by
// virtual work. The output shaft is parallel to the arm's in every axis
// position, since both stand on one bracket. The error is a *linkage.Error where
// the linkage does not close, has a dead point, or has a bar too short to be cut.
func (s *Designer) LinkageMoments(g *specs.Geometry) (unit, own []float64, err error) {
	t := Train(g.Linkage)
	if err := t.Clear(s.Angles[0], s.Angles[len(s.Angles)-1]); err != nil {
		return nil, nil, err
	}
	if err := NewTrainBars(t, s.Asked.Stock.Shaft, s.Asked.Stock.CamPlate).Check(); err != nil {
		return nil, nil, err
	}
	up := vertical(g.Pivots.MeanAxis())
	bars := s.barWeights(t)
	for _, theta := range s.Angles {
		p, err := t.At(theta)
		if err != nil {
			return nil, nil, err
		}
		unit = append(unit, p.Resistance(linkage.Weights{Plates: 1}, up))
		own = append(own, p.Resistance(bars, up))
	}
	return unit, own, nil
}

// LinkageState tells ratio, transmission angle and pin force of a frame's
// linkage that closes over the range.
func (s *Designer) LinkageState(g *specs.Geometry) LinkageState {
	t := Train(g.Linkage)
	up := vertical(g.Pivots.MeanAxis())
	out := LinkageState{LeastTransmission: math.Pi / 2, LeverRMS: s.bestLever(g)}
	for _, theta := range s.Angles {
		p, _ := t.At(theta)
		out.LeastTransmission = math.Min(out.LeastTransmission, p.Transmission)
		out.Ratio = append(out.Ratio, p.Ratio)
		plates := p.Resistance(linkage.Weights{Plates: s.Asked.Resistance.Load.Heavy}, up) / p.Ratio
		out.PinForce = math.Max(out.PinForce, math.Abs(plates)/(t.Bars.Output*math.Sin(p.Transmission)))
	}
	return out
}

// linkageInertia is the torque at the arm, N·mm, that a motion asks for to move
// bars and plates: with J of the pose, J θ" + J' θ'²/2 (Lagrange).
func (s *Designer) linkageInertia(v *specs.Linkage, plates, theta, acceleration, speed2 float64) float64 {
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

// linkageDirection is where the output shaft stands from the arm's, in the cheeks
// that carry both: up the stop pad when reclined, over the sole of the bracket;
// otherwise down the pad's slope, beside the forearm.
func (s *Designer) linkageDirection(g *specs.Geometry) float64 {
	if s.Reclined() {
		return math.Pi - NewMachine(g).Rest.Slope
	}
	return -NewMachine(g).Rest.Slope
}

const (
	// BearingHalf is half the length along its seat of a bearing's housing, mm
	// (own choice, for shafts up to 40 mm).
	BearingHalf = 75.0
	// BearingApart is the distance of a shaft's two bearings, middle to middle, mm
	// (own choice, as drawn).
	BearingApart = 70.0
)
