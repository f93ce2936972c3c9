package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/specs"
)

// TextOptions steer Text. The zero value is plain text.
type TextOptions struct {
	Colour bool // ANSI colours; words and signs stay the same
}

// textWidth is the widest line of Text, in characters.
const textWidth = 100

// Text writes the report for a terminal: verdict, requirements, drive, axis
// positions, people, conflicts, notice.
func Text(w io.Writer, r *Report, o TextOptions) error {
	t := &text{colour: o.Colour}
	t.verdict(r)
	if r.NoStation == nil {
		t.requirements(r)
		t.drive(r)
		t.axes(r)
		t.balance(r)
		t.people(r)
	}
	t.conflict(r)
	t.choices(r)
	t.trades(r)
	for _, n := range r.Notes {
		t.paragraph("note: " + n)
	}
	t.paragraph(r.Notice)
	_, err := t.WriteTo(w)
	return err
}

type text struct {
	bytes.Buffer
	colour bool
}

// The colours carry nothing that the words do not say.
const (
	bold  = "\x1b[1m"
	green = "\x1b[32m"
	red   = "\x1b[31m"
	plain = "\x1b[0m"
)

func (t *text) in(colour, s string) string {
	if !t.colour {
		return s
	}
	return colour + s + plain
}

func (t *text) line(format string, args ...any) {
	t.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

func (t *text) heading(s string) { t.WriteString("\n" + t.in(bold, s) + "\n") }

// paragraph breaks text into lines after an empty one.
func (t *text) paragraph(s string) {
	t.WriteByte('\n')
	for _, l := range wrap(s, textWidth) {
		t.line("%s", l)
	}
}

// wrap breaks text between words so that lines stay within a width.
func wrap(s string, width int) []string {
	var lines []string
	line, n := "", 0
	for _, word := range strings.Fields(s) {
		k := len([]rune(word))
		if n > 0 && n+1+k > width {
			lines, line, n = append(lines, line), "", 0
		}
		if n > 0 {
			line, n = line+" ", n+1
		}
		line, n = line+word, n+k
	}
	return append(lines, line)
}

func (t *text) verdict(r *Report) {
	word, colour := VerdictWord(r.Verdict), red
	if r.Verdict == "met" {
		colour = green
	}
	t.line("%s: %s", t.in(bold, r.Name), t.in(colour, word))
	for _, l := range wrap(r.Summary, textWidth) {
		t.line("%s", l)
	}
}

// VerdictWord is the verdict as people read it.
func VerdictWord(verdict string) string {
	return strings.ToUpper(strings.ReplaceAll(verdict, "-", " "))
}

func (t *text) requirements(r *Report) {
	const before = 68 // columns before the governing case
	t.heading("Requirements")
	t.line("  %-8s %-18s %10s %13s %10s  %s", "", "", "value", "limit", "margin", "governed by")
	for _, q := range r.Requirements {
		colour := green
		if !q.Met {
			colour = red
		}
		status := t.in(colour, fmt.Sprintf("%-8s", Status(q)))
		sign := "<= "
		if q.Sense == "at least" {
			sign = ">= "
		}
		t.line("  %s %-18s %10s %13s %10s  %s", status, q.ID, r.Units.Figure(q.Value, q.Unit),
			sign+r.Units.Figure(q.Limit, q.Unit), r.Units.Figure(q.Margin, q.Unit), clip(Governing(q), textWidth-before))
	}
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
	var parts []string
	if q.Person != nil {
		parts = append(parts, *q.Person)
	}
	if q.Angle != nil {
		parts = append(parts, fmt.Sprintf("at %.0f deg", *q.Angle))
	}
	if q.Case != nil {
		parts = append(parts, *q.Case)
	}
	return strings.Join(parts, ", ")
}

func clip(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-3]) + "..."
}

// optional writes a value that may not apply.
func optional(u specs.Units, x *float64, unit string) string {
	if x == nil {
		return "-"
	}
	return u.Figure(*x, unit)
}

func percent(x *float64) string {
	if x == nil {
		return "-"
	}
	return specs.Metric.Figure(100**x, "%")
}

