package specs

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Vector is the outward unit vector of the axis on the right arm. Flexion is a
// right-handed turn about it.
func (a Axis) Vector() r3.Vec {
	return r3.Unit(r3.Vec{X: -math.Tan(a.Toe), Y: -1, Z: math.Tan(a.Cant)})
}

// AxisOf is the inverse of Vector for a vector whose Y is negative.
func AxisOf(v r3.Vec) Axis {
	return Axis{Toe: math.Atan2(-v.X, -v.Y), Cant: math.Atan2(v.Z, -v.Y)}
}

// Right is the place of the right pivot.
func (p Pivots) Right() r3.Vec { return r3.Vec{Y: -p.Spacing / 2, Z: p.Height} }

// MeanAxis is the outward unit vector on the right arm in the middle of the axis
// positions, of which there must be one at least.
func (p Pivots) MeanAxis() r3.Vec {
	var sum r3.Vec
	for _, a := range p.Axes {
		sum = r3.Add(sum, a.Vector())
	}
	return r3.Unit(sum)
}

// Top is the height of the seat in a position, counted from 0 at the lowest.
func (s *Seat) Top(position int) float64 { return s.Lowest + float64(position)*s.Pitch }

// Face is x of the middle of the chest pad's face in a position, counted from 0 at the
// rearmost.
func (c *ChestPad) Face(position int) float64 { return c.Rear + float64(position)*c.Pitch }

// Height is that of the foot plate in a position, counted from 0 at the lowest.
func (f *FootPlate) Height(position int) float64 { return f.Lowest + float64(position)*f.Pitch }

// Radius is the grip's distance from the axis in a position, counted from 0 at
// the smallest.
func (h Handle) Radius(position int) float64 { return h.Least + float64(position)*h.Pitch }

// Greatest is the radius of the last position.
func (h Handle) Greatest() float64 { return h.Radius(h.Positions - 1) }
