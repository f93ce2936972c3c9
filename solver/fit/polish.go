package fit

import (
	"context"
	"math"

	"armwright/solver/judge"
	"armwright/specs"
)

// A station that the optimiser leaves a little short of its limits is polished where it
// stands. The optimiser works with the settings of people held and on a coarse grid of
// angles; choosing them and looking at the whole grid may cost what it had in hand.
const (
	polishWithin = 2.0      // miss beyond which it is not tried, units that matter, all requirements together
	polishLooks  = 90       // how often the station is judged at most
	polishStep   = 0.1      // first step, share of a variable's scale
	polishLeast  = 1.0 / 80 // step at which it ends, likewise
)

// polish brings down what an attempt misses by a pattern search over the design
// variables by the judge's own margins (Hooke and Jeeves 1961, the exploring moves
// alone): a step along each variable is kept where it helps, and halved where none does.
// What it finds is better than before, or nothing has changed.
func (a *Attempt) polish(ctx context.Context, brief *specs.Brief) {
	if a.Err != nil || a.Met || a.miss > polishWithin {
		return
	}
	s, best := a.Search.Program, a
	looks := 0
	// look judges a step along one variable from the best so far.
	look := func(j int, step float64) bool {
		g := judge.Clone(best.Search.Geometry)
		v := s.Variables(g)[j]
		to := math.Max(v.low, math.Min(v.high, *v.at+step*v.scale))
		if to == *v.at || looks >= polishLooks || ctx.Err() != nil {
			return false
		}
		looks++
		*v.at = to
		s.derive(g)
		trial := *a
		trial.Search.Geometry = g
		if trial.Judge(brief); trial.Err != nil || !trial.Met && trial.miss > best.miss-1e-9 {
			return false
		}
		best = &trial
		return true
	}
	for step := polishStep; step >= polishLeast && !best.Met; {
		moved := false
		for j := range s.Variables(a.Search.Geometry) {
			if !best.Met && (look(j, step) || look(j, -step)) {
				moved = true
			}
		}
		if !moved {
			step /= 2
		}
		if looks >= polishLooks || ctx.Err() != nil {
			break
		}
	}
	if best == a {
		return
	}
	*a = *best
	if !a.Met || ctx.Err() != nil {
		return
	}
	// It meets the brief; the optimiser may still make it a better one from there.
	again := Attempt{Search: Search{Program: s, Options: a.Search.Options, Axes: a.Search.Axes, Start: a.Search.Geometry}, index: a.index, ctx: a.ctx, stop: a.stop}
	if again.search(ctx, brief); again.Err == nil && again.Met {
		*a = again
	}
}
