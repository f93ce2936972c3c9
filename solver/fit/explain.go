package fit

import (
	"context"
	"fmt"
	"sort"

	"armwright/solver/nlp"
)

// starts is from how many points a conflict is looked at. One run already
// begins at the best point the search found.
const starts = 2

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
		settings.Starts, settings.MaxIterations = starts, 40
		hard := make([]bool, p.M)
		for i := len(kinds); i < p.M; i++ {
			hard[i] = true
		}
		keep := *se.g
		d, err := nlp.Diagnose(ctx, p, se.point(), settings, nil, hard)
		*se.g = keep
		if err != nil {
			return fmt.Errorf("fit: %w", err)
		}
		res.Conflict = s.conflicts(kinds, d)
		if !d.Feasible {
			res.Notes = append(res.Notes, fmt.Sprintf("locally infeasible from %d of %d starts", d.InfeasibleStarts, d.Starts))
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
		if r.Part == nlp.In {
			c.Needed = true
		}
	}
	var out []Conflict
	for k, c := range by {
		if c.Share > 1e-3 || c.Repair > 1e-3*s.kinds[k].Scale || c.Needed {
			c.ID, c.Unit = s.kinds[k].ID, s.kinds[k].Unit
			out = append(out, c)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

func inConflict(c []Conflict, id string) bool {
	for _, v := range c {
		if v.ID == id {
			return true
		}
	}
	return false
}
