package station

// shapeKind is what a shape is, one for each way in which its numbers are read.
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
	saddleShape
	forkShape
	capShape
	rodBarShape
	stackFootShape
	stackPlateShape
	eyeShape
	fourShape
	guardBarShape
	guardShape
)
