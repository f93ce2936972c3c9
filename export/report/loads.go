package report

// Stability is the balance of the station.
type Stability struct {
	LeastTilt  *float64        `json:"least_tilt" doc:"least tilt that tips the station over any edge, empty or in use (cases), deg; what is left while somebody gets on or pushes is in entry"`
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
	Energy float64    `json:"energy" doc:"work that tips it over that edge, J"`
	Angle  float64    `json:"angle" doc:"flexion at which it tips first, deg"`
	Lift   float64    `json:"lift" doc:"of the load at that angle, mm"`
}

// EntryCase is somebody getting on, or a push.
type EntryCase struct {
	Case   string     `json:"case" doc:"in words"`
	Weight float64    `json:"weight" doc:"mass on the station, kg; 0 for a push alone"`
	Push   float64    `json:"push" doc:"level and outward, N"`
	Height float64    `json:"height" doc:"of the push above the floor, mm"`
	Point  [2]float64 `json:"point" doc:"x, y where the floor's resultant acts, mm"`
	Inside float64    `json:"inside" doc:"of the nearest tipping edge, mm; negative when the station tips"`
	Edge   string     `json:"edge" enum:"front|rear|side" doc:"that edge"`
	Tilt   float64    `json:"tilt" doc:"left until it tips, deg"`
}

// Seated is what holds one person who lifts what strength and the heaviest load
// allow, at the angles of resistance: the state of least forces.
type Seated struct {
	Person    string    `json:"person" doc:"who"`
	Why       string    `json:"why" doc:"why this person is shown"`
	Weight    float64   `json:"weight" doc:"of the person, N"`
	Load      []float64 `json:"load" doc:"on both hands together, N"`
	Pad       []float64 `json:"pad" doc:"both pads, normal to them, N"`
	Back      []float64 `json:"back" doc:"normal to the back pad, N; empty without one"`
	Chest     []float64 `json:"chest" doc:"normal to the chest pad, N; empty without one"`
	Seat      []float64 `json:"seat" doc:"upward, N"`
	Feet      []float64 `json:"feet" doc:"upward, N"`
	Share     []float64 `json:"share" doc:"of body weight on the seat"`
	SeatX     []float64 `json:"seat_x" doc:"x where the seat's reaction acts, mm; the seat's middle where it bears nothing"`
	Friction  []float64 `json:"friction" doc:"level force that seat and feet hold, forward on the person positive, N"`
	Shoulder  []float64 `json:"shoulder" doc:"moment of the muscles of both shoulders, lifting the arms positive, N m"`
	Disc      []float64 `json:"disc" doc:"compression of the lowest disc with the shortest lever arm of its muscles, N"`
	DiscLeast []float64 `json:"disc_least" doc:"the same with the longest, N"`
}

// Hazards is what could crush or shear, and what keeps hands away.
type Hazards struct {
	Pairs       []HazardPair `json:"pairs" doc:"least gap of every moving to every other part over the motion and all positions"`
	GuardHeight *float64     `json:"guard_height" doc:"to which the stack must be covered, mm; null without a stack"`
	GuardReach  *float64     `json:"guard_reach" doc:"gap to the weights behind slots of 8 mm, mm; null without a stack"`
	Stops       []float64    `json:"stops" doc:"flexion of the arm's stops, deg; empty without people"`
	Notes       []string     `json:"notes" doc:"for the workshop"`
}

// HazardPair is one moving and one other part.
type HazardPair struct {
	Moving   string  `json:"moving" doc:"moving part of one arm"`
	Fixed    string  `json:"fixed" doc:"other part"`
	Gap      float64 `json:"gap" doc:"least, mm; negative where they meet"`
	Angle    float64 `json:"angle" doc:"flexion of the least gap, deg"`
	Axis     int     `json:"axis" doc:"axis position of the least gap, from 1"`
	Kind     string  `json:"kind" enum:"crush|shear" doc:"crush where the gap closes, shear where it stays"`
	Part     string  `json:"part" doc:"part of the body that can be there"`
	Required float64 `json:"required" doc:"least gap for that part, mm"`
	Admits   *string `json:"admits" doc:"largest part that the gap leaves whole, null for none"`
	Met      bool    `json:"met" doc:"whether the gap is wide enough"`
}

// Strength is the screening of what carries load.
type Strength struct {
	Checks    []StrengthCheck `json:"checks" doc:"parts under factored load"`
	Factors   []LoadFactor    `json:"factors" doc:"factors on the loads"`
	Suggested []Suggestion    `json:"suggested" doc:"lightest tubes that hold the members within the limits"`
}

// StrengthCheck is one part under its load.
type StrengthCheck struct {
	Part   string  `json:"part" doc:"what"`
	What   string  `json:"what" doc:"how it is loaded, or what is compared"`
	Value  float64 `json:"value" doc:"in unit"`
	Limit  float64 `json:"limit" doc:"in unit"`
	Unit   string  `json:"unit" enum:"%|" doc:"of value and limit; empty for a plain ratio"`
	Sense  string  `json:"sense" enum:"at least|at most" doc:"how the value must lie to the limit"`
	Met    bool    `json:"met" doc:"whether it holds"`
	Person *string `json:"person" doc:"who loads it most, null when nobody in particular"`
	Source string  `json:"source" doc:"where the limit comes from"`
	Mark   string  `json:"mark" doc:"S seen in the source, M from memory, D derived, own a choice made here"`

	Requirement *string `json:"requirement" doc:"id of the requirement it counts under; null where it is told and decides no verdict"`
}

// LoadFactor is a factor on loads.
type LoadFactor struct {
	Name   string  `json:"name" doc:"on what"`
	Value  float64 `json:"value" doc:"factor"`
	Source string  `json:"source" doc:"where it comes from"`
	Mark   string  `json:"mark" doc:"as above"`
}

// Suggestion is a tube that would do.
type Suggestion struct {
	System     string  `json:"system" enum:"metric|inch" doc:"of its stock"`
	Name       string  `json:"name" doc:"as in show stock"`
	Mass       float64 `json:"mass" doc:"kg/m"`
	Stress     float64 `json:"stress" doc:"share of the yield strength"`
	Deflection float64 `json:"deflection" doc:"share of the free length"`
}

// Protection is one thing that spares a joint.
type Protection struct {
	Joint  string   `json:"joint" enum:"elbow|wrist|shoulder|spine|head and neck" doc:"which"`
	What   string   `json:"what" doc:"what is looked at"`
	Value  float64  `json:"value" doc:"of the person it is worst for"`
	Least  *float64 `json:"least" doc:"other end of the range where value is one end of it, else null"`
	Limit  float64  `json:"limit" doc:"in unit"`
	Unit   string   `json:"unit" enum:"mm|deg|N|%" doc:"of value and limit"`
	Sense  string   `json:"sense" enum:"at least|at most" doc:"how the value must lie to the limit"`
	Met    bool     `json:"met" doc:"whether it does"`
	Person string   `json:"person" doc:"that person"`
	Source string   `json:"source" doc:"where the limit comes from, with its mark"`
	Note   string   `json:"note" doc:"what to know about it"`

	Requirement *string `json:"requirement" doc:"id of the requirement that judges the same value by the same limit; null where the limit is told and decides no verdict"`
}
