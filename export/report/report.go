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
	Buys         []Buy         `json:"buys" doc:"what single changes of the brief do for coverage, each with a search of its own, where coverage is all that is missed; most people first"`
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

// Headline is what a report says first.
type Headline struct {
	Outcome string   `json:"outcome" doc:"how many requirements are met, and which are not"`
	Served  string   `json:"served" doc:"who fits and who does not, by sex and stature, in short sentences; empty where nobody is placed"`
	Figures []Figure `json:"figures" doc:"the figures that are told first, each that of its requirement; of several requirements of a kind the one with the least room; at most six"`
}

// Figure is the value of a requirement under a plain name.
type Figure struct {
	Requirement string  `json:"requirement" doc:"id of the requirement that it is the value of"`
	Name        string  `json:"name" doc:"what it is, in plain words"`
	Value       float64 `json:"value" doc:"as in that requirement"`
	Limit       float64 `json:"limit" doc:"as in that requirement"`
	Unit        string  `json:"unit" enum:"mm|deg|%|" doc:"of value and limit"`
	Sense       string  `json:"sense" enum:"at least|at most" doc:"how the value must lie to the limit"`
	Met         bool    `json:"met" doc:"whether it does"`
}
