package report

import (
	"fmt"
	"io"
	"math"

	"armwright/specs"
)

// ComparisonSchema is the name of the format of a Comparison, and of its
// version.
const ComparisonSchema = "armwright/comparison/1"

// Comparison lays two stations side by side.
type Comparison struct {
	Schema string         `json:"schema" enum:"armwright/comparison/1" doc:"format and version"`
	Names  [2]string      `json:"names" doc:"the stations"`
	Met    [2]string      `json:"verdicts" doc:"their verdicts"`
	Units  specs.Units    `json:"units" enum:"metric|inch-pound" doc:"units that the printed comparison is in; the numbers here are metric"`
	Groups []CompareGroup `json:"groups" doc:"what is compared"`
	Notice string         `json:"notice" doc:"what this must not be taken for"`
}

// CompareGroup is a group of values under a heading.
type CompareGroup struct {
	Title string       `json:"title" doc:"heading"`
	Lines []CompareRow `json:"lines" doc:"values"`
}

// CompareRow is one value of both stations. What one of them has not is null.
type CompareRow struct {
	What   string      `json:"what" doc:"name of the value"`
	Unit   string      `json:"unit" doc:"of the values"`
	Values [2]*float64 `json:"values" doc:"of the first and the second station"`
	Better int         `json:"better" doc:"1 or 2 where one has more room to its limit, in parts of a difference that matters; 0 where they are alike or it is a matter of taste"`
}

// Compare lays two reports side by side: requirements, balance, joints, sizes.
func Compare(a, b *Report) Comparison {
	c := Comparison{Schema: ComparisonSchema, Names: [2]string{a.Name, b.Name}, Met: [2]string{a.Verdict, b.Verdict}, Units: a.Units, Notice: a.Notice}

	asked := CompareGroup{Title: "Requirements"}
	second := map[string]Requirement{}
	for _, q := range b.Requirements {
		second[q.ID] = q
	}
	for _, q := range a.Requirements {
		row := CompareRow{What: q.ID, Unit: q.Unit, Values: [2]*float64{some(q.Value)}}
		if o, ok := second[q.ID]; ok {
			row.Values[1] = some(o.Value)
			row.Better = better(q.Margin, o.Margin, 0.1*q.Scale)
			delete(second, q.ID)
		}
		asked.Lines = append(asked.Lines, row)
	}
	for _, q := range b.Requirements {
		if _, ok := second[q.ID]; ok {
			asked.Lines = append(asked.Lines, CompareRow{What: q.ID, Unit: q.Unit, Values: [2]*float64{nil, some(q.Value)}})
		}
	}
	c.Groups = append(c.Groups, asked)

	joints := CompareGroup{Title: "Joints"}
	other := map[string]Protection{}
	for _, p := range b.Protection {
		other[p.Joint+p.What] = p
	}
	for _, p := range a.Protection {
		row := CompareRow{What: p.Joint + ": " + p.What, Unit: p.Unit, Values: [2]*float64{some(p.Value)}}
		if o, ok := other[p.Joint+p.What]; ok {
			row.Values[1] = some(o.Value)
			room := func(p Protection) float64 {
				if p.Sense == "at least" {
					return p.Value - p.Limit
				}
				return p.Limit - p.Value
			}
			row.Better = better(room(p), room(o), 0.01*math.Abs(p.Limit))
			delete(other, p.Joint+p.What)
		}
		joints.Lines = append(joints.Lines, row)
	}
	for _, p := range b.Protection {
		if _, ok := other[p.Joint+p.What]; ok {
			joints.Lines = append(joints.Lines, CompareRow{What: p.Joint + ": " + p.What, Unit: p.Unit, Values: [2]*float64{nil, some(p.Value)}})
		}
	}
	c.Groups = append(c.Groups, joints)

	whole := CompareGroup{Title: "Station"}
	add := func(what, unit string, sign float64, value func(*Report) *float64) {
		row := CompareRow{What: what, Unit: unit, Values: [2]*float64{value(a), value(b)}}
		if x, y := row.Values[0], row.Values[1]; sign != 0 && x != nil && y != nil {
			row.Better = better(sign**x, sign**y, 1e-3*math.Max(math.Abs(*x), math.Abs(*y)))
		}
		whole.Lines = append(whole.Lines, row)
	}
	add("coverage", "%", 1, func(r *Report) *float64 { return scaled(r.People.Coverage, 100) })
	add("worst hand path", "mm", -1, func(r *Report) *float64 { return r.Elbow.WorstHandPath })
	add("axis positions", "", 0, func(r *Report) *float64 { return some(float64(len(r.Pivots.Right.Axes))) })
	add("seat positions", "", 0, func(r *Report) *float64 { return some(float64(len(r.Seat.Positions))) })
	add("torque rms at the middle load", "%", -1, func(r *Report) *float64 { return some(round(100*r.Resistance.RMS, decimals)) })
	add("least tilt", "deg", 1, func(r *Report) *float64 { return r.Stability.LeastTilt })
	add("base length", "mm", -1, func(r *Report) *float64 { return r.Footprint.Length })
	add("base width", "mm", -1, func(r *Report) *float64 { return r.Footprint.Width })
	add("pivot height", "mm", 0, func(r *Report) *float64 { return some(r.Pivots.Right.Z) })
	add("pivot spacing", "mm", 0, func(r *Report) *float64 { return some(2 * r.Pivots.Left.Y) })
	c.Groups = append(c.Groups, whole)
	return c
}

func scaled(x *float64, by float64) *float64 {
	if x == nil {
		return nil
	}
	return some(round(*x*by, decimals))
}

// better tells which of two has more room, 0 when they differ by less than
// what matters.
func better(a, b, matters float64) int {
	switch {
	case a > b+matters:
		return 1
	case b > a+matters:
		return 2
	}
	return 0
}

// CompareJSON writes the comparison as JSON.
func CompareJSON(w io.Writer, c Comparison) error { return encode(w, c) }

// CompareText writes the comparison for a terminal. A star stands at the value
// with more room to its limit.
func CompareText(w io.Writer, c Comparison, o TextOptions) error {
	t := &text{colour: o.Colour}
	t.line("%s", t.in(bold, "1: "+c.Names[0])+", "+VerdictWord(c.Met[0]))
	t.line("%s", t.in(bold, "2: "+c.Names[1])+", "+VerdictWord(c.Met[1]))
	for _, g := range c.Groups {
		t.heading(g.Title)
		t.line("  %-62s %15s %15s", "", "1", "2")
		for _, r := range g.Lines {
			var cell [2]string
			for i, v := range r.Values {
				cell[i] = optional(c.Units, v, r.Unit)
				if r.Better == i+1 {
					cell[i] = "* " + cell[i]
				}
			}
			t.line("  %-62s %15s %15s", clip(r.What, 62), cell[0], cell[1])
		}
	}
	t.WriteString("\n" + fmt.Sprintln("  * more room to its limit"))
	t.paragraph(c.Notice)
	_, err := t.WriteTo(w)
	return err
}
