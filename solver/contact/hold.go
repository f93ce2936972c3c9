package contact

import (
	"math"

	"armwright/geometry/statics"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	// Friction is what cloth holds on a cover, or a shoe on the floor, at most, share of
	// the normal force. Judgement.
	Friction = 0.4
	// Reserve is up to which multiple of a load a state is looked for.
	Reserve = 1.1
	// shareStep is how finely the part of a load that can be held is found.
	shareStep = 1.0 / 128
)

// Hold is the state of least forces in which a load is held, on both hands together,
// N, at a flexion, and the body that it is of; false where none exists.
func (s *Sitting) Hold(load, theta float64) (State, statics.Body, bool) {
	b := s.lifting(load, theta)
	eq := s.balance(load, theta)
	if !s.program.solve(&eq) {
		return State{}, b, false
	}
	return s.program.state(&eq), b, true
}

// balance is that of the body with a load.
func (s *Sitting) balance(load, theta float64) statics.Balance {
	return s.program.eq.Under(&s.body, forearms, s.pull(load, theta))
}

// held is the greatest part of a load, up to most, that can be held at a flexion,
// where none of it can be. What can be held at two loads can be held at every
// one between, since all conditions are linear.
func (s *Sitting) held(load, theta, most float64) float64 {
	exists := func(part float64) bool {
		eq := s.balance(part*load, theta)
		return s.program.solve(&eq)
	}
	if exists(most) {
		return most
	}
	low, high := 0.0, most
	for high-low > shareStep {
		if mid := (low + high) / 2; exists(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// Disc is what presses on the lowest disc in a state, N: the range over the lever arms
// that models give the back's muscles. What the belly's muscles hold counts with the
// same arms, which are short for them.
func (st *State) Disc(b *statics.Body) (least, most float64) {
	t := &b.Segments[trunk]
	along := r2.Unit(r2.Sub(b.Segments[upperArms].Joint, t.Joint))
	press := b.Across(st.Contacts, trunk, along)
	axial, moment := press.At(&st.Forces), math.Abs(st.Moments[trunk])
	return max(0, axial+moment/BackArmMost), max(0, axial+moment/BackArmLeast)
}
