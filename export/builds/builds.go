// Package builds tells what builds to shop tolerances come to: as data, as text and as a
// plot.
package builds

import (
	"fmt"
	"io"
	"math"
	"strings"

	"armwright/export/plot"
	"armwright/export/report"
	"armwright/export/sheet"
	"armwright/export/terminal"
	"armwright/export/words"
	"armwright/solver/require"
	"armwright/solver/tolerance"
	"armwright/specs"
)

// Outcome is what builds to shop tolerances come to, in outside units: mm, degrees,
// %, kg.
type Outcome struct {
	Schema       string      `json:"schema"`
	Name         string      `json:"name"`
	Units        specs.Units `json:"units"` // of what is printed and plotted; the numbers here are metric
	Builds       int         `json:"builds"`
	Seed         uint64      `json:"seed"`
	Machined     string      `json:"machined"` // class of ISO 2768-1
	Welded       string      `json:"welded"`   // class of ISO 13920
	Times        float64     `json:"times"`
	Held         bool        `json:"held"`         // dimensions as the sheets ask, not as the classes allow
	Met          float64     `json:"met_percent"`  // builds that meet every requirement
	Near         float64     `json:"near_percent"` // builds that miss none by more than one unit that matters
	Requirements []Spread    `json:"requirements"`
	Dimensions   []Hold      `json:"dimensions"`
	PickUp       *PickUp     `json:"pick_up,omitempty"`
	Notice       string      `json:"notice"`
	spreads      []tolerance.Spread
}

// Spread is how a requirement's value is spread over the builds.
type Spread struct {
	ID        string  `json:"id"`
	Unit      string  `json:"unit"`
	Sense     string  `json:"sense"`
	Limit     float64 `json:"limit"`
	Designed  float64 `json:"designed"`
	Mean      float64 `json:"mean"`
	Deviation float64 `json:"standard_deviation"`
	Good      float64 `json:"better_5_percent"` // the value that the best 5 % of the builds reach
	Middle    float64 `json:"middle"`
	Bad       float64 `json:"worse_5_percent"` // the value that the worst 5 % pass
	Met       float64 `json:"met_percent"`
	Tighten   float64 `json:"design_to"` // the limit to design to, for 95 % to meet this one
	Causes    []Cause `json:"causes"`
}

// Cause is what one dimension does to a requirement's value.
type Cause struct {
	Dimension   string  `json:"dimension"`
	Sensitivity float64 `json:"sensitivity"` // of the margin, outside unit for each mm, degree or kg
	Share       float64 `json:"share_percent"`
}

// Hold is a dimension with its general tolerance and the one to hold.
type Hold struct {
	Name      string  `json:"name"`
	Unit      string  `json:"unit"`
	Tolerance float64 `json:"tolerance"`
	By        string  `json:"by"`
	Hold      float64 `json:"hold"`
	General   bool    `json:"general"` // the general tolerance will do
	For       string  `json:"for,omitempty"`
}

// PickUp is the arm's travel before the heaviest load is carried, degrees.
type PickUp struct {
	New    float64 `json:"new"`  // by the cable's elastic stretch
	High   float64 `json:"high"` // which 95 % of the arms stay below before the cable is tightened again
	Room   float64 `json:"room"` // travel before the loaded range
	Within float64 `json:"within_percent"`
}

