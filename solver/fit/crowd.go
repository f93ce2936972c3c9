package fit

import (
	"math"
	"slices"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// softness is the margin, in units that matter, over which a person goes from turned
// away to served.
const softness = 0.5

// crowd tells the optimiser which share of the panel fits, smoothly: of a person with
// margins m the part 1/(1+sum of exp(-m/softness)), which is the logistic of the least
// of them where one stands out. Everybody keeps the setting that suits best where it
// begins, and it is set off so that it begins at the share that strictly fits.
type crowd struct {
	s     *Program
	panel []seat.Occupant
	seen  []seen
	parts []float64 // of each person, at the base
	met   []bool    // by arm or frame where it begins: turned away, whatever else
	own   require.Rows
	off   [2]float64 // smooth less strict, of each of groups
	begun bool
}

func (s *Program) crowd(g *specs.Geometry, d drive.State) *crowd {
	c := &crowd{s: s, panel: slices.Clone(s.panel), seen: make([]seen, len(s.panel)), parts: make([]float64, len(s.panel)), met: make([]bool, len(s.panel))}
	c.own.Card, c.own.Quiet = &s.Card, true
	if len(c.panel) == 0 {
		return c
	}
	st := s.Station(g, &d, nil)
	m, beside := drive.NewMachine(g), s.Beside(g, &st)
	p := seat.Sitter{Level: d.Level}
	scratch := &require.Rows{Card: &s.Card, Quiet: true}
	for i := range c.panel {
		p.Host(&s.Placer, &c.panel[i])
		c.own.List = c.own.List[:0]
		r := s.Best(m, &p, &c.own, scratch)
		c.panel[i].Setting = seat.Setting{Seat: r.Seat, Axis: r.Axis, Handle: r.Handle}
		c.own.List = c.own.List[:0]
		beside.Add(&r, &c.own)
		c.met[i] = c.own.Least() < require.Meets
	}
	return c
}

// group is which of the groups that coverage is asked of a person belongs to.
func (c *crowd) group(i int) int {
	if c.s.Asked.People.CoverageOf == "all" {
		return 0
	}
	return int(c.panel[i].Sex())
}

// add adds the rows of coverage, as many for every geometry.
func (c *crowd) add(m *model, g *specs.Geometry, out *require.Rows) {
	if len(c.panel) == 0 {
		return
	}
	mach := drive.NewMachine(g)
	p := seat.Sitter{Level: m.d.Level}
	var sum, strict, n [2]float64
	for i := range c.panel {
		o, known := &c.panel[i], &c.seen[i]
		now := touchOf(g, o.Axis)
		known.moved = !m.near || now != known.touch
		part := c.parts[i]
		if known.moved {
			c.own.List = c.own.List[:0]
			p.Host(&c.s.Placer, o)
			m.seat(mach, &p, known, now, o.Setting, &c.own)
			part = c.part()
			if !m.near {
				c.parts[i] = part
			}
		}
		k := c.group(i)
		n[k]++
		if c.met[i] {
			continue
		}
		sum[k] += part
		if !c.begun && c.own.Least() >= require.Meets {
			strict[k]++
		}
	}
	for k := range n {
		if n[k] == 0 {
			continue
		}
		if !c.begun {
			c.off[k] = (sum[k] - strict[k]) / n[k]
		}
		out.Add("coverage", -1, sum[k]/n[k]-c.off[k])
	}
	c.begun = true
}

// part is how far the person whose rows are at hand counts as served.
func (c *crowd) part() float64 {
	sum := 1.0
	for i := range c.own.List {
		sum += math.Exp(-c.s.Scaled(&c.own.List[i]) / softness)
	}
	return 1 / sum
}