func (t *text) drive(r *Report) {
	d := &r.Resistance
	t.heading("Resistance")
	for _, l := range wrap(DriveSentence(r), textWidth-2) {
		t.line("  %s", l)
	}
	t.line("  %-7s %9s %7s %8s %10s %11s %11s %11s %9s", "load", "mass", "rms", "largest", "at", "hardest at", "peak up", "peak down", "inertia")
	for _, l := range d.Loads {
		t.line("  %-7s %9s %7s %8s %10s %11s %11s %11s %9s", l.Load, r.Units.Figure(l.Mass, "kg"), percent(&l.RMS), percent(&l.MaxError),
			r.Units.Figure(l.WorstAngle, "deg"), r.Units.Figure(l.HardestAngle, "deg"),
			greatest(r.Units, l.Lifting), greatest(r.Units, l.Lowering), greatest(r.Units, magnitudes(l.Inertia)))
	}
	for _, l := range EffortSentences(r) {
		for _, l := range wrap(l, textWidth-2) {
			t.line("  %s", l)
		}
	}
	if len(d.Ratios) == 0 {
		return
	}
	t.line("")
	t.line("  %-2s %6s %9s %9s %8s %8s %10s %9s %9s %9s %5s", "", "ratio", "teeth", "eccentric", "rms", "largest", "worst load", "radius", "wrap", "size", "parts")
	for _, c := range d.Ratios {
		t.line("  %-2s %6.3f %9s %9s %8s %8s %10s %9s %9s %9s %5d", chosen(c.Chosen), c.Ratio, Teeth(c), optional(r.Units, c.Eccentric, "kg"),
			percent(c.RMS), percent(c.MaxError), percent(c.WorstRMS), optional(r.Units, c.LeastRadius, "mm"), optional(r.Units, c.WrapAngle, "deg"), optional(r.Units, c.Size, "mm"), c.Parts)
	}
}

// greatest writes the largest torque of a list.
func greatest(u specs.Units, list []float64) string {
	if len(list) == 0 {
		return "-"
	}
	return u.Figure(slices.Max(list), "N·m")
}

func magnitudes(list []float64) []float64 { return each(list, math.Abs) }

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
	if e := d.Energy; e.Stack != nil {
		list = append(list, fmt.Sprintf("The stack rises %s: work on it %s, work of the torque measured on the outline %s.",
			optional(r.Units, e.StackTravel, "mm"), optional(r.Units, e.Stack, "J"), optional(r.Units, e.Torque, "J")))
	}
	for _, l := range d.Levels {
		list = append(list, fmt.Sprintf("%s of load are level with %s, whose elbow is estimated at %s held, %s moving.",
			r.Units.Figure(l.Load, "kg"), l.Person, r.Units.Figure(l.Strength, "N·m"), r.Units.Figure(l.Moving, "N·m")))
	}
	if h := d.Cam.Hub; h != nil && h.KeyWidth != nil {
		list = append(list, fmt.Sprintf("The cam sits on a parallel key %s x %s (DIN 6885-1): pressure %s on its plates at the heaviest load, %s on the shaft, without a load factor.",
			r.Units.Figure(*h.KeyWidth, "mm"), r.Units.Figure(*h.KeyHeight, "mm"), r.Units.Size(*h.Pressure, "N/mm²"), r.Units.Figure(h.Torque, "N·m")))
	} else if h != nil && h.ClampScrew != nil {
		list = append(list, fmt.Sprintf("The cam is clamped by a split hub: one screw M%.0f holds %s by friction; the heaviest load asks for %s.",
			*h.ClampScrew, optional(r.Units, h.Holding, "N·m"), r.Units.Figure(h.Torque, "N·m")))
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
		list = append(list, fmt.Sprintf("From %s to %s the torque departs from the curve, by %+.1f %% of the peak at %s: %s.",
			r.Units.Figure(v.From, "deg"), r.Units.Figure(v.To, "deg"), 100*v.By, r.Units.Figure(v.Worst, "deg"), v.Cause))
	}
	return list
}

