package fit

import (
	"context"
	"sync"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
)

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
	s.Reserve(opt.Room)
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
		if err == nil {
			best, err = best.Anew(ctx, &brief, log)
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
