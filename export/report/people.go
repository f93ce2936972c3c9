package report

// People tells who fits.
type People struct {
	Source       string    `json:"source" doc:"where the persons for coverage come from"`
	Sample       int       `json:"sample" doc:"persons judged for coverage"`
	Coverage     *float64  `json:"coverage" doc:"share of these persons who fit"`
	Low          *float64  `json:"low" doc:"lower end of the 95 % confidence interval of coverage (Wilson 1927)"`
	High         *float64  `json:"high" doc:"upper end"`
	Shrug        *float64  `json:"shrug" doc:"share who fit or miss limits of comfort that are judgement alone, by little"`
	Women        *Covered  `json:"women" doc:"coverage of the women, null when there are none"`
	Men          *Covered  `json:"men" doc:"coverage of the men, null when there are none"`
	Extrapolated int       `json:"extrapolated" doc:"persons above the body mass index that measured body shapes cover"`
	TurnedAway   []Turned  `json:"turned_away" doc:"which requirement turns how many of them away, most first"`
	Settings     []Band    `json:"settings" doc:"by stature: who fits, and the settings they take; what to print on the station"`
	Explorer     []Cell    `json:"explorer" doc:"by sex, stature and carrying angle: who fits, and what turns the others away most"`
	HandPath     *Spread   `json:"hand_path" doc:"largest distance between the paths of hand and handle, over all persons"`
	CommonPath   *Spread   `json:"common_axis_hand_path" doc:"the same on one straight common axis with handles a fixed distance apart"`
	FootGap      *Spread   `json:"foot_gap" doc:"shoe sole above floor or foot plate, over all persons"`
	OneAxis      []OneAxis `json:"one_axis" doc:"what each axis position would leave if it were the only one"`
	Boundary     []Person  `json:"boundary" doc:"the boundary persons, each in the best setting of the station"`
}

// Covered is how many of some persons fit.
type Covered struct {
	Persons  int     `json:"persons" doc:"how many there are"`
	Fit      int     `json:"fit" doc:"how many of them fit"`
	Coverage float64 `json:"coverage" doc:"share who fit"`
	Low      float64 `json:"low" doc:"lower end of its 95 % confidence interval (Wilson 1927)"`
	High     float64 `json:"high" doc:"upper end"`
}

// Turned is how many persons a requirement turns away.
type Turned struct {
	ID    string  `json:"id" doc:"of the requirement"`
	Count int     `json:"count" doc:"persons"`
	Share float64 `json:"share" doc:"of all persons"`
	Only  int     `json:"only" doc:"of these, turned away by nothing else"`
	Women int     `json:"women" doc:"women among them"`
	Men   int     `json:"men" doc:"men among them"`
	From  float64 `json:"stature_from" doc:"stature of the middle 80 % of them, mm"`
	To    float64 `json:"stature_to" doc:"mm"`
}

// Band is one line of the settings chart: the positions taken by those who fit
// among the persons of a band of stature. Positions count from 1.
type Band struct {
	From float64 `json:"from" doc:"stature, mm"`
	To   float64 `json:"to" doc:"stature, mm"`
	Covered
	Women     *Covered `json:"women" doc:"coverage of the women among them, null when there are none"`
	Men       *Covered `json:"men" doc:"coverage of the men among them, null when there are none"`
	Seat      *Usual   `json:"seat" doc:"seat position, 1 the lowest; null when nobody fits"`
	Handle    *Usual   `json:"handle" doc:"handle position, 1 nearest the axis"`
	AxisWomen *Usual   `json:"axis_women" doc:"axis position of the women, 1 the smallest toe"`
	AxisMen   *Usual   `json:"axis_men" doc:"axis position of the men"`
	Foot      *Usual   `json:"foot" doc:"position of the foot plate, 0 the floor; null without a plate"`
}

// Usual are the positions that persons take.
type Usual struct {
	Low   int `json:"low" doc:"one in ten takes this or one below"`
	Usual int `json:"usual" doc:"half take this or one below"`
	High  int `json:"high" doc:"nine in ten take this or one below"`
}

// Spread is the distribution of a length over persons, mm.
type Spread struct {
	Median float64 `json:"median" doc:"mm"`
	P95    float64 `json:"p95" doc:"95th percentile, mm"`
	Worst  float64 `json:"worst" doc:"greatest, mm"`
}

// Swivel is the distribution of an angle over persons, deg.
type Swivel struct {
	Median float64 `json:"median" doc:"deg"`
	P95    float64 `json:"p95" doc:"95th percentile, deg"`
	Worst  float64 `json:"worst" doc:"greatest, deg"`
}

// OneAxis is what would be left with one axis position only.
type OneAxis struct {
	Position int     `json:"axis_position" doc:"from 1, the smallest toe"`
	HandPath Spread  `json:"hand_path" doc:"distance between the paths of hand and handle"`
	Slide    Spread  `json:"slide" doc:"how far a sliding handle would have to slide to follow the hand"`
	Swivel   Swivel  `json:"swivel" doc:"how far it would have to swivel to follow the forearm"`
	Within   float64 `json:"within" doc:"share of persons within the limits of hand path, axis tilt and axis offset"`
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
	FootPosition  int      `json:"foot_position" doc:"position of the foot plate from 1, 0 on the floor"`
	ChestPosition int      `json:"chest_position" doc:"position of the chest pad from 1, the rearmost; 0 without one"`
	FootGap       float64  `json:"foot_gap" doc:"shoe sole above floor or foot plate, mm"`
	LeftAxis      int      `json:"left_axis_position" doc:"of the left arm; another only where the brief has the sides differ"`
	LeftHandle    int      `json:"left_handle_position" doc:"of the left arm"`
	SeatLoad      float64  `json:"seat_load" doc:"least share of body weight on the seat"`
	Fits          bool     `json:"fits" doc:"whether the person meets every requirement"`
	TurnedBy      []string `json:"turned_by" doc:"requirements that turn the person away"`
}

// Cell is those of the persons judged for coverage who are of one sex, in a band of
// stature and one of the carrying angle.
type Cell struct {
	Sex      string  `json:"sex" enum:"woman|man" doc:"of these persons"`
	Stature  float64 `json:"stature" doc:"where the band of 50 mm begins, mm"`
	Carrying float64 `json:"carrying_angle" doc:"where the band of 4 deg begins, deg"`
	Persons  int     `json:"persons" doc:"how many there are"`
	Fit      int     `json:"fit" doc:"how many of them fit"`
	Away     []Most  `json:"turned_away" doc:"the others, by the requirement that each misses by most, in units that matter; most first"`
}

// Most is how many persons a requirement turns away most.
type Most struct {
	ID    string `json:"id" doc:"of the requirement"`
	Count int    `json:"count" doc:"persons"`
}
