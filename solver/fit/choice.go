package fit

import (
	"context"
	"errors"
	"math"
	"slices"

	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/specs"
	"armwright/specs/stock"
)

// candidate is a combination with its brief and what it came to.
type candidate struct {
	Choice
	brief   specs.Brief
	program *Program
	from    *specs.Geometry // where the search began, nil for the middle of every range
	result  *Solution
}

// choose solves a brief that leaves values to the tool: the cheapest combination
// with which everything is met, or else the one that misses the least.
//
// Cheaper means a lighter tube; with the same tube a thinner cable; then a
// smaller sheave, fewer seat positions, and positions farther apart. In that
// order, combinations that a bound excludes (see prove) are left out, and the
// others solved one after another from the last station, until one meets
// everything. One that shares with a combination that failed all the values that
// the failure depends on is passed over, and so is one whose tube fails on the last
// station; they are solved after all if none of the others serves. When the context
// ends first, it is the best of those that were solved.
func choose(ctx context.Context, brief specs.Brief, options []specs.Option, opt *Options) (*Solution, error) {
	list := combinations(brief, options)
	if err := exclude(list); err != nil {
		return nil, err
	}
	c := chooser{opt: opt, list: list}
	taken, err := c.first(ctx, c.passed)
	if taken == nil && err == nil {
		taken, err = c.first(ctx, func(*candidate) *Why { return nil })
	}
	if err != nil {
		return c.stopped(ctx, err)
	}
	met := taken != nil
	for i := range list {
		if k := &list[i]; !met && k.Fate == Missed && (taken == nil || k.miss() < taken.miss()) {
			taken = k
		}
	}
	if taken == nil {
		taken = &list[0]
	}
	res, err := Solve(ctx, taken.brief, opt)
	if err == nil && met && res.Verdict != judge.Met { // from the middle of the ranges; from another station it is met
		again := Options{Progress: opt.Progress, Start: taken.from, Starts: opt.Starts, Terse: opt.Terse}
		res, err = Solve(ctx, taken.brief, &again)
	}
	if res == nil && ctx.Err() != nil {
		return c.stopped(ctx, err)
	}
	if res == nil || err != nil && ctx.Err() == nil {
		return nil, err
	}
	return c.settle(taken, res), err
}

// settle makes a combination the one chosen, with its solution.
func (c *chooser) settle(taken *candidate, res *Solution) *Solution {
	taken.Fate, taken.Why = Chosen, Why{}
	taken.measure(res)
	for i := range c.list {
		res.Choices = append(res.Choices, c.list[i].Choice)
	}
	return res
}

// stopped takes the best combination so far, where the context has ended the work.
func (c *chooser) stopped(ctx context.Context, err error) (*Solution, error) {
	if ctx.Err() == nil {
		return nil, err
	}
	var best *candidate
	for i := range c.list {
		k := &c.list[i]
		switch {
		case k.result == nil || k.result.NoStation != nil:
		case best == nil || k.miss() < best.miss():
			best = k
		}
		if k.Fate == "" {
			k.Fate, k.Why = Passed, Why{Stopped: true}
		}
	}
	if best == nil {
		return nil, ctx.Err()
	}
	return c.settle(best, best.result), ctx.Err()
}

// chooser goes through combinations in the order of cost.
type chooser struct {
	opt    *Options
	list   []candidate
	base   *specs.Geometry // of the last station solved
	failed []failure
	misses []float64 // of the combinations solved so far, in units that matter
}

// A search that changes nothing but what was left to the tool, and misses as much as
// the ones before, says that what is missed depends on something else. After so many in
// a row that came no nearer than by a share, only a few of the others, evenly spread
// to the dearest, are looked at.
const (
	enough = 4
	nearer = 0.05
	probes = 3
)

// stuck reports whether the last combinations came no nearer than those before.
func (c *chooser) stuck() bool {
	n := len(c.misses)
	if n <= enough {
		return false
	}
	return slices.Min(c.misses[n-enough:]) >= (1-nearer)*slices.Min(c.misses[:n-enough])
}

// probe reports whether combination i is one that is looked at all the same.
func (c *chooser) probe(i int) bool {
	n := len(c.list)
	return (i+1)*probes/n != i*probes/n
}

// failure is values that a requirement was missed with.
type failure struct {
	values []Picked
	missed []Miss
	unmade error
}

// first solves combinations not settled yet until one meets everything, nil if
// none does. skip says why one is to be passed over.
func (c *chooser) first(ctx context.Context, skip func(*candidate) *Why) (*candidate, error) {
	for i := range c.list {
		k := &c.list[i]
		if k.Fate == Excluded || k.Fate == Missed {
			continue
		}
		if why := skip(k); why != nil {
			k.Fate, k.Why = Passed, *why
			continue
		}
		if c.stuck() && !c.probe(i) {
			k.Fate, k.Why = Passed, Why{Before: enough}
			continue
		}
		if err := k.solve(ctx, c.opt, c.base); err != nil {
			return nil, err
		}
		if k.result.Verdict == judge.Met {
			for j := range c.list {
				if later := &c.list[j]; later.Fate == "" {
					later.Fate = Dearer
				}
			}
			return k, nil
		}
		k.Fate = Missed
		c.misses = append(c.misses, k.miss())
		c.learn(k)
	}
	return nil, nil
}

