package solid

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// End is an oblique end plane, as a height over the profile's plane:
// z = Z + Tilt·(x, y). A saw cut at 45 degrees has a tilt of length 1.
type End struct {
	Z    float64
	Tilt r2.Vec
}

// Flat returns the end plane across z at a height.
func Flat(z float64) End { return End{Z: z} }

// At returns the height over a point of the profile's plane.
func (e End) At(q r2.Vec) float64 { return e.Z + r2.Dot(e.Tilt, q) }

// over lifts a point of the profile's plane into the end plane.
func (e End) over(q r2.Vec) r3.Vec { return r3.Vec{X: q.X, Y: q.Y, Z: e.At(q)} }

func (e End) mirrored() End {
	e.Tilt.Y = -e.Tilt.Y
	return e
}
