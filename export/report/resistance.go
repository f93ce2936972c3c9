package report

// Resistance is the torque at one arm over the loaded range, at the middle
// load unless said otherwise. Lists run over Angles.
type Resistance struct {
	Drive        string        `json:"drive" enum:"cam|lever|linkage" doc:"cam with cable and weight stack, plate-loaded lever, or plate-loaded lever behind a four-bar linkage"`
	LoadMass     float64       `json:"load_mass" doc:"middle load: of the stack for a cam, of one arm's plates for a lever, kg"`
	Angles       []float64     `json:"angles" doc:"elbow flexion, deg"`
	Strength     []float64     `json:"strength" doc:"strength curve, peak 1"`
	Target       []float64     `json:"target" doc:"strength curve at the level that fits best, N·m"`
	Delivered    []float64     `json:"delivered" doc:"torque delivered at rest without friction, N·m"`
	RMS          float64       `json:"rms" doc:"root mean square difference, share of the target's peak"`
	MaxError     float64       `json:"max_error" doc:"largest difference, share of the target's peak"`
	WorstAngle   float64       `json:"worst_angle" doc:"flexion of the largest difference, deg"`
	HardestAngle float64       `json:"hardest_angle" doc:"flexion of the greatest torque over strength, deg"`
	Gravity      []float64     `json:"gravity" doc:"moment of every part that moves with one arm whatever the load: arm, counterweight, cam, lever, bars, what rises with the stack; resisting positive, N·m"`
	DeadMass     float64       `json:"dead_mass" doc:"what rises with the load of one stack beside it, selector and floating sheave, kg; its moment is part of gravity"`
	BandLow      []float64     `json:"band_low" doc:"least of the measured and model curves, each with peak 1"`
	BandHigh     []float64     `json:"band_high" doc:"greatest of the measured and model curves, each with peak 1"`
	Loads        []Load        `json:"loads" doc:"the same at the light, middle and heavy load"`
	Positions    []Position    `json:"positions" doc:"the torque in every axis position, with the cable as it is led there; empty on a bench"`
	Ratios       []Ratio       `json:"ratios" doc:"drive ratios tried, with the closest match each allows"`
	Energy       Energy        `json:"energy" doc:"work over the loaded range at the middle load, both arms, or the one of a bench, without friction"`
	Departures   []Departure   `json:"departures" doc:"stretches where the torque departs from the curve by more than 0.5 % of the peak at the middle load, and what keeps the cam from it; the largest is max_error at the middle load"`
	Levels       []Level       `json:"levels" doc:"the load whose curve asks for all of a person's estimated strength: weakest and strongest boundary person"`
	Steps        []Step        `json:"steps" doc:"the smallest step of the load, and of a stack a whole plate"`
	Forearm      Limb          `json:"forearm" doc:"weight of the middle user's forearm and hand"`
	Shoulder     *Shoulder     `json:"shoulder" doc:"the curve at the shoulder's flexion of the solved posture; null where it does not know the shoulder"`
	Cadence      float64       `json:"cadence" doc:"repetitions a minute at which inertia is reckoned"`
	Cam          Cam           `json:"cam" doc:"cam drive: delivered = ratio * cable_tension * moment_arm / 1000 + gravity"`
	Lever        Lever         `json:"lever" doc:"plate-loaded lever"`
	Route        *Route        `json:"route" doc:"cable of the right arm from cam to stack, machine frame; the left arm's is its mirror image; null without a tower"`
	Linkage      Linkage       `json:"linkage" doc:"four-bar linkage"`
	Counter      Counterweight `json:"counterweight" doc:"counterweight of one arm"`
	Eccentric    Eccentric     `json:"eccentric" doc:"eccentric weight of one arm"`
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
	Lifting      []float64 `json:"lifting" doc:"torque with the cable's friction, going up slowly, N·m"`
	Lowering     []float64 `json:"lowering" doc:"torque with the cable's friction, coming down slowly, N·m"`
	Inertia      []float64 `json:"inertia" doc:"torque that the cadence adds, both arms moving, N·m"`
	LiftingRMS   float64   `json:"lifting_rms" doc:"match going up slowly, share of its own target's peak"`
	LoweringRMS  float64   `json:"lowering_rms" doc:"match coming down slowly, share of its own target's peak"`
	CadenceRMS   float64   `json:"cadence_rms" doc:"match going up at the cadence, share of its own target's peak"`
}

