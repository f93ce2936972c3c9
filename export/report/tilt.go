package report

import (
	"fmt"
	"math"
	"strings"
)

// TiltSentence tells the least tilt that tips the station, empty, in use, and left while
// somebody gets on or pushes, each over all its cases: the values of the requirements
// tilt-empty, tilt-occupied and tilt-entry, and of an anchored station, which has none of
// them, what they would be.
func TiltSentence(r *Report) string {
	empty, used, entry := math.Inf(1), math.Inf(1), math.Inf(1)
	for _, c := range r.Stability.Cases {
		if c.Person == nil {
			empty = math.Min(empty, c.Tilt)
		} else {
			used = math.Min(used, c.Tilt)
		}
	}
	for _, c := range r.Stability.Entry {
		entry = math.Min(entry, c.Tilt)
	}
	var list []string
	for _, k := range []struct {
		words string
		tilt  float64
	}{{"%s empty", empty}, {"%s in use", used}, {"with %s left while somebody gets on or pushes", entry}} {
		if !math.IsInf(k.tilt, 1) {
			list = append(list, fmt.Sprintf(k.words, r.Units.Figure(k.tilt, "deg")))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "Least tilt that tips the station: " + strings.Join(list, ", ") + "."
}
