package fit

import (
	"context"
	"fmt"
	"math"
	"slices"

	"armwright/solver/nlp"
	"armwright/specs"
)

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

// search is the constrained minimisation for one number of axis positions.
type search struct {
	s           *program
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
	for k := range se.guard {
		se.guard[k] = s.roomOf(k)
	}
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
		free := Clone(se.g)
		// Finish as Check would see it, and see what the discrete settings cost.
		done := Clone(se.g)
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
		out := &rows{card: &s.card}
		scratch := &rows{card: &s.card}
		s.assess(done, se.d, &desk{}, func(m machine, p *sitter) Person { return s.best(m, p, out, scratch) }, out, nil)
		short, guard := 0.0, slices.Clone(se.guard)
		for k, w := range governing(&s.card, out) {
			if w == nil || w.margin >= s.roomOf(k) {
				continue
			}
			miss := s.roomOf(k) - w.margin
			short += miss / s.kinds[k].Scale
			if se.last.Status.Usable() {
				guard[k] += 1.1 * miss
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
			p.take(&s.placer, i)
			c.seat = s.nearestSeat(m, &p)
			r := s.place(m, &p, c, &rows{card: &s.card})
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
func (s *program) anchor(g *specs.Geometry) {
	m := newMachine(g)
	lowest := math.Inf(1)
	var p sitter
	for i := range s.persons {
		p.take(&s.placer, i)
		lowest = math.Min(lowest, s.wantedSeat(m, &p))
	}
	g.Seat.Lowest += g.Seat.Pitch * (math.Floor((lowest-g.Seat.Lowest)/g.Seat.Pitch) - 1)
}

// freeSettings chooses seat and axis for every boundary person, with the
// handle free.
func (s *program) freeSettings(g *specs.Geometry, d drive) []setting {
	m := newMachine(g)
	p := sitter{level: d.level}
	scratch := &rows{card: &s.card}
	set := make([]setting, len(s.persons))
	for i := range s.persons {
		p.take(&s.placer, i)
		near := s.nearestSeat(m, &p)
		top := math.Inf(-1)
		for k := max(0, near-1); k <= min(g.Seat.Positions-1, near+1); k++ {
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

// enter puts the search on a station, with the settings chosen for it.
func (se *search) enter(from *specs.Geometry) (err error) {
	se.g = se.s.resume(from)
	se.set, err = se.prepare()
	return err
}
