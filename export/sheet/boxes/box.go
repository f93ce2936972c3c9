// Package boxes knows what takes room on paper: boxes, places for them that keep clear of
// each other, and lines by where they run. Lengths are paper mm, y up.
package boxes

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Empty is the box of nothing.
func Empty() r2.Box {
	inf := math.Inf(1)
	return r2.Box{Min: r2.Vec{X: inf, Y: inf}, Max: r2.Vec{X: -inf, Y: -inf}}
}

// IsEmpty reports whether there is nothing in a box.
func IsEmpty(b r2.Box) bool { return b.Min.X > b.Max.X }

// Grow is a box that holds a point, too.
func Grow(b r2.Box, p r2.Vec) r2.Box {
	return r2.Box{
		Min: r2.Vec{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)},
		Max: r2.Vec{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)},
	}
}

// Union is the box round two.
func Union(a, b r2.Box) r2.Box {
	if IsEmpty(b) {
		return a
	}
	return Grow(Grow(a, b.Min), b.Max)
}

// Shift is a box moved.
func Shift(b r2.Box, by r2.Vec) r2.Box {
	return r2.Box{Min: r2.Add(b.Min, by), Max: r2.Add(b.Max, by)}
}

// Size is how wide and high a box is.
func Size(b r2.Box) (width, height float64) { return b.Max.X - b.Min.X, b.Max.Y - b.Min.Y }

// Meet reports whether two boxes have a point in common.
func Meet(a, b r2.Box) bool {
	return a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y
}
