// Package solver turns a brief into the geometry of a station, and judges the
// geometry of an existing one. Solve searches; Check only evaluates. Both end in
// the same Result, worked out from the same frame by the same code, so that a solved
// frame checked again gives the same numbers.
package solver

import (
	"context"

	"armwright/solver/explain"
	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// Result is everything known about one station: what the reports print and the
// sheets draw. Of a frame that was only checked there are no findings, and nothing of
// a search.
type Result struct {
	fit.Solution
	explain.Findings

	// Notes are what else readers are to be told, such as how the persons were read.
	Notes []string
}

// Solve turns a brief into a station, see fit.Solve, and explains why a brief cannot
// be met: unless opt is terse, or asks for room beside the limits. Nil opt means
// defaults. When stopped early the error is ctx.Err(), beside the best station so far
// if there is one; a conflict that was being looked into is left out.
func Solve(ctx context.Context, brief specs.Brief, opt *fit.Options) (*Result, error) {
	if opt == nil {
		opt = &fit.Options{}
	}
	sol, err := fit.Solve(ctx, brief, opt)
	if sol == nil {
		return nil, err
	}
	r := &Result{Solution: *sol}
	if err == nil && r.Verdict != judge.Met && !opt.Terse && opt.Room == nil {
		r.Findings, err = explain.Conflicts(ctx, &r.Solution, opt)
		switch {
		case ctx.Err() != nil:
			r.Findings = explain.Findings{Proofs: r.Proofs, Starts: r.Starts, Spent: r.Spent, Stopped: true}
			err = ctx.Err()
		case err != nil:
			return nil, err
		}
	}
	return r, err
}

// Check judges a frame: it places every boundary person in the best of the
// frame's settings, works out resistance, balance and screening, and draws the
// random persons for coverage. Nothing is searched. The frame is taken as it
// would be read back from its file.
func Check(f specs.Frame) (*Result, error) { return CheckPeople(f, judge.Random(f.People)) }

// CheckPeople is Check with other persons for coverage, such as measured ones.
// Everything else, the requirements among it, stays as the frame asks.
func CheckPeople(f specs.Frame, crowd judge.Persons) (*Result, error) {
	r, err := judge.CheckPeople(f, crowd)
	if err != nil {
		return nil, err
	}
	return Judged(r), nil
}

// Judged is the result of a station that was not searched for.
func Judged(r *judge.Result) *Result { return &Result{Solution: fit.Solution{Result: *r}} }
