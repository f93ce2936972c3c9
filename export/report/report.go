// Package report turns a solved or checked station into the one Report struct
// that every report is printed from: JSON, HTML, terminal text; and into the
// tables beside it.
//
// Outside units throughout: mm, degrees, kg, N, N·m. Shares are fractions of
// one, except in requirements and conflicts, whose unit stands beside them.
// Every value is quantised and finite. Every key is there for every kind of
// station: what does not apply is null, or an empty list.
package report

import (
	"html/template"

	"armwright/specs"
)

// Schema is the name of the format, and of its version. Within a version keys
// are only ever added.
const Schema = "armwright/report/1"

// Report is the outcome of one station. Its tags are the file format: json
// names the key, doc explains it in the JSON Schema, enum lists the allowed
// words.
type Report struct {
	Schema       string        `json:"schema" enum:"armwright/report/1" doc:"format and version of this file"`
	Program      string        `json:"program" doc:"program that wrote this file, with its version"`
	Name         string        `json:"name" doc:"name of the station"`
	Kind         string        `json:"kind" enum:"arm-pad|reclined|cam-study" doc:"posture of the user, or a study of the cam alone"`
	Verdict      string        `json:"verdict" enum:"met|not-met|infeasible" doc:"whether the requirements hold; infeasible: the search found no station that meets them all"`
	Summary      string        `json:"summary" doc:"the verdict in one sentence"`
	Headline     Headline      `json:"headline" doc:"what to say first"`
	Units        specs.Units   `json:"units" enum:"metric|inch-pound" doc:"units that sentences of this file, report and plots tell people; every number of this file is metric"`
	NoStation    *string       `json:"no_station" doc:"why there is no station: the drive asked for cannot be made; then sizes and figures are 0, null or empty, and nothing is drawn; null where there is one"`
	Notice       string        `json:"notice" doc:"what this report must not be taken for"`
	Pivots       Pivots        `json:"pivots" doc:"places and axes of the pivots, machine frame: origin on the floor midway between them, x forward, y to the user's left, z up"`
	Pad          Pad           `json:"pad" doc:"arm pad, or stop pad of the reclined posture"`
	Seat         Seat          `json:"seat" doc:"seat and its positions"`
	Back         Back          `json:"back" doc:"back pad of the reclined posture"`
	Handle       Handle        `json:"handle" doc:"handle and its positions on the arm"`
	Resistance   Resistance    `json:"resistance" doc:"resistance over the loaded range, at one arm"`
	Footprint    Footprint     `json:"footprint" doc:"outline of the feet on the floor"`
	Stability    Stability     `json:"stability" doc:"balance, empty and occupied"`
	Seated       []Seated      `json:"seated" doc:"what pads, seat and back carry, of the persons with the least seat load, the most weight and the most strength"`
	Hazards      Hazards       `json:"hazards" doc:"gaps between moving and other parts, guards and stops; screening, no proof of conformity"`
	Strength     Strength      `json:"strength" doc:"parts under factored load; screening, no proof of conformity"`
	Protection   []Protection  `json:"protection" doc:"what spares the joints, over the boundary persons"`
	People       People        `json:"people" doc:"who fits"`
	Elbow        Elbow         `json:"elbow" doc:"hand paths over the boundary persons"`
	Requirements []Requirement `json:"requirements" doc:"every requirement with its governing person, angle and case"`
	Conflict     []Conflict    `json:"conflict" doc:"demands that cannot hold together, and what would mend them; empty unless infeasible"`
	Proofs       []Proof       `json:"proofs" doc:"contradictions in the brief that simple bounds show, whatever the station; empty unless infeasible"`
	Repairs      []Repair      `json:"repairs" doc:"changes of the brief, cheapest first, with which a search met it; empty unless infeasible"`
	Choices      []Choice      `json:"choices" doc:"combinations of the values that the brief leaves to the tool, cheapest first; empty where it leaves none"`
	Trades       []Trade       `json:"trades" doc:"what holds the design back, dearest first; empty when a frame was only checked"`
	Search       *Search       `json:"search" doc:"how the search went; null when a frame was only checked"`
	Parts        []Part        `json:"parts" doc:"parts list"`
	Notes        []string      `json:"notes" doc:"what the solver has to say"`
	Assumptions  []Assumption  `json:"assumptions" doc:"figures the result rests on, with their sources"`
	Files        []File        `json:"files" doc:"files written with this report, without report and manifest themselves"`

	// Picture is the station with a person in it as an SVG element, for the first page;
	// empty where there is none.
	Picture template.HTML `json:"-"`
}

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

// Stability is the balance of the station.
type Stability struct {
	LeastTilt  *float64        `json:"least_tilt" doc:"least tilt that tips the station, over all cases and edges, deg"`
	Cases      []StabilityCase `json:"cases" doc:"every case"`
	Anchored   bool            `json:"anchored" doc:"whether the brief has the feet bolted to the floor"`
	AnchorPull *float64        `json:"anchor_pull" doc:"of each of four anchors, by the tilt alone, N; null without people"`
	Envelope   [][2]float64    `json:"envelope" doc:"hull of the centres of mass of all loads, persons and angles, counter-clockwise, mm"`
	Entry      []EntryCase     `json:"entry" doc:"somebody getting on, or a push"`
}

// StabilityCase is one person, or none, and one position of arms and load.
type StabilityCase struct {
	Case   string     `json:"case" doc:"in words"`
	Person *string    `json:"person" doc:"null when empty"`
	Mass   float64    `json:"mass" doc:"station and person, kg"`
	Centre [3]float64 `json:"centre" doc:"centre of mass x, y, z, mm"`
	Tilt   float64    `json:"tilt" doc:"least over the edges, deg"`
	Edge   string     `json:"edge" doc:"edge it tips over"`
	Energy float64    `json:"energy" doc:"work that tips it over that edge, N·m"`
	Angle  float64    `json:"angle" doc:"flexion at which it tips first, deg"`
	Lift   float64    `json:"lift" doc:"of the load at that angle, mm"`
}

