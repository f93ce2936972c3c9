// Package profiles remembers profiles from one station to the next, so that a search
// that builds thousands of them makes each shape once.
package profiles

import (
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

// Store remembers profiles by what they are made from. The zero value is ready; it is
// for one goroutine at a time.
type Store[Shape comparable] struct {
	shapes map[Shape]made
	before []kept[Shape] // in the order of asking
	asked  int           // how many by now
}

type made struct {
	profile *solid.Profile
	size    r2.Vec
}

// kept is what one was made from, too.
type kept[Shape comparable] struct {
	shape Shape
	made
}

// most bounds what a store remembers.
const most = 1000

// Begin tells that another station is built.
func (s *Store[Shape]) Begin() {
	s.asked = 0
	if len(s.shapes) > most {
		clear(s.shapes)
	}
}

// Blank returns the profile of a shape with the size of the rectangle round it, mm. make
// is called where the shape is new.
func (s *Store[Shape]) Blank(shape Shape, make func() *solid.Profile) (*solid.Profile, r2.Vec) {
	// Most are asked for in the order in which they were when the station before was
	// built, and many have not changed.
	n := s.asked
	s.asked++
	if n == len(s.before) {
		s.before = append(s.before, kept[Shape]{})
	}
	before := &s.before[n]
	if before.profile != nil && before.shape == shape {
		return before.profile, before.size
	}
	m, ok := s.shapes[shape]
	if !ok {
		m.profile = make()
		box := m.profile.Bounds()
		m.size = r2.Sub(box.Max, box.Min)
		if s.shapes == nil {
			s.shapes = map[Shape]made{}
		}
		s.shapes[shape] = m
	}
	*before = kept[Shape]{shape, m}
	return m.profile, m.size
}

// Forget has the shape that is asked for next made anew.
func (s *Store[Shape]) Forget(shape Shape) {
	delete(s.shapes, shape)
	if s.asked < len(s.before) {
		s.before[s.asked] = kept[Shape]{}
	}
}
