package drive

import (
	"armwright/geometry/cam"
	"armwright/solver/nlp"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

// Torque is the resistance over the loaded range, at one arm. N·mm, rad.
type Torque struct {
	Load       float64 // mass, kg
	Target     []float64
	Delivered  []float64
	RMS        float64 // share of the target's peak
	MaxError   float64 // share of the target's peak
	WorstAngle float64
	Hardest    float64 // flexion of the greatest torque over strength

	// Filled by Check. Delivered is at rest and without friction.
	Lifting     []float64 // with the cable's friction, going up slowly
	Lowering    []float64 // with the cable's friction, coming down slowly
	Inertia     []float64 // what the stated cadence adds, both arms moving
	LiftingRMS  float64   // match of Lifting, share of its own target's peak
	LoweringRMS float64
	CadenceRMS  float64 // match of Lifting with Inertia
}

// Resistance is the outcome of the drive.
type Resistance struct {
	Angles   []float64 // loaded range, rad
	Strength []float64 // curve, peak 1
	Gravity  []float64 // of every part that moves with one arm, at no load, N·mm
	Dead     float64   // what rises with the load of one stack beside it, kg: selector, floating sheave; among Gravity
	Light    Torque
	Middle   Torque
	Heavy    Torque

	// Cam drive.
	Profile        cam.Profile
	Plate          cam.Plate
	Outline        cam.Outline
	NoOutline      error // why Outline is empty
	Hub            Hub
	Transmission   *stock.DriveStrength // screening of belt or chain; nil for a cam on the arm's shaft
	Cable          stock.CableType
	Tension        float64   // of one cable at the middle load, N
	MomentArm      []float64 // mm
	LeastRadius    float64   // of the pitch curve where the cable wraps, mm
	RequiredRadius float64   // mm
	WrapAngle      float64   // rad of the cam used by the loaded range
	TakeUp         float64   // mm
	Ratios         []RatioChoice

	// Positions is the resistance in each axis position; nil on a bench.
	Positions  []AxisTorque
	Route      *Route       // cam drive of a station with a tower
	Linkage    LinkageState // linkage drive
	Energy     Energy       // cam drive with an outline
	Departures []Departure  // cam drive
	Levels     []Level      // the weakest and the strongest boundary person
	Steps      []Step       // of the load
	Limb       Limb         // of the middle user
	Shoulder   *AtShoulder  // nil where the curve does not know the shoulder, or there are no persons
}

// AxisTorque is the resistance in one axis position. Cam and bracket swivel, the guide
// sheave stands still, and gravity acts about another axis.
type AxisTorque struct {
	Light, Middle, Heavy Torque
	Unit                 []float64 // delivered for each kg of load, at the angles, N·mm/kg
	Gravity              []float64 // what weights add, N·mm
	MomentArm            []float64 // of the cable about the cam's axis, mm; nil without a cam
	Fleet                float64   // greatest angle of the cable to the cam's plane, rad
	Slack                float64   // what the cable hangs loose as the axis is set, below 0 what it lifts the stack, mm
	Rise                 float64   // of the guide sheave above its height in the middle position, mm
	Fault                error     // why the cable cannot be led: then the rest is empty
}

// Worst is the torque with the largest difference of the three loads.
func (t *AxisTorque) Worst() *Torque {
	worst := &t.Light
	for _, v := range []*Torque{&t.Middle, &t.Heavy} {
		if v.RMS > worst.RMS {
			worst = v
		}
	}
	return worst
}

// RatioChoice is one drive ratio, without or with an eccentric weight, with the
// closest match it allows, the parts it takes and its size.
type RatioChoice struct {
	Ratio        float64
	ArmTeeth     int // of the wheel on the arm shaft; 0 for a cam on the shaft itself
	DrivenTeeth  int
	Pitches      int                 // of belt or chain; 0 for a cam on the shaft itself
	Centre       float64             // distance of the shafts, mm
	Strength     stock.DriveStrength // of belt or chain at the heaviest load
	HasEccentric bool                // with an eccentric weight
	Eccentric    float64             // its mass, kg
	Allowed      bool                // by the brief
	RMS          float64             // at the middle load
	MaxError     float64
	WorstRMS     float64 // over light, middle and heavy load
	LeastRadius  float64
	WrapAngle    float64
	Size         float64 // larger side of the cam's blank, mm
	Parts        int     // of one arm, more than a cam on the arm's shaft needs
	Optimality   nlp.KKT // residuals of the last convex problem, all relative or in mm
	Feasible     bool
	Reason       string // why it is not feasible
	Chosen       bool
}

// Route is the cable of the right arm from the cam to its stack, machine frame. The
// left arm's is its mirror image. On a shared stack the two are one cable that
// carries a floating sheave; of a pair of stacks each ends at its own.
type Route struct {
	Sheaves []RouteSheave // from the guide sheave to the top one, or to the floating one of a shared stack
	Start   r3.Vec        // the cam's contact at the first angle
	End     r3.Vec        // head of the arm's own stack at rest; the last sheave's Out on a shared one
	Pair    bool
	// CamFleet is the largest angle of the cable to the cam's plane over the loaded
	// range and all axis positions, rad.
	CamFleet float64
	Length   float64 // of the cable from Start to End, or to the middle of the floating sheave, stack at rest, mm
	Cut      float64 // of one cable to cut, with what lies on the cams and both ends, mm; 0 without an outline
}

// Cables is how many cables the station has.
func (r *Route) Cables() int {
	if r.Pair {
		return 2
	}
	return 1
}

// RouteSheave is one sheave with the larger fleet angle of its two cable lines,
// rad. The guide sheave swivels about the cable that leaves it, by up to Swivel
// to either side, rad, so that its plane follows the cam's; the others stand
// still.
type RouteSheave struct {
	cam.Sheave
	Fleet  float64
	Swivel float64
	Load   float64 // of the cable on its axle at the heaviest load, at rest, N
}

// Departure is a stretch of the range where the torque departs from the curve
// at the middle load by more than half a per cent of the peak.
type Departure struct {
	From, To float64 // flexion, rad
	Worst    float64 // flexion of the largest difference, rad
	By       float64 // that difference, delivered less wanted, share of the peak
	Cause    Cause   // what keeps the cam from the curve there
}

// Cause is a limit that keeps a cam from its curve.
type Cause struct {
	Holds  CamLimit
	Size   float64 // of the limit, mm; 0 of Smoothness
	At     float64 // flexion at which the cam meets it, rad
	Beyond bool    // that is outside the stretch where the cam departs
}

// CamLimit is one of the limits of a cam's moment arm.
type CamLimit int

// The limits of a moment arm.
const (
	Smoothness CamLimit = iota // between its nodes
	BendRadius                 // of the cable
	LeastArm
	GreatestArm
)

// Energy compares the work on the stack with the work of the cables' torque on
// both arms over the loaded range, both measured from the finished outline,
// without friction. N·mm.
type Energy struct {
	StackTravel float64 // lift of the stack when both arms move, from the cable's length on outline and sheaves, mm
	Stack       float64 // weight of the middle load times StackTravel
	Torque      float64 // integral of the cables' torque over flexion
	Difference  float64 // of the two, relative
}

// Level says what a load means to a person: the mass at which the curve, at its
// peak, asks for all of the person's estimated strength.
type Level struct {
	Person   string
	Strength float64 // peak isometric torque of one elbow, N·mm
	Moving   float64 // the same at constant speed, N·mm
	Load     float64 // mass, kg; 0 when the empty arm asks for more already
	// Range is the strength of the 5th and the 95th percentile of persons alike, and
	// Loads what that is of load.
	Range, Loads [2]float64
}

// Hub is how a cam sits on its shaft, with what its drawing and its screening
// need. Lengths mm, torques N·mm.
type Hub struct {
	Kind   string  // "bolted", "keyway" or "clamp"
	Torque float64 // greatest torque from cable to shaft, heavy load, at rest
	Yield  float64 // yield strength of the cam's plates, N/mm²

	Key      stock.Key // of a keyway
	Pressure float64   // of the key on the plates' keyways, N/mm²

	Clamp   cam.Clamp // of a clamp
	Split   cam.ClampHub
	Screw   stock.Screw
	Plate   float64 // thickness of the split hub
	Holding float64 // torque that the clamp holds
}

// LinkageState is how the linkage works over the loaded range.
type LinkageState struct {
	LeastTransmission float64   // between coupler and output, rad
	Ratio             []float64 // turn of the output per turn of the arm, at each angle
	Bars              []float64 // moment at the arm of what the bars weigh as plates with their bores, at each angle, N·mm
	LeverRMS          float64   // what the best single lever would leave at the middle load, share of the peak
	PinForce          float64   // greatest force in the coupler at the heaviest load, by the plates alone, N
}

// Step is a step of the load where it is felt most, at the light end.
type Step struct {
	Mass  float64 // kg
	Share float64 // of the torque at the light load
	Weak  float64 // of the strength of the weakest boundary person, of whom nineteen in twenty are stronger; 0 without persons
}

// Limb is the weight of the middle user's forearm and hand, which the muscle lifts
// beside the machine: the mean of the median woman's and man's.
type Limb struct {
	Mass   float64    // kg
	Centre float64    // from the elbow, mm
	Moment []float64  // about the axis at each angle, N·mm
	RMS    [3]float64 // from the curve, of machine and limb together, at the light, middle and heavy load
}

// AtShoulder is the strength curve at the shoulder's flexion in the solved posture,
// where the curve knows the shoulder: how far the one that is followed lies from it and
// how far the torque at the middle load does, rms, shares of the peak.
type AtShoulder struct {
	Flexion      float64 // upper arm from the trunk, mean of the boundary persons, rad
	Least, Most  float64 // of the boundary persons, rad
	Curve, Match float64
}
