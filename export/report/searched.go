package report

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
	Objective   []Aim        `json:"objective" doc:"what the station has least of, once it meets its limits (minimise of the brief), at the station found"`
}

// Aim is a term of the objective.
type Aim struct {
	Term   string  `json:"term" doc:"by its name in a brief"`
	What   string  `json:"what" doc:"in words"`
	Weight float64 `json:"weight" doc:"how many times it counts"`
	Value  float64 `json:"value" doc:"at the station found, in amounts that count one (docs/solver.md)"`
	Share  float64 `json:"share" doc:"of the whole objective"`
}

// AxesChoice is one number of axis positions.
type AxesChoice struct {
	Positions int      `json:"positions" doc:"number of axis positions"`
	HandPath  float64  `json:"hand_path" doc:"worst hand path left, mm"`
	Worst     *float64 `json:"worst" doc:"least margin over all requirements, in differences that matter"`
	Chosen    bool     `json:"chosen" doc:"whether the station has this many"`
}

// Choice is one combination of values that the brief leaves to the tool.
type Choice struct {
	Values []Picked `json:"values" doc:"one of each value left to the tool"`
	Fate   string   `json:"fate" enum:"chosen|missed|excluded|passed over|dearer" doc:"what became of it: taken; solved, and requirements are missed; shown to be impossible by a bound; not solved because a failed one shares what it failed for; not looked at because a cheaper one serves"`
	Reason string   `json:"reason" doc:"why it was not taken, empty for the one that was"`
	Mass   *float64 `json:"mass" doc:"of the parts of its station, kg; null where none was solved"`
	Length *float64 `json:"length" doc:"of its base, mm; null where none was solved"`
	Width  *float64 `json:"width" doc:"of its base, mm; null where none was solved"`
	Worst  *float64 `json:"worst" doc:"least margin over all requirements, in differences that matter; null where no station was solved"`
}

// Picked is one value of a combination.
type Picked struct {
	Path  string `json:"path" doc:"where the value stands in a brief"`
	Value string `json:"value" doc:"as it stands there"`
}
