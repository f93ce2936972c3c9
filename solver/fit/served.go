package fit

import (
	"cmp"
	"math"
	"slices"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// invited is how many persons stand for the population while the optimiser works. What
// it makes of so few is counted on the judge's panel after every round.
const invited = 96

// spare is the share of the population for which the settings are to have room beyond
// what coverage asks for.
const spare = 0.03

// invite seats nobody yet.
func (s *Program) invite() []seat.Occupant {
	if s.Asked.People.Coverage == 0 || s.Bench() {
		return nil
	}
	var list []seat.Occupant
	for who := range s.Panel(invited) {
		list = append(list, s.Occupant(who))
	}
	return list
}

// reserve is what the search is to have in hand of coverage: one standard error of what
// the verdict counts.
func (s *Program) reserve() float64 {
	p, n := s.Asked.People.Coverage, float64(s.Asked.People.Sample)
	if s.Asked.People.CoverageOf != "all" {
		n /= 2
	}
	return math.Sqrt(p * (1 - p) / n)
}

// Reserve has the search leave that, where coverage is asked.
func (s *Program) Reserve() {
	if len(s.panel) > 0 {
		s.Leave(map[string]float64{"coverage": s.reserve()})
	}
}

// settle gives everybody the seat and axis that suit best, with the handle free, and
// returns the least margins there.
func (s *Program) settle(g *specs.Geometry, d drive.State, list []seat.Occupant) []float64 {
	m := drive.NewMachine(g)
	p := seat.Sitter{Level: d.Level}
	scratch := &require.Rows{Card: &s.Card, Quiet: true}
	tops := make([]float64, len(list))
	for i := range list {
		p.Host(&s.Placer, &list[i])
		near := s.NearestSeat(m, &p)
		top := math.Inf(-1)
		for k := max(0, near-1); k <= min(g.Seat.Positions-1, near+1); k++ {
			for a := range m.Axes {
				scratch.List = scratch.List[:0]
				at := seat.Setting{Seat: k, Axis: a, Handle: -1}
				s.Place(m, &p, at, scratch)
				if v := scratch.Least(); v > top+seat.Tie {
					top, list[i].Setting = v, at
				}
			}
		}
		tops[i] = top
	}
	return tops
}

// FreeSettings chooses seat and axis for every boundary person, with the
// handle free.
func (s *Program) FreeSettings(g *specs.Geometry, d drive.State) []seat.Setting {
	list := s.Boundary(make([]seat.Setting, len(s.Persons)))
	s.settle(g, d, list)
	set := make([]seat.Setting, len(list))
	for i := range list {
		set[i] = list[i].Setting
	}
	return set
}

// served are those for whom the settings are to have room: the boundary persons in
// theirs, and of the panel the easiest to serve, as many as coverage asks for and some
// to spare.
func (s *Program) served(g *specs.Geometry, d drive.State, set []seat.Setting) []seat.Occupant {
	list := s.Boundary(set)
	panel := slices.Clone(s.panel)
	tops := s.settle(g, d, panel)
	order := make([]int, len(panel))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(tops[b], tops[a]) })
	wanted := int(math.Ceil(min(1, s.Asked.People.Coverage+spare) * float64(len(panel))))
	for _, i := range order[:wanted] {
		list = append(list, panel[i])
	}
	return list
}

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

func (s *Program) crowd(g *specs.Geometry, d drive.State, st *build.Station) *crowd {
	c := &crowd{s: s, panel: slices.Clone(s.panel), seen: make([]seen, len(s.panel)), parts: make([]float64, len(s.panel)), met: make([]bool, len(s.panel))}
	c.own.Card, c.own.Quiet = &s.Card, true
	if len(c.panel) == 0 {
		return c
	}
	m, beside := drive.NewMachine(g), s.Beside(g, st)
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
