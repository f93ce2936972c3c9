package fit

import (
	"armwright/geometry/cam"
	"armwright/geometry/station"
	"armwright/solver/nlp"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/stock"
)

// Verdict says whether the requirements hold.
type Verdict string

const (
	Met        Verdict = "met"
	NotMet     Verdict = "not-met"
	Infeasible Verdict = "infeasible"
)

// Requirement is the outcome of one requirement over all persons, angles and
// cases: the row with the least margin. Inside units by Unit.
type Requirement struct {
	Kind
	Value, Limit, Margin float64 // margin is positive when met
	Met                  bool
	Person               string  // governing person, "" when none
	Angle                float64 // governing flexion, rad
	HasAngle             bool
	Case                 string // governing case in words, "" when none
}

// Person is one person's outcome on the station.
type Person struct {
	Person    people.Person
	Body      station.Body
	Pose      station.Pose
	Seat      int     // index of the seat position
	SeatTop   float64 // mm
	Axis      int     // index of the axis position
	Handle    int     // index of the handle position
	Axial     float64 // axial place of the hand's middle, mm outward from the pivot
	Left      Grasp   // where the left arm's settings are others
	Offset    float64 // mm
	Tilt      float64 // rad
	HandPath  float64 // largest, mm
	HandRMS   float64 // mm
	HandAngle float64 // rad, flexion at the largest
	Common    float64 // hand path on one straight common axis with fixed handles, mm
	Turn      float64 // rad, of the humerus
	Foot      int     // index of the foot plate's position, -1 on the floor
	FootGap   float64 // shoe sole above floor or foot plate, mm
	SeatLoad  float64 // least share of body weight on the seat
	SeatX     float64 // where it acts, mm
	Fits      bool
	TurnedBy  []string // ids of requirements that turn the person away
}

// Grasp is one arm's settings and hand path.
type Grasp struct {
	Axis, Handle int
	HandPath     float64 // largest, mm
}

// People is the outcome over the people.
type People struct {
	Boundary  []Person
	Coverage  float64 // share of the random persons who fit
	Low, High float64 // 95 % confidence interval of Coverage (Wilson)
	Sample    int
	TurnedBy  []Count // which requirement turns how many of the sample away
	Crowd     Crowd   // the sample in more detail
}

// Count is how often a requirement turned somebody away.
type Count struct {
	ID string
	N  int
}

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
	Gravity  []float64 // arm, handle and counterweight, N·mm
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

	Route      *Route       // cam drive of a station with a tower
	Linkage    LinkageState // linkage drive
	Energy     Energy       // cam drive with an outline
	Departures []Departure  // cam drive
	Levels     []Level      // the weakest and the strongest boundary person
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

// StabilityCase is one case of balance.
type StabilityCase struct {
	Case    string
	Person  string
	Mass    float64 // kg
	X, Y, Z float64 // centre of mass, mm
	Tilt    float64 // rad, least over the edges
	Edge    string  // front, rear, side
	Energy  float64 // N·mm
	Angle   float64 // flexion, rad
	Lift    float64 // of the load, mm
}

// Conflict is one demand of a brief that cannot hold with the others. Inside
// units.
type Conflict struct {
	ID     string // of the requirement, or the path of a range or count in the brief
	Unit   Unit
	Share  float64 // of the conflict, 0 to 1, when all requirements give way alike
	Proved bool    // a bound shows the conflict whatever the station, see Result.Proofs
	Needed bool    // in a smallest conflicting set: without it the rest of the set can hold
	Excess float64 // by how much it fails at the best compromise
	Repair float64 // by how much it gives way in the cheapest repair; 0 when it need not
}

// Part is one line of the parts list. Length, Size mm; Mass kg of one.
type Part struct {
	Item   int
	Title  string
	Count  int
	Stock  string
	Length float64
	Mass   float64
	Mitre  string
}

// SearchLog tells how the search went.
type SearchLog struct {
	Status      string
	Message     string
	Starts      int // of the optimiser, see Options.Starts
	Agreed      int // of them that led to the same station
	Iterations  int
	Evaluations int
	Axes        []AxesChoice
}

// AxesChoice is one number of axis positions with the hand path it leaves.
type AxesChoice struct {
	Positions int
	HandPath  float64 // mm
	Worst     float64 // least scaled margin over all requirements
	Chosen    bool
}

// Result is everything known about one station: what the reports print and
// the sheets draw.
type Result struct {
	Frame        specs.Frame
	Verdict      Verdict
	Requirements []Requirement
	People       People
	Resistance   Resistance
	Stability    []StabilityCase
	Least        StabilityCase
	Balance      Balance
	Hazards      Hazards
	Strength     Strength
	Protection   []Protection
	Layout       station.Layout
	Structure    station.Structure
	Rest         station.Rest
	Parts        []Part
	Conflict     []Conflict
	Proofs       []Proof    // contradictions that simple bounds show
	Repairs      []Repair   // of a brief that is not met, cheapest first
	Trades       []Trade    // what holds the design back; nil from Check
	Search       *SearchLog // nil from Check
	Choices      []Choice   // where the brief leaves values to the tool, cheapest first; nil elsewhere
	Notes        []string

	// NoStation is why there is none, nil where there is one: the drive asked for
	// cannot be made. Then only the brief, verdict, conflict, repairs and notes stand.
	NoStation error

	study *study // what the frame was judged with
}

// Judge returns the judge of the frame's brief, made ready already.
func (r *Result) Judge() *Judge { return &Judge{r.study} }

// Requirement returns the requirement of the given id.
func (r *Result) Requirement(id string) (Requirement, bool) {
	for _, q := range r.Requirements {
		if q.ID == id {
			return q, true
		}
	}
	return Requirement{}, false
}
