package fit

import (
	"context"
	"slices"

	"armwright/solver/judge"
	"armwright/specs"
)

// serve looks for a station that serves as many as coverage asks for, from the one that
// meets the rest of the brief: see Serve. Where the rest cannot be met, it is the station
// that comes nearest to that.
func (s *Program) serve(ctx context.Context, opt *Options, log *SearchLog, brief *specs.Brief) (*Attempt, error) {
	best, err := EveryAxes(ctx, s.asking(0), opt, log, brief, 1)
	if best == nil || err != nil {
		return best, err
	}
	if !best.Met {
		best.Search.Program, best.others, best.trades, best.begun = s, nil, nil, true
		best.Judge(brief)
		return best, best.Err
	}
	return s.Serve(ctx, opt, log, brief, best.Search.Geometry)
}

// Serve looks for a station that serves as many as coverage asks for from one that meets
// the rest of the brief, with as many axis positions and with more: from farther off
// hardly anybody is near enough to being served to show the way. It returns the first
// that meets everything or, of those that meet the rest, the one that serves the most.
//
// Two numbers of axis positions are tried at a time, whatever there is to do it with, so
// that the answer does not depend on it. Where none is enough, less is asked of the one
// that came nearest, until it is found beside all the rest.
func (s *Program) Serve(ctx context.Context, opt *Options, log *SearchLog, brief *specs.Brief, from *specs.Geometry) (*Attempt, error) {
	first := len(from.Pivots.Axes)
	best := &Attempt{Search: Search{Program: s, Options: opt, Axes: first, Geometry: judge.Clone(from)}, begun: true}
	if best.Judge(brief); best.Err != nil {
		return best, best.Err
	}
	if log.add(best); best.Met {
		return best, nil
	}
	take := func(a *Attempt) {
		if log.add(a); a.rest && a.share > best.share {
			best = a
		}
	}
	const pair = 2
	nearest, most := from, 0.0
	for n := first; n <= s.Asked.Posture.AxisPositions && ctx.Err() == nil; n += pair {
		tried := make([]*Attempt, min(pair, s.Asked.Posture.AxisPositions-n+1))
		ShareOut(len(tried), func(i int) {
			tried[i] = &Attempt{Search: Search{Program: s, Options: opt, Axes: n + i, Start: s.widen(from, n+i)}}
			tried[i].Make(ctx, brief)
		})
		before := most
		for _, a := range tried {
			if a.Err != nil {
				continue // short of a drive or of time: the station at hand stays the best
			}
			take(a)
			if a.Met {
				return a, nil
			}
			if a.share > most {
				nearest, most = a.Search.Geometry, a.share
			}
		}
		if most < before+leastGain {
			break
		}
	}
	for level := most - s.reserve(); level > best.share && ctx.Err() == nil; level -= concession {
		a := &Attempt{Search: Search{Program: s.asking(level), Options: opt, Axes: len(nearest.Pivots.Axes), Start: nearest}}
		if a.Make(ctx, brief); a.Err != nil {
			break
		}
		a.Search.Program, a.others, a.trades, a.begun = s, nil, nil, true
		if a.Judge(brief); a.rest {
			take(a)
			break
		}
	}
	return best, ctx.Err()
}

// leastGain is the share of the population that two more axis positions must bring for
// still more of them to be tried, and concession the step by which less is asked.
const (
	leastGain  = 0.005
	concession = 0.015
)

// asking is the program with another coverage asked for, 0 for none.
func (s *Program) asking(share float64) *Program {
	other, asked := *s, *s.Asked
	asked.People.Coverage = share
	other.Asked, other.Limits = &asked, slices.Clone(s.Limits)
	other.Card.Follow("coverage", share)
	if share == 0 {
		other.panel = nil
	}
	return &other
}

// widen is a station with another number of axis positions, which share out what the
// boundary persons need.
func (s *Program) widen(from *specs.Geometry, n int) *specs.Geometry {
	if len(from.Pivots.Axes) == n {
		return from
	}
	g := judge.Clone(from)
	g.Pivots.Swivels, g.Pivots.Axes = s.shareOut(g, n), make([]specs.Axis, n)
	s.derive(g)
	return g
}
