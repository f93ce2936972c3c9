package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Convex is a convex body in its own frame, known by its support function.
type Convex interface {
	// Support returns the body's farthest point in a direction of any length.
	Support(d r3.Vec) r3.Vec
}

// Ball is all that is within Radius of Centre.
type Ball struct {
	Centre r3.Vec
	Radius float64
}

// Support implements Convex.
func (b Ball) Support(d r3.Vec) r3.Vec { return outward(b.Centre, d, b.Radius) }

func (b Ball) spine(r3.Vec) r3.Vec { return b.Centre }
func (b Ball) skin() float64       { return b.Radius }

// outward returns the point at a distance from p along d.
func outward(p, d r3.Vec, distance float64) r3.Vec {
	n := r3.Norm(d)
	if n == 0 {
		return r3.Add(p, r3.Vec{X: distance})
	}
	return r3.Add(p, r3.Scale(distance/n, d))
}

// skinned is a convex body that is a smaller one, its spine, and all within a
// distance of it. Distances are measured between spines: those of points and
// segments are found at once, where a round surface is approached by steps.
type skinned interface {
	spine(d r3.Vec) r3.Vec
	skin() float64
}

// column is a convex plane area carried between two planes.
type column struct {
	rim      rim
	from, to End
}

// Support implements Convex. Which end is farther goes by the sense of d along
// z alone, since the ends do not cross; over either plane the height is linear.
func (c *column) Support(d r3.Vec) r3.Vec {
	e := &c.to
	if d.Z < 0 {
		e = &c.from
	}
	q := c.rim.support(r2.Vec{X: d.X + d.Z*e.Tilt.X, Y: d.Y + d.Z*e.Tilt.Y})
	return r3.Vec{X: q.X, Y: q.Y, Z: e.Z + e.Tilt.X*q.X + e.Tilt.Y*q.Y}
}

// brick is the box between two corners.
type brick struct{ low, high r3.Vec }

// Support implements Convex.
func (b *brick) Support(d r3.Vec) r3.Vec {
	q := b.high
	if d.X < 0 {
		q.X = b.low.X
	}
	if d.Y < 0 {
		q.Y = b.low.Y
	}
	if d.Z < 0 {
		q.Z = b.low.Z
	}
	return q
}

// spindle is the convex hull of circles about z: corners (radius, z).
type spindle struct{ corners []r2.Vec }

// Support implements Convex.
func (s *spindle) Support(d r3.Vec) r3.Vec {
	across := math.Sqrt(d.X*d.X + d.Y*d.Y)
	best, at := math.Inf(-1), r2.Vec{}
	for _, q := range s.corners {
		if h := across*q.X + d.Z*q.Y; h > best {
			best, at = h, q
		}
	}
	if across == 0 {
		return r3.Vec{X: at.X, Z: at.Y}
	}
	return r3.Vec{X: at.X / across * d.X, Y: at.X / across * d.Y, Z: at.Y}
}
