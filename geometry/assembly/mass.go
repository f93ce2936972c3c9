package assembly

import (
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Weight is a mass and its moment about the origin.
type Weight struct {
	Mass   float64 // kg
	Moment r3.Vec  // mass times place, kg·mm
}

// Add adds a mass at a place.
func (w *Weight) Add(mass float64, at r3.Vec) {
	w.Mass += mass
	w.Moment = r3.Add(w.Moment, r3.Scale(mass, at))
}

// Centre returns the centre of mass; the origin without any.
func (w Weight) Centre() r3.Vec {
	if w.Mass == 0 {
		return r3.Vec{}
	}
	return r3.Scale(1/w.Mass, w.Moment)
}

// Moved returns the weight after a displacement.
func (w Weight) Moved(d solid.Placement) Weight {
	return Weight{w.Mass, r3.Add(d.Vector(w.Moment), r3.Scale(w.Mass, d.Origin))}
}

// ByGroup returns the weight of every group in the reference pose, written over
// dst as far as it reaches. What is flexible counts with the first group.
func (a *Assembly) ByGroup(dst []Weight) []Weight {
	dst = dst[:0]
	for range a.Groups {
		dst = append(dst, Weight{})
	}
	for i := range a.Parts {
		p := &a.Parts[i]
		dst[p.Group].Add(p.Mass, p.Centre)
	}
	for i := range a.Flexible {
		f := &a.Flexible[i]
		dst[0].Add(f.Mass, f.Centre)
	}
	return dst
}

// Mass returns the mass of everything, kg.
func (a *Assembly) Mass() float64 {
	sum := 0.0
	for i := range a.Parts {
		sum += a.Parts[i].Mass
	}
	for i := range a.Flexible {
		sum += a.Flexible[i].Mass
	}
	return sum
}

// Centre returns the centre of mass in a pose.
func (a *Assembly) Centre(pose Pose) r3.Vec {
	places := a.At(pose, nil)
	var sum Weight
	for g, w := range a.ByGroup(nil) {
		w = w.Moved(places[g])
		sum.Mass, sum.Moment = sum.Mass+w.Mass, r3.Add(sum.Moment, w.Moment)
	}
	return sum.Centre()
}
