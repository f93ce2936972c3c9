package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armwright/specs"
	"armwright/specs/stock"
)

// VerdictWord is the verdict as people read it.
func VerdictWord(verdict string) string {
	return strings.ToUpper(strings.ReplaceAll(verdict, "-", " "))
}

// Status tells in a word whether a requirement holds, and whether it holds the
// design back.
func Status(q Requirement) string {
	switch {
	case !q.Met:
		return "NOT MET"
	case q.Binding:
		return "binding"
	}
	return "met"
}

// Governing tells person, angle and case of a requirement in a few words.
func Governing(q Requirement) string {
	if q.Person == nil {
		return underWhom(q, "")
	}
	return underWhom(q, *q.Person)
}

// Governed is Governing with the person's name alone, for tables beside which that is
// explained.
func Governed(q Requirement) string {
	if q.Person == nil {
		return underWhom(q, "")
	}
	return underWhom(q, Short(*q.Person))
}

func underWhom(q Requirement, who string) string {
	var parts []string
	if who != "" {
		parts = append(parts, who)
	}
	if q.Angle != nil {
		parts = append(parts, fmt.Sprintf("at %.0f deg", *q.Angle))
	}
	if q.Case != nil {
		parts = append(parts, *q.Case)
	}
	return strings.Join(parts, ", ")
}

// Clip cuts a text to so many characters.
func Clip(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-3]) + "..."
}

// Optional writes a value that may not apply.
func Optional(u specs.Units, x *float64, unit string) string {
	if x == nil {
		return "-"
	}
	return u.Figure(*x, unit)
}

// Percent writes a share.
func Percent(x *float64) string {
	if x == nil {
		return "-"
	}
	return specs.Metric.Figure(100**x, "%")
}

// EffortSentences tell friction, cadence, work, and who the loads are for.
func EffortSentences(r *Report) []string {
	d := &r.Resistance
	var list []string
	if len(d.Loads) > 0 && len(d.Loads[0].Lifting) > 0 {
		s := fmt.Sprintf("Inertia: the most that %s repetitions a minute add.", strconv.FormatFloat(d.Cadence, 'f', -1, 64))
		if d.Drive == "cam" { // levers have no cable to rub
			s = "Peak up and down: with the cable's friction, moving slowly. " + s
		}
		list = append(list, s)
	}
	if len(d.Positions) > 1 {
		list = append(list, positionsSentence(r))
	}
	if e := d.Energy; e.Stack != nil {
		list = append(list, fmt.Sprintf("The stack rises %s: work on it %s, work of the torque measured on the outline %s.",
			Optional(r.Units, e.StackTravel, "mm"), Optional(r.Units, e.Stack, "J"), Optional(r.Units, e.Torque, "J")))
	}
	for _, l := range d.Levels {
		list = append(list, fmt.Sprintf("%s of load are level with %s, whose elbow is estimated at %s held, %s moving; of persons alike nine in ten lie between %s and %s, %s and %s of load.",
			r.Units.Figure(l.Load, "kg"), l.Person, r.Units.Figure(l.Strength, "N·m"), r.Units.Figure(l.Moving, "N·m"),
			r.Units.Figure(l.Low, "N·m"), r.Units.Figure(l.High, "N·m"), r.Units.Figure(l.LoadLow, "kg"), r.Units.Figure(l.LoadHigh, "kg")))
	}
	list = append(list, loadSentences(r)...)
	if h := d.Cam.Hub; h != nil && h.KeyWidth != nil {
		key, _ := stock.KeyFor(h.Bore)
		list = append(list, fmt.Sprintf("The cam sits on a parallel key %s x %s (%s): pressure %s on its plates at the heaviest load, %s on the shaft, without a load factor.",
			r.Units.Figure(*h.KeyWidth, "mm"), r.Units.Figure(*h.KeyHeight, "mm"), key.Standard, r.Units.Size(*h.Pressure, "N/mm²"), r.Units.Figure(h.Torque, "N·m")))
	} else if h != nil && h.ClampScrew != nil {
		list = append(list, fmt.Sprintf("The cam is clamped by a split hub: one screw M%.0f holds %s by friction; the heaviest load asks for %s.",
			*h.ClampScrew, Optional(r.Units, h.Holding, "N·m"), r.Units.Figure(h.Torque, "N·m")))
	}
	if v := d.Route; v != nil {
		swivel, fleet := 0.0, v.CamFleet
		for _, s := range v.Sheaves {
			swivel, fleet = math.Max(swivel, s.Swivel), math.Max(fleet, s.Fleet)
		}
		whose := "one cable for both arms"
		if v.Cables > 1 {
			whose = "a cable and a stack for each arm"
		}
		list = append(list, fmt.Sprintf("The cable runs over %d sheaves, %s an arm, %s, %s to cut; fleet angle at most %s, the guide sheave swivels %s.",
			len(v.Sheaves), r.Units.Figure(v.Length, "mm"), whose, r.Units.Figure(v.Cut, "mm"), r.Units.Figure(fleet, "deg"), r.Units.Figure(swivel, "deg")))
	}
	for _, v := range d.Departures {
		list = append(list, fmt.Sprintf("At the middle load the torque is off the curve from %s to %s, most at %s by %+.1f %% of the peak; what keeps the cam from it: %s.",
			r.Units.Figure(v.From, "deg"), r.Units.Figure(v.To, "deg"), r.Units.Figure(v.Worst, "deg"), 100*v.By, v.Cause))
	}
	return list
}

