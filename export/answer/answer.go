// Package answer tells in one line how many persons of a kind fit a station, and what
// turns the others away.
package answer

import (
	"encoding/json"
	"fmt"
	"io"

	"armwright/export/terminal"
	"armwright/export/words"
	"armwright/solver/judge"
)

// Answer is how many persons of a kind fit.
type Answer struct {
	Where      string   `json:"where"`       // the kind, as it was asked
	Source     string   `json:"source"`      // where the persons come from
	Persons    int      `json:"persons"`     // of that kind
	Fit        int      `json:"fit"`         // of them
	Coverage   float64  `json:"coverage"`    // share who fit
	Low        float64  `json:"low"`         // lower end of its 95 % interval (Wilson 1927)
	High       float64  `json:"high"`        // upper end
	Shrug      float64  `json:"shrug"`       // share who fit or miss soft limits alone, by little
	TurnedAway []Turned `json:"turned_away"` // most first
}

// Turned is how many of them a requirement turns away.
type Turned struct {
	ID    string  `json:"id"`
	Count int     `json:"count"`
	Share float64 `json:"share"`
}

// Of answers from what was counted on persons of the kind; there must be somebody.
func Of(where string, c *judge.Crowd) *Answer {
	a := &Answer{Where: where, Source: words.Source(c.Source), Persons: c.All.N, Fit: c.All.Fits,
		Coverage: rounded(c.All.Share), Low: rounded(c.All.Low), High: rounded(c.All.High), Shrug: rounded(c.Shrug.Share), TurnedAway: []Turned{}}
	for _, t := range c.TurnedBy {
		a.TurnedAway = append(a.TurnedAway, Turned{t.ID, t.N, rounded(float64(t.N) / float64(c.All.N))})
	}
	return a
}

// rounded keeps six decimals of a share, so that equal counts print alike.
func rounded(x float64) float64 { return float64(int(x*1e6+0.5)) / 1e6 }

// Text writes the answer on one line of a terminal so many columns wide, 0 for not
// known: who would shrug and what turns people away as far as there is room.
func (a *Answer) Text(w io.Writer, columns int) error {
	line := fmt.Sprintf("%.0f %% of %s fit (%.0f-%.0f %%, %d persons)", 100*a.Coverage, a.Where, 100*a.Low, 100*a.High, a.Persons)
	if more := fmt.Sprintf("%s, %.0f %% with a shrug", line, 100*a.Shrug); terminal.Count(more) <= terminal.Width(columns) {
		line = more
	}
	for i, t := range a.TurnedAway {
		next := fmt.Sprintf("%s, %s %.0f %%", line, t.ID, 100*t.Share)
		if i == 0 {
			next = fmt.Sprintf("%s; turned away by %s %.0f %%", line, t.ID, 100*t.Share)
		}
		if terminal.Count(next) > terminal.Width(columns) {
			break
		}
		line = next
	}
	_, err := fmt.Fprintln(w, line)
	return err
}

// JSON writes the answer as a JSON object.
func (a *Answer) JSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(a)
}
