package fit

import (
	"math"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
)

// No whole millimetre for the first handle position serves the worst served
// person better with as few positions: every one over three pitches is judged
// with everybody in their full setting, on whichever position suits them, where
// the limit of the hand's path is out of reach, near and far.
func TestFirstHandleServesBest(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		for _, limit := range []float64{1, 14, 60} {
			b := solvertest.Brief(t, name)
			s, err := NewProgram(&b.Asked)
			if err != nil {
				t.Fatal(err)
			}
			path, reach := s.KindOf("hand-path"), s.KindOf("handle-reach")
			s.Limits[path] = limit
			g := s.begin(2)
			s.anchor(g)
			set := s.FreeSettings(g, drive.State{})
			s.HandlesOf(g, s.Boundary(set))
			judge := func() float64 {
				m, out := drive.NewMachine(g), &require.Rows{Card: &s.Card}
				var p seat.Sitter
				worst := math.Inf(1)
				for i := range s.Persons {
					p.Take(&s.Placer, i)
					best := math.Inf(-1)
					for handle := range g.Handle.Positions {
						out.List = out.List[:0]
						s.Place(m, &p, seat.Setting{Seat: set[i].Seat, Axis: set[i].Axis, Handle: handle}, out)
						v := math.Inf(1)
						for k := range out.List {
							if w := &out.List[k]; w.Kind == path || w.Kind == reach {
								v = min(v, s.Scaled(w))
							}
						}
						best = max(best, v)
					}
					worst = min(worst, best)
				}
				return worst
			}
			chosen := g.Handle
			top := judge()
			if chosen.Least != math.Round(chosen.Least) {
				t.Errorf("first handle position at %g mm", chosen.Least)
			}
			alike := 0
			for by := -15.0; by <= 15; by++ {
				g.Handle.Least = chosen.Least + by
				// A range shifted by less than what it has to spare holds as many.
				g.Handle.Positions = chosen.Positions
				if v := judge(); v > top+1e-6 {
					t.Errorf("%s, limit %g: first position at %g leaves %.3f, at %g %.3f", name, limit, chosen.Least, top, g.Handle.Least, v)
				} else if by != 0 && v > top-1 {
					alike++
				}
				g.Handle.Positions = chosen.Positions - 1
				if v := judge(); v >= 0 && top >= 0 || g.Handle.Positions == 0 {
					t.Errorf("%s, limit %g: %d positions from %g are enough (%.3f)", name, limit, chosen.Positions-1, g.Handle.Least, v)
				}
			}
			t.Logf("%s, limit %g: %d positions from %g mm, %.3f left; %d other places within a unit", name, limit, chosen.Positions, chosen.Least, top, alike)
		}
	}
}
