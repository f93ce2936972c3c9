package specs

// Frame is the geometry of one station, solved or measured, with what was
// asked of it, so that it can be checked on its own. Inside units; same tags
// as Brief. Machine frame: origin on the floor midway between the pivots, +x
// the way the user faces, +y to the user's left, +z up. Left and right are
// mirror images in the x-z plane, so one set of numbers serves both.
type Frame struct {
	Format string `key:"armwright" choice:"frame/1" doc:"what this file is, and in which version"`
	Name   string `key:"name" count:"1..25" doc:"what the station is called"`
	Asked
	Geometry Geometry `key:"geometry" doc:"the station's geometry"`
}

// Geometry is the station's geometry. Parts that a kind or drive does not
// have are nil and absent from the file.
type Geometry struct {
	Pivots        Pivots         `key:"pivots" doc:"places and axes of the pivots"`
	Pad           *Pad           `key:"pad" optional:"yes" doc:"arm pad (arm-pad) or upper-arm stop pad (reclined)"`
	Seat          *Seat          `key:"seat" optional:"yes" doc:"seat and its positions"`
	Back          *Back          `key:"back" optional:"yes" doc:"back pad (reclined)"`
	ChestPad      *ChestPad      `key:"chest_pad" optional:"yes" doc:"chest pad and its positions, before the user of an arm pad"`
	FootPlate     *FootPlate     `key:"foot_plate" optional:"yes" doc:"foot plate and its heights, beside the floor"`
	Handle        Handle         `key:"handle" doc:"handle and its positions on the arm"`
	Cam           *Cam           `key:"cam" optional:"yes" doc:"cam, guide sheave and drive ratio"`
	Lever         *Lever         `key:"lever" optional:"yes" doc:"plate-loaded lever"`
	Linkage       *Linkage       `key:"linkage" optional:"yes" doc:"four-bar linkage between arm and plate lever"`
	Counterweight *Counterweight `key:"counterweight" optional:"yes" doc:"counterweight of one arm"`
	Eccentric     *Eccentric     `key:"eccentric" optional:"yes" doc:"eccentric weight of one arm"`
	Base          *Base          `key:"base" optional:"yes" doc:"feet, posts and tower"`
}

// Pivots are the places and axes of the pivots. The pivots are at
// (0, ±spacing/2, height).
type Pivots struct {
	Height  float64 `key:"height" unit:"length" min:"100 mm" max:"2000 mm" doc:"above the floor"`
	Spacing float64 `key:"spacing" unit:"length" min:"100 mm" max:"1500 mm" doc:"between the pivots, centre to centre along y"`
	// Swivels are the angles of the axis positions about the swivel line, from level
	// across the station towards up the pad, while a station is searched. A file holds
	// toe and cant instead.
	Swivels []float64
	Axes    []Axis `key:"axes" count:"1..8" doc:"the axis positions, in order of rising toe"`
}

// Axis is one position of the pivot axis. Its outward unit vector (right arm)
// is (-tan toe, -1, tan cant)/n: positive toe swings the outer end towards
// the rear, positive cant raises it.
type Axis struct {
	Toe  float64 `key:"toe" unit:"angle" min:"-45 deg" max:"45 deg" doc:"plan-view angle of the axis, outer end towards the rear positive"`
	Cant float64 `key:"cant" unit:"angle" min:"-45 deg" max:"45 deg" doc:"front-view angle of the axis, outer end up positive"`
}

// Pad is the arm pad: a plane sloping down the way the user faces, a stated
// distance from the pivot. Near and Far are measured along the pad from the
// pivot towards the shoulder. For the reclined posture it is the stop pad
// behind the upper arm and Slope is the upper arm's middle angle.
type Pad struct {
	Slope  float64 `key:"slope" unit:"angle" min:"0 deg" max:"140 deg" doc:"below horizontal"`
	Offset float64 `key:"offset" unit:"length" min:"10 mm" max:"150 mm" doc:"from the pivot axis to the pad's face"`
	Near   float64 `key:"near" unit:"length" min:"0 mm" max:"300 mm" doc:"from the pivot to the pad's lower edge, along the pad"`
	Far    float64 `key:"far" unit:"length" min:"20 mm" max:"500 mm" doc:"from the pivot to the pad's upper edge, along the pad"`
	Width  float64 `key:"width" unit:"length" min:"40 mm" max:"400 mm" doc:"of one pad, centred on the pivot"`
}

// Seat is the seat and its positions. Heights are of the loaded seat surface.
type Seat struct {
	Lowest    float64 `key:"lowest" unit:"length" min:"100 mm" max:"1200 mm" doc:"height of the lowest position"`
	Pitch     float64 `key:"pitch" unit:"length" min:"1 mm" max:"100 mm" doc:"distance between positions"`
	Positions int     `key:"positions" min:"1" max:"60" doc:"how many positions"`
	Front     float64 `key:"front" unit:"length" min:"-1500 mm" max:"1000 mm" doc:"x of the seat's front edge"`
	Depth     float64 `key:"depth" unit:"length" min:"150 mm" max:"800 mm" doc:"front edge to rear edge"`
	Width     float64 `key:"width" unit:"length" min:"150 mm" max:"800 mm" doc:"side to side"`
}

