package report

import (
	"fmt"
	"math"
	"strconv"

	"armwright/export/words"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

func conflicts(r *solver.Result, u specs.Units) []Conflict {
	list := []Conflict{}
	for _, c := range r.Conflict {
		q, ok := r.Requirement(c.ID)
		if !ok {
			list = append(list, Conflict{ID: c.ID, Needed: c.Needed, Proved: c.Proved, Advice: demandAdvice(r, c.ID, u)})
			continue
		}
		list = append(list, Conflict{
			ID: c.ID, Proved: c.Proved, Share: share(c.Share), Needed: c.Needed, Unit: words.Symbol(q.Unit),
			Excess: outside(c.Excess, q.Unit), Repair: outside(c.Repair, q.Unit),
			Advice: advice(q, c.Excess, c.Repair, len(r.Repairs) > 0, u),
		})
	}
	return list
}

// advice says how to mend one requirement of a conflict that fails by excess
// and whose limit must move by repair, inside units. Mended says whether a search met the
// brief with the cheapest repair. The proposed limit is
// rounded to the lenient side, so that it is enough.
func advice(q judge.Requirement, excess, repair float64, mended bool, u specs.Units) string {
	switch {
	case repair <= 0 && excess > 0 && !mended:
		return "no change was found that mends it"
	case repair <= 0 && !mended:
		return "it holds, but only just"
	case repair <= 0 && excess > 0:
		return "leave its limit alone: it holds once the others give way"
	case repair <= 0:
		return "leave its limit alone: it holds, but only just, and pulls against the others"
	}
	unit := words.Symbol(q.Unit)
	limit, by := u.In(outside(q.Limit, q.Unit), unit), u.In(outside(repair, q.Unit), unit)
	if q.Limit == 0 && q.Kind.Limit == "" { // has no limit of its own to move
		return fmt.Sprintf("%s: %s are missing (%s)", q.Remedy, quantity(lenient(by, false), u.Symbol(unit)), q.Levers())
	}
	moved := lenient(limit+by, false)
	if q.AtLeast {
		moved = lenient(limit-by, true)
	}
	return fmt.Sprintf("%s %s instead of %s (%s)", q.Remedy, quantity(moved, u.Symbol(unit)), quantity(round(limit, decimals), u.Symbol(unit)), q.Levers())
}

// lenient rounds to tenths, or hundredths of small numbers, down or up.
func lenient(x float64, down bool) float64 {
	p := 10.0
	if math.Abs(x) < 2 {
		p = 100
	}
	const noise = 1e-6
	if down {
		return round(math.Floor(x*p+noise)/p, decimals)
	}
	return round(math.Ceil(x*p-noise)/p, decimals)
}

// quantity writes a value with as many decimals as it has.
func quantity(x float64, unit string) string {
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if unit != "" {
		s += " " + unit
	}
	return s
}
