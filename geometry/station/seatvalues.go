package station

// SeatValues are the seat and its positions; none without Positions. Heights are of
// the loaded surface. The post stands at BaseValues.SeatPost.
type SeatValues struct {
	Lowest, Pitch       float64
	Positions           int
	Front, Depth, Width float64
	Post                Section // slides in a sleeve of the members' section
}

// BackValues are the back pad of a reclined station; none without Length. Its face
// leans back by Angle from upright and meets the lowest seat surface at x = Foot.
type BackValues struct {
	Angle, Foot   float64
	Length, Width float64 // along the slope from the seat, and across
}

// FootPlateValues are the foot plate and its heights; none without Positions.
type FootPlateValues struct {
	Lowest, Pitch float64 // height of its top above the floor, and between positions
	Positions     int
	X             float64 // of its middle
	Depth         float64 // front to rear
}

// HandleValues are the handle and its positions on the arm.
type HandleValues struct {
	Least, Pitch   float64 // distance of the first position from the axis, and between positions
	Positions      int
	Middle, Length float64 // axial place of the grip's middle, outward from the pivot, and its clear length
	Diameter       float64 // of the grip
}
