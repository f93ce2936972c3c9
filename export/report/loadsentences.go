package report

import (
	"fmt"
	"strings"
)

// loadSentences tell what a step of the load is at the light end, what the user's own
// forearm does to the match, and what the curve is at the shoulder as it sits.
func loadSentences(r *Report) []string {
	d := &r.Resistance
	var list []string
	if len(d.Steps) > 0 {
		var steps []string
		for _, v := range d.Steps {
			text := fmt.Sprintf("a step of %s is %s of the torque", r.Units.Figure(v.Mass, "kg"), Percent(&v.Share))
			if v.Weak != nil {
				text += fmt.Sprintf(", %s of what the weakest can hold", Percent(v.Weak))
			}
			steps = append(steps, text)
		}
		list = append(list, "At the light load "+strings.Join(steps, "; ")+".")
	}
	if f := &d.Forearm; len(f.RMS) == 3 && f.Mass > 0 {
		most := 0.0
		for _, v := range f.Moment {
			most = max(most, v)
		}
		text := fmt.Sprintf("The middle user's forearm and hand weigh %s and ask for up to %s beside the machine: with them the match is %s, %s and %s at the light, middle and heavy load",
			r.Units.Figure(f.Mass, "kg"), r.Units.Figure(most, "N·m"), Percent(&f.RMS[0]), Percent(&f.RMS[1]), Percent(&f.RMS[2]))
		if f.Counted {
			text += ", and the torque told here counts them"
		}
		list = append(list, text+".")
	}
	if v := d.Shoulder; v != nil {
		list = append(list, fmt.Sprintf("The curve is that of a shoulder flexed %s; as the boundary persons sit it is flexed %s to %s. The curve there lies %s rms from it, and the torque at the middle load %s from the curve there.",
			r.Units.Figure(v.Asked, "deg"), r.Units.Figure(v.Least, "deg"), r.Units.Figure(v.Most, "deg"), Percent(&v.Curve), Percent(&v.Match)))
	}
	return list
}
