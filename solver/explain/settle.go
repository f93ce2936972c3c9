package explain

import (
	"armwright/solver/drive"
	"armwright/solver/fit"
	"armwright/specs"
)

// settle solves a brief as Solve does, without telling why it cannot be met. A
// brief whose drive cannot be made gives an empty attempt.
func (e *explainer) settle(b *specs.Brief) (*fit.Attempt, error) {
	if err := e.search(); err != nil {
		return nil, err
	}
	brief := b.Quantised()
	s, err := e.s.Like(&brief.Asked)
	if err != nil {
		return nil, err
	}
	var a *fit.Attempt
	if s.Bench() {
		a = &fit.Attempt{Search: fit.Search{Program: s, Geometry: s.BenchRig()}}
		if _, err = s.Design(a.Search.Geometry); err == nil {
			a.Judge(&brief)
			err = a.Err
		}
	} else {
		a, err = fit.EveryAxes(e.ctx, s, e.opt, &fit.SearchLog{}, &brief, 1)
	}
	if drive.Unmade(err) {
		return &fit.Attempt{}, nil
	}
	return a, err
}
