package fit

import (
	"context"
	"math"

	"armwright/solver/judge"
	"armwright/specs"
)

// serve looks for a station that serves as many as coverage asks for. It begins at the
// one that meets the rest of the brief, with as many axis positions and with more, since
// from farther off hardly anybody is near enough to being served to show the way. It
// returns the first that meets everything or the one that comes nearest; where the rest
// cannot be met, the station that comes nearest to that.
//
// Two numbers of axis positions are tried at a time, whatever there is to do it with, so
// that the answer does not hang on it.
func (s *Program) serve(ctx context.Context, opt *Options, log *SearchLog, brief *specs.Brief) (*Attempt, error) {
	best, err := EveryAxes(ctx, s.unserved(), opt, log, brief, 1)
	if best == nil || err != nil {
		return best, err
	}
	rest := best.Met
	best.Search.Program, best.others, best.trades = s, nil, nil
	best.begun = true
	if best.Judge(brief); best.Err != nil || best.Met || !rest {
		return best, best.Err
	}
	const abreast = 2
	from := best.Search.Geometry
	for n := best.Search.Axes; n <= s.Asked.Posture.AxisPositions; n += abreast {
		tried := make([]*Attempt, min(abreast, s.Asked.Posture.AxisPositions-n+1))
		ShareOut(len(tried), func(i int) {
			tried[i] = &Attempt{Search: Search{Program: s, Options: opt, Axes: n + i, Start: s.widen(from, n+i)}}
			tried[i].Make(ctx, brief)
		})
		before := best.miss
		for _, a := range tried {
			if a.Err != nil {
				continue // short of a drive or of time: the station at hand stays the best
			}
			log.add(a)
			if a.Met || a.miss < best.miss {
				best = a
			}
			if a.Met {
				return best, nil
			}
		}
		if ctx.Err() != nil || best.miss > before-leastGain {
			break
		}
	}
	return best, ctx.Err()
}

// leastGain is what two more axis positions must bring, in units that matter, for still
// more of them to be tried.
const leastGain = 0.5

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

// shareOut are the turns of n axis positions, in the pad's plane, that share the boundary
// persons' needs out evenly.
func (s *Program) shareOut(g *specs.Geometry, n int) []float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range s.Bodies {
		need := s.need(g, i)
		lo, hi = math.Min(lo, need), math.Max(hi, need)
	}
	turns := make([]float64, n)
	for i := range turns {
		turns[i] = lo + (hi-lo)*(float64(i)+0.5)/float64(n)
	}
	return turns
}
