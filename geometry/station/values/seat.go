package values

// Seat are the seat and its positions; none without Positions. Heights are of
// the loaded surface. The post stands at Base.SeatPost.
type Seat struct {
	Lowest, Pitch       float64
	Positions           int
	Front, Depth, Width float64
	Post                Section // slides in a sleeve of the members' section
}

// Back are the back pad of a reclined station; none without Length. Its face
// leans back by Angle from upright and meets the lowest seat surface at x = Foot.
type Back struct {
	Angle, Foot   float64
	Length, Width float64 // along the slope from the seat, and across
}

// FootPlate are the foot plate and its heights; none without Positions.
type FootPlate struct {
	Lowest, Pitch float64 // height of its top above the floor, and between positions
	Positions     int
	X             float64 // of its middle
	Depth         float64 // front to rear
}

// Handle are the handle and its positions on the arm.
type Handle struct {
	Least, Pitch   float64 // distance of the first position from the axis, and between positions
	Positions      int
	Middle, Length float64 // axial place of the grip's middle, outward from the pivot, and its clear length
	Diameter       float64 // of the grip
}

// Greatest is the distance of the last position from the axis.
func (h Handle) Greatest() float64 { return h.Least + float64(h.Positions-1)*h.Pitch }

// Chest are the chest pad and its positions, the rearmost first; none without
// Positions.
type Chest struct {
	Height, Rear float64 // of the middle of its face: above the floor, and x in the rearmost position
	Lean         float64 // of its face from upright, top forward
	Pitch        float64 // between positions
	Positions    int
	Long, Wide   float64 // up its face and across
}