// Position is the torque in one axis position. Cam and bracket swivel; the guide sheave
// is set to a height of its own.
type Position struct {
	Position   int       `json:"position" doc:"from 1, as the pivots' axes"`
	Used       bool      `json:"used" doc:"whether a boundary person uses it: then it is judged"`
	RMS        *float64  `json:"rms" doc:"largest difference of the three loads, root mean square, share of the target's peak; null where the cable cannot be led"`
	Load       *string   `json:"load" enum:"light|middle|heavy" doc:"the load of that difference"`
	MaxError   *float64  `json:"max_error" doc:"largest difference at that load, share of the target's peak"`
	WorstAngle *float64  `json:"worst_angle" doc:"flexion of it, deg"`
	Delivered  []float64 `json:"delivered" doc:"torque at the middle load at each of the angles, N·m"`
	MomentArm  []float64 `json:"moment_arm" doc:"of the cable about the cam axis at each of the angles, mm; empty without a cam"`
	Fleet      *float64  `json:"fleet" doc:"greatest angle of the cable to the cam's plane, deg; null without a cam"`
	Slack      *float64  `json:"slack" doc:"cable that hangs loose once this position is set, below 0 what it lifts the stack's end, mm; null without a cam"`
	GuideRise  *float64  `json:"guide_rise" doc:"height of the guide sheave above that in the middle position, mm; null without a cam"`
	Fault      string    `json:"fault" doc:"why the cable cannot be led, empty when it can"`
}

// Energy is the work over the loaded range, of both arms.
type Energy struct {
	StackTravel *float64 `json:"stack_travel" doc:"lift of the stack, from the cable's length on the finished outline and its sheaves, mm"`
	Stack       *float64 `json:"stack" doc:"work on the stack, J"`
	Torque      *float64 `json:"torque" doc:"work of the cables' torque, from moment arms measured on the finished outline, J"`
}

// Departure is a stretch of the range where the cam leaves the curve.
type Departure struct {
	From  float64 `json:"from" doc:"flexion, deg"`
	To    float64 `json:"to" doc:"flexion, deg"`
	Worst float64 `json:"worst" doc:"flexion of the largest difference, deg"`
	By    float64 `json:"by" doc:"that difference, delivered less wanted, share of the peak"`
	Cause string  `json:"cause" doc:"what keeps the cam from the curve"`
}

// Level is the load that asks for all of a person's strength.
type Level struct {
	Person   string  `json:"person" doc:"boundary person"`
	Strength float64 `json:"strength" doc:"estimated peak isometric torque of one elbow, N·m"`
	Moving   float64 `json:"moving" doc:"the same at constant speed, N·m"`
	Load     float64 `json:"load" doc:"kg; 0 when the empty arm asks for more"`
	Low      float64 `json:"strength_low" doc:"5th percentile of persons of the same sex, age and size, N·m"`
	High     float64 `json:"strength_high" doc:"95th percentile of them, N·m"`
	LoadLow  float64 `json:"load_low" doc:"load that asks for all of strength_low, kg"`
	LoadHigh float64 `json:"load_high" doc:"load that asks for all of strength_high, kg"`
}

// Step is a step of the load where it is felt most, at the light end.
type Step struct {
	Mass  float64  `json:"mass" doc:"kg"`
	Share float64  `json:"share" doc:"of the torque at the light load"`
	Weak  *float64 `json:"weak" doc:"of the strength of the weakest boundary person's 5th percentile; null without persons"`
}

// Limb is the weight of the middle user's forearm and hand, which the muscle lifts beside
// the machine.
type Limb struct {
	Counted bool      `json:"counted" doc:"whether gravity holds it, as the brief asks"`
	Mass    float64   `json:"mass" doc:"kg, mean of the median woman's and man's"`
	Centre  float64   `json:"centre" doc:"from the elbow, mm"`
	Moment  []float64 `json:"moment" doc:"about the axis at each angle, N·m"`
	RMS     []float64 `json:"rms" doc:"match of machine and limb together at the light, middle and heavy load, share of the target's peak"`
}

