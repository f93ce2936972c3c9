package words

import (
	"fmt"
	"strings"

	"armwright/solver/fit"
	"armwright/specs"
)

// Why tells why a combination was not taken, "" of the one that was.
func Why(c *fit.Choice, u specs.Units) string {
	w := &c.Why
	switch {
	case c.Fate == fit.Dearer:
		return "one that costs less meets everything"
	case w.Stopped:
		return "the search was stopped before"
	case w.Before > 0:
		return fmt.Sprintf("what the %d before it miss hangs on nothing that is left to the tool", w.Before)
	case w.Bound != nil:
		return Bound(w.Bound.Bound) + ": " + against(w.Bound.Needed, w.Bound.Allowed, w.Bound.Unit, u)
	case w.OnLast:
		return "on the last station solved: " + missed(w, u)
	case len(w.Shared) > 0:
		var values []string
		for _, v := range w.Shared {
			values = append(values, v.Value)
		}
		return "as with the same " + strings.Join(values, " and ") + ": " + missed(w, u)
	}
	return missed(w, u)
}

// missed lists what is missed.
func missed(w *fit.Why, u specs.Units) string {
	if w.Unmade != nil {
		return w.Unmade.Error()
	}
	var list []string
	for _, m := range w.Missed {
		list = append(list, m.ID+" "+against(m.Value, m.Limit, m.Unit, u))
	}
	return strings.Join(list, ", ")
}
