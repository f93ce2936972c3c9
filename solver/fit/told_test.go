package fit

import (
	"context"

	"armwright/specs"
)

// told is what a search ended at, with its explanation.
type told struct {
	Solution
	Findings
}

// explained solves a brief, and explains why it is not met.
func explained(ctx context.Context, b specs.Brief, opt *Options) (*told, error) {
	if opt == nil {
		opt = &Options{}
	}
	sol, err := Solve(ctx, b, opt)
	if err != nil {
		return nil, err
	}
	r := &told{Solution: *sol}
	if r.Verdict != Met {
		r.Findings, err = Explain(ctx, &r.Solution, opt)
	}
	return r, err
}
