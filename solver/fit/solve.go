package fit

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"armwright/solver/nlp"
	"armwright/specs"
)

// Options steer Solve. The zero value means defaults.
type Options struct {
	// Progress is told what the search is doing, one call at a time. Nil means
	// nobody listens.
	Progress func(Progress)
	// Start is a station to begin from, such as the one solved for a brief that
	// differs by little. Its number of axis positions is tried alone, and only if
	// that leaves a requirement unmet is everything searched as without it. Nil
	// means none.
	Start *specs.Geometry
	// Starts is from how many points the optimiser is begun in all once a station
	// is found, to see whether they lead to the same one. Zero means eight, 1 only
	// the first.
	Starts int
	// Terse leaves out what only a report tells: the drive ratios side by side, and
	// why a brief cannot be met, which takes several searches.
	Terse bool

	talk sync.Mutex
}

// starts is Starts with its default.
func (o *Options) starts() int {
	if o.Starts == 0 {
		return starts
	}
	return o.Starts
}

// Progress is one step of the search.
type Progress struct {
	Axes      int     // axis positions being tried
	Round     int     // of choosing settings anew
	Iteration int     // of the optimiser
	Worst     float64 // largest scaled violation
}

// quantisation keeps the solved requirements clear of their limits by a little,
// so that rounding the frame to its file's digits cannot turn a verdict; in
// units that matter.
const quantisation = 0.002

// A search whose worst requirement is missed by more than hopeless units that
// matter is not begun again with other settings, nor one whose miss fell to no
// less than stalled of what it was.
// A single run is left when it is still that far off after patience iterations.
const (
	hopeless = 10
	stalled  = 0.8
	patience = 15
)

// improvement of the objective, relative, that is worth four more iterations.
const improvement = 2e-3

// rounds bounds how often settings are chosen anew and discretisation guards
// widened for one number of axis positions.
const rounds = 6

// Solve turns a brief into a station. It tries one, two, … axis positions and
// keeps the least number that meets every requirement; if none does, the one
// that comes nearest, with the requirements that conflict. What the brief leaves
// to the tool is chosen around that. The error is ctx.Err() when stopped early.
func Solve(ctx context.Context, brief specs.Brief, opt *Options) (*Result, error) {
	if opt == nil {
		opt = &Options{}
	}
	brief = brief.Quantised()
	if options := brief.Options(); len(options) > 0 {
		return choose(ctx, brief, options, opt)
	}
	s, err := newStudy(&brief.Asked)
	if err != nil {
		return nil, err
	}
	crowd := Random(brief.People)
	if s.bench() {
		g := s.benchRig()
		if _, err := s.design(g); unmade(err) {
			return s.without(ctx, opt, &brief, g, err)
		} else if err != nil {
			return nil, err
		}
		res, err := s.tell(frameFor(brief.Name, &brief.Asked, g), crowd, opt)
		if err != nil {
			return nil, err
		}
		res.Search = &SearchLog{Status: "solved", Message: "closest feasible cam"}
		if res.Verdict != Met && !opt.Terse {
			err = explain(ctx, opt, s, brief, res)
		}
		return res, err
	}

	log := &SearchLog{Status: "solved", Starts: 1, Agreed: 1}
	var best *attempt
	if g := opt.Start; g != nil && complete(&specs.Frame{Asked: brief.Asked, Geometry: *g}) == nil && len(g.Pivots.Axes) <= s.asked.Posture.AxisPositions {
		a := &attempt{search: search{s: s, opt: opt, axes: len(g.Pivots.Axes), start: g}}
		if a.make(ctx, &brief); a.err != nil && !unmade(a.err) {
			return nil, a.err
		}
		if log.add(a); a.met {
			best = a
		}
	}
	if best == nil {
		best, err = everyAxes(ctx, s, opt, log, &brief, opt.starts())
		if unmade(err) {
			return s.without(ctx, opt, &brief, best.search.g, err)
		}
		if err != nil {
			return nil, err
		}
	}
	for i := range log.Axes {
		log.Axes[i].Chosen = i == best.choice
	}
	if best.met {
		if err := best.repeat(ctx, &brief, log, opt.starts()); err != nil {
			return nil, err
		}
	}
	res, err := s.tell(best.frame, crowd, opt)
	if err != nil {
		return nil, err
	}
	res.Search = log
	res.Trades = best.trades
	if res.Verdict != Met {
		res.Verdict = Infeasible
		if !opt.Terse {
			if err := explain(ctx, opt, s, brief, res); err != nil {
				return nil, err
			}
		}
	}
	return res, ctx.Err()
}

