package fit

import (
	"context"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
)

// abreast is how many runs of the optimiser go on at a time: no answer depends on it.
func abreast() int { return min(2, runtime.GOMAXPROCS(0)) }

// together has as many as go abreast do work that they share, to its end.
func together(work func()) {
	var group sync.WaitGroup
	for range abreast() {
		group.Go(work)
	}
	group.Wait()
}

// ShareOut does n things, some at a time.
func ShareOut(n int, do func(i int)) {
	var next atomic.Int32
	together(func() {
		for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
			do(i)
		}
	})
}

// EveryAxes tries one, two, … axis positions, and returns the first that meets
// everything or the one that comes nearest. Where no drive can be made with any,
// the error says why, and the first attempt says where. When the context ends before
// all are tried it returns the best of those that were, nil for none, with ctx.Err().
//
// Several numbers are tried at a time, the least first, but judged in order: what
// was begun beyond the one chosen is stopped and leaves no trace, so the answer
// does not depend on how many there are. Nor does it on whether the optimiser was
// begun anew, from the given number of starts in all, before its time: whoever has
// no number left to try does that for the least that serves so far, which is likely
// to be chosen.
//
// Where the brief asks for coverage, that is asked of the station that meets the rest:
// see serve.
func EveryAxes(ctx context.Context, s *Program, opt *Options, log *SearchLog, brief *specs.Brief, starts int) (*Attempt, error) {
	if len(s.panel) > 0 {
		return s.serve(ctx, opt, log, brief)
	}
	n := s.Asked.Posture.AxisPositions
	t := trials{limit: n, serving: n}
	for i := range n {
		a := &Attempt{Search: Search{Program: s, Options: opt, Axes: i + 1}, index: i}
		a.ctx, a.stop = context.WithCancel(ctx)
		defer a.stop()
		t.all = append(t.all, a)
	}
	together(func() {
		for a := t.take(); a != nil; a = t.take() {
			if a.Make(a.ctx, brief); a.Met {
				a.others = a.Search.others(starts)
			}
			t.judge(a)
		}
		for a := t.served(nil); a != nil; a = t.served(a) {
			a.others.run(a.ctx)
		}
	})
	var best *Attempt
	log.Axes = log.Axes[:0]
	if ctx.Err() != nil {
		return bestSoFar(t.all, log), ctx.Err()
	}
	for _, a := range t.all[:t.limit] {
		if a.Err != nil && !drive.Unmade(a.Err) {
			return nil, a.Err
		}
		log.add(a)
		if best == nil || a.miss < best.miss || a.Met {
			best = a
		}
	}
	return best, best.Err
}

// bestSoFar is the best of the attempts that came to an end, nil for none.
func bestSoFar(all []*Attempt, log *SearchLog) (best *Attempt) {
	for _, a := range all {
		if !a.made || a.Err != nil {
			continue
		}
		log.add(a)
		if best == nil || a.Met && !best.Met || a.Met == best.Met && a.miss < best.miss {
			best = a
		}
	}
	return best
}

// trials are the attempts of everyAxes, shared by those who work on them.
type trials struct {
	all []*Attempt

	mu      sync.Mutex
	next    int // the first that nobody has taken
	limit   int // the first that is not worth while
	serving int // the least that meets everything so far, len(all) for none
}

// take returns an attempt to make, nil if none is left that is worth while.
func (t *trials) take() *Attempt {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.next >= t.limit {
		return nil
	}
	t.next++
	return t.all[t.next-1]
}

// judge takes note of an attempt that is made. More axis positions need not be
// tried than serve, nor once more of them have not helped.
func (t *trials) judge(a *Attempt) {
	t.mu.Lock()
	defer t.mu.Unlock()
	a.made = true
	if a.Met {
		t.serving = min(t.serving, a.index)
	}
	for i, made := range t.all[:t.limit] {
		if !made.made {
			break
		}
		if failed := made.Err != nil && !drive.Unmade(made.Err); failed || made.Met || !helped(t.all[:i+1]) {
			t.limit = i + 1
			break
		}
	}
	t.limit = min(t.limit, t.serving+1)
	for _, a := range t.all[t.limit:] {
		a.stop()
	}
}

// served returns the least attempt that meets everything so far, nil if there is
// none but the one before.
func (t *trials) served(before *Attempt) *Attempt {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.serving >= t.limit || t.all[t.serving] == before {
		return nil
	}
	return t.all[t.serving]
}