// Back is the back pad of the reclined posture: a plane leaning back.
type Back struct {
	Angle  float64 `key:"angle" unit:"angle" min:"0 deg" max:"80 deg" doc:"from vertical, leaning back"`
	Foot   float64 `key:"foot" unit:"length" min:"-1500 mm" max:"1000 mm" doc:"x where the pad's face meets the lowest seat surface"`
	Length float64 `key:"length" unit:"length" min:"200 mm" max:"1200 mm" doc:"along the slope"`
}

// ChestPad is a pad between the arms that keeps the chest from going forward. It slides
// level; position 1 is the rearmost.
type ChestPad struct {
	Height    float64 `key:"height" unit:"length" min:"200 mm" max:"2000 mm" doc:"middle of its face above the floor"`
	Rear      float64 `key:"rear" unit:"length" min:"-1500 mm" max:"1000 mm" doc:"x of the middle of its face in the rearmost position"`
	Lean      float64 `key:"lean" unit:"angle" min:"-45 deg" max:"45 deg" doc:"of its face from upright, top forward positive"`
	Pitch     float64 `key:"pitch" unit:"length" min:"5 mm" max:"100 mm" doc:"distance between positions"`
	Positions int     `key:"positions" min:"1" max:"30" doc:"how many positions"`
	Length    float64 `key:"length" unit:"length" min:"80 mm" max:"400 mm" doc:"up its face"`
	Width     float64 `key:"width" unit:"length" min:"80 mm" max:"400 mm" doc:"side to side"`
}

// FootPlate is a plate for the feet that takes one of several heights above the
// floor. The floor itself serves too.
type FootPlate struct {
	Lowest    float64 `key:"lowest" unit:"length" min:"20 mm" max:"600 mm" doc:"height of the lowest position above the floor"`
	Pitch     float64 `key:"pitch" unit:"length" min:"5 mm" max:"300 mm" doc:"distance between positions"`
	Positions int     `key:"positions" min:"1" max:"20" doc:"how many positions"`
}

// Handle is the grip bar and its positions on the arm.
type Handle struct {
	Least      float64 `key:"least" unit:"length" min:"50 mm" max:"800 mm" doc:"smallest distance of the grip from the axis"`
	Pitch      float64 `key:"pitch" unit:"length" min:"1 mm" max:"100 mm" doc:"distance between positions"`
	Positions  int     `key:"positions" min:"1" max:"60" doc:"how many positions"`
	Middle     float64 `key:"middle" unit:"length" min:"-300 mm" max:"300 mm" doc:"axial place of the grip's middle, outward from the pivot"`
	GripLength float64 `key:"grip_length" unit:"length" min:"80 mm" max:"500 mm" doc:"clear length of the grip"`
	Diameter   float64 `key:"diameter" unit:"length" min:"20 mm" max:"60 mm" doc:"of the grip"`
	ArmMass    float64 `key:"arm_mass" unit:"mass" min:"0 kg" max:"60 kg" doc:"of one arm with its handle, without plates and counterweight"`
	ArmCentre  float64 `key:"arm_centre" unit:"length" min:"-500 mm" max:"800 mm" doc:"centre of mass of the arm from the axis, towards the grip"`
}

// Cam is a cable cam with its guide sheave. The cam plane is seen from the
// user's right: x forward, y up. Law gives the cable's moment arm at equal
// steps of elbow flexion from the first to the last loaded angle; between
// them it is the not-a-knot cubic spline.
type Cam struct {
	Ratio       float64   `key:"ratio" min:"0.2" max:"4" doc:"cam turn per arm turn, same sense"`
	CentreX     float64   `key:"centre_x" unit:"length" min:"-1000 mm" max:"1500 mm" doc:"cam axis from the pivot, forward"`
	CentreY     float64   `key:"centre_y" unit:"length" min:"-1500 mm" max:"1000 mm" doc:"cam axis from the pivot, up"`
	GuideX      float64   `key:"guide_x" unit:"length" min:"-1500 mm" max:"1500 mm" doc:"guide sheave from the cam axis, forward"`
	GuideY      float64   `key:"guide_y" unit:"length" min:"-1500 mm" max:"1500 mm" doc:"guide sheave from the cam axis, up"`
	GuideR      float64   `key:"guide_radius" unit:"length" min:"10 mm" max:"200 mm" doc:"of the guide sheave, to the cable centre"`
	Side        string    `key:"side" choice:"open|crossed" doc:"cable on the same side of cam and guide sheave, or crossing"`
	ArmTeeth    int       `key:"arm_teeth" default:"0" min:"0" max:"200" doc:"teeth of the wheel on the arm's shaft; 0 for a cam on that shaft itself"`
	DrivenTeeth int       `key:"driven_teeth" default:"0" min:"0" max:"200" doc:"teeth of the wheel on the cam's shaft"`
	Pitches     int       `key:"pitches" default:"0" min:"0" max:"2000" doc:"pitches of the belt or chain between them"`
	Law         []float64 `key:"moment_arm" unit:"length" min:"1 mm" max:"500 mm" count:"4..1000" doc:"cable moment arm at equal steps of flexion over the loaded range"`
}

