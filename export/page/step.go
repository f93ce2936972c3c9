package page

import "armwright/export/viewer"

// Step is an answer, or one sign of a search: how far it is, or its end.
type Step struct {
	Progress *Progress `json:"progress,omitempty"`
	Answer   *Answer   `json:"answer,omitempty"`
	Trouble  *Trouble  `json:"trouble,omitempty"`
}

// Progress is how far a search is.
type Progress struct {
	Waits     bool    `json:"waits,omitempty"` // for a search of another tab
	Axes      int     `json:"axes"`
	Round     int     `json:"round"`
	Iteration int     `json:"iteration"`
	Worst     float64 `json:"worst"`
}

// Answer is a judged station as the page shows it. Plots and tables are finished
// fragments; the page only puts them in place.
type Answer struct {
	Station string        `json:"station"` // number of the station whose geometry it is
	Solved  bool          `json:"solved"`  // found by a search for this very brief
	Verdict string        `json:"verdict"`
	Parts   parts         `json:"parts"`
	Plots   []Picture     `json:"plots"`
	Shown   string        `json:"shown"`           // mark of the scene
	Scene   *viewer.Scene `json:"scene,omitempty"` // without meshes; absent when the page shows it already, and on a bench
	Motion  *motion       `json:"motion"`          // of the cam, null without one
	Over    over          `json:"over"`
	Figures []figure      `json:"figures"`
	Failing []string      `json:"failing"` // requirements that do not hold
	Repairs []repair      `json:"repairs,omitempty"`
	Crowd   []column      `json:"crowd,omitempty"` // by sex and stature; absent where it was not counted
	Curve   *curve        `json:"curve"`           // null where there is no load to scale it by
}

// repair is a change of the brief that a search has shown to mend it.
type repair struct {
	Sentence string            `json:"sentence"`
	Changes  map[string]string `json:"changes"`
}

// curve is the strength curve as points of the torque plot that can be moved.
type curve struct {
	Own    bool         `json:"own"`    // it is a table already
	Peak   float64      `json:"peak"`   // torque where the curve is 1, as the plot tells it
	Points [][2]float64 `json:"points"` // flexion in degrees, share of the peak
}

// parts are the texts of the page as HTML, by the place they go to.
type parts struct {
	Verdict  string `json:"verdict"`  // in a word
	Head     string `json:"head"`     // in a sentence, with the figures
	Conflict string `json:"conflict"` // what cannot hold together, and the ways out
	Held     string `json:"held"`     // what giving way would buy
	Table    string `json:"table"`    // the requirements
}

// Picture is an SVG with its place on the page.
type Picture struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	SVG   string `json:"svg"`
}

// figure is one value by which designs are compared.
type figure struct {
	Name        string   `json:"name"`
	Requirement string   `json:"requirement"` // whose row it is of, or empty
	Text        string   `json:"text"`
	Value       *float64 `json:"value"`
	Best        string   `json:"best"` // "least" or "most" where one is better, else empty
}

// over is what is told at each flexion beside the plots, in the units of the reader.
type over struct {
	Angles []float64 `json:"angles"` // deg
	Rows   []told    `json:"rows"`
}

type told struct {
	Name   string    `json:"name"`
	Unit   string    `json:"unit"`
	Values []float64 `json:"values"`
}

// Trouble is the answer to what cannot be done.
type Trouble struct {
	Problems []Problem `json:"problems"`
	Gone     bool      `json:"gone,omitempty"`  // brief or station is no longer kept
	Solve    bool      `json:"solve,omitempty"` // nothing is wrong, but the station at hand is of another drive
	Fault    bool      `json:"-"`               // ours, not the brief's
}

// Problem is one thing that is wrong, with the place in the brief it is about, if any.
type Problem struct {
	Path    string `json:"path"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}
