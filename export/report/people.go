package report

// People tells who fits.
type People struct {
	Sample     int      `json:"sample" doc:"random persons drawn"`
	Coverage   *float64 `json:"coverage" doc:"share of the random persons who fit"`
	Low        *float64 `json:"low" doc:"lower end of the 95 % confidence interval of coverage (Wilson 1927)"`
	High       *float64 `json:"high" doc:"upper end"`
	TurnedAway []Turned `json:"turned_away" doc:"which requirement turns how many of the sample away, most first"`
	Boundary   []Person `json:"boundary" doc:"the boundary persons, each in the best setting of the station"`
}

// Turned is how many of the sample a requirement turns away.
type Turned struct {
	ID    string  `json:"id" doc:"of the requirement"`
	Count int     `json:"count" doc:"persons of the sample"`
	Share float64 `json:"share" doc:"of the sample"`
}

// Person is one boundary person. Positions count from 1: the lowest seat, the
// smallest toe, the handle nearest the axis.
type Person struct {
	Label         string   `json:"label" doc:"who"`
	Sex           string   `json:"sex" enum:"woman|man" doc:"statistics drawn from"`
	Stature       float64  `json:"stature" doc:"mm"`
	Mass          float64  `json:"mass" doc:"kg"`
	CarryingAngle float64  `json:"carrying_angle" doc:"deg"`
	SeatPosition  int      `json:"seat_position" doc:"from 1, the lowest"`
	SeatHeight    float64  `json:"seat_height" doc:"mm"`
	AxisPosition  int      `json:"axis_position" doc:"from 1, the smallest toe"`
	HandlePlace   int      `json:"handle_position" doc:"from 1, nearest the axis"`
	HandleRadius  float64  `json:"handle_radius" doc:"grip from the axis, mm"`
	HandAxial     float64  `json:"hand_axial" doc:"middle of the hand along the grip, outward from the pivot, mm"`
	Abduction     float64  `json:"abduction" doc:"sideways angle of the upper arm, deg"`
	Lean          float64  `json:"lean" doc:"of the trunk from vertical, forward positive, deg"`
	ArmSlope      float64  `json:"arm_slope" doc:"upper arm below horizontal, deg"`
	AxisOffset    float64  `json:"axis_offset" doc:"elbow centre from the machine axis, mm"`
	AxisTilt      float64  `json:"axis_tilt" doc:"elbow axis to the machine axis, deg"`
	ArmTurn       float64  `json:"arm_turn" doc:"turn of the humerus about its length, deg"`
	HandPath      float64  `json:"hand_path" doc:"largest distance between the paths of hand and handle, mm"`
	HandPathRMS   float64  `json:"hand_path_rms" doc:"root mean square of that distance, mm"`
	HandPathAngle float64  `json:"hand_path_angle" doc:"flexion of the largest, deg"`
	CommonPath    float64  `json:"common_axis_hand_path" doc:"largest on one straight common axis, mm"`
	FootGap       float64  `json:"foot_gap" doc:"shoe sole above the floor, mm"`
	SeatLoad      float64  `json:"seat_load" doc:"least share of body weight on the seat"`
	Fits          bool     `json:"fits" doc:"whether the person meets every requirement"`
	TurnedBy      []string `json:"turned_by" doc:"requirements that turn the person away"`
}
