package judge

import (
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// Rows of a held station are as many and of the same kinds however it is built, also
// where nothing can be built any more: what varies is told row by row.
func TestHeldRowsStayTheSame(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		f := solvertest.Frame(t, name)
		s, err := New(&f.Asked)
		if err != nil {
			t.Fatal(err)
		}
		h, err := s.Hold(&f.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		want := h.Rows(&f.Geometry)
		for i, v := range h.Margins(nil, &f.Geometry) {
			if s.Kinds[want[i].Kind].ID == "frame-clear" && v < 0 {
				t.Errorf("%s: a need of the kept station is short by %g mm", name, -v)
			}
		}
		for _, change := range []func(g *specs.Geometry){
			func(g *specs.Geometry) { g.Base.PadPost += 3 },
			func(g *specs.Geometry) { g.Seat.Lowest -= 200 },             // the seat's sleeve has no room
			func(g *specs.Geometry) { g.Base.Front = g.Base.Rear - 100 }, // nothing can be built
		} {
			g := Clone(&f.Geometry)
			change(g)
			got := h.Rows(g)
			if len(got) != len(want) {
				t.Errorf("%s: %d rows, were %d", name, len(got), len(want))
				continue
			}
			for i := range got {
				if got[i].Kind != want[i].Kind || got[i].Arm && got[i].Person != want[i].Person {
					t.Fatalf("%s: row %d is of %s, was of %s", name, i, s.Kinds[got[i].Kind].ID, s.Kinds[want[i].Kind].ID)
				}
			}
		}
	}
}