func chosen(yes bool) string {
	if yes {
		return "->"
	}
	return ""
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
			strconv.FormatFloat(*d.Cam.Ratio, 'f', -1, 64), optional(r.Units, d.Cam.CableDiameter, "mm"), r.Units.Figure(d.LoadMass, "kg"))
		s += fmt.Sprintf("; cable tension %s, take-up %s", optional(r.Units, d.Cam.CableTension, "N"), optional(r.Units, d.Cam.TakeUp, "mm"))
	} else if d.Lever.Radius != nil {
		s += fmt.Sprintf(" at %s, lever %s from forward horizontal at straight elbow", optional(r.Units, d.Lever.Radius, "mm"), optional(r.Units, d.Lever.Phase, "deg"))
	}
	if v := d.Linkage; v.Input != nil {
		s += fmt.Sprintf(" behind a %s four-bar linkage: bars %s, %s, %s on shafts %s apart, plates at %s; transmission angle at least %s, where the best single lever would leave %s rms",
			*v.Assembly, optional(r.Units, v.Input, "mm"), optional(r.Units, v.Coupler, "mm"), optional(r.Units, v.Output, "mm"), optional(r.Units, v.Ground, "mm"), optional(r.Units, v.Radius, "mm"),
			optional(r.Units, v.Transmission, "deg"), percent(v.LeverRMS))
	}
	if c := d.Cam; c.Transmission != nil {
		s += fmt.Sprintf("; %s of %d pitches on %d and %d teeth", *c.Transmission, *c.Pitches, *c.ArmTeeth, *c.DrivenTeeth)
		if c.BeltWidth != nil {
			s += fmt.Sprintf(", %s wide", optional(r.Units, c.BeltWidth, "mm"))
		}
		if c.Pull != nil {
			s += fmt.Sprintf(", pulled with %s at the heaviest load and good for %.1f times that by its %s (screening; %.1f wanted)", optional(r.Units, c.Pull, "N"), *c.PullFactor, *c.PullBasis, *c.PullWanted)
		}
	}
	if e := d.Eccentric; e.Mass != nil {
		s += fmt.Sprintf("; eccentric weight %s at %s, %s above forward at straight elbow", optional(r.Units, e.Mass, "kg"), optional(r.Units, e.Radius, "mm"), optional(r.Units, e.Phase, "deg"))
	}
	if d.Counter.Mass != nil {
		s += fmt.Sprintf("; counterweight %s at %s", optional(r.Units, d.Counter.Mass, "kg"), optional(r.Units, d.Counter.Radius, "mm"))
		if p := d.Counter.Phase; p != nil && *p != 0 {
			s += fmt.Sprintf(", %s ahead of opposite the arm", optional(r.Units, p, "deg"))
		}
	}
	return s + "."
}

func (t *text) axes(r *Report) {
	t.heading("Pivot axes")
	for i, a := range r.Pivots.Right.Axes {
		t.line("  position %d   toe %9s   cant %9s", i+1, r.Units.Figure(a.Toe, "deg"), r.Units.Figure(a.Cant, "deg"))
	}
	if r.Search == nil || len(r.Search.Axes) == 0 {
		return
	}
	t.line("")
	t.line("  %-2s %9s %16s %22s", "", "positions", "worst hand path", "least scaled margin")
	for _, a := range r.Search.Axes {
		t.line("  %-2s %9d %16s %22s", chosen(a.Chosen), a.Positions, r.Units.Figure(a.HandPath, "mm"), optional(r.Units, a.Worst, ""))
	}
}

func (t *text) trades(r *Report) {
	if len(r.Trades) == 0 {
		return
	}
	t.heading("What holds the design back")
	for _, tr := range r.Trades {
		t.line("  %s", tr.Sentence)
	}
}

func (t *text) conflict(r *Report) {
	if len(r.Conflict) == 0 {
		return
	}
	t.heading("What conflicts, and the cheapest way out")
	for _, c := range r.Conflict {
		state := "holds"
		if c.Excess > 0 {
			state = "fails by " + r.Units.Figure(c.Excess, c.Unit)
		}
		part := fmt.Sprintf(", %.0f %% of the conflict", 100*c.Share)
		if c.Needed {
			part += ", without it the others can hold"
		}
		t.line("  %-18s %s%s", c.ID, state, part)
		for _, l := range wrap(c.Advice, textWidth-4) {
			t.line("    %s", l)
		}
	}
	for _, p := range r.Proofs {
		for _, l := range wrap(fmt.Sprintf("Proved for every station: %s: %s against %s.", p.Reason, r.Units.Figure(p.Needed, p.Unit), r.Units.Figure(p.Allowed, p.Unit)), textWidth-2) {
			t.line("  %s", l)
		}
	}
	if len(r.Repairs) > 0 {
		t.line("  Any one of these changes of the brief lets it be met, as a search has shown:")
	}
	for _, way := range r.Repairs {
		for _, l := range wrap(way.Sentence, textWidth-4) {
			t.line("    %s", l)
		}
	}
}
