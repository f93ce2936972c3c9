package report

import (
	"fmt"

	"armwright/export/terminal"
	"armwright/export/words"
	"armwright/solver"
)

// EntryCase is somebody getting on, or a push.
type EntryCase struct {
	Case   string     `json:"case" doc:"in words"`
	Weight float64    `json:"weight" doc:"mass on the station, kg; 0 for a push alone"`
	Push   float64    `json:"push" doc:"level and outward, N"`
	Height float64    `json:"height" doc:"of the push above the floor, mm"`
	Point  [2]float64 `json:"point" doc:"x, y where the floor's resultant acts, mm"`
	Inside float64    `json:"inside" doc:"of the nearest tipping edge, mm; negative when the station tips"`
	Edge   string     `json:"edge" enum:"front|rear|side" doc:"that edge"`
	Tilt   float64    `json:"tilt" doc:"left until it tips, deg"`
}

// Seated is what pads, seat and back carry while one person lifts what
// strength and the heaviest load allow, at the angles of resistance.
type Seated struct {
	Person   string    `json:"person" doc:"who"`
	Why      string    `json:"why" doc:"why this person is shown"`
	Weight   float64   `json:"weight" doc:"of the person, N"`
	Load     []float64 `json:"load" doc:"on both hands together, N"`
	Pad      []float64 `json:"pad" doc:"both pads, normal to them, N"`
	Back     []float64 `json:"back" doc:"normal to the back pad, N; negative where nothing holds the trunk forward; empty without one"`
	Seat     []float64 `json:"seat" doc:"upward, N"`
	Share    []float64 `json:"share" doc:"of body weight on the seat"`
	SeatX    []float64 `json:"seat_x" doc:"x where the seat's reaction acts, mm"`
	Friction []float64 `json:"friction" doc:"level force that seat or feet must hold, forward on the person positive, N"`
}

// Hazards is what could crush or shear, and what keeps hands away.
type Hazards struct {
	Pairs       []HazardPair `json:"pairs" doc:"least gap of every moving to every other part over the motion and all positions"`
	GuardHeight *float64     `json:"guard_height" doc:"to which the stack must be covered, mm; null without a stack"`
	GuardReach  *float64     `json:"guard_reach" doc:"gap to the weights behind slots of 8 mm, mm; null without a stack"`
	Stops       []float64    `json:"stops" doc:"flexion of the arm's stops, deg; empty without people"`
	Notes       []string     `json:"notes" doc:"for the workshop"`
}

// HazardPair is one moving and one other part.
type HazardPair struct {
	Moving   string  `json:"moving" doc:"moving part of one arm"`
	Fixed    string  `json:"fixed" doc:"other part"`
	Gap      float64 `json:"gap" doc:"least, mm; negative where they meet"`
	Angle    float64 `json:"angle" doc:"flexion of the least gap, deg"`
	Axis     int     `json:"axis" doc:"axis position of the least gap, from 1"`
	Kind     string  `json:"kind" enum:"crush|shear" doc:"crush where the gap closes, shear where it stays"`
	Part     string  `json:"part" doc:"part of the body that can be there"`
	Required float64 `json:"required" doc:"least gap for that part, mm"`
	Admits   *string `json:"admits" doc:"largest part that the gap leaves whole, null for none"`
	Met      bool    `json:"met" doc:"whether the gap is wide enough"`
}

// Strength is the screening of what carries load.
type Strength struct {
	Checks    []StrengthCheck `json:"checks" doc:"parts under factored load"`
	Factors   []LoadFactor    `json:"factors" doc:"factors on the loads"`
	Suggested []Suggestion    `json:"suggested" doc:"lightest tubes that hold the members within the limits"`
}

// StrengthCheck is one part under its load.
type StrengthCheck struct {
	Part   string  `json:"part" doc:"what"`
	What   string  `json:"what" doc:"how it is loaded, or what is compared"`
	Value  float64 `json:"value" doc:"in unit"`
	Limit  float64 `json:"limit" doc:"in unit"`
	Unit   string  `json:"unit" enum:"%|" doc:"of value and limit; empty for a plain ratio"`
	Sense  string  `json:"sense" enum:"at least|at most" doc:"how the value must lie to the limit"`
	Met    bool    `json:"met" doc:"whether it holds"`
	Person *string `json:"person" doc:"who loads it most, null when nobody in particular"`
	Source string  `json:"source" doc:"where the limit comes from"`
	Mark   string  `json:"mark" doc:"S seen in the source, M from memory, D derived, own a choice made here"`
}

// LoadFactor is a factor on loads.
type LoadFactor struct {
	Name   string  `json:"name" doc:"on what"`
	Value  float64 `json:"value" doc:"factor"`
	Source string  `json:"source" doc:"where it comes from"`
	Mark   string  `json:"mark" doc:"as above"`
}

// Suggestion is a tube that would do.
type Suggestion struct {
	System     string  `json:"system" enum:"metric|inch" doc:"of its stock"`
	Name       string  `json:"name" doc:"as in show stock"`
	Mass       float64 `json:"mass" doc:"kg/m"`
	Stress     float64 `json:"stress" doc:"share of the yield strength"`
	Deflection float64 `json:"deflection" doc:"share of the free length"`
}