// tell checks a frame and lays its drive ratios side by side.
func (s *study) tell(f specs.Frame, crowd Persons, opt *Options) (*Result, error) {
	var ratios []RatioChoice
	var group sync.WaitGroup
	if !opt.Terse {
		group.Go(func() { ratios = s.sideBySide(&f.Geometry) })
	}
	res, err := s.check(f, crowd)
	group.Wait()
	if err != nil {
		return nil, err
	}
	res.Resistance.Ratios = ratios
	return res, nil
}

// without is the result of a brief whose drive cannot be made on a geometry.
func (s *study) without(ctx context.Context, opt *Options, brief *specs.Brief, g *specs.Geometry, why error) (*Result, error) {
	res := &Result{Frame: frameFor(brief.Name, &brief.Asked, g), Verdict: Infeasible, NoStation: why, study: s}
	if opt.Terse {
		return res, ctx.Err()
	}
	if err := explain(ctx, opt, s, *brief, res); err != nil {
		return nil, err
	}
	return res, ctx.Err()
}

// search is the constrained minimisation for one number of axis positions.
type search struct {
	s           *study
	opt         *Options
	axes        int
	start       *specs.Geometry // to begin from; nil for the middle of every range
	g           *specs.Geometry
	d           drive
	set         []setting
	free        *specs.Geometry // where the optimiser left the best round, before finish
	held        []setting       // that it held there
	guard       []float64       // by kind, inside units: what discrete settings cost
	iterations  int
	evaluations int
	round       int
	last        nlp.Result
}

func (se *search) run(ctx context.Context) error {
	s := se.s
	se.g = s.begin(se.axes)
	if se.start != nil {
		se.g = s.resume(se.start)
	}
	se.guard = make([]float64, len(s.kinds))
	before, least := math.Inf(1), math.Inf(1)
	var best search
	var held []setting
	for se.round = 1; se.round <= rounds; se.round++ {
		set, err := se.prepare()
		if unmade(err) && best.g != nil {
			break // the drive that an earlier round made will do
		}
		if err != nil {
			return err
		}
		if se.last.Status == nlp.Infeasible && slices.Equal(set, held) {
			break // nothing has changed that could help
		}
		se.set, held = set, set
		if err := se.minimise(ctx); err != nil {
			return err
		}
		free := clone(se.g)
		// Finish as Check would see it, and see what the discrete settings cost.
		done := clone(se.g)
		se.finish(done)
		if done.Cam == nil { // axes and arm have changed since the drive was designed
			se.d, err = s.design(done)
			if unmade(err) && best.g != nil {
				break
			}
			if err != nil {
				return err
			}
		}
		out := &rows{s: s}
		scratch := &rows{s: s}
		s.assess(done, se.d, &desk{}, func(m machine, p *sitter) Person { return s.best(m, p, out, scratch) }, out, nil, nil)
		short, guard := 0.0, slices.Clone(se.guard)
		for k, w := range governing(s, out) {
			if w != nil && w.margin < 0 {
				short -= s.scaled(w)
				if se.last.Status.Usable() {
					guard[k] -= 1.1 * w.margin
				}
			}
		}
		if short < least {
			least, best = short, *se
			best.g, best.free, best.held = done, free, set
		}
		se.guard = guard
		miss := se.last.KKT.Violation
		if short == 0 || !se.last.Status.Usable() && (miss > hopeless || miss > stalled*before) {
			break
		}
		before = miss
	}
	// A later round is not always the better one.
	best.round, best.iterations, best.evaluations = se.round, se.iterations, se.evaluations
	*se = best
	return nil
}

