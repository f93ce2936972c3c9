package judge

import (
	"strings"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// A station of which a part cannot be made as it is meant is not met, and the verdict
// names what is short; one in whose tower thighs would be is not met either, and
// names whom it turns away and by what.
func TestVerdictOnPartsAndBodies(t *testing.T) {
	for _, c := range []struct {
		name, id, words string
		change          func(g *specs.Geometry)
		person          bool
	}{
		{name: "as solved"},
		{"a post that its plate does not cover", "frame-clear", "post under index plate", func(g *specs.Geometry) { g.Base.PadPost -= 200 }, false},
		// Thighs reach some 500 mm forward of the hip, which is over the seat.
		{"the tower over the lap", "body-frame", "thigh to ", func(g *specs.Geometry) { g.Base.Tower = g.Seat.Front + 40 }, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := solvertest.Frame(t, "arm-pad-station")
			g := Clone(&f.Geometry)
			if c.change != nil {
				c.change(g)
			}
			f.Geometry = *g
			r, err := CheckPeople(f, Persons{})
			if err != nil {
				t.Fatal(err)
			}
			if c.id == "" {
				for _, id := range []string{"frame-clear", "body-frame"} {
					if q, ok := r.Requirement(id); !ok || !q.Met {
						t.Errorf("%s: %+v", id, q)
					}
				}
				if r.Verdict != Met {
					t.Errorf("the kept station is %s", r.Verdict)
				}
				return
			}
			q, ok := r.Requirement(c.id)
			if !ok || q.Met || r.Verdict != NotMet || !strings.Contains(q.Case.Words, c.words) || (q.Person != "") != c.person {
				t.Errorf("%s: %s met %v by %.1f mm, %q, %q", r.Verdict, c.id, q.Met, q.Margin, q.Case.Words, q.Person)
			}
			// The search's own way to the same margins agrees.
			s, err := New(&f.Asked)
			if err != nil {
				t.Fatal(err)
			}
			all, err := s.Margins(&r.Frame.Geometry)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range all {
				if v.ID == c.id && v.Margin != q.Margin {
					t.Errorf("%s has a margin of %g mm, by itself %g", c.id, q.Margin, v.Margin)
				}
			}
		})
	}
}