// solve searches the station of a combination, from another if there is one.
func (k *candidate) solve(ctx context.Context, opt *Options, from *specs.Geometry) (err error) {
	k.from = from
	k.result, err = Solve(ctx, k.brief, &Options{Progress: opt.Progress, Start: from, Starts: 1, Terse: true})
	if err == nil {
		k.measure(k.result)
	}
	return err
}

// miss is what a solved combination misses, in units that matter.
func (k *candidate) miss() float64 {
	if k.result.NoStation != nil {
		return math.Inf(1)
	}
	return Cost(k.result.Requirements)
}

// learn keeps what a combination that failed teaches about others.
func (c *chooser) learn(k *candidate) {
	k.Why = Why{Unmade: k.result.NoStation}
	if k.Why.Unmade != nil {
		c.failed = append(c.failed, failure{values: k.sharing(func(q *require.Kind) bool { return q.Drive }), unmade: k.Why.Unmade})
		return
	}
	c.base = &k.result.Frame.Geometry
	for i := range k.result.Requirements {
		q := &k.result.Requirements[i]
		if q.Met {
			continue
		}
		k.Why.Missed = append(k.Why.Missed, missed(q))
		if values := k.picked(q.DependsOn); len(values) > 0 {
			c.failed = append(c.failed, failure{values: values, missed: []Miss{missed(q)}})
		}
	}
}

func missed(q *judge.Requirement) Miss { return Miss{q.ID, q.Value, q.Limit, q.Unit} }

// sharing are the values of a combination that some requirements depend on.
func (k *candidate) sharing(some func(*require.Kind) bool) []Picked {
	var on []string
	for i := range k.program.Kinds {
		if q := &k.program.Kinds[i]; some(q) {
			on = append(on, q.DependsOn...)
		}
	}
	return k.picked(on)
}

// picked are the values of a combination at some keys.
func (k *candidate) picked(keys []string) []Picked {
	var values []Picked
	for _, v := range k.Values {
		if slices.Contains(keys, v.Path) {
			values = append(values, v)
		}
	}
	return values
}

// passed says why a combination need not be solved, as far as others show: nil if
// nothing speaks against it.
func (c *chooser) passed(k *candidate) *Why {
	for _, f := range c.failed {
		if !slices.ContainsFunc(f.values, func(v Picked) bool { return !slices.Contains(k.Values, v) }) {
			return &Why{Shared: f.values, Missed: f.missed, Unmade: f.unmade}
		}
	}
	// The tube alone is judged on another station.
	const tube = "stock.member"
	if c.base == nil || len(k.picked([]string{tube})) == 0 {
		return nil
	}
	all, err := k.program.Margins(c.base)
	if err != nil {
		return nil // a drive that does not go with this cable
	}
	for i := range all {
		if q := &all[i]; !q.Met && slices.Contains(q.DependsOn, tube) {
			return &Why{OnLast: true, Missed: []Miss{missed(q)}}
		}
	}
	return nil
}

// measure notes what a solved station costs.
func (k *candidate) measure(r *Solution) {
	k.Mass, k.Length, k.Width, k.Worst = r.Station.Mass(), 0, 0, math.Inf(1)
	if b := r.Frame.Geometry.Base; b != nil && r.NoStation == nil {
		k.Length, k.Width = b.Front-b.Rear, b.Width
	}
	for _, q := range r.Requirements {
		k.Worst = math.Min(k.Worst, q.Margin/q.Scale)
	}
	if len(r.Requirements) == 0 {
		k.Worst = 0
	}
}

// exclude marks the combinations that simple bounds show to be impossible.
func exclude(list []candidate) error {
	for i := range list {
		k := &list[i]
		var err error
		if i == 0 {
			if k.program, err = NewProgram(&k.brief.Asked); err == nil {
				k.program.Aim(k.brief.Aims())
			}
		} else {
			k.program, err = list[i-1].program.Like(&k.brief.Asked)
		}
		if err != nil {
			return err
		}
		if proofs := k.program.Prove(); len(proofs) > 0 {
			k.Fate, k.Why = Excluded, Why{Bound: &proofs[0]}
		}
	}
	return nil
}

// combinations are those of all options, the cheapest first.
func combinations(brief specs.Brief, options []specs.Option) []candidate {
	brief.Choose = specs.Choose{}
	list := []candidate{{brief: brief}}
	for _, o := range options {
		values := slices.Clone(o.Values)
		slices.SortStableFunc(values, func(a, b string) int { return slices.Compare(price(brief, o.Path, a), price(brief, o.Path, b)) })
		var longer []candidate
		for _, k := range list {
			for _, v := range values {
				next := candidate{brief: k.brief}
				next.Values = append(slices.Clone(k.Values), Picked{o.Path, v})
				if err := next.brief.Set(o.Path, v); err != nil {
					panic(errors.Join(errors.New("fit: an option that its own brief refuses"), err))
				}
				longer = append(longer, next)
			}
		}
		list = longer
	}
	return list
}

// price orders the values of an option: what weighs less, or asks for less work,
// costs less.
func price(b specs.Brief, path, value string) []float64 {
	switch path {
	case "stock.member":
		m, _ := stock.Member(value) // names of stock
		return []float64{m.Mass, m.H}
	case "stock.cable":
		c, _ := stock.Cable(value)
		return []float64{c.Diameter, c.Breaking}
	}
	_ = b.Set(path, value) // a copy; a value of the brief's own list
	s, _ := b.Span(path)
	if path == "posture.seat_pitch" || path == "posture.handle_pitch" {
		return []float64{-s.Value} // fewer holes
	}
	return []float64{s.Value}
}
