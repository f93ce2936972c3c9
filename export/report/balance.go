package report

import (
	"armwright/export/words"
	"armwright/solver"
	"armwright/specs"
)

func sense(atLeast bool) string {
	if atLeast {
		return "at least"
	}
	return "at most"
}

func newton(x float64) float64 { return round(x, 3) }

func entryCases(r *solver.Result) []EntryCase {
	list := []EntryCase{}
	for _, c := range r.Balance.Entry {
		list = append(list, EntryCase{Case: words.Phrase(c.Case, r.Frame.Drawing.Reads()), Weight: kg(c.Weight), Push: newton(c.Push), Height: mm(c.Height),
			Point: [2]float64{mm(c.X), mm(c.Y)}, Inside: mm(c.Inside), Edge: c.Edge, Tilt: deg(c.Tilt)})
	}
	return list
}

func envelope(r *solver.Result) [][2]float64 {
	list := [][2]float64{}
	for _, p := range r.Balance.Envelope {
		list = append(list, [2]float64{mm(p.X), mm(p.Y)})
	}
	return list
}

func seated(r *solver.Result) []Seated {
	list := []Seated{}
	for _, c := range r.Seated {
		list = append(list, Seated{Person: c.Person, Why: c.Why, Weight: newton(c.Weight),
			Load: each(c.Load, newton), Pad: each(c.Pad, newton), Back: each(c.Back, newton), Chest: each(c.Chest, newton), Seat: each(c.Seat, newton), Feet: each(c.Feet, newton),
			Share: each(c.Share, share), SeatX: each(c.SeatX, mm), Friction: each(c.Friction, newton),
			Shoulder: each(c.Shoulder, torque), Disc: each(c.Disc[1], newton), DiscLeast: each(c.Disc[0], newton)})
	}
	return list
}

func hazards(r *solver.Result) Hazards {
	h := Hazards{Pairs: []HazardPair{}, Stops: []float64{}, Notes: append([]string{}, words.Workshop(r)...)}
	if len(r.Hazards.Pairs) == 0 {
		return h
	}
	h.Stops = []float64{deg(r.Hazards.Stops[0]), deg(r.Hazards.Stops[1])}
	if r.Hazards.GuardHeight > 0 {
		h.GuardHeight, h.GuardReach = some(mm(r.Hazards.GuardHeight)), some(mm(r.Hazards.GuardReach))
	}
	for _, p := range r.Hazards.Pairs {
		kind := "shear"
		if p.Closing {
			kind = "crush"
		}
		h.Pairs = append(h.Pairs, HazardPair{Moving: p.Moving, Fixed: p.Fixed, Gap: mm(p.Gap), Angle: deg(p.Angle), Axis: p.Axis + 1,
			Kind: kind, Part: p.Part.String(), Required: mm(p.Required), Admits: named(p.Admits), Met: p.Met})
	}
	return h
}

func strengthOf(r *solver.Result) Strength {
	s := Strength{Checks: []StrengthCheck{}, Factors: []LoadFactor{}, Suggested: []Suggestion{}}
	u := r.Frame.Drawing.Reads()
	for _, c := range r.Strength.Checks {
		scale := 1.0
		if c.Unit == "%" {
			scale = 100
		}
		s.Checks = append(s.Checks, StrengthCheck{Part: words.Phrase(c.Part, u), What: words.Phrase(c.What, u), Value: round(scale*c.Value, decimals), Limit: round(scale*c.Limit, decimals),
			Unit: c.Unit, Sense: sense(c.AtLeast), Met: c.Met, Person: named(c.Person), Source: c.Source, Mark: c.Mark, Requirement: named(c.ID)})
	}
	for _, f := range r.Strength.Factors {
		s.Factors = append(s.Factors, LoadFactor(f))
	}
	for _, c := range r.Strength.Suggested {
		s.Suggested = append(s.Suggested, Suggestion{c.System, c.Name, kg(c.Mass), share(c.Stress), share(c.Deflection)})
	}
	return s
}

func protection(r *solver.Result) []Protection {
	list := []Protection{}
	for _, p := range r.Protection {
		out := Protection{Joint: p.Joint, What: p.What, Unit: "N", Sense: sense(p.AtLeast), Met: p.Met, Person: p.Person, Source: p.Source, Note: p.Note, Requirement: named(p.Requirement),
			Value: newton(p.Value), Limit: newton(p.Limit)}
		if !p.Force {
			out.Unit, out.Value, out.Limit = words.Symbol(p.Unit), outside(p.Value, p.Unit), outside(p.Limit, p.Unit)
		}
		if p.Least != 0 {
			out.Least = some(newton(p.Least))
		}
		list = append(list, out)
	}
	return list
}

// Span is the value of a protection, or its range, in the units of what is read.
func (p *Protection) Span(u specs.Units) string {
	if p.Least == nil {
		return u.Figure(p.Value, p.Unit)
	}
	return u.Figure(*p.Least, p.Unit) + " to " + u.Figure(p.Value, p.Unit)
}

// withinReach lists the pairs whose gap is at most most, and those that fall
// short of a wider one.
func withinReach(pairs []HazardPair, most float64) []HazardPair {
	var out []HazardPair
	for _, p := range pairs {
		if p.Gap <= most || !p.Met {
			out = append(out, p)
		}
	}
	return out
}
