package explain

import (
	"math"

	"armwright/solver/require"
	"armwright/specs"
)

// demand is one thing a brief asks that can give way: the limit of a
// requirement, or a range or count of its own. Who must fit, the loads, the
// stock and the kinds of parts are given and not among them.
type demand struct {
	id    string // of the requirement, or the path in the brief
	ends  []end
	drive bool // decided by the drive alone
}

// end is a value of a brief that gives way by moving one way.
type end struct {
	path     string
	up       bool
	kind     string  // requirement whose limit it is, "" for none
	variable string  // design variable whose bound it is, "" for none
	unit     float64 // the move that matters, inside units
	farthest float64 // it may go, 0 for as far as the format allows
	kept     bool    // no repair moves it past what is usual
}

// demands lists what can give way in a brief.
func demands(a *specs.Asked) []demand {
	var list []demand
	for _, k := range require.Kinds() {
		d := demand{id: k.ID, drive: k.Drive}
		switch {
		case k.Limit == "": // follows from seat or cable
			continue
		case k.Within:
			d.ends = rangeOf(k.Key(), "", k.Scale)
			d.ends[0].kind, d.ends[1].kind = k.ID, k.ID
		default:
			d.ends = []end{{path: k.Limit, up: !k.AtLeast, kind: k.ID, unit: k.Scale, kept: k.Kept}}
		}
		list = append(list, d)
	}
	field := func(path, variable string, unit float64) {
		list = append(list, demand{id: path, ends: rangeOf(path, variable, unit)})
	}
	single := func(path string, up, drive bool, unit float64) {
		list = append(list, demand{id: path, drive: drive, ends: []end{{path: path, up: up, unit: unit}}})
	}
	if a.Kind != "cam-study" {
		field("posture.pivot_height", "pivot height", 5)
		field("posture.pivot_spacing", "pivot spacing", 5)
		single("posture.seat_positions", true, false, 1)
		single("posture.axis_positions", true, false, 1)
		single("posture.handle_pitch", false, false, 1)
	}
	switch a.Kind {
	case "arm-pad":
		field("posture.pad_slope", "pad slope", 1*specs.Degree)
		single("posture.lean.from", false, false, 1*specs.Degree)
	case "reclined":
		field("posture.back_angle", "back angle", 1*specs.Degree)
	}
	if a.Kind != "cam-study" && a.Posture.FootPlate == "steps" {
		single("posture.foot_pitch", false, false, 5)
	}
	switch a.Resistance.Drive {
	case "cam":
		list = append(list, demand{id: "resistance.ratio", drive: true, ends: rangeOf("resistance.ratio", "", 0.25)})
		single("resistance.greatest_arm", true, true, 5)
		single("resistance.least_arm", false, true, 5)
	case "lever":
		list = append(list, demand{id: "resistance.lever_radius", drive: true, ends: rangeOf("resistance.lever_radius", "", 10)})
	}
	return list
}

// rangeOf gives both ends of a range.
func rangeOf(path, variable string, unit float64) []end {
	return []end{
		{path: path + ".from", variable: variable, unit: unit},
		{path: path + ".to", up: true, variable: variable, unit: unit},
	}
}

// coarse says whether the demand is something that the search does not vary: a
// number or a spacing of positions, or the least lean, from which the seats that
// people want follow.
func (d *demand) coarse() bool {
	switch d.id {
	case "posture.seat_positions", "posture.axis_positions", "posture.handle_pitch", "posture.foot_pitch", "posture.lean.from":
		return true
	}
	return false
}

// loosest is how far the format lets an end give way.
func (e *end) loosest(s specs.Span) float64 {
	switch {
	case e.farthest != 0:
		return e.farthest
	case e.up:
		return s.Most
	}
	return s.Least
}

// loosen moves a demand of the brief to where it asks for as little as the
// format allows.
func (d *demand) loosen(b *specs.Brief) {
	for i := range d.ends {
		if s, ok := b.Span(d.ends[i].path); ok {
			s.Set(d.ends[i].loosest(s))
		}
	}
}

// step is what moved limits are rounded to: a tenth of what matters.
func (e *end) step() float64 { return e.unit / 10 }

// lenient rounds a value to whole steps, away from what is asked now, and into
// the range of the format; one that is kept goes no farther than is usual.
func (e *end) lenient(s specs.Span, x float64) float64 {
	if usual, ok := s.Usual(); ok && e.kept {
		if e.up {
			x = math.Min(x, math.Max(usual, s.Value))
		} else {
			x = math.Max(x, math.Min(usual, s.Value))
		}
	}
	if s.Whole() {
		x = math.Round(x)
	} else {
		const noise = 1e-6
		n := x / e.step()
		if e.up {
			n = math.Ceil(n - noise)
		} else {
			n = math.Floor(n + noise)
		}
		x = n * e.step()
	}
	return math.Max(s.Least, math.Min(s.Most, x))
}

// beyond is by how much x lies past what the span asks now, 0 when it does not.
func (e *end) beyond(s specs.Span, x float64) float64 {
	if e.up {
		return math.Max(0, x-s.Value)
	}
	return math.Max(0, s.Value-x)
}

// moved is the value that lies by past what the span asks now.
func (e *end) moved(s specs.Span, by float64) float64 {
	if e.up {
		return s.Value + by
	}
	return s.Value - by
}
