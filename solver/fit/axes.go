package fit

import (
	"context"
	"math"
	"runtime"
	"sync"

	"armwright/specs"
)

// abreast is how many runs of the optimiser go on at a time: no answer hangs on it.
func abreast() int { return min(2, runtime.GOMAXPROCS(0)) }

// everyAxes tries one, two, … axis positions, and returns the first that meets
// everything or the one that comes nearest. Where no drive can be made with any,
// the error says why, and the first attempt says where.
//
// Several numbers are tried at a time, the least first, but judged in order: what
// was begun beyond the one chosen is stopped and leaves no trace, so the answer
// does not hang on how many there are. Nor does it on whether the optimiser was
// begun anew, from the given number of starts in all, before its time: whoever has
// no number left to try does that for the least that serves so far, which is likely
// to be chosen.
func everyAxes(ctx context.Context, s *study, opt *Options, log *SearchLog, brief *specs.Brief, starts int) (*attempt, error) {
	n := s.asked.Posture.AxisPositions
	t := trials{limit: n, serving: n}
	for i := range n {
		a := &attempt{search: search{s: s, opt: opt, axes: i + 1}, index: i, done: make(chan struct{})}
		a.ctx, a.stop = context.WithCancel(ctx)
		t.all = append(t.all, a)
	}
	defer t.end(0)
	var group sync.WaitGroup
	defer group.Wait()
	for range abreast() {
		group.Go(func() {
			for a := t.take(); a != nil; a = t.take() {
				if a.make(a.ctx, brief); a.met {
					a.others = a.search.others(starts)
					t.serve(a)
				}
				close(a.done)
			}
			for a := t.served(nil); a != nil; a = t.served(a) {
				a.others.run(a.ctx)
			}
		})
	}
	var best *attempt
	log.Axes = log.Axes[:0]
	for i, a := range t.all {
		<-a.done
		if a.err != nil && !unmade(a.err) {
			t.end(0)
			return nil, a.err
		}
		log.add(a)
		if best == nil || a.miss < best.miss || a.met {
			best = a
		}
		if a.met || !helped(t.all[:i+1]) {
			t.end(i + 1)
			break
		}
	}
	return best, best.err
}

// trials are the attempts of everyAxes, shared by those who work on them.
type trials struct {
	all []*attempt

	mu      sync.Mutex
	next    int // the first that nobody has taken
	limit   int // the first that is not worth while
	serving int // the least that meets everything so far, len(all) for none
}

// take returns an attempt to make, nil if none is left that is worth while.
func (t *trials) take() *attempt {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.next >= t.limit {
		return nil
	}
	t.next++
	return t.all[t.next-1]
}

// serve takes note of an attempt that meets everything: more axis positions need
// not be tried.
func (t *trials) serve(a *attempt) {
	t.mu.Lock()
	t.serving = min(t.serving, a.index)
	t.mu.Unlock()
	t.end(a.index + 1)
}

// served returns the least attempt that meets everything so far, nil if there is
// none but the one before.
func (t *trials) served(before *attempt) *attempt {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.serving == len(t.all) || t.all[t.serving] == before {
		return nil
	}
	return t.all[t.serving]
}

// end stops the attempts from one on.
func (t *trials) end(from int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.limit = min(t.limit, from)
	for _, a := range t.all[from:] {
		a.stop()
	}
}

// add takes an attempt into the log, unless it has no drive.
func (l *SearchLog) add(a *attempt) {
	if a.err != nil {
		return
	}
	a.choice = len(l.Axes)
	l.Iterations += a.search.iterations
	l.Evaluations += a.search.evaluations
	l.Axes = append(l.Axes, AxesChoice{Positions: a.search.axes, HandPath: a.path, Worst: a.worst})
}

// attempt is one number of axis positions and how it came out.
type attempt struct {
	search search
	frame  specs.Frame
	met    bool
	worst  float64 // least scaled margin
	miss   float64 // sum of what is missed, in units that matter
	path   float64 // worst hand path, mm
	trades []Trade
	choice int     // index in the log
	others *others // from other starts; nil before they are wanted
	err    error

	// Of those that are made beside each other.
	index int
	ctx   context.Context
	stop  context.CancelFunc
	done  chan struct{} // closed when it is made
}

// make searches, and judges what was found. An attempt that fails is infinitely
// far off.
func (a *attempt) make(ctx context.Context, brief *specs.Brief) {
	if a.err = a.search.run(ctx); a.err != nil {
		a.miss = math.Inf(1)
		return
	}
	a.trades = a.search.trades()
	a.judge(brief)
}

// judge takes the margins of what was found, as its file will hold it.
func (a *attempt) judge(brief *specs.Brief) {
	a.frame = frameFor(brief.Name, &brief.Asked, a.search.g)
	var all []Requirement
	if all, a.err = a.search.s.margins(&a.frame.Geometry); a.err != nil {
		return
	}
	a.worst, a.miss, a.met = math.Inf(1), cost(all), true
	for _, q := range all {
		a.met = a.met && q.Met
		a.worst = math.Min(a.worst, q.Margin/q.Scale)
		if q.ID == "hand-path" {
			a.path = q.Value
		}
	}
}

// helped says whether one of the last two axis positions brought what is missed
// down by a tenth of a unit that matters; if not, more of them will not mend what
// fails.
func helped(tried []*attempt) bool {
	n := len(tried)
	return n < 3 || tried[n-1].miss < tried[n-2].miss-0.1 || tried[n-2].miss < tried[n-3].miss-0.1
}
