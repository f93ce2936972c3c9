package profiles

import (
	"testing"

	"armwright/geometry/solid"
)

// A shape is made once while it is remembered, in whatever order shapes are asked for,
// and anew once it is forgotten.
func TestShapesAreMadeOnce(t *testing.T) {
	var s Store[float64]
	built := 0
	ask := func(side float64) *solid.Profile {
		p, size := s.Blank(side, func() *solid.Profile { built++; return solid.Rect(side, 2*side, 0) })
		if size.X != side || size.Y != 2*side {
			t.Errorf("%v: size %v", side, size)
		}
		return p
	}
	ten, twenty := ask(10), ask(20)
	s.Begin()
	if ask(20) != twenty || ask(10) != ten || built != 2 {
		t.Errorf("%d made of two shapes", built)
	}
	s.Begin()
	s.Forget(20)
	if ask(20) == twenty || built != 3 {
		t.Error("a forgotten shape is still there")
	}
	for side := range 2 * most {
		ask(float64(side + 1))
	}
	s.Begin()
	if len(s.shapes) != 0 {
		t.Errorf("%d shapes remembered", len(s.shapes))
	}
}
