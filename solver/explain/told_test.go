package explain

import (
	"context"

	"armwright/solver/fit"
	"armwright/solver/judge"
	"armwright/specs"
)

// told is what a search ended at, with its explanation.
type told struct {
	fit.Solution
	Findings
}

// explained solves a brief, and explains why it is not met.
func explained(ctx context.Context, b specs.Brief, opt *fit.Options) (*told, error) {
	if opt == nil {
		opt = &fit.Options{}
	}
	sol, err := fit.Solve(ctx, b, opt)
	if err != nil {
		return nil, err
	}
	r := &told{Solution: *sol}
	if r.Verdict != judge.Met {
		r.Findings, err = Conflicts(ctx, &r.Solution, opt)
	}
	return r, err
}
