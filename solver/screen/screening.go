package screen

import (
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// screening works out all strains.
func (s *Screen) screening(st *build.Station, sat []seat.Person, d *drive.State, out *screening) {
	for i := range out.who {
		out.who[i] = -1
	}
	if st.Assembly == nil {
		for i := range screened {
			if screened[i].kind == asShare {
				out.value[i] = unbuilt
			}
		}
		return
	}
	var r rig
	r.find(st)
	var l burden
	s.loads(&r, sat, d, &l)
	copy(out.who[:], []int{machine: -1, byFoot: l.foot.who, byBracket: l.bracket.who, byHand: l.hand.who})
	s.carriers(&r, &l, out)
	s.swivel(&r, &l, out)
	s.shafts(&r, &l, out)
	s.bars(&r, &l, out)
	s.padAndSeat(&r, out)
	s.chest(&r, out)
	s.back(&r, out)
	s.arm(&r, &l, out)
	s.hoist(&r, d.HeavyTension, out)
	s.drop(&r, d, out)
}

// members adds the rows of the screening: the same ones for every station of a kind.
func (s *Screen) members(sc *Scene, out *require.Rows) {
	if sc.Geometry.Base == nil {
		return
	}
	var all screening
	s.screening(sc.Station, sc.seated, &sc.drive, &all)
	for i := range screened {
		q := &screened[i]
		if q.id == "" || !q.only.of(&sc.Station.Values) {
			continue
		}
		row := out.Add(q.id, all.who[q.by], all.value[i])
		if !out.Quiet {
			row.Case = q.title(all.size[i]).Then(require.Name(", ")).Then(q.how(all.size[i]))
		}
	}
}

// Strength is the screening for the report.
func (s *Screen) Strength(g *specs.Geometry, st *build.Station, sat []seat.Person, d *drive.State) Strength {
	out := Strength{Factors: loadFactors()}
	if g.Base == nil {
		return out
	}
	var all screening
	s.screening(st, sat, d, &all)
	for i := range screened {
		q := &screened[i]
		if !q.only.of(&st.Values) {
			continue
		}
		c := StrengthCheck{ID: q.id, Part: q.title(all.size[i]), What: q.how(all.size[i]), Value: all.value[i], Limit: 1, Unit: "%", Source: q.source, Mark: q.mark}
		if q.id != "" {
			c.Limit = s.LimitOf(q.id)
		}
		c.Met = c.Value <= c.Limit
		if q.kind == asRatio {
			c.Unit, c.AtLeast, c.Met = "", true, c.Value >= c.Limit
		}
		if who := all.who[q.by]; who >= 0 {
			c.Person = sat[who].Person.Label
		}
		out.Checks = append(out.Checks, c)
	}
	if st.Assembly != nil {
		out.Suggested = s.suggest(&all.beams)
	}
	return out
}

// Strength is the screening of what carries load: from hand, pad, seat, cable and
// chain along the joints down to the floor. It proves no conformity.
type Strength struct {
	Checks    []StrengthCheck
	Factors   []LoadFactor
	Suggested []Suggestion
}

func loadFactors() []LoadFactor {
	return []LoadFactor{
		{"working load on members", loadFactor, "EN 957-2 5.2", "M"},
		{"lifted load in the drive, on top", dynamicFactor, "EN 957-2 5.2", "M"},
		{"bolts and welds, partial factor", boltPartial, "EN 1993-1-8", "M"},
	}
}

// LoadFactor is a factor on loads with where it comes from.
type LoadFactor struct {
	Name   string
	Value  float64
	Source string
	Mark   string
}
