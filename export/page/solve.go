package page

import (
	"context"
	"errors"
	"time"

	"armwright/solver"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// judged judges the station that a state means: its geometry under its brief. A
// solved station that the state leaves as it was is that station itself, with all that
// the search knows.
func (p *Page) judged(s State) (*solver.Result, error) {
	b, err := p.asked(s)
	if err != nil {
		return nil, err
	}
	res, ok := p.station(s.Station)
	if !ok {
		return nil, errGone
	}
	f := specs.Frame{Format: specs.FrameFormat, Name: b.Name, Asked: b.Asked, Geometry: present(res.Frame.Geometry, &b)}.Quantised()
	if same(f, res.Frame) {
		return res, nil
	}
	p.mu.Lock()
	at := p.at
	p.mu.Unlock()
	if at != nil && same(f, at.Frame) { // its views or files are asked for
		return at, nil
	}
	j, err := p.judge(f.Asked)
	if err != nil {
		return nil, err
	}
	r, err := j.Frame(f.Name, f.Geometry)
	if err != nil {
		return nil, err
	}
	at = solver.Judged(r)
	p.mu.Lock()
	p.at = at
	p.mu.Unlock()
	return at, nil
}

// Evaluate judges the geometry at hand under a changed brief.
func (p *Page) Evaluate(s State) Step {
	res, err := p.judged(s)
	if err != nil {
		return Failed(err)
	}
	out, err := p.answer(res, s)
	if err != nil {
		return Failed(err)
	}
	out.Station = s.Station
	return Step{Answer: &out}
}

const (
	between    = 100 * time.Millisecond // from one sign of progress to the next
	searchTime = 10 * time.Minute
)

// Solve searches a station for a changed brief and tells its progress. The last step is
// an answer or trouble, and there is none when the context has ended.
func (p *Page) Solve(ctx context.Context, s State, tell func(Step)) {
	b, err := p.asked(s)
	if err != nil {
		tell(Failed(err))
		return
	}
	within, cancel := context.WithTimeout(ctx, searchTime)
	defer cancel()
	var told time.Time
	number, res, err := p.search(within, s, b, func(q Progress) {
		if now := time.Now(); q.Waits || now.Sub(told) >= between && within.Err() == nil {
			told = now
			tell(Step{Progress: &q})
		}
	})
	var out Answer
	if err == nil {
		out, err = p.answer(res, s)
	}
	switch {
	case ctx.Err() != nil: // nobody waits any more
	case errors.Is(err, context.DeadlineExceeded):
		tell(Step{Trouble: &Trouble{Problems: []Problem{{Message: "the search took too long and was stopped", Hint: "give the brief more room"}}}})
	case err != nil:
		tell(Failed(err))
	default:
		out.Station = number
		tell(Step{Answer: &out})
	}
}

// search solves a brief, beginning from the station asked for, or finds the
// station it was solved into before. Without a station to begin from it
// searches afresh, which may find fewer axis positions.
func (p *Page) search(ctx context.Context, s State, b specs.Brief, tell func(Progress)) (number string, r *solver.Result, err error) {
	select {
	case p.turn <- struct{}{}:
	default:
		tell(Progress{Waits: true})
		select {
		case p.turn <- struct{}{}:
		case <-ctx.Done():
			return "", nil, ctx.Err()
		}
	}
	defer func() { <-p.turn }()
	brief, err := text(b)
	if err != nil {
		return "", nil, err
	}
	o := &fit.Options{Progress: func(q fit.Progress) {
		tell(Progress{Axes: q.Axes, Round: q.Round, Iteration: q.Iteration, Worst: q.Worst})
	}}
	keys := []string{"afresh " + brief}
	if from, ok := p.station(s.Station); ok && judge.Missing(&specs.Frame{Asked: b.Asked, Geometry: from.Frame.Geometry}) == nil {
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
