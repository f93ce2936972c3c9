package tolerance

import (
	"armwright/geometry/cam"
	"armwright/solver/drive"
	"armwright/specs"
)

// Stretch of a cable.
const (
	// ropeArea and ropeModulus are the metallic area of a stranded rope over its
	// diameter squared, and the modulus of elasticity on it, N/mm² (design
	// handbooks, 7x19, M).
	ropeArea, ropeModulus = 0.40, 83000.0
	// ropeSettles is the most by which a rope not stretched beforehand grows for
	// good under light load, share of its length (rope makers' handbooks, M).
	ropeSettles = 0.0025
)

// pickUp is how far an arm turns before it carries the heaviest load: the cable
// stretches under it, and has grown by up to so much since it was last
// tightened. Zero without a cable's route.
type pickUp struct {
	elastic float64 // rad
	settled float64 // rad, the most
}

func newPickUp(f *specs.Frame, r *drive.Resistance, unit []float64) pickUp {
	if r.Route == nil || len(r.MomentArm) == 0 || f.Geometry.Cam == nil {
		return pickUp{}
	}
	take := r.MomentArm[0] * f.Geometry.Cam.Ratio // cable for each rad of the arm
	force := r.Tension * r.Heavy.Load / r.Middle.Load
	area := ropeArea * r.Cable.Diameter * r.Cable.Diameter
	return pickUp{
		elastic: force * r.Route.Length / (ropeModulus * area) / take,
		settled: ropeSettles * r.Route.Length / take,
	}
}

// room is the travel of the arm before the loaded range, which may be lost
// without any of the range being lost.
const room = cam.Overrun
