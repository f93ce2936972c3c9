package report

// Pivots are both pivots, mirror images of each other.
type Pivots struct {
	Left  Pivot `json:"left" doc:"left pivot, y > 0"`
	Right Pivot `json:"right" doc:"right pivot, y < 0"`
}

// Axis is a pivot axis. The vector is of unit length and points outward.
type Axis struct {
	Toe    float64    `json:"toe" doc:"plan-view angle, outer end to the rear positive, deg"`
	Cant   float64    `json:"cant" doc:"front-view angle, outer end up positive, deg"`
	Vector [3]float64 `json:"axis" doc:"outward unit vector x, y, z"`
}

// Pivot is one pivot with its axis in the middle position, the mean of all
// positions, for which gravity and the guide sheave are worked out.
type Pivot struct {
	X float64 `json:"x" doc:"mm"`
	Y float64 `json:"y" doc:"mm"`
	Z float64 `json:"z" doc:"mm"`
	Axis
	Axes []Axis `json:"axes" doc:"all positions of the axis, in order of rising toe"`
}

// Pad is the arm pad.
type Pad struct {
	Slope      *float64 `json:"slope" doc:"below horizontal, deg"`
	Offset     *float64 `json:"offset" doc:"pivot axis to the pad's face, mm"`
	EdgeHeight *float64 `json:"edge_height" doc:"upper edge of the pad's face above the floor, mm"`
	Near       *float64 `json:"near" doc:"pivot to the lower edge along the pad, mm"`
	Far        *float64 `json:"far" doc:"pivot to the upper edge along the pad, mm"`
	Width      *float64 `json:"width" doc:"of one pad, mm"`
}

// Seat is the seat.
type Seat struct {
	Positions []float64 `json:"positions" doc:"heights of the loaded seat surface above the floor, lowest first, mm"`
	Pitch     *float64  `json:"pitch" doc:"between positions, mm"`
	Front     *float64  `json:"front" doc:"x of the front edge, mm"`
	Depth     *float64  `json:"depth" doc:"mm"`
	Width     *float64  `json:"width" doc:"mm"`
}

// Back is the back pad.
type Back struct {
	Angle  *float64 `json:"angle" doc:"from vertical, leaning back, deg"`
	Foot   *float64 `json:"foot" doc:"x where its face meets the lowest seat surface, mm"`
	Length *float64 `json:"length" doc:"along the slope, mm"`
}

// Handle is the handle of one arm.
type Handle struct {
	Positions  []float64 `json:"positions" doc:"distances of the grip from the axis, mm"`
	Middle     float64   `json:"middle" doc:"axial place of the grip's middle, outward from the pivot, mm"`
	GripLength float64   `json:"grip_length" doc:"clear length, mm"`
	Diameter   float64   `json:"diameter" doc:"mm"`
	ArmMass    float64   `json:"arm_mass" doc:"one arm with its handle, kg"`
	ArmCentre  float64   `json:"arm_centre" doc:"centre of mass of the arm from the axis, mm"`
}

// Footprint is the rectangle of the feet.
type Footprint struct {
	Length *float64     `json:"length" doc:"front to rear, mm"`
	Width  *float64     `json:"width" doc:"side to side, mm"`
	Feet   [][2]float64 `json:"feet" doc:"x, y of the feet, counter-clockwise from the rear right, mm"`
}

// Elbow is the largest distance between the hand's path and the handle's path.
type Elbow struct {
	LeastHandPath  *float64   `json:"least_hand_path" doc:"of the person it suits best, mm"`
	WorstHandPath  *float64   `json:"worst_hand_path" doc:"of the person it suits least, mm"`
	CommonHandPath *float64   `json:"common_axis_hand_path" doc:"of the person it suits least, on one straight common axis with handles a fixed distance apart, mm"`
	AskedTurn      *float64   `json:"asked_turn" doc:"turn of the upper arm about its own length while it lifts, either way, that the brief allows, deg"`
	LiftingTurn    *float64   `json:"lifting_turn" doc:"turn of the upper arm about its own length while it lifts, either way, that worst_turning_hand_path allows: the brief's, or what an elbow's axis wanders by itself where the brief allows none, deg"`
	StillHandPath  *float64   `json:"worst_still_hand_path" doc:"of the person it suits least if the upper arm does not turn while it lifts, mm"`
	TurnedHandPath *float64   `json:"worst_turning_hand_path" doc:"of the person it suits least if it turns by lifting_turn, mm"`
	Supposed       []Supposed `json:"supposed" doc:"what the boundary persons make of the station if an input that nobody can measure on them were another"`
	Paths          []HandPath `json:"paths" doc:"where the hands of three persons go around their handles; empty with fewer than three"`
}

// HandPath is where the hand goes seen from an axis, beside the handle that it
// holds, which keeps its distance and place: what lies between them is what
// the hand must give way.
type HandPath struct {
	Person string `json:"person" doc:"boundary person: of the least, the middle and the greatest stature"`
	Here   Path   `json:"here" doc:"seen from the station's axis in the position that the person uses"`
	Common Path   `json:"common_axis" doc:"seen from one straight common axis, with handles a fixed distance apart"`
}

// Path is a hand's path in the plane of the distance from an axis and the place
// along it. Lists run over the angles of resistance.
type Path struct {
	HandleRadial float64   `json:"handle_radial" doc:"handle from the axis, mm"`
	HandleAxial  float64   `json:"handle_axial" doc:"handle along the axis, outward, mm"`
	Radial       []float64 `json:"radial" doc:"hand from the axis, mm"`
	Axial        []float64 `json:"axial" doc:"hand along the axis, outward, mm"`
}
