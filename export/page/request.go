package page

import (
	"encoding/json"
	"errors"
	"io"
	"maps"
	"math"
	"net/http"
	"slices"
	"time"

	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

// asked is the state a request holds.
type asked struct {
	Station string            `json:"station"` // number of the station whose geometry is meant
	Changes map[string]string `json:"changes"` // value of the brief by its path
	Shown   string            `json:"shown"`   // mark of the pictures the page shows already
}

// read reads a request's state and makes its brief. After a refusal, which it
// writes, ok is false.
func (p *Page) read(w http.ResponseWriter, r *http.Request) (a asked, b specs.Brief, ok bool) {
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(&a)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("more than one value")
		}
	}
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		http.Error(w, "the request is too large", http.StatusRequestEntityTooLarge)
		return a, b, false
	case err != nil:
		http.Error(w, "the request is not the state of a page", http.StatusBadRequest)
		return a, b, false
	}
	// The body is here: from now on the connection is only watched for its end.
	_ = http.NewResponseController(w).SetReadDeadline(time.Time{})
	if b, err = p.changed(a.Changes); err != nil {
		fail(w, err)
		return a, b, false
	}
	return a, b, true
}

// changed is the brief as opened with changes, valid. The error is a
// *specs.Problems.
func (p *Page) changed(changes map[string]string) (specs.Brief, error) {
	b := p.brief
	var bad specs.Problems
	for _, path := range slices.Sorted(maps.Keys(changes)) {
		var one *specs.Problems
		if err := b.Set(path, changes[path]); errors.As(err, &one) {
			bad.List = append(bad.List, one.List...)
		}
	}
	if len(bad.List) > 0 {
		return b, &bad
	}
	b = b.Quantised()
	if err := b.Validate(); err != nil {
		return b, err
	}
	return b, refuse(b)
}

// refuse tells what a valid brief may not ask of a page.
func refuse(b specs.Brief) error {
	if specs.IsCurveFile(b.Resistance.Curve) {
		return &specs.Problems{List: []specs.Problem{{
			Path: "resistance.curve", Message: "resistance.curve: a page opens no files", Hint: "write the points into resistance.curve_table, with curve: table",
		}}}
	}
	return nil
}

// trouble is the answer to what cannot be done.
type trouble struct {
	Problems []problem `json:"problems"`
	Gone     bool      `json:"gone,omitempty"` // the station is no longer kept
}

type problem struct {
	Path    string `json:"path"`
	Message string `json:"message"`
	Hint    string `json:"hint"`
}

// troubleOf tells an error to the page.
func troubleOf(err error) trouble {
	var bad *specs.Problems
	if errors.As(err, &bad) {
		var t trouble
		for _, q := range bad.List {
			t.Problems = append(t.Problems, problem{q.Path, q.Message, q.Hint})
		}
		return t
	}
	one := problem{Message: err.Error()}
	var missing *judge.MissingError
	var hint interface{ Hint() string }
	switch {
	case errors.As(err, &missing):
		one.Hint = "solve: the station shown was made for another drive"
	case errors.As(err, &hint):
		one.Hint = hint.Hint()
	}
	return trouble{Problems: []problem{one}}
}

// statusOf is the status of a refusal. A value that cannot be used is part of
// playing with a brief, so telling so is a good answer; else we are at fault.
func statusOf(err error) int {
	if _, ok := solver.Fault(err); ok || errors.As(err, new(*specs.Problems)) {
		return http.StatusOK
	}
	return http.StatusInternalServerError
}

// fail answers with what is wrong.
func fail(w http.ResponseWriter, err error) {
	t := troubleOf(err)
	reply(w, statusOf(err), step{Trouble: &t})
}

// reply writes a value as JSON. The only error left is the connection's.
func reply(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v)
}

// present is a station's geometry under a changed brief: moved into the ranges
// that the brief now gives, as far as one number does it.
func present(g specs.Geometry, b *specs.Brief) specs.Geometry {
	into := func(x float64, r specs.Range) float64 { return math.Min(math.Max(x, r.From), r.To) }
	g.Pivots.Height = into(g.Pivots.Height, b.Posture.PivotHeight)
	g.Pivots.Spacing = into(g.Pivots.Spacing, b.Posture.PivotSpacing)
	if g.Pad != nil && b.Kind == "arm-pad" {
		pad := *g.Pad
		pad.Slope = into(pad.Slope, b.Posture.PadSlope)
		g.Pad = &pad
	}
	if g.Seat != nil {
		seat := *g.Seat
		seat.Pitch, seat.Positions = b.Posture.SeatPitch, min(seat.Positions, b.Posture.SeatPositions)
		g.Seat = &seat
	}
	if g.Back != nil {
		back := *g.Back
		back.Angle = into(back.Angle, b.Posture.BackAngle)
		g.Back = &back
	}
	if g.Lever != nil {
		lever := *g.Lever
		lever.Radius = into(lever.Radius, b.Resistance.LeverRadius)
		g.Lever = &lever
	}
	return g
}
