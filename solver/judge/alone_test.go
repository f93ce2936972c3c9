package judge

import (
	"math"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
)

// What each axis position would leave a person by itself is that of the hand
// followed on it, also where it could not be chosen and placing passed over it.
func TestAloneFollowsEveryAxis(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s := judge(t, f).s
	m := drive.NewMachine(&f.Geometry)
	out, scratch := &require.Rows{Card: &s.Card, Quiet: true}, &require.Rows{Card: &s.Card, Quiet: true}
	var p seat.Sitter
	passed := 0
	for i := range s.Persons {
		p.Take(&s.Placer, i)
		out.List = out.List[:0]
		s.Best(m, &p, out, scratch)
		counted := newTally(s, len(m.Axes))
		for j := range p.Swings[0] {
			if !p.Swings[0][j].Whole {
				passed++
			}
		}
		scratch.List = scratch.List[:0]
		counted.alone(m, &p, scratch)
		for j := range p.Swings[0] {
			w := p.Swings[0][j] // as turned to the axis from the last seat tried
			w.Points = nil
			s.Follow(m, &w)
			along, _ := w.Slide(p.Body.Forearm)
			if got := counted.axes[w.Axis].slide.worst; math.Abs(got-along) > 1e-9 {
				t.Fatalf("person %d, axis %d: slide %g mm, followed %g", i, w.Axis, got, along)
			}
		}
	}
	if passed == 0 {
		t.Error("no axis position was passed over")
	}
	t.Logf("%d passed over", passed)
}