// Protection is one thing that spares a joint.
type Protection struct {
	Joint  string  `json:"joint" enum:"elbow|wrist|shoulder|spine|head and neck" doc:"which"`
	What   string  `json:"what" doc:"what is looked at"`
	Value  float64 `json:"value" doc:"of the person it is worst for"`
	Limit  float64 `json:"limit" doc:"in unit"`
	Unit   string  `json:"unit" enum:"mm|deg|N" doc:"of value and limit"`
	Sense  string  `json:"sense" enum:"at least|at most" doc:"how the value must lie to the limit"`
	Met    bool    `json:"met" doc:"whether it does"`
	Person string  `json:"person" doc:"that person"`
	Source string  `json:"source" doc:"where the limit comes from, with its mark"`
	Note   string  `json:"note" doc:"what to know about it"`
}

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
	for _, c := range r.Balance.Seated {
		list = append(list, Seated{Person: c.Person, Why: c.Why, Weight: newton(c.Weight),
			Load: each(c.Load, newton), Pad: each(c.Pad, newton), Back: each(c.Back, newton), Seat: each(c.Seat, newton),
			Share: each(c.Share, share), SeatX: each(c.SeatX, mm), Friction: each(c.Friction, newton)})
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
			Unit: c.Unit, Sense: sense(c.AtLeast), Met: c.Met, Person: named(c.Person), Source: c.Source, Mark: c.Mark})
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
		out := Protection{Joint: p.Joint, What: p.What, Unit: "N", Sense: sense(p.AtLeast), Met: p.Met, Person: p.Person, Source: p.Source, Note: p.Note,
			Value: newton(p.Value), Limit: newton(p.Limit)}
		if !p.Force {
			out.Unit, out.Value, out.Limit = p.Unit.Symbol(), outside(p.Value, p.Unit), outside(p.Limit, p.Unit)
		}
		list = append(list, out)
	}
	return list
}

// balance prints how the station stands and sits, and its hazards and joints.
func (t *text) balance(r *Report) {
	if len(r.Stability.Cases) == 0 {
		return
	}
	t.Heading("Balance")
	least := r.Stability.Cases[0]
	for _, c := range r.Stability.Cases {
		if c.Tilt < least.Tilt {
			least = c
		}
	}
	who := ""
	if least.Person != nil {
		who = Short(*least.Person) + ", "
	}
	t.Words("  ", fmt.Sprintf("Least tilt %s over the %s (%s%s); it takes %s to tip it there.",
		r.Units.Figure(least.Tilt, "deg"), least.Edge, who, least.Case, r.Units.Figure(least.Energy, "N m")))
	if r.Stability.Anchored {
		t.Words("  ", fmt.Sprintf("ANCHORED TO THE FLOOR: each of four anchors pulls %s at least", optional(r.Units, r.Stability.AnchorPull, "N")))
	}
	entry := terminal.Table{Right: []bool{false, true, false}}
	for _, c := range r.Stability.Entry {
		entry.Add(c.Case, r.Units.Figure(c.Tilt, "deg"), "left over the "+c.Edge)
	}
	t.Table(entry)
	if len(r.Seated) > 0 {
		t.Heading("Seated")
		seats := terminal.Table{}
		for _, c := range r.Seated {
			i := lowest(c.Share)
			seats.Add(Short(c.Person)+", "+c.Why, fmt.Sprintf("least seat load %s of body weight at %s", percent(&c.Share[i]), r.Units.Figure(r.Resistance.Angles[i], "deg")))
		}
		t.Table(seats)
	}
	if pairs := narrowest(r.Hazards.Pairs, 4); len(pairs) > 0 {
		t.Heading("Hazards: gaps that fall short, and the narrowest")
		gaps := terminal.Table{Right: []bool{false, false, true, false}}
		for _, p := range pairs {
			mark := ""
			if !p.Met {
				mark = "SHORT"
			}
			gaps.Add(mark, p.Moving+" to "+p.Fixed, r.Units.Figure(p.Gap, "mm"), fmt.Sprintf("a %s needs %s", p.Part, r.Units.Figure(p.Required, "mm")))
		}
		t.Table(gaps)
	}
	if len(r.Protection) > 0 {
		t.Heading("Joints")
		joints := terminal.Table{Right: []bool{false, false, false, true, true}}
		for _, p := range r.Protection {
			mark := ""
			if !p.Met {
				mark = "BEYOND"
			}
			joints.Add(mark, p.Joint, p.What, r.Units.Figure(p.Value, p.Unit), limitOf(r, p.Sense, p.Limit, p.Unit))
		}
		t.Table(joints)
	}
}

func lowest(list []float64) int {
	at := 0
	for i, v := range list {
		if v < list[at] {
			at = i
		}
	}
	return at
}

// narrowest lists the pairs that fall short, and after them the n with the
// least room over what they need.
func narrowest(pairs []HazardPair, n int) []HazardPair {
	var out []HazardPair
	taken := make([]bool, len(pairs))
	for i, p := range pairs {
		if !p.Met {
			taken[i] = true
			out = append(out, p)
		}
	}
	for range n {
		best := -1
		for i, p := range pairs {
			if !taken[i] && (best < 0 || p.Gap-p.Required < pairs[best].Gap-pairs[best].Required) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		taken[best] = true
		out = append(out, pairs[best])
	}
	return out
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