// Lever carries the plates of one arm. At flexion t the lever points t+phase
// above forward horizontal in the side view, so its moment peaks at t = -phase.
type Lever struct {
	Radius float64 `key:"radius" unit:"length" min:"20 mm" max:"1000 mm" doc:"plates from the axis"`
	Phase  float64 `key:"phase" unit:"angle" min:"-180 deg" max:"180 deg" doc:"of the lever above forward horizontal at flexion 0"`
}

// Linkage is a four-bar linkage that drives the plate lever from the arm, in the
// side view: the input bar turns with the arm, the coupler moves the output bar,
// and the plates hang from the output bar's shaft. At flexion t the input bar
// points t+input_phase above the line from the arm's axis to the output's; at an
// output bar u above that line the plates point u+phase above forward.
type Linkage struct {
	Ground     float64 `key:"ground" unit:"length" min:"20 mm" max:"1500 mm" doc:"from the arm's axis to the output bar's"`
	Direction  float64 `key:"direction" unit:"angle" min:"-180 deg" max:"180 deg" doc:"of the output's axis from the arm's, above forward horizontal"`
	Input      float64 `key:"input" unit:"length" min:"10 mm" max:"1500 mm" doc:"of the bar on the arm's shaft"`
	Coupler    float64 `key:"coupler" unit:"length" min:"10 mm" max:"1500 mm" doc:"of the bar between"`
	Output     float64 `key:"output" unit:"length" min:"10 mm" max:"1500 mm" doc:"of the bar on the plates' shaft"`
	Assembly   string  `key:"assembly" choice:"open|crossed" doc:"which of the two ways the bars are joined"`
	InputPhase float64 `key:"input_phase" unit:"angle" min:"-180 deg" max:"180 deg" doc:"input bar above the line of the axes at flexion 0"`
	Radius     float64 `key:"radius" unit:"length" min:"10 mm" max:"1500 mm" doc:"plates from the output's axis"`
	Phase      float64 `key:"phase" unit:"angle" min:"-180 deg" max:"180 deg" doc:"plates above forward horizontal when the output bar lies on the line of the axes"`
}

// Counterweight turns with the arm. At a phase of 0 it stands straight opposite
// the arm's centre of mass and nulls some of the empty arm's moment or all of it.
type Counterweight struct {
	Mass   float64 `key:"mass" unit:"mass" min:"0 kg" max:"100 kg" doc:"of one arm's counterweight"`
	Radius float64 `key:"radius" unit:"length" min:"0 mm" max:"800 mm" doc:"its centre from the axis"`
	Phase  float64 `key:"phase" unit:"angle" default:"0 deg" min:"-180 deg" max:"180 deg" doc:"ahead of straight opposite the arm's centre of mass, flexion positive"`
}

// Eccentric is a weight that turns with the arm to help the cam. At flexion t
// it points t+phase above forward horizontal in the side view, so its moment,
// resisting flexion, is greatest at t = -phase.
type Eccentric struct {
	Mass   float64 `key:"mass" unit:"mass" min:"0 kg" max:"100 kg" doc:"of one arm's weight"`
	Radius float64 `key:"radius" unit:"length" min:"0 mm" max:"800 mm" doc:"its centre from the axis"`
	Phase  float64 `key:"phase" unit:"angle" min:"-180 deg" max:"180 deg" doc:"above forward horizontal at flexion 0"`
}

// Base gives the feet and the places of the posts. The four feet are at
// (rear, ±width/2) and (front, ±width/2).
type Base struct {
	Rear      float64 `key:"rear" unit:"length" min:"-5000 mm" max:"0 mm" doc:"x of the rear feet"`
	Front     float64 `key:"front" unit:"length" min:"0 mm" max:"5000 mm" doc:"x of the front feet"`
	Width     float64 `key:"width" unit:"length" min:"200 mm" max:"4000 mm" doc:"between left and right feet"`
	PadPost   float64 `key:"pad_post" unit:"length" min:"-500 mm" max:"1000 mm" doc:"x of the post that carries the pivots and pads"`
	SeatPost  float64 `key:"seat_post" unit:"length" min:"-2000 mm" max:"1000 mm" doc:"x of the seat post"`
	Tower     float64 `key:"tower" unit:"length" min:"-5000 mm" max:"5000 mm" doc:"x of the weight stack, or of the plate storage"`
	TowerTall float64 `key:"tower_height" unit:"length" min:"0 mm" max:"6000 mm" doc:"top of the tower above the floor"`
}
