package page

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"time"

	"armwright/solver"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// gone is the answer to the number of a station that is no longer kept.
func gone(w http.ResponseWriter) {
	reply(w, http.StatusOK, step{Trouble: &trouble{Gone: true, Problems: []problem{{Message: "the station is no longer kept", Hint: "solve again"}}}})
}

// judged reads a request and judges the station that it means: its geometry
// under its brief. A solved station that the request leaves as it was is that
// station itself, with all that the search knows. Where it is not ok, the request
// has been answered.
func (p *Page) judged(w http.ResponseWriter, r *http.Request) (a asked, res *solver.Result, ok bool) {
	a, b, ok := p.read(w, r)
	if !ok {
		return a, nil, false
	}
	if res, ok = p.station(a.Station); !ok {
		gone(w)
		return a, nil, false
	}
	f := specs.Frame{Format: specs.FrameFormat, Name: b.Name, Asked: b.Asked, Geometry: present(res.Frame.Geometry, &b)}.Quantised()
	if same(f, res.Frame) {
		return a, res, true
	}
	j, err := p.judge(f.Asked)
	if err == nil {
		var judged *judge.Result
		if judged, err = j.Frame(f.Name, f.Geometry); err == nil {
			res = solver.Judged(judged)
		}
	}
	if err != nil {
		fail(w, err)
	}
	return a, res, err == nil
}

// judge makes a brief ready for judging, from the one before: while a control
// is dragged, most stays as it is.
func (p *Page) judge(a specs.Asked) (j *judge.Judge, err error) {
	p.mu.Lock()
	last := p.last
	p.mu.Unlock()
	if last == nil {
		j, err = judge.New(&a)
	} else {
		j, err = last.For(&a)
	}
	if err == nil {
		p.mu.Lock()
		p.last = j
		p.mu.Unlock()
	}
	return j, err
}

// evaluate judges the geometry at hand under a changed brief.
func (p *Page) evaluate(w http.ResponseWriter, r *http.Request) {
	a, res, ok := p.judged(w, r)
	if !ok {
		return
	}
	out, err := p.answer(res, a.Shown)
	if err != nil {
		fail(w, err)
		return
	}
	out.Station = a.Station
	reply(w, http.StatusOK, step{Answer: &out})
}

// step is an answer, or one line of that to solve: how far the search is, or
// its end.
type step struct {
	Progress *progress `json:"progress,omitempty"`
	Answer   *answer   `json:"answer,omitempty"`
	Trouble  *trouble  `json:"trouble,omitempty"`
}

type progress struct {
	Axes      int     `json:"axes"`
	Round     int     `json:"round"`
	Iteration int     `json:"iteration"`
	Worst     float64 `json:"worst"`
}

// between is the time from one line of progress to the next.
const between = 100 * time.Millisecond

// solve searches a station for a changed brief and tells its progress, a line
// of JSON each. When the page lets go of the request the search ends.
func (p *Page) solve(w http.ResponseWriter, r *http.Request) {
	a, b, ok := p.read(w, r)
	if !ok {
		return
	}
	ctx, cancel := context.WithTimeout(r.Context(), searchTime)
	defer cancel()
	control := http.NewResponseController(w)
	_ = control.SetWriteDeadline(time.Now().Add(searchTime + answerTime))
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	lines := json.NewEncoder(w)
	var told time.Time
	tell := func(q fit.Progress) {
		if now := time.Now(); now.Sub(told) >= between && ctx.Err() == nil {
			told = now
			_ = lines.Encode(step{Progress: &progress{q.Axes, q.Round, q.Iteration, q.Worst}})
			_ = control.Flush()
		}
	}
	number, res, err := p.search(ctx, a, b, tell)
	var out answer
	if err == nil {
		out, err = p.answer(res, a.Shown)
	}
	switch {
	case r.Context().Err() != nil: // nobody waits any more
	case errors.Is(err, context.DeadlineExceeded):
		_ = lines.Encode(step{Trouble: &trouble{Problems: []problem{{Message: "the search took too long and was stopped", Hint: "give the brief more room"}}}})
	case err != nil:
		t := troubleOf(err)
		_ = lines.Encode(step{Trouble: &t})
	default:
		out.Station = number
		_ = lines.Encode(step{Answer: &out})
	}
}

// search solves a brief, beginning from the station asked for, or finds the
// station it was solved into before. Without a station to begin from it
// searches afresh, which may find fewer axis positions.
func (p *Page) search(ctx context.Context, a asked, b specs.Brief, tell func(fit.Progress)) (number string, r *solver.Result, err error) {
	select {
	case p.turn <- struct{}{}:
		defer func() { <-p.turn }()
	case <-ctx.Done():
		return "", nil, ctx.Err()
	}
	brief, err := text(b)
	if err != nil {
		return "", nil, err
	}
	o := &fit.Options{Progress: tell}
	keys := []string{"afresh " + brief}
	if from, ok := p.station(a.Station); ok {
		o.Start, o.Starts = &from.Frame.Geometry, 1 // one who drags on waits for no second opinion
		keys = []string{"from " + brief, keys[0]}
	}
	for _, key := range keys {
		if number, r, ok := p.solvedBefore(key); ok {
			return number, r, nil
		}
	}
	if r, err = solver.Solve(ctx, b, o); err != nil {
		return "", nil, err
	}
	if r.NoStation != nil {
		return "", nil, r.NoStation
	}
	if number, err = p.keep(r); err != nil {
		return "", nil, err
	}
	p.mu.Lock()
	p.solved.put(keys[0], number)
	p.mu.Unlock()
	return number, r, nil
}

func (p *Page) solvedBefore(key string) (number string, r *solver.Result, ok bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if number, ok = p.solved.get(key); ok {
		r, ok = p.stations.get(number)
	}
	return number, r, ok
}
