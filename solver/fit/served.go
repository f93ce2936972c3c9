package fit

import (
	"cmp"
	"math"
	"slices"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// spare is the share of the population for which the settings are to have room beyond
// what coverage asks for.
const spare = 0.03

// reserve is what the search is to have in hand of coverage: one standard error of what
// the verdict counts.
func (s *Program) reserve() float64 {
	p, n := s.Asked.People.Coverage, float64(s.Asked.People.Sample)
	if s.Asked.People.CoverageOf != "all" {
		n /= 2
	}
	return math.Sqrt(p * (1 - p) / n)
}

// Reserve has the search leave room, by requirement, inside units, and where coverage is
// asked that reserve of it at least.
func (s *Program) Reserve(room map[string]float64) {
	s.Leave(room)
	if k := s.KindOf("coverage"); len(s.panel) > 0 {
		s.LeaveMore(k, math.Max(0, s.reserve()-s.RoomOf(k)))
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