// prepare designs handles and drive for the geometry as it stands, and chooses the
// settings that the optimiser is to hold.
func (se *search) prepare() ([]setting, error) {
	s := se.s
	s.anchor(se.g)
	s.handlesOf(se.g, s.freeSettings(se.g, drive{}))
	var err error
	if se.d, err = s.design(se.g); err != nil {
		return nil, err
	}
	return s.freeSettings(se.g, se.d), nil
}

// finish chooses the discrete settings and trims what nobody uses.
func (se *search) finish(g *specs.Geometry) {
	s := se.s
	se.set = s.freeSettings(g, se.d)
	s.handlesOf(g, se.set)
	s.stepsOf(g, se.set)
	lo, hi := g.Seat.Positions, 0
	for _, c := range se.set {
		lo, hi = min(lo, c.seat), max(hi, c.seat)
	}
	g.Seat.Lowest += float64(lo) * g.Seat.Pitch
	g.Seat.Positions = hi - lo + 1
	if s.reclined() {
		// The stop pad's slope is the middle of the arms', inside the range that they
		// are to keep.
		m := newMachine(g)
		lo, hi := math.Inf(1), math.Inf(-1)
		p := sitter{level: se.d.level}
		for i, c := range se.set {
			p.take(s, i)
			c.seat = s.nearestSeat(m, &p)
			r := s.place(m, &p, c, &rows{s: s})
			lo, hi = math.Min(lo, r.Pose.ArmSlope), math.Max(hi, r.Pose.ArmSlope)
		}
		kept := s.asked.Posture.ArmAngle
		g.Pad.Slope = max(kept.From, min(kept.To, (lo+hi)/2))
	}
}

// anchor moves the lowest seat position by whole pitches to one below the
// lowest seat anybody wants, so that the optimiser may move people both ways. The
// settings are held while the optimiser works, and a whole pitch too few or too
// many is something it could not mend.
func (s *study) anchor(g *specs.Geometry) {
	m := newMachine(g)
	lowest := math.Inf(1)
	var p sitter
	for i := range s.persons {
		p.take(s, i)
		lowest = math.Min(lowest, s.wantedSeat(m, &p))
	}
	g.Seat.Lowest += g.Seat.Pitch * (math.Floor((lowest-g.Seat.Lowest)/g.Seat.Pitch) - 1)
}

// clone is a geometry that shares nothing with g that the search changes.
func clone(g *specs.Geometry) *specs.Geometry {
	c := *g
	c.Pivots.Axes = append([]specs.Axis(nil), g.Pivots.Axes...)
	c.Pad, c.Seat, c.Back, c.Base = copied(g.Pad), copied(g.Seat), copied(g.Back), copied(g.Base)
	c.FootPlate = copied(g.FootPlate)
	return &c
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

// freeSettings chooses seat and axis for every boundary person, with the
// handle free.
func (s *study) freeSettings(g *specs.Geometry, d drive) []setting {
	m := newMachine(g)
	p := sitter{level: d.level}
	scratch := &rows{s: s}
	set := make([]setting, len(s.persons))
	for i := range s.persons {
		p.take(s, i)
		seat := s.nearestSeat(m, &p)
		top := math.Inf(-1)
		for k := max(0, seat-1); k <= min(g.Seat.Positions-1, seat+1); k++ {
			for a := range m.axes {
				scratch.list = scratch.list[:0]
				s.place(m, &p, setting{k, a, -1}, scratch)
				if v := scratch.least(); v > top+tie {
					top, set[i] = v, setting{k, a, -1}
				}
			}
		}
	}
	return set
}

// minimise runs the optimiser over the continuous variables with the settings
// held.
func (se *search) minimise(ctx context.Context) error {
	p, _, settings := se.problem()
	if se.last.X != nil {
		settings.Warm = se.last.Warm()
		settings.Warm.X = nil
	}
	r, err := nlp.Minimize(ctx, p, se.point(), settings)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return fmt.Errorf("fit: %w", err)
	}
	se.last = r
	se.iterations += r.Stats.Iterations
	se.evaluations += r.Stats.Evaluations + r.Stats.Differences
	se.apply(r.X)
	return nil
}

