package fit

import (
	"context"
	"sync"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
)

// Options steer Solve. The zero value means defaults.
type Options struct {
	// Progress is told what the search is doing, one call at a time. Nil means
	// nobody listens.
	Progress func(Progress)
	// Start is a station to begin from, such as the one solved for a brief that
	// differs by little. Its number of axis positions is tried alone, and only if
	// that leaves a requirement unmet, and the station itself does too, is everything
	// searched as without it. Nil means none.
	Start *specs.Geometry
	// Starts is from how many points the optimiser is begun in all once a station
	// is found, to see whether they lead to the same one. Zero means eight, 1 only
	// the first.
	Starts int
	// Room is what requirements are to have in hand beside their limits, by id and
	// inside units, as far as that can be: the verdict is of the limits alone. Nil
	// means none.
	Room map[string]float64
	// Terse leaves out what only a report tells, such as the drive ratios side by
	// side.
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

// Solve turns a brief into a station. It tries one, two, … axis positions and
// keeps the least number that meets every requirement; if none does, the one
// that comes nearest. What the brief leaves to the tool is chosen around that. When
// stopped early the error is ctx.Err(), and the solution is the best so far, nil where
// there is none; what was not looked into is not told as infeasible.
func Solve(ctx context.Context, brief specs.Brief, opt *Options) (*Solution, error) {
	if opt == nil {
		opt = &Options{}
	}
	brief = brief.Quantised()
	if options := brief.Options(); len(options) > 0 {
		return choose(ctx, brief, options, opt)
	}
	s, err := NewProgram(&brief.Asked)
	if err != nil {
		return nil, err
	}
	s.Aim(brief.Aims())
	if opt.Room != nil {
		s.Leave(opt.Room)
	} else {
		s.Reserve()
	}
	crowd := judge.Random(brief.People)
	if s.Bench() {
		g := s.BenchRig()
		if _, err := s.Design(g); drive.Unmade(err) {
			return without(ctx, &brief, g, err)
		} else if err != nil {
			return nil, err
		}
		res, err := s.tell(judge.FrameFor(brief.Name, &brief.Asked, g), crowd, opt)
		if err != nil {
			return nil, err
		}
		res.Search = &SearchLog{Status: "solved", Message: "closest feasible cam"}
		return res, nil
	}

	log := &SearchLog{Status: "solved", Starts: 1, Agreed: 1}
	var best *Attempt
	if g := opt.Start; g != nil && judge.Missing(&specs.Frame{Asked: brief.Asked, Geometry: *g}) == nil && len(g.Pivots.Axes) <= s.Asked.Posture.AxisPositions {
		a := &Attempt{Search: Search{Program: s, Options: opt, Axes: len(g.Pivots.Axes), Start: g}}
		if a.Make(ctx, &brief); a.Err != nil && !drive.Unmade(a.Err) {
			return nil, a.Err
		}
		if !a.Met { // a station that meets the brief is an answer, whatever became of it
			there := &Attempt{Search: Search{Program: s, Options: opt, Axes: a.Search.Axes, Geometry: judge.Clone(g)}, begun: true}
			if there.Judge(&brief); there.Met {
				a = there
			}
		}
		if log.add(a); a.Met {
			best = a
		}
	}
	if best == nil {
		best, err = EveryAxes(ctx, s, opt, log, &brief, opt.starts())
		if drive.Unmade(err) {
			return without(ctx, &brief, best.Search.Geometry, err)
		}
		if best == nil || err != nil && ctx.Err() == nil {
			return nil, err
		}
	}
	for i := range log.Axes {
		log.Axes[i].Chosen = i == best.choice
	}
	if best.Met && !best.begun {
		starts := opt.starts()
		if len(s.panel) > 0 {
			starts = min(starts, servedStarts)
		}
		if err := best.repeat(ctx, &brief, log, starts); err != nil && ctx.Err() == nil {
			return nil, err
		}
	}
	var trades []Trade
	var failed error
	var group sync.WaitGroup
	group.Go(func() { trades, failed = best.Search.holding(ctx, best.trades) })
	res, err := s.tell(best.frame, crowd, opt)
	group.Wait()
	if err != nil {
		return nil, err
	}
	if failed != nil && ctx.Err() == nil {
		return nil, failed
	}
	log.Objective = s.termsOf(&res.Frame.Geometry, res.People.Boundary, &res.Station)
	res.Search, res.Trades = log, trades
	switch {
	case ctx.Err() != nil:
		log.Status, log.Message = "stopped", "the best station so far"
	case res.Verdict != judge.Met:
		res.Verdict = judge.Infeasible
	}
	return res, ctx.Err()
}

// tell checks a frame and lays its drive ratios side by side.
func (s *Program) tell(f specs.Frame, crowd judge.Persons, opt *Options) (*Solution, error) {
	var ratios []drive.RatioChoice
	var group sync.WaitGroup
	if !opt.Terse {
		group.Go(func() { ratios = s.SideBySide(&f.Geometry) })
	}
	res, err := s.Check(f, crowd)
	group.Wait()
	if err != nil {
		return nil, err
	}
	res.Resistance.Ratios = ratios
	return &Solution{Result: *res}, nil
}

// without is the outcome for a brief whose drive cannot be made on a geometry.
func without(ctx context.Context, brief *specs.Brief, g *specs.Geometry, why error) (*Solution, error) {
	res := &Solution{NoStation: why}
	res.Frame, res.Verdict = judge.FrameFor(brief.Name, &brief.Asked, g), judge.Infeasible
	return res, ctx.Err()
}
