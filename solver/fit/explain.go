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
	repairs := res.Requirements // the station found needs this much, another perhaps less
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
		kept, set := se.g, se.set
		se.g = clone(kept)
		d, err := nlp.Diagnose(ctx, p, se.point(), settings, nil, hard)
		if err == nil && d.RepairX != nil {
			err = se.repaired(d.RepairX, res, &repairs)
		}
		se.g, se.set = kept, set
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
	for _, q := range repairs {
		if !q.Met && !inConflict(res.Conflict, q.ID) {
			res.Conflict = append(res.Conflict, Conflict{ID: q.ID, Unit: q.Unit})
		}
	}
	for _, q := range res.Requirements {
		if !q.Met && !inConflict(res.Conflict, q.ID) {
			res.Conflict = append(res.Conflict, Conflict{ID: q.ID, Unit: q.Unit})
		}
	}
	for i := range res.Conflict {
		c := &res.Conflict[i]
		c.Excess, c.Repair = miss(res.Requirements, c.ID), miss(repairs, c.ID)
	}
	return nil
}

// repaired judges the station at the cheapest repair with its discrete settings,
// and takes its requirements for repairs if they are missed by less in all,
// counted in units that matter. Moving every limit by what repairs misses is a
// way out that is known to exist: there is a station that meets it.
func (se *search) repaired(x []float64, res *Result, repairs *[]Requirement) error {
	se.apply(x)
	se.finish(se.g)
	f := res.Frame
	f.Geometry = *se.g
	check, err := se.s.check(f.Quantised(), Persons{})
	if err != nil {
		return err
	}
	if cost(check.Requirements) < cost(*repairs) {
		*repairs = check.Requirements
	}
	return nil
}

// cost is what requirements are missed by, in units that matter.
func cost(list []Requirement) float64 {
	var sum float64
	for _, q := range list {
		sum += max(0, -q.Margin/q.Scale)
	}
	return sum
}

// miss is by how much a requirement is missed, 0 when it is met.
func miss(list []Requirement, id string) float64 {
	for _, q := range list {
		if q.ID == id && !q.Met {
			return -q.Margin
		}
	}
	return 0
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
		c.Repair = max(c.Repair, r.Repair) // in units that matter, settled later
	}
	var out []Conflict
	for k, c := range by {
		if c.Share > 1e-3 || c.Repair > 1e-3 {
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