// Teeth tells the pulleys of a drive ratio.
func Teeth(c Ratio) string {
	if c.ArmTeeth == 0 {
		return "on shaft"
	}
	return fmt.Sprintf("%d : %d", c.ArmTeeth, c.DrivenTeeth)
}

// DriveSentence tells the drive in a sentence.
func DriveSentence(r *Report) string {
	d := &r.Resistance
	s := fmt.Sprintf("Plate-loaded lever, %s of plates per arm at the middle load", r.Units.Figure(d.LoadMass, "kg"))
	if d.Drive == "cam" {
		s = fmt.Sprintf("Cam turning %s times as fast as the arm, cable %s, %s on the stack at the middle load",
			strconv.FormatFloat(*d.Cam.Ratio, 'f', -1, 64), Optional(r.Units, d.Cam.CableDiameter, "mm"), r.Units.Figure(d.LoadMass, "kg"))
		s += fmt.Sprintf("; cable tension %s, take-up %s", Optional(r.Units, d.Cam.CableTension, "N"), Optional(r.Units, d.Cam.TakeUp, "mm"))
	} else if d.Lever.Radius != nil {
		s += fmt.Sprintf(" at %s, lever %s from forward horizontal at straight elbow", Optional(r.Units, d.Lever.Radius, "mm"), Optional(r.Units, d.Lever.Phase, "deg"))
	}
	if v := d.Linkage; v.Input != nil {
		s += fmt.Sprintf(" behind a %s four-bar linkage: bars %s, %s, %s on shafts %s apart, plates at %s; transmission angle at least %s, where the best single lever would leave %s rms",
			*v.Assembly, Optional(r.Units, v.Input, "mm"), Optional(r.Units, v.Coupler, "mm"), Optional(r.Units, v.Output, "mm"), Optional(r.Units, v.Ground, "mm"), Optional(r.Units, v.Radius, "mm"),
			Optional(r.Units, v.Transmission, "deg"), Percent(v.LeverRMS))
	}
	if c := d.Cam; c.Transmission != nil {
		s += fmt.Sprintf("; %s of %d pitches on %d and %d teeth", *c.Transmission, *c.Pitches, *c.ArmTeeth, *c.DrivenTeeth)
		if c.BeltWidth != nil {
			s += fmt.Sprintf(", %s wide", Optional(r.Units, c.BeltWidth, "mm"))
		}
		if c.Pull != nil {
			s += fmt.Sprintf(", pulled with %s at the heaviest load and good for %.1f times that by its %s (screening; %.1f wanted)", Optional(r.Units, c.Pull, "N"), *c.PullFactor, *c.PullBasis, *c.PullWanted)
		}
	}
	if e := d.Eccentric; e.Mass != nil {
		s += fmt.Sprintf("; eccentric weight %s at %s, %s above forward at straight elbow", Optional(r.Units, e.Mass, "kg"), Optional(r.Units, e.Radius, "mm"), Optional(r.Units, e.Phase, "deg"))
	}
	if d.Counter.Mass != nil {
		s += fmt.Sprintf("; counterweight %s at %s", Optional(r.Units, d.Counter.Mass, "kg"), Optional(r.Units, d.Counter.Radius, "mm"))
		if p := d.Counter.Phase; p != nil && *p != 0 {
			s += fmt.Sprintf(", %s ahead of opposite the arm", Optional(r.Units, p, "deg"))
		}
	}
	return s + "."
}

// positionsSentence tells the torque of each axis position, and what the cable does there.
func positionsSentence(r *Report) string {
	var match, cable, set []string
	for _, p := range r.Resistance.Positions {
		at := fmt.Sprintf("axis position %d", p.Position)
		if p.RMS == nil {
			match = append(match, "not at all in "+at+", where the cable cannot be led")
			continue
		}
		match = append(match, fmt.Sprintf("by %s in %s", Percent(p.RMS), at))
		if p.GuideRise != nil && *p.GuideRise != 0 {
			way := "higher"
			if *p.GuideRise < 0 {
				way = "lower"
			}
			set = append(set, fmt.Sprintf("%s %s in %s", r.Units.Figure(math.Abs(*p.GuideRise), "mm"), way, at))
		}
		if p.Slack != nil && math.Abs(*p.Slack) >= leastSlack {
			way := "loose"
			if *p.Slack < 0 {
				way = "short"
			}
			cable = append(cable, fmt.Sprintf("%s %s in %s", r.Units.Figure(math.Abs(*p.Slack), "mm"), way, at))
		}
	}
	s := fmt.Sprintf("At its worst load the torque misses the curve, rms, %s.", strings.Join(match, ", "))
	if len(set) > 0 {
		s += fmt.Sprintf(" The guide sheave follows the cam: its pull pin sets it %s.", strings.Join(set, ", "))
	}
	if len(cable) > 0 {
		s += fmt.Sprintf(" Each arm's cable is then %s. Take it up at the cable's end.", strings.Join(cable, ", "))
	}
	return s
}

// leastSlack is what of a cable is not worth telling, mm.
const leastSlack = 1.0
