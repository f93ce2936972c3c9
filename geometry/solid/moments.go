package solid

import "gonum.org/v1/gonum/spatial/r3"

// Tensor is a symmetric 3 by 3 matrix.
type Tensor [3][3]float64

// bulk holds ∫dV and ∫r dV about the origin of a frame.
type bulk struct {
	volume float64
	first  r3.Vec
}

// less takes away a part that is given in the frame at.
func (m *bulk) less(part bulk, at Placement) {
	m.volume -= part.volume
	m.first = r3.Sub(m.first, r3.Add(at.Vector(part.first), r3.Scale(part.volume, at.Origin)))
}

func (m bulk) centroid() r3.Vec { return r3.Scale(1/m.volume, m.first) }

// moments holds ∫r rᵀ dV as well.
type moments struct {
	bulk
	second Tensor
}

// less takes away a part that is given in the frame at.
func (m *moments) less(part moments, at Placement) {
	axes := [3]r3.Vec{at.X, at.Y, at.Z}
	o, f := coordinates(at.Origin), coordinates(at.Vector(part.first))
	for i := range 3 {
		for j := range 3 {
			turned := 0.0
			for k := range 3 {
				for l := range 3 {
					turned += coordinates(axes[k])[i] * part.second[k][l] * coordinates(axes[l])[j]
				}
			}
			m.second[i][j] -= turned + o[i]*f[j] + f[i]*o[j] + part.volume*o[i]*o[j]
		}
	}
	m.bulk.less(part.bulk, at)
}

func coordinates(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

// inertia returns the moments of inertia per unit density about the centroid.
func (m moments) inertia() Tensor {
	c, f := coordinates(m.centroid()), coordinates(m.first)
	var t Tensor
	trace := 0.0
	for i := range 3 {
		for j := range 3 {
			t[i][j] = -(m.second[i][j] - f[i]*c[j])
		}
		trace -= t[i][i]
	}
	for i := range 3 {
		t[i][i] += trace
	}
	return t
}
