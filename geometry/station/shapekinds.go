package station

import (
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

type shapeKind int8

// shape is what a profile is made from: two with equal numbers are one.
type shape struct {
	kind shapeKind
	n    [16]float64
}

const (
	rectShape shapeKind = iota
	tubeShape
	discShape
	pipeShape
	flangeShape
	indexShape
	soleShape
	cheekShape
	hubShape
	barShape
	eyeBarShape
	plateShape
	padPlateShape
)

// Shapes of these families.
const (
	forkShape shapeKind = 100 + iota
	capShape
	rodBarShape
	stackFootShape
	stackPlateShape
	eyeShape
	fourShape
	guardBarShape
	guardShape
)

type made struct {
	profile *solid.Profile
	size    r2.Vec
}

// kept is what one was made from, too.
type kept struct {
	shape
	made
}

// maxShapes bounds what a maker remembers.
const maxShapes = 1000
