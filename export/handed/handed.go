// Package handed hands a judged station from one program to another as text: its frame,
// and what only the search for it knows. The station is judged anew where it arrives, so
// that what travels is small and what is worked out from it is the same on both sides.
package handed

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"

	"armwright/solver"
	"armwright/solver/drive"
	"armwright/solver/explain"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// parcel is what travels.
type parcel struct {
	Frame    string // as its file holds it
	NoneMet  bool   // a search found no station that meets the brief
	Counted  bool   // it is known who of a crowd fits
	Ratios   []drive.RatioChoice
	Search   *fit.SearchLog
	Trades   []fit.Trade
	Choices  []fit.Choice
	Unmade   []string // why there is no station, by choice; empty where that is not so
	Findings explain.Findings
	Notes    []string
}

// Write is a station as text. One without a station to judge, whose NoStation is set, is
// an error.
func Write(r *solver.Result) ([]byte, error) {
	if r.NoStation != nil {
		return nil, r.NoStation
	}
	var frame bytes.Buffer
	if err := specs.WriteFrame(&frame, r.Frame); err != nil {
		return nil, err
	}
	p := parcel{Frame: frame.String(), NoneMet: r.Verdict == judge.Infeasible, Counted: r.People.Crowd.All.N > 0, Ratios: r.Resistance.Ratios, Search: r.Search, Trades: r.Trades, Choices: slices.Clone(r.Choices), Unmade: make([]string, len(r.Choices)), Findings: r.Findings, Notes: r.Notes}
	for i := range p.Choices {
		if why := &p.Choices[i].Why; why.Unmade != nil { // of any type: its words are what is told of it
			p.Unmade[i], why.Unmade = why.Unmade.Error(), nil
		}
	}
	return json.Marshal(p)
}

// Read is the station of a text that Write made, judged anew.
func Read(data []byte) (*solver.Result, error) {
	var p parcel
	if err := json.Unmarshal(data, &p); err != nil {
		return nil, err
	}
	if len(p.Unmade) != len(p.Choices) {
		return nil, errors.New("a station as handed over has a reason for each choice")
	}
	f, err := specs.ParseFrame("frame.yaml", []byte(p.Frame))
	if err != nil {
		return nil, err
	}
	var crowd judge.Persons
	if p.Counted {
		crowd = judge.Random(f.People)
	}
	judged, err := judge.CheckPeople(f, crowd)
	if err != nil {
		return nil, err
	}
	if p.NoneMet && judged.Verdict == judge.NotMet {
		judged.Verdict = judge.Infeasible
	}
	judged.Resistance.Ratios = p.Ratios
	for i, text := range p.Unmade {
		if text != "" {
			p.Choices[i].Why.Unmade = errors.New(text)
		}
	}
	return &solver.Result{Solution: fit.Solution{Result: *judged, Search: p.Search, Trades: p.Trades, Choices: p.Choices}, Findings: p.Findings, Notes: p.Notes}, nil
}