// Attempt is one number of axis positions and how it came out.
type Attempt struct {
	Search Search
	frame  specs.Frame
	Met    bool
	worst  float64 // least scaled margin
	miss   float64 // sum of what is missed, in units that matter
	path   float64 // worst hand path, mm
	rest   bool    // everything but coverage is met
	share  float64 // of the panel that fits, where coverage is asked
	trades []Trade
	choice int     // index in the log
	begun  bool    // it is where the search was begun, not where it ended
	others *others // from other starts; nil before they are wanted
	Err    error

	// Of those that are made beside each other.
	index int
	ctx   context.Context
	stop  context.CancelFunc
	made  bool
}

// Make searches, and judges what was found. An attempt that fails is infinitely
// far off.
func (a *Attempt) Make(ctx context.Context, brief *specs.Brief) {
	a.search(ctx, brief)
	a.polish(ctx, brief)
}

// search is Make, nothing polished.
func (a *Attempt) search(ctx context.Context, brief *specs.Brief) {
	if a.Err = a.Search.run(ctx); a.Err != nil {
		a.miss = math.Inf(1)
		return
	}
	a.trades = a.Search.trades()
	a.Judge(brief)
}

// Judge takes the margins of what was found, as its file will hold it.
func (a *Attempt) Judge(brief *specs.Brief) {
	a.frame = judge.FrameFor(brief.Name, &brief.Asked, a.Search.Geometry)
	var all []judge.Requirement
	if all, a.Err = a.Search.Program.Margins(&a.frame.Geometry); a.Err != nil {
		return
	}
	a.worst, a.miss, a.Met, a.rest = math.Inf(1), 0, true, true
	for _, q := range all {
		room := a.Search.Program.RoomOf(a.Search.Program.KindOf(q.ID))
		met := q.Met && q.Margin >= room-quantisation*q.Scale
		a.Met = a.Met && met
		if q.ID == "coverage" {
			a.share = q.Value
		} else {
			a.rest = a.rest && met
		}
		a.miss += math.Max(0, (room-q.Margin)/q.Scale)
		a.worst = math.Min(a.worst, q.Margin/q.Scale)
		if q.ID == "hand-path" {
			a.path = q.Value
		}
	}
}

// Misses is the sum of what an attempt misses, in units that matter; without end where
// it made no station.
func (a *Attempt) Misses() float64 {
	if a.Search.Program == nil {
		return math.Inf(1)
	}
	return a.miss
}

// Hopeless says whether an attempt ended so far off that another start hardly ever
// mends it: of 185 such in random briefs, one.
func (a *Attempt) Hopeless() bool { return a.Search.Last.KKT.Violation > Hopeless }

// helped says whether one of the last two axis positions brought what is missed
// below the least of those before, by a tenth of a unit that matters and a fiftieth
// of it; if not, more of them will not mend what fails.
func helped(tried []*Attempt) bool {
	n := len(tried)
	if n < 3 {
		return true
	}
	before := math.Inf(1)
	for _, a := range tried[:n-2] {
		before = min(before, a.miss)
	}
	now := min(tried[n-1].miss, tried[n-2].miss)
	return now < before-0.1 && now < before*0.98
}

// Frame is what was found, as its file will hold it.
func (a *Attempt) Frame() specs.Frame { return a.frame }

// Outcome judges in full what an attempt found; nil where it found no station.
func (a *Attempt) Outcome() (*judge.Result, error) {
	if a.Search.Program == nil {
		return nil, nil
	}
	return a.Search.Program.Check(a.frame, judge.Persons{})
}

// Cost is what requirements are missed by, in units that matter.
func Cost(list []judge.Requirement) float64 {
	var sum float64
	for _, q := range list {
		sum += math.Max(0, -q.Margin/q.Scale)
	}
	return sum
}

// add takes an attempt into the log, unless it has no drive.
func (l *SearchLog) add(a *Attempt) {
	if a.Err != nil {
		return
	}
	a.choice = len(l.Axes)
	l.Iterations += a.Search.iterations
	l.Evaluations += a.Search.evaluations
	l.Axes = append(l.Axes, a.told())
}

// anew takes another search with as many axis positions into the log, if there is one.
func (l *SearchLog) anew(a *Attempt) {
	if l == nil {
		return
	}
	l.Starts++
	l.Iterations += a.Search.iterations
	l.Evaluations += a.Search.evaluations
}

// replace has the log, if there is one, list an attempt where it chose another.
func (l *SearchLog) replace(a *Attempt) {
	if l != nil {
		l.Axes[a.choice] = a.told()
	}
}

// told is the attempt as the log lists it.
func (a *Attempt) told() AxesChoice {
	return AxesChoice{Positions: a.Search.Axes, HandPath: a.path, Worst: a.worst}
}