// point is where the geometry stands now, inside the bounds.
func (se *search) point() []float64 {
	vars := se.s.variables(se.g)
	x := make([]float64, len(vars))
	for j, v := range vars {
		x[j] = math.Max(v.low, math.Min(v.high, *v.at))
	}
	return x
}

func (se *search) apply(x []float64) {
	for j, v := range se.s.variables(se.g) {
		*v.at = x[j]
	}
	se.s.derive(se.g)
}

// problem states the search as a nonlinear program: the requirements' margins
// in units that matter, less the guards, must not be negative. It returns the
// requirement of each row; rows past those are sanity's.
func (se *search) problem() (nlp.Problem, []int, *nlp.Settings) {
	s := se.s.coarse()
	vars := s.variables(se.g)
	n := len(vars)
	p := nlp.Problem{N: n, Lower: make([]float64, n), Upper: make([]float64, n), Scale: make([]float64, n)}
	for j, v := range vars {
		p.Lower[j], p.Upper[j], p.Scale[j] = v.low, v.high, v.scale
	}
	d := se.d
	d.MomentArm = every(d.MomentArm, coarseStride)
	out := &rows{s: s, quiet: true}
	known := &model{s: s, d: d}
	var sat []Person
	judge := func(x []float64) {
		se.apply(x)
		known.move(x)
		out.list = out.list[:0]
		sat = known.place(se.g, se.set, out, sat[:0])
		s.whole(se.g, d, sat, out, known, nil, nil)
	}
	judge(se.point())
	kinds := make([]int, len(out.list))
	for i, w := range out.list {
		kinds[i] = w.kind
	}
	p.M = len(kinds) + s.sanityRows()
	p.RowScale = ones(p.M)
	p.Both = func(c, x []float64) float64 {
		judge(x)
		for i, w := range out.list {
			c[i] = (w.margin-se.guard[w.kind])/s.kinds[w.kind].Scale - quantisation
		}
		parts := s.sanity(se.g, c[len(kinds):len(kinds)])
		for i := range parts {
			parts[i] /= 5 // mm to units that matter
		}
		return s.objective(se.g, sat)
	}
	return p, kinds, &nlp.Settings{
		MaxIterations: 60, Stationarity: 3e-4, Violation: quantisation / 2, Complementarity: 1e-4, Noise: 1e-13, Improvement: improvement,
		Recorder: recorder{se},
	}
}

// recorder hands the optimiser's iterations on to whoever listens.
type recorder struct{ se *search }

func (r recorder) Record(it nlp.Iteration) error {
	if f := r.se.opt.Progress; f != nil {
		r.se.opt.talk.Lock()
		f(Progress{Axes: r.se.axes, Round: r.se.round, Iteration: it.Number, Worst: it.Violation})
		r.se.opt.talk.Unlock()
	}
	if it.Number >= patience && it.Violation > hopeless {
		return nlp.ErrStop
	}
	return nil
}

// objective is what the station should have least of, once it meets its
// requirements: floor, then misalignment, then feet off the floor and short
// pads. Each term is 1 for an amount a user would call noticeable.
func (s *study) objective(g *specs.Geometry, sat []Person) float64 {
	b := g.Base
	f := (b.Front - b.Rear + b.Width) / floorUnit
	n := float64(len(sat))
	for i := range sat {
		p := &sat[i]
		f += (sq(p.Tilt/(5*deg)) + sq(p.Turn/(10*deg)) + sq(p.Offset/10) + sq(p.HandPath/15)) / n
		f += sq((s.sole(p.Person, p.SeatTop)-40)/80) / n
	}
	if !s.reclined() {
		f += (300 - g.Pad.Far) / 100
	}
	return f
}

func sq(x float64) float64 { return x * x }