// New puts builds into outside units. Times, classes and held are what
// it was run with.
func New(f *specs.Frame, r *tolerance.Result, c tolerance.Classes, times float64, held bool) *Outcome {
	b := &Outcome{
		Schema: "armwright/builds/1", Name: f.Name, Units: f.Drawing.Reads(), Builds: r.Builds, Seed: r.Seed, Machined: c.Machined, Welded: c.Welded, Times: times, Held: held,
		Met: told(r.Met, require.Share), Near: told(r.Near, require.Share), spreads: r.Spreads,
		Requirements: []Spread{}, Dimensions: []Hold{},
		Notice: "A study of dimensions, masses and play alone: no distortion under load, no wear. " + sheet.Notice,
	}
	for _, s := range r.Spreads {
		sign := -1.0
		q := Spread{ID: s.ID, Unit: words.Symbol(s.Unit), Sense: "at most", Limit: told(s.Limit, s.Unit)}
		if s.AtLeast {
			sign, q.Sense = 1, "at least"
		}
		value := func(margin float64) float64 { return told(s.Limit+sign*margin, s.Unit) }
		q.Designed, q.Mean, q.Deviation = value(s.Nominal), value(s.Mean), told(s.Deviation, s.Unit)
		q.Good, q.Middle, q.Bad = value(s.High), value(s.Middle), value(s.Low)
		q.Met, q.Tighten = told(s.Met, require.Share), value(s.Tighten)
		for _, cause := range s.Causes {
			if cause.Share < leastTold {
				break
			}
			d := &r.Dimensions[cause.Dimension]
			q.Causes = append(q.Causes, Cause{d.Name, told(cause.Slope, s.Unit) * perOutside(d.Unit), told(cause.Share, require.Share)})
		}
		b.Requirements = append(b.Requirements, q)
	}
	for _, h := range r.Holds {
		d := &r.Dimensions[h.Dimension]
		b.Dimensions = append(b.Dimensions, Hold{
			Name: d.Name, Unit: dimensionSymbol(d.Unit), Tolerance: report.Round(d.Tolerance / perOutside(d.Unit)), By: d.By,
			Hold: report.Round(h.To / perOutside(d.Unit)), General: h.General, For: h.For,
		})
	}
	if p := r.PickUp; p.Known {
		b.PickUp = &PickUp{report.Round(p.New / specs.Degree), report.Round(p.High / specs.Degree), report.Round(p.Room / specs.Degree), told(p.Within, require.Share)}
	}
	return b
}

// told is a requirement's quantity in its outside unit.
func told(x float64, u require.Unit) float64 { return report.Round(words.Outside(x, u)) }

// leastTold is the share of a spread below which a cause is left out.
const leastTold = 0.01

func dimensionSymbol(u tolerance.Unit) string {
	switch u {
	case tolerance.Radian:
		return "deg"
	case tolerance.Kilogram:
		return "kg"
	}
	return "mm"
}

// perOutside is one outside unit of a dimension, inside.
func perOutside(u tolerance.Unit) float64 {
	if u == tolerance.Radian {
		return specs.Degree
	}
	return 1
}

// JSON writes them as JSON.
func JSON(w io.Writer, b *Outcome) error { return report.Encode(w, b) }

// Text writes them for a terminal.
func Text(w io.Writer, b *Outcome, colour bool, columns int) error {
	t := &terminal.Text{Colour: colour, Columns: columns}
	how := fmt.Sprintf("parts to ISO 2768-%s, welds to ISO 13920-%s", b.Machined, b.Welded)
	if b.Held {
		how = "dimensions as the sheets ask"
	}
	if b.Times != 1 {
		how += fmt.Sprintf(", times %g", b.Times)
	}
	t.Words("", fmt.Sprintf("%s: %d builds, %s, seed %d", t.In(terminal.Bold, b.Name), b.Builds, how, b.Seed))
	t.Words("", fmt.Sprintf("%.1f %% meet every requirement; %.1f %% miss none by more than one unit that matters", b.Met, b.Near))
	if len(b.Requirements) == 0 {
		t.Line("nothing spreads")
	} else {
		t.Heading("Requirements over the builds")
		spread := terminal.Table{Head: []string{"", "limit", "designed", "best 5 %", "middle", "worst 5 %", "met", "most by"}, Right: []bool{false, true, true, true, true, true, true, false}}
		for _, q := range b.Requirements {
			sign := "<= "
			if q.Sense == "at least" {
				sign = ">= "
			}
			most := ""
			if len(q.Causes) > 0 {
				most = fmt.Sprintf("%s, %.0f %%", q.Causes[0].Dimension, q.Causes[0].Share)
			}
			spread.Add(q.ID, sign+b.Units.Figure(q.Limit, q.Unit), b.Units.Figure(q.Designed, q.Unit),
				b.Units.Figure(q.Good, q.Unit), b.Units.Figure(q.Middle, q.Unit), b.Units.Figure(q.Bad, q.Unit), fmt.Sprintf("%.0f %%", q.Met), most)
		}
		t.Table(spread)
		b.tighten(t)
	}
	t.Heading("Tolerances to hold")
	holds := terminal.Table{Head: []string{"", "general", "hold", "for"}, Right: []bool{false, true, true, false}}
	for _, d := range b.Dimensions {
		hold, why := "general", d.By
		if !d.General {
			hold, why = b.plusMinus(d.Hold, d.Unit), d.For
		}
		holds.Add(d.Name, b.plusMinus(d.Tolerance, d.Unit), hold, why)
	}
	t.Table(holds)
	if p := b.PickUp; p != nil {
		t.Heading("Cable")
		t.Words("  ", fmt.Sprintf("The arm turns %.1f deg before it carries the heaviest load, up to %.1f deg when the cable has settled; %.1f deg lie before the loaded range, which is enough for %.0f %% of the arms.", p.New, p.High, p.Room, p.Within))
	}
	t.Paragraph(b.Notice)
	_, err := t.WriteTo(w)
	return err
}

