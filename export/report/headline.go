package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"armwright/solver/judge"
	"armwright/specs"
)

// mostFigures is how many figures are told first.
const mostFigures = 6

// subject is what people ask after: a requirement, or several of a kind, of which the
// one with the least room is told. Each is named by what it covers.
type subject []struct{ id, name string }

// leading are the subjects that people ask after first, in that order; of a study of the
// drive alone those of the drive are left.
func leading() []subject {
	return []subject{
		{{"hand-path", "Hand off its path"}},
		{{"torque-match", "Torque off the curve, rms"}},
		{{"tilt-occupied", "Tilt that tips it in use"}, {"tilt-empty", "Tilt that tips it empty"}, {"tilt-entry", "Tilt to spare, entry or push"}},
		{{"crush-gap", "Narrowest crush gap"}, {"entry-gap", "Room for a hand or foot"}},
		{{"footprint-length", "Length, all parts"}},
		{{"footprint-width", "Width, all parts"}},
		{{"height", "Height"}},
		{{"cam-bend", "Tightest bend of the cam"}},
		{{"cable-factor", "Strength of the cable"}},
		{{"stack-travel", "Travel of the stack"}},
	}
}

func headline(r *Report) Headline {
	h := Headline{Outcome: outcome(r), Served: served(r), Figures: []Figure{}}
	for _, s := range leading() {
		if f, ok := s.figure(r); ok && len(h.Figures) < mostFigures {
			h.Figures = append(h.Figures, f)
		}
	}
	return h
}

// figure is the value of the subject's requirement with the least room, by differences
// that matter.
func (s subject) figure(r *Report) (f Figure, ok bool) {
	least := math.Inf(1)
	for _, k := range s {
		i := indexOf(r.Requirements, k.id)
		if i < 0 {
			continue
		}
		if q := &r.Requirements[i]; q.Margin/q.Scale < least {
			least, ok = q.Margin/q.Scale, true
			f = Figure{q.ID, k.name, q.Value, q.Limit, q.Unit, q.Sense, q.Met}
		}
	}
	return f, ok
}

// Failed are the requirements that are not met.
func (r *Report) Failed() []Requirement {
	return those(r.Requirements, func(q *Requirement) bool { return !q.Met })
}

// HeldBack are the requirements that are met and have no room left.
func (r *Report) HeldBack() []Requirement {
	return those(r.Requirements, func(q *Requirement) bool { return q.Met && q.Binding })
}

// Beyond is what lies beyond a limit stated for the protection of joints, whether a
// requirement judges it or it is only told.
func (r *Report) Beyond() []Protection {
	return those(r.Protection, func(p *Protection) bool { return !p.Met })
}

// Unjudged is what of that no requirement judges: a verdict of MET does not say it.
func (r *Report) Unjudged() []string {
	var list []string
	for _, p := range r.Beyond() {
		if p.Requirement == nil {
			list = append(list, p.What)
		}
	}
	return list
}

// burdened are the persons whom the station asks most of, each once.
func (r *Report) burdened() []string {
	var list []string
	for _, p := range r.Protection {
		if !slices.Contains(list, p.Person) {
			list = append(list, p.Person)
		}
	}
	return list
}

// Tell tells what is looked at, its value and limit, of whom, and what the limit decides,
// in a line.
func (p *Protection) Tell(u specs.Units) string {
	return fmt.Sprintf("%s: %s %s, %s %s; %s; %s", p.Joint, p.What, p.Span(u), p.Sense, u.Figure(p.Limit, p.Unit), p.Person, p.Decides())
}

// Decides tells what the limit decides.
func (p *Protection) Decides() string {
	if p.Requirement == nil {
		return "told only"
	}
	return "requirement " + *p.Requirement
}

// those are the entries of a list of which something is true.
func those[T any](list []T, is func(*T) bool) []T {
	var out []T
	for i := range list {
		if is(&list[i]) {
			out = append(out, list[i])
		}
	}
	return out
}

// outcome tells how many requirements are met, and what lies beyond a limit of protection.
func outcome(r *Report) string {
	if r.NoStation != nil {
		return "There is no station, and nothing is drawn: " + *r.NoStation + "."
	}
	var failed []string
	for _, q := range r.Failed() {
		failed = append(failed, q.ID)
	}
	s := fmt.Sprintf("All %d requirements are met.", len(r.Requirements))
	if len(r.Requirements) == 1 {
		s = "The one requirement is met."
	}
	if len(failed) > 0 {
		s = fmt.Sprintf("%d of %d requirements are not met: %s.", len(failed), len(r.Requirements), strings.Join(failed, ", "))
	}
	if r.Verdict == string(judge.Infeasible) {
		s += " The search found no station that meets them all."
	}
	return s + past(r.Unjudged()) + weak(r.Strength.Checks)
}

