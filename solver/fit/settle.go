package fit

import "armwright/specs"

// settle solves a brief as Solve does, without telling why it cannot be met. A
// brief whose drive cannot be made gives an empty attempt.
func (e *explainer) settle(b *specs.Brief) (*attempt, error) {
	if err := e.search(); err != nil {
		return nil, err
	}
	brief := b.Quantised()
	s, err := e.s.like(&brief.Asked)
	if err != nil {
		return nil, err
	}
	var a *attempt
	if s.bench() {
		a = &attempt{search: search{s: s, g: s.benchRig()}}
		if _, err = s.design(a.search.g); err == nil {
			a.judge(&brief)
			err = a.err
		}
	} else {
		a, err = everyAxes(e.ctx, s, e.opt, &SearchLog{}, &brief, 1)
	}
	if unmade(err) {
		return &attempt{}, nil
	}
	return a, err
}