// tighten says to which limits to design for most builds to meet those asked.
func (b *Outcome) tighten(t *terminal.Text) {
	var list []string
	for _, q := range b.Requirements {
		if q.Tighten != q.Limit {
			list = append(list, q.ID+" "+b.Units.Figure(q.Tighten, q.Unit))
		}
	}
	if len(list) > 0 {
		t.Paragraph("For 95 % of the builds to meet each limit, design to: " + strings.Join(list, ", ") + "; design BRIEF --welded " + b.Welded + " does so.")
	}
}

// plusMinus writes a tolerance in the reader's units.
func (b *Outcome) plusMinus(x float64, unit string) string {
	return "±" + trimmed(b.Units.In(x, unit)) + " " + b.Units.Symbol(unit)
}

// trimmed is a number with as many decimals as it needs, at most three.
func trimmed(x float64) string { return fmt.Sprint(math.Round(x*1000) / 1000) }

// Size of a panel of the plot of builds.
const (
	panelWidth, panelHeight = 360.0, 170.0
	panelAcross             = 2
)

// Plot is their distributions as an SVG file: a panel
// for each requirement, with its limit as a dashed line and its designed value
// as a short stroke under the axis.
func Plot(b *Outcome) []byte {
	d := &plot.Drawing{}
	rows := (len(b.spreads) + panelAcross - 1) / panelAcross
	for i, s := range b.spreads {
		panel(d, 20+float64(i%panelAcross)*panelWidth, 10+float64(i/panelAcross)*panelHeight, &b.Requirements[i], &s, b.Units)
	}
	return d.File(panelAcross*panelWidth+20, float64(max(rows, 1))*panelHeight+20, "Requirements over "+fmt.Sprint(b.Builds)+" builds of "+b.Name,
		".bar{fill:#2a6f97}.limit{stroke:#b5432c;stroke-width:1.6;stroke-dasharray:5 3;fill:none}.mark{stroke:#222;stroke-width:2;fill:none}")
}

func panel(d *plot.Drawing, x, y float64, q *Spread, s *tolerance.Spread, u specs.Units) {
	const top, low, wide = 28.0, 36.0, panelWidth - 40
	sign := -1.0
	if s.AtLeast {
		sign = 1
	}
	// The axis is the value, so that it takes in the limit.
	from, to := s.Limit+sign*s.From, s.Limit+sign*s.To
	e := plot.NewExtent(math.Min(math.Min(from, to), s.Limit), math.Max(math.Max(from, to), s.Limit))
	if math.Abs(s.Nominal) > 4*(s.To-s.From) { // a limit far away is left out
		e = plot.NewExtent(math.Min(from, to), math.Max(from, to))
	}
	px := func(v float64) float64 { return x + (v-e.Low)/(e.High-e.Low)*wide }
	base := y + panelHeight - low
	most := 1
	for _, n := range s.Histogram {
		most = max(most, n)
	}
	d.Text(x, y+16, "start", strings.TrimSpace(q.ID+", "+u.Symbol(q.Unit))+fmt.Sprintf(": %.0f %% met", q.Met))
	for i, n := range s.Histogram {
		a := px(from + (to-from)*float64(i)/tolerance.Bins)
		b := px(from + (to-from)*float64(i+1)/tolerance.Bins)
		h := float64(n) / float64(most) * (panelHeight - low - top)
		if n > 0 {
			d.Rect("bar", math.Min(a, b), base-h, math.Max(math.Abs(b-a), 0.5), h)
		}
	}
	d.Line("frame", x, base, x+wide, base)
	out := plot.Extent{Low: u.In(told(e.Low, s.Unit), q.Unit), High: u.In(told(e.High, s.Unit), q.Unit)}
	list := out.Ticks()
	for i, v := range list {
		if len(list) > 6 && i%2 == 1 {
			continue
		}
		at := x + (v-out.Low)/(out.High-out.Low)*wide
		d.Line("frame", at, base, at, base+4)
		d.Text(at, base+19, "middle", fmt.Sprintf("%.5g", v))
	}
	if s.Limit > e.Low && s.Limit < e.High {
		d.Line("limit", px(s.Limit), y+top-4, px(s.Limit), base)
	}
	nominal := s.Limit + sign*s.Nominal
	d.Line("mark", px(nominal), base-1, px(nominal), base+7)
}
