package fit

import (
	"context"
	"math"
	"sync/atomic"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/nlp"
	"armwright/specs"
)

// wide is how far to either side the other starts lie at most, in the scales of
// the variables: 100 mm of pivot height, 4 degrees of toe and cant, 200 mm of the
// base's ends. Farther out the seats and axis positions that people have been given are
// no longer theirs.
const wide = 2

// agreement is the difference of objectives, relative, up to which two starts
// are said to have found the same station: some times what the optimiser may
// leave, see improvement.
const agreement = 5 * improvement

// repeat begins the optimiser again from other points, notes how many lead to the
// station already found, and goes over to a better one.
func (a *Attempt) repeat(ctx context.Context, brief *specs.Brief, log *SearchLog, starts int) error {
	se := &a.Search
	if a.others == nil {
		a.others = se.others(starts)
	}
	found, err := a.others.wait(ctx)
	if err != nil {
		return err
	}
	log.Starts, log.Agreed = len(found), 0
	near := arrival{found[0].F}.near
	best := 0
	for i, r := range found {
		if i > 0 {
			log.Iterations += r.Stats.Iterations
			log.Evaluations += r.Stats.Evaluations + r.Stats.Differences
		}
		switch {
		case arrived(&r) && near(r.F):
			log.Agreed++
		case !r.Status.Usable():
		case near(r.F):
			log.Agreed++
		case r.F < found[best].F:
			best = i
		}
	}
	if best == 0 {
		return nil
	}
	other := Attempt{Search: *se, choice: a.choice}
	o := &other.Search
	o.Geometry, o.Settings, o.Last = judge.Clone(se.free), se.held, found[best]
	o.Apply(o.Last.X)
	o.free = judge.Clone(o.Geometry)
	if other.Err = o.Complete(o.Geometry); other.Err != nil {
		return nil
	}
	other.trades = o.trades()
	if other.Judge(brief); other.Err == nil && other.Met {
		*a = other
	}
	return other.Err
}

// arrival ends a run from another point when it has come to a station that was
// found before with the objective f: it meets every requirement, costs as much, and
// its next step does not promise to cost less by more than agreement. Nor is a run
// kept on that after half the patience still misses by more than half of what is
// hopeless.
type arrival struct{ f float64 }

func (a arrival) near(f float64) bool {
	return math.Abs(f-a.f) <= agreement*max(1, math.Abs(a.f))
}

// Record implements nlp.Recorder.
func (a arrival) Record(it nlp.Iteration) error {
	there := it.Violation <= quantisation/2 && a.near(it.F) && it.F-it.Promise >= a.f-agreement*max(1, math.Abs(a.f))
	if there || it.Number >= patience/2 && it.Violation > Hopeless/2.0 {
		return nlp.ErrStop
	}
	return nil
}

// arrived says whether a run was ended for having come to a known station.
func arrived(r *nlp.Result) bool {
	return r.Status == nlp.UserStop && r.KKT.Violation <= quantisation/2
}

// others begins the optimiser anew from points about a search's answer, with the
// settings and the drive that it ended with: the same from everywhere is the best
// evidence there is that nothing better lies near. Several may work on it at a time.
type others struct {
	se     *Search
	points [][]float64
	next   atomic.Int32 // the first point nobody has begun from, but for the answer itself
	found  []nlp.Result // the answer first
	failed []error
}

// others from n points in all.
func (se *Search) others(n int) *others {
	o := &others{se: se, found: []nlp.Result{se.Last}, failed: make([]error, n)}
	if n == 1 {
		return o
	}
	here := se.ended()
	o.points = here.about(n)
	o.found = append(o.found, make([]nlp.Result, n-1)...)
	return o
}

// ended is a quiet search that stands where the optimiser left the best round of this one.
func (se *Search) ended() Search {
	return Search{Program: se.Program, Options: &Options{}, Axes: se.Axes, Geometry: judge.Clone(se.free), Drive: se.Drive, Settings: se.held, Guard: se.Guard}
}

// about are n points about where a search stands, that first.
func (se *Search) about(n int) [][]float64 {
	around, _, _ := se.Problem()
	x := se.Point()
	for j := range x {
		around.Lower[j] = math.Max(around.Lower[j], x[j]-wide*around.Scale[j])
		around.Upper[j] = math.Min(around.Upper[j], x[j]+wide*around.Scale[j])
	}
	return around.Spread(x, n, 0)
}

// nearly is what an attempt may miss in all, in units that matter, to be begun anew.
const nearly = Hopeless / 2

// Anew searches again, settings and drive as well, from points about one that came near,
// as many as the options have starts in all, and returns the first attempt that meets
// everything, or the nearest: one search ends now and then where two parts are in each
// other's way that need not be. Two go on at a time, whatever there is to do it with, so
// that the answer does not depend on it. An attempt that meets everything, is far off or
// has not been searched for is returned as it is.
func (a *Attempt) Anew(ctx context.Context, brief *specs.Brief, log *SearchLog) (*Attempt, error) {
	se := &a.Search
	if a.Err != nil || a.Met || a.miss >= nearly || se.free == nil || len(se.Program.panel) > 0 {
		return a, nil
	}
	n := se.Options.starts()
	if n == 1 {
		return a, nil
	}
	here := se.ended()
	points := here.about(n)[1:]
	const pair = 2
	best := a
	for len(points) > 0 && !best.Met && ctx.Err() == nil {
		tried := make([]*Attempt, min(pair, len(points)))
		ShareOut(len(tried), func(i int) {
			start := se.ended()
			start.Apply(points[i])
			tried[i] = &Attempt{Search: Search{Program: se.Program, Options: se.Options, Axes: se.Axes, Start: start.Geometry}}
			tried[i].Make(ctx, brief)
		})
		points = points[len(tried):]
		for _, o := range tried {
			switch {
			case ctx.Err() != nil:
				return best, ctx.Err()
			case drive.Unmade(o.Err):
				continue
			case o.Err != nil:
				return nil, o.Err
			}
			log.anew(o)
			if !best.Met && (o.Met || o.miss < best.miss) {
				best = o
			}
		}
	}
	if best != a {
		best.choice = a.choice
		log.replace(best)
	}
	return best, nil
}

// run begins from one point after the other until all are taken.
func (o *others) run(ctx context.Context) {
	se := o.se
	for i := int(o.next.Add(1)); i < len(o.found) && ctx.Err() == nil; i = int(o.next.Add(1)) {
		one := se.ended()
		p, _, settings := one.Problem()
		settings.Improvement = improvement / 2
		settings.Recorder = arrival{se.Last.F}
		settings.Warm = se.warm(&p) // the curvature is much the same
		o.found[i], o.failed[i] = nlp.Minimize(ctx, p, o.points[i], settings)
	}
}

// wait returns what was found from each point, which nobody works on any more.
func (o *others) wait(ctx context.Context) ([]nlp.Result, error) {
	together(func() { o.run(ctx) })
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	for _, err := range o.failed {
		if err != nil {
			return nil, err
		}
	}
	return o.found, nil
}