// weak tells in a sentence what the screening finds too weak and no requirement judges.
func weak(checks []StrengthCheck) string {
	var list []string
	for _, c := range checks {
		if !c.Met && c.Requirement == nil {
			list = append(list, fmt.Sprintf("%s at %.0f %% of what it may bear", c.Part, 100*c.Value/c.Limit))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return " Too weak by the screening, and judged by no requirement: " + strings.Join(list, "; ") + "."
}

// past tells in a sentence what lies beyond a limit that no requirement judges; what one
// judges is among those not met.
func past(list []string) string {
	if len(list) == 0 {
		return ""
	}
	const most = 2 // in a sentence; all are listed beside it
	if n := len(list) - most; n > 0 {
		list = append(list[:most], fmt.Sprintf("%d more", n))
	}
	return " Beyond a limit that protects joints and decides no verdict: " + strings.Join(list, "; ") + "."
}

// Shares of a band of stature from which its people are well served, and below which
// they are badly (judgement).
const (
	wellServed  = 0.8
	badlyServed = 0.5
)

// served tells who fits and who does not, in short sentences.
func served(r *Report) string {
	p := &r.People
	if p.Coverage == nil {
		return bounded(p.Boundary)
	}
	list := []string{fitting(p)}
	for _, g := range []struct {
		who string
		*Covered
		of func(*Band) *Covered
	}{{"women", p.Women, func(b *Band) *Covered { return b.Women }}, {"men", p.Men, func(b *Band) *Covered { return b.Men }}} {
		if g.Covered == nil {
			continue
		}
		s := fmt.Sprintf("Of the %s %.0f %% fit", g.who, 100*g.Coverage)
		if tall := r.byStature(g.of); tall != "" {
			s += ": " + tall
		}
		list = append(list, s+".")
	}
	return strings.Join(list, " ")
}

// fitting tells the share of a crowd that fits, in a sentence.
func fitting(p *People) string {
	who, _, _ := strings.Cut(p.Source, ", ")
	return fmt.Sprintf("%.1f %% of %d %s fit (95 %% interval %.1f to %.1f %%).", 100**p.Coverage, p.Sample, who, 100**p.Low, 100**p.High)
}

// bounded tells how many boundary persons fit.
func bounded(list []Person) string {
	if len(list) == 0 {
		return ""
	}
	n := 0
	for _, p := range list {
		if p.Fits {
			n++
		}
	}
	return fmt.Sprintf("%d of %d boundary persons fit.", n, len(list))
}

// byStature tells which statures of a sex are well served and which are not, empty
// where there are too few persons to say.
func (r *Report) byStature(of func(*Band) *Covered) string {
	var bands []Band // those with enough of the sex
	for _, b := range r.People.Settings {
		if c := of(&b); c != nil && c.Persons >= fewest {
			bands = append(bands, b)
		}
	}
	if len(bands) < 2 {
		return ""
	}
	share := func(i int) float64 { return of(&bands[i]).Coverage }
	height := func(v float64) string { return stature(r.Units, v) + " " + r.Units.Symbol("mm") }
	var words []string
	best, from := 0, 0 // the longest run of bands well served
	first := -1
	for i := range bands {
		if share(i) < wellServed {
			from = i + 1
			continue
		}
		if n := i + 1 - from; n > best {
			best, first = n, from
		}
	}
	switch {
	case best == len(bands):
		return "four in five or more at every stature"
	case best > 0:
		words = append(words, fmt.Sprintf("four in five or more from %s to %s", height(bands[first].From), height(bands[first+best-1].To)))
	}
	low, high := 0, len(bands)
	for low < high && share(low) < badlyServed {
		low++
	}
	for high > low && share(high-1) < badlyServed {
		high--
	}
	switch {
	case low == high:
		return "fewer than half at every stature"
	case low > 0 && high < len(bands):
		words = append(words, fmt.Sprintf("fewer than half below %s and above %s", height(bands[low-1].To), height(bands[high].From)))
	case low > 0:
		words = append(words, "fewer than half below "+height(bands[low-1].To))
	case high < len(bands):
		words = append(words, "fewer than half above "+height(bands[high].From))
	}
	return strings.Join(words, ", ")
}