// Shoulder compares the strength curve with the one at the shoulder's flexion of the
// solved posture.
type Shoulder struct {
	Asked   float64 `json:"asked" doc:"shoulder flexion of the curve that is followed, deg"`
	Flexion float64 `json:"flexion" doc:"of the boundary persons as they sit, mean, deg"`
	Least   float64 `json:"least" doc:"deg"`
	Most    float64 `json:"most" doc:"deg"`
	Curve   float64 `json:"curve" doc:"rms of the curve that is followed from that one, share of the peak"`
	Match   float64 `json:"match" doc:"rms of the torque at the middle load from that one, share of the peak"`
}

// Ratio is one drive ratio, without or with an eccentric weight.
type Ratio struct {
	Ratio       float64  `json:"ratio" doc:"cam turn per arm turn"`
	ArmTeeth    int      `json:"arm_teeth" doc:"teeth of the pulley on the arm's shaft, 0 for a cam on that shaft itself"`
	DrivenTeeth int      `json:"driven_teeth" doc:"teeth of the pulley on the cam's shaft, 0 for a cam on the arm's shaft"`
	RMS         *float64 `json:"rms" doc:"share of the target's peak"`
	MaxError    *float64 `json:"max_error" doc:"share of the target's peak"`
	LeastRadius *float64 `json:"least_radius" doc:"of the cable's centre line on the cam, mm"`
	WrapAngle   *float64 `json:"wrap_angle" doc:"of the cam used, deg"`
	Pitches     int      `json:"pitches" doc:"pitches of belt or chain, 0 for a cam on the arm's shaft"`
	Centre      *float64 `json:"centre_distance" doc:"of the two shafts, mm; null for a cam on the arm's shaft"`
	Pull        *float64 `json:"pull" doc:"greatest force in belt or chain at the heaviest load, N; null for a cam on the arm's shaft"`
	Factor      *float64 `json:"pull_factor" doc:"what belt or chain carries over that pull, screening; null for a cam on the arm's shaft"`
	Eccentric   *float64 `json:"eccentric" doc:"mass of the eccentric weight, kg; null without one"`
	WorstRMS    *float64 `json:"worst_rms" doc:"largest rms over light, middle and heavy load, share of the target's peak"`
	Size        *float64 `json:"size" doc:"larger side of the cam's blank, mm"`
	Parts       int      `json:"parts" doc:"parts of one arm more than a cam on the arm's shaft needs"`
	Allowed     bool     `json:"allowed" doc:"whether the brief allows it"`
	Optimality  *float64 `json:"optimality" doc:"largest residual of the optimality conditions of the last convex problem"`
	Reason      string   `json:"reason" doc:"why no cam exists, empty when one does"`
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
	Transmission   *string   `json:"transmission" enum:"belt|chain" doc:"what drives the cam's shaft; null for a cam on the arm's shaft"`
	ArmTeeth       *int      `json:"arm_teeth" doc:"teeth of the wheel on the arm's shaft"`
	DrivenTeeth    *int      `json:"driven_teeth" doc:"teeth of the wheel on the cam's shaft"`
	Pitches        *int      `json:"pitches" doc:"pitches of belt or chain"`
	Pull           *float64  `json:"pull" doc:"greatest force in belt or chain at the heaviest load, N; null for a cam on the arm's shaft"`
	PullFactor     *float64  `json:"pull_factor" doc:"what it carries over that pull: screening, told and not asked for"`
	PullWanted     *float64  `json:"pull_wanted" doc:"the factor to ask for"`
	PullBasis      *string   `json:"pull_basis" doc:"what the factor counts"`
	BeltWidth      *float64  `json:"belt_width" doc:"narrowest that keeps the wanted factor, or the widest, mm; null for a chain"`
	TakeUp         *float64  `json:"take_up" doc:"cable wound up over the loaded range, mm"`
	Hub            *Hub      `json:"hub" doc:"how the cam sits on its shaft; null where it has no outline"`
}

// Hub is how a cam sits on its shaft.
type Hub struct {
	Kind        string   `json:"kind" enum:"bolted|keyway|clamp" doc:"flange welded and bolted, parallel key, or split hub"`
	Bore        float64  `json:"bore" doc:"mm"`
	Torque      float64  `json:"torque" doc:"greatest torque from the cable on the shaft at the heaviest load, N·m"`
	KeyWidth    *float64 `json:"key_width" doc:"of the parallel key, mm"`
	KeyHeight   *float64 `json:"key_height" doc:"of the parallel key, mm"`
	ShaftKeyway *float64 `json:"shaft_keyway" doc:"depth in the shaft, mm"`
	HubKeyway   *float64 `json:"hub_keyway" doc:"depth in the plates past the bore, mm"`
	Pressure    *float64 `json:"key_pressure" doc:"of the key on the plates, N/mm²"`
	ClampScrew  *float64 `json:"clamp_screw" doc:"thread of the screw that clamps, class 8.8, mm"`
	Holding     *float64 `json:"holding_torque" doc:"that the clamp holds by friction, N·m"`
}

