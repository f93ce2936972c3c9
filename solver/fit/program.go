package fit

import (
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/specs"
)

// quantisation keeps the solved requirements clear of their limits by a little,
// so that rounding the frame to its file's digits cannot turn a verdict; in
// units that matter.
const quantisation = 0.002

// Program is a brief as a nonlinear program.
type Program struct {
	judge.Judge
	weights terms
	panel   []seat.Occupant // who stands for the population while the optimiser works; nil where coverage is not asked
}

// NewProgram makes a brief ready, with the default aims. The errors are those of judge.New.
func NewProgram(a *specs.Asked) (*Program, error) {
	j, err := judge.New(a)
	if err != nil {
		return nil, err
	}
	b, s := specs.Brief{}, &Program{Judge: *j}
	s.panel = invite(j)
	s.Aim(b.Aims())
	return s, nil
}

// Like makes another brief ready, sharing what is the same in both, and the aims.
func (s *Program) Like(a *specs.Asked) (*Program, error) {
	j, err := s.For(a)
	if err != nil {
		return nil, err
	}
	return &Program{Judge: *j, weights: s.weights, panel: invite(j)}, nil
}

// invited is how many persons stand for the population while the optimiser works. What
// it makes of so few is counted on the judge's panel after every round.
const invited = 96

// invite is the panel of a brief that asks for coverage, not seated yet.
func invite(j *judge.Judge) []seat.Occupant {
	if j.Asked.People.Coverage == 0 || j.Bench() {
		return nil
	}
	var list []seat.Occupant
	for who := range j.Panel(invited) {
		list = append(list, j.Occupant(who))
	}
	return list
}

// coarseStride is the stride through the angle grid at which the search looks;
// what happens between is seen when a round is finished on the whole grid, and
// paid for with a guard.
const coarseStride = 3

// coarse is the program on every coarseStride-th angle and the last one.
func (s *Program) coarse() *Program {
	c := *s
	c.Angles, c.Shape = every(s.Angles, coarseStride), every(s.Shape, coarseStride)
	c.Sin, c.Cos = every(s.Sin, coarseStride), every(s.Cos, coarseStride)
	return &c
}

// every takes each stride-th element of a and the last.
func every(a []float64, stride int) []float64 {
	var out []float64
	for i := 0; i < len(a); i += stride {
		out = append(out, a[i])
	}
	if n := len(a); n > 0 && (n-1)%stride != 0 {
		out = append(out, a[n-1])
	}
	return out
}
