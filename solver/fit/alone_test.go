package fit

import (
	"math"
	"testing"
)

// What each axis position would leave a person by itself is that of the hand
// followed on it, also where it could not be chosen and placing passed over it.
func TestAloneFollowsEveryAxis(t *testing.T) {
	f := padFrame(t)
	s := mustStudy(t, &f.Asked)
	m := newMachine(&f.Geometry)
	out, scratch := &rows{card: &s.card, quiet: true}, &rows{card: &s.card, quiet: true}
	var p sitter
	passed := 0
	for i := range s.persons {
		p.take(&s.placer, i)
		out.list = out.list[:0]
		s.best(m, &p, out, scratch)
		counted := newTally(&s.Judge, len(m.axes))
		for j := range p.swings[0] {
			if !p.swings[0][j].whole {
				passed++
			}
		}
		scratch.list = scratch.list[:0]
		counted.alone(m, &p, scratch)
		for j := range p.swings[0] {
			w := p.swings[0][j] // as turned to the axis from the last seat tried
			w.points = nil
			s.follow(m, &w)
			along, _ := w.slide(p.body.Forearm)
			if got := counted.axes[w.axis].slide.worst; math.Abs(got-along) > 1e-9 {
				t.Fatalf("person %d, axis %d: slide %g mm, followed %g", i, w.axis, got, along)
			}
		}
	}
	if passed == 0 {
		t.Error("no axis position was passed over")
	}
	t.Logf("%d passed over", passed)
}