// Lever carries the plates of one arm. Null for a cam.
type Lever struct {
	Radius *float64 `json:"radius" doc:"plates from the axis, mm"`
	Phase  *float64 `json:"phase" doc:"of the lever above forward horizontal at flexion 0, deg"`
}

// Linkage is the four-bar linkage of one arm, in the side view. Null for other
// drives.
type Linkage struct {
	Ground       *float64 `json:"ground" doc:"from the arm's axis to the output bar's, mm"`
	Direction    *float64 `json:"direction" doc:"of the output's axis from the arm's, above forward, deg"`
	Input        *float64 `json:"input" doc:"length of the bar on the arm's shaft, mm"`
	Coupler      *float64 `json:"coupler" doc:"length of the bar between, mm"`
	Output       *float64 `json:"output" doc:"length of the bar on the plates' shaft, mm"`
	Assembly     *string  `json:"assembly" enum:"open|crossed" doc:"which of the two ways the bars are joined"`
	InputPhase   *float64 `json:"input_phase" doc:"input bar above the line of the axes at flexion 0, deg"`
	Radius       *float64 `json:"radius" doc:"plates from the output's axis, mm"`
	Phase        *float64 `json:"phase" doc:"plates above forward when the output bar lies on the line of the axes, deg"`
	Transmission *float64 `json:"transmission" doc:"least transmission angle over the loaded range, deg"`
	PinForce     *float64 `json:"pin_force" doc:"greatest force in the coupler at the heaviest load, N"`
	LeverRMS     *float64 `json:"lever_rms" doc:"what the best single lever would leave at the middle load, share of the peak"`
}

// Counterweight nulls some of the arm's own moment. Null when there is none.
type Counterweight struct {
	Mass   *float64 `json:"mass" doc:"kg"`
	Radius *float64 `json:"radius" doc:"from the axis, mm"`
	Phase  *float64 `json:"phase" doc:"ahead of straight opposite the arm's centre of mass, flexion positive, deg"`
}

// Eccentric is a weight that turns with the arm. Null when there is none.
type Eccentric struct {
	Mass   *float64 `json:"mass" doc:"kg"`
	Radius *float64 `json:"radius" doc:"from the axis, mm"`
	Phase  *float64 `json:"phase" doc:"above forward horizontal at flexion 0, deg"`
}

// Route is the right arm's cable over its sheaves.
type Route struct {
	Sheaves  []Sheave `json:"sheaves" doc:"from the guide sheave to the floating one on the shared stack, or to the top one over the arm's own"`
	CamFleet float64  `json:"cam_fleet" doc:"largest angle of the cable to the cam's plane, deg"`
	Length   float64  `json:"length" doc:"of the cable from the cam at the first angle to the middle of the floating sheave or the arm's own stack, stack at rest, mm"`
	Cables   int      `json:"cables" doc:"one for both arms under a floating sheave, or two with a stack each"`
	Cut      float64  `json:"cut_length" doc:"of one cable, with what lies on the cams and both ends, mm"`
}

// Sheave is one sheave, machine frame.
type Sheave struct {
	Name   string     `json:"name" doc:"where it is"`
	Centre [3]float64 `json:"centre" doc:"x, y, z, mm"`
	Axis   [3]float64 `json:"axis" doc:"unit vector of its axis; the cable turns right-handed about it"`
	Radius float64    `json:"radius" doc:"to the cable's centre line, mm"`
	In     [3]float64 `json:"in" doc:"where the cable meets it, mm"`
	Out    [3]float64 `json:"out" doc:"where the cable leaves it, mm"`
	Turn   float64    `json:"turn" doc:"angle the cable wraps, deg"`
	Fleet  float64    `json:"fleet" doc:"larger angle of its cable lines to its plane, deg"`
	Load   float64    `json:"load" doc:"of the cable on its axle at the heaviest load, at rest, N"`
	Swivel float64    `json:"swivel" doc:"how far it swings to either side about the cable that leaves it, deg"`
}
