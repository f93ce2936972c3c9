package fit

import (
	"context"
	"fmt"
	"sort"

	"armwright/solver/nlp"
)

// explain names the requirements that conflict and the cheapest way out, from
// the point the search ended at. Rows of one requirement are told together.
// Requirements that fail for reasons outside the continuous variables, such as
// a torque match that no cam of the size window reaches, stand alone.
func (se *search) explain(ctx context.Context, res *Result) error {
	s := se.s
	res.Verdict = Infeasible
	shared := false
	for _, q := range res.Requirements {
		if !q.Met && q.Person+q.Case != "" && !ofDrive(q.ID) {
			shared = true
		}
	}
	if shared {
		p, kinds, settings := se.problem()
		settings.Starts, settings.MaxIterations, settings.Shallow = 1, 40, true
		hard := make([]bool, p.M)
		for i := len(kinds); i < p.M; i++ {
			hard[i] = true
		}
		kept := se.g
		se.g = clone(kept)
		d, err := nlp.Diagnose(ctx, p, se.point(), settings, nil, hard)
		se.g = kept
		if err != nil {
			return fmt.Errorf("fit: %w", err)
		}
		res.Conflict = s.conflicts(kinds, d)
		if !d.Feasible {
			res.Notes = append(res.Notes, fmt.Sprintf("locally infeasible from %d of %d starts", d.InfeasibleStarts, d.Starts))
			if err := se.need(ctx, res.Conflict); err != nil {
				return err
			}
		}
	}
	for _, q := range res.Requirements {
		if !q.Met && !inConflict(res.Conflict, q.ID) {
			res.Conflict = append(res.Conflict, Conflict{ID: q.ID, Unit: q.Unit, Excess: -q.Margin, Repair: -q.Margin})
		}
	}
	for i := range res.Conflict {
		c := &res.Conflict[i]
		if q, ok := res.Requirement(c.ID); ok && q.Margin < 0 {
			c.Excess = -q.Margin
		}
	}
	return nil
}

// ofDrive says whether a requirement is decided by the drive alone.
func ofDrive(id string) bool {
	switch id {
	case "torque-match", "cam-bend", "cable-factor", "stack-travel":
		return true
	}
	return false
}

// conflicts gathers the diagnosis of rows by requirement, the largest share
// first.
func (s *study) conflicts(kinds []int, d nlp.Diagnosis) []Conflict {
	if d.Feasible {
		return nil
	}
	by := make([]Conflict, len(s.kinds))
	for i, k := range kinds {
		c := &by[k]
		r := d.Rows[i]
		c.Share += r.Share
		// A row's unit here is the requirement's unit that matters.
		c.Repair = max(c.Repair, r.Repair*s.kinds[k].Scale)
	}
	var out []Conflict
	for k, c := range by {
		if c.Share > 1e-3 || c.Repair > 1e-3*s.kinds[k].Scale {
			c.ID, c.Unit = s.kinds[k].ID, s.kinds[k].Unit
			out = append(out, c)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

// need marks the requirements without which all the others can hold: each is
// given up in turn and the search run again from where it ended.
func (se *search) need(ctx context.Context, c []Conflict) error {
	kept := se.g
	defer func() { se.g = kept }()
	for i := range c {
		k := se.s.index[c[i].ID]
		guard := se.guard[k]
		se.guard[k] = -1e6 * se.s.kinds[k].Scale // out of everybody's way
		se.g = clone(kept)
		err := se.minimise(ctx)
		c[i].Needed = err == nil && se.last.Status.Usable()
		se.guard[k] = guard
		if err != nil {
			return err
		}
	}
	return nil
}

func inConflict(c []Conflict, id string) bool {
	for _, v := range c {
		if v.ID == id {
			return true
		}
	}
	return false
}
