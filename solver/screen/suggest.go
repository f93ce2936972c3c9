package screen

import "armwright/specs/stock"

// Suggestion is the lightest tube of stock that holds every screened member of
// the frame within the limits.
type Suggestion struct {
	System     string // metric or inch
	Name       string
	Mass       float64 // kg/m
	Stress     float64 // share of the strength of tube or weld
	Deflection float64 // share of the free length
}

// leastSide of a suggested tube, mm: the arm pads' bracket stands on its face.
const leastSide = 40.0

// suggest finds the lightest tubes, metric and inch, that hold posts, rails and seat
// sleeve with their welds within the limits.
func (s *Screen) suggest(f *frameLoads) []Suggestion {
	var best [2]*Suggestion
	stress, bend := s.LimitOf("member-stress"), s.LimitOf("member-deflection")
	for _, name := range stock.MemberNames() {
		sec, err := stock.Member(name)
		if err != nil || sec.B < leastSide {
			continue
		}
		c := Suggestion{System: "metric", Name: name, Mass: sec.Mass, Deflection: f.post.sway(&sec, f.high)}
		i := 0
		if stock.Inch(name) {
			c.System, i = "inch", 1
		}
		c.Stress = max(f.tubes(&sec, s.Steel.Yield), f.welds(&sec, &s.Steel))
		if c.Stress <= stress && c.Deflection <= bend && (best[i] == nil || c.Mass < best[i].Mass) {
			best[i] = &c
		}
	}
	var out []Suggestion
	for _, c := range best {
		if c != nil {
			out = append(out, *c)
		}
	}
	return out
}
