package report

// Resistance is the torque at one arm over the loaded range, at the middle
// load unless said otherwise. Lists run over Angles.
type Resistance struct {
	Drive        string        `json:"drive" enum:"cam|lever" doc:"cam with cable and weight stack, or plate-loaded lever"`
	LoadMass     float64       `json:"load_mass" doc:"middle load: of the stack for a cam, of one arm's plates for a lever, kg"`
	Angles       []float64     `json:"angles" doc:"elbow flexion, deg"`
	Strength     []float64     `json:"strength" doc:"strength curve, peak 1"`
	Target       []float64     `json:"target" doc:"strength curve at the level that fits best, N·m"`
	Delivered    []float64     `json:"delivered" doc:"torque delivered, N·m"`
	RMS          float64       `json:"rms" doc:"root mean square difference, share of the target's peak"`
	MaxError     float64       `json:"max_error" doc:"largest difference, share of the target's peak"`
	WorstAngle   float64       `json:"worst_angle" doc:"flexion of the largest difference, deg"`
	HardestAngle float64       `json:"hardest_angle" doc:"flexion of the greatest torque over strength, deg"`
	Gravity      []float64     `json:"gravity" doc:"moment of arm, handle and counterweight, resisting positive, N·m"`
	BandLow      []float64     `json:"band_low" doc:"least of the measured and model curves, each with peak 1"`
	BandHigh     []float64     `json:"band_high" doc:"greatest of the measured and model curves, each with peak 1"`
	Loads        []Load        `json:"loads" doc:"the same at the light, middle and heavy load"`
	Ratios       []Ratio       `json:"ratios" doc:"drive ratios tried, with the closest match each allows"`
	Cam          Cam           `json:"cam" doc:"cam drive: delivered = ratio * cable_tension * moment_arm / 1000 + gravity"`
	Lever        Lever         `json:"lever" doc:"plate-loaded lever"`
	Counter      Counterweight `json:"counterweight" doc:"counterweight of one arm, opposite the arm"`
}

// Load is the torque at one load.
type Load struct {
	Load         string    `json:"load" enum:"light|middle|heavy" doc:"which load"`
	Mass         float64   `json:"mass" doc:"kg"`
	Target       []float64 `json:"target" doc:"N·m"`
	Delivered    []float64 `json:"delivered" doc:"N·m"`
	RMS          float64   `json:"rms" doc:"share of the target's peak"`
	MaxError     float64   `json:"max_error" doc:"share of the target's peak"`
	WorstAngle   float64   `json:"worst_angle" doc:"deg"`
	HardestAngle float64   `json:"hardest_angle" doc:"deg"`
}

// Ratio is one drive ratio.
type Ratio struct {
	Ratio       float64  `json:"ratio" doc:"cam turn per arm turn"`
	ArmTeeth    int      `json:"arm_teeth" doc:"teeth of the pulley on the arm's shaft, 0 for a cam on that shaft itself"`
	DrivenTeeth int      `json:"driven_teeth" doc:"teeth of the pulley on the cam's shaft, 0 for a cam on the arm's shaft"`
	RMS         *float64 `json:"rms" doc:"share of the target's peak"`
	MaxError    *float64 `json:"max_error" doc:"share of the target's peak"`
	LeastRadius *float64 `json:"least_radius" doc:"of the cable's centre line on the cam, mm"`
	WrapAngle   *float64 `json:"wrap_angle" doc:"of the cam used, deg"`
	Feasible    bool     `json:"feasible" doc:"whether a cam exists that the cable bears"`
	Chosen      bool     `json:"chosen" doc:"whether the station has it"`
}

// Point is a place in the cam plane, seen from the user's right.
type Point struct {
	X *float64 `json:"x" doc:"forward, mm"`
	Y *float64 `json:"y" doc:"up, mm"`
}

// Guide is the guide sheave, placed from the cam axis.
type Guide struct {
	Point
	Radius *float64 `json:"radius" doc:"to the cable's centre line, mm"`
	Side   *string  `json:"side" enum:"open|crossed" doc:"cable on the same side of cam and guide sheave, or crossing"`
}

// Cam is the cam drive. Everything is null or empty for a lever.
type Cam struct {
	Ratio          *float64  `json:"ratio" doc:"cam turn per arm turn, same sense"`
	Centre         Point     `json:"centre" doc:"cam axis from the pivot"`
	Guide          Guide     `json:"guide" doc:"guide sheave from the cam axis"`
	CableDiameter  *float64  `json:"cable_diameter" doc:"mm"`
	CableTension   *float64  `json:"cable_tension" doc:"of one arm's cable at the middle load, N"`
	MomentArm      []float64 `json:"moment_arm" doc:"of the cable about the cam axis, at each of the angles, mm"`
	LeastRadius    *float64  `json:"least_radius" doc:"of the cable's centre line where it wraps, mm"`
	RequiredRadius *float64  `json:"required_radius" doc:"that the cable's construction asks for, mm"`
	WrapAngle      *float64  `json:"wrap_angle" doc:"of the cam used by the loaded range, deg"`
	TakeUp         *float64  `json:"take_up" doc:"cable wound up over the loaded range, mm"`
}

// Lever carries the plates of one arm. Null for a cam.
type Lever struct {
	Radius *float64 `json:"radius" doc:"plates from the axis, mm"`
	Phase  *float64 `json:"phase" doc:"of the lever above forward horizontal at flexion 0, deg"`
}

// Counterweight nulls some of the arm's own moment. Null when there is none.
type Counterweight struct {
	Mass   *float64 `json:"mass" doc:"kg"`
	Radius *float64 `json:"radius" doc:"from the axis, mm"`
}