// Elbow is the largest distance between the hand's path and the handle's path.
type Elbow struct {
	LeastHandPath  *float64   `json:"least_hand_path" doc:"of the person it suits best, mm"`
	WorstHandPath  *float64   `json:"worst_hand_path" doc:"of the person it suits least, mm"`
	CommonHandPath *float64   `json:"common_axis_hand_path" doc:"of the person it suits least, on one straight common axis with handles a fixed distance apart, mm"`
	Paths          []HandPath `json:"paths" doc:"where the hands of three persons go around their handles; empty with fewer than three"`
}

// Requirement is one requirement in its own unit.
type Requirement struct {
	ID      string   `json:"id" doc:"name of the requirement"`
	Asks    string   `json:"asks" doc:"what it asks, in words"`
	Value   float64  `json:"value" doc:"of the governing person, angle and case"`
	Limit   float64  `json:"limit" doc:"as asked; of a requirement with a limit on either side the nearer one"`
	Unit    string   `json:"unit" enum:"mm|deg|%|" doc:"of value, limit, margin and scale; empty for a plain ratio"`
	Sense   string   `json:"sense" enum:"at least|at most" doc:"how the value must lie to the limit"`
	Margin  float64  `json:"margin" doc:"room left between value and limit, negative when not met"`
	Scale   float64  `json:"scale" doc:"a difference that matters"`
	Met     bool     `json:"met" doc:"whether it holds"`
	Binding bool     `json:"binding" doc:"whether it has less room than a tenth of a difference that matters, or none"`
	Person  *string  `json:"person" doc:"governing person, null when nobody in particular"`
	Angle   *float64 `json:"angle" doc:"governing flexion, deg, null when none in particular"`
	Case    *string  `json:"case" doc:"governing case in words, null when none in particular"`
	Source  string   `json:"source" doc:"where the limit comes from"`
}

// Trade is what giving way in one requirement would buy.
type Trade struct {
	ID       string  `json:"id" doc:"requirement"`
	Step     float64 `json:"step" doc:"by how much its limit gives way"`
	Unit     string  `json:"unit" enum:"mm|deg|%|" doc:"of step"`
	Worth    float64 `json:"worth" doc:"footprint length that counts as much, mm; holds for small steps"`
	Sentence string  `json:"sentence" doc:"the same in words"`
}

// Conflict is one demand of the brief that cannot hold together with the others.
type Conflict struct {
	ID     string  `json:"id" doc:"of the requirement, or the path of a range or count in the brief"`
	Proved bool    `json:"proved" doc:"whether a bound shows the conflict whatever the station; otherwise no search found a way out"`
	Share  float64 `json:"share" doc:"its part in the conflict, of 1 in all, when all requirements give way alike"`
	Needed bool    `json:"needed" doc:"whether it belongs to a smallest conflicting set: without it the rest of the set can hold"`
	Excess float64 `json:"excess" doc:"by how much it fails at the best compromise"`
	Repair float64 `json:"repair" doc:"by how much its limit must move in the cheapest way out, 0 when it need not"`
	Unit   string  `json:"unit" enum:"mm|deg|%|" doc:"of excess and repair"`
	Advice string  `json:"advice" doc:"what to do, in words"`
}

// Search tells how the search went.
type Search struct {
	Status      string       `json:"status" doc:"how it ended"`
	Message     string       `json:"message" doc:"in words"`
	Starts      int          `json:"starts" doc:"starting points"`
	Agreed      int          `json:"agreed" doc:"of them that led to the same station"`
	Iterations  int          `json:"iterations" doc:"of the optimiser"`
	Evaluations int          `json:"evaluations" doc:"of the station"`
	Axes        []AxesChoice `json:"axes" doc:"numbers of axis positions tried"`
}

// AxesChoice is one number of axis positions.
type AxesChoice struct {
	Positions int      `json:"positions" doc:"number of axis positions"`
	HandPath  float64  `json:"hand_path" doc:"worst hand path left, mm"`
	Worst     *float64 `json:"worst" doc:"least margin over all requirements, in differences that matter"`
	Chosen    bool     `json:"chosen" doc:"whether the station has this many"`
}

// Part is one line of the parts list.
type Part struct {
	Item   int      `json:"item" doc:"number of the line"`
	Title  string   `json:"title" doc:"what it is"`
	Count  int      `json:"count" doc:"how many"`
	Stock  string   `json:"stock" doc:"made from"`
	Length *float64 `json:"length" doc:"mm, null when not cut to length"`
	Mass   *float64 `json:"mass" doc:"of one, kg, null when not known"`
	Mitre  string   `json:"mitre" doc:"cuts of the ends"`
}

// Assumption is a figure or model the result rests on.
type Assumption struct {
	What   string `json:"what" doc:"what it is about"`
	Value  string `json:"value" doc:"what was taken"`
	Source string `json:"source" doc:"where it comes from"`
	Mark   string `json:"mark" doc:"S seen in the source, M from memory of a named source, D derived, own a choice made here"`
}

// File is one file written with the report.
type File struct {
	Path   string `json:"path" doc:"from the folder of this report, with slashes"`
	SHA256 string `json:"sha256" doc:"of its bytes, hexadecimal"`
	Bytes  int    `json:"bytes" doc:"its size"`

	// Thumbnail is a small SVG of a sheet for the page, empty for other files.
	Thumbnail template.HTML `json:"-"`
}
