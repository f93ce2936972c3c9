package fit

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// The number of rows must not depend on the geometry: the search differentiates
// them.
func TestRowsDoNotHangOnGeometry(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage", "arm-pad-station with a linkage"} {
		file, _, linked := strings.Cut(name, " with")
		b := solvertest.Brief(t, file)
		if linked {
			b.Resistance.Drive = "linkage"
		}
		s, g, d := begun(t, b)
		set := s.FreeSettings(g, d)
		count := -1
		for range 30 {
			for _, v := range s.Variables(g) {
				*v.at = v.low + (v.high-v.low)*rng.Float64()
			}
			s.derive(g)
			out := &require.Rows{Card: &s.Card}
			i := 0
			st := s.Station(g, &d, nil)
			sat := s.Assess(g, d, &st, &judge.Desk{}, func(m drive.Machine, p *seat.Sitter) seat.Person {
				r := s.Place(m, p, set[i], out)
				i++
				return r
			}, out, nil)
			turned := driven{s: s, d: d, any: true}
			turned.add(&model{s: s}, g, &st, sat, out)
			if count < 0 {
				count = len(out.List)
			}
			if len(out.List) != count {
				t.Fatalf("%s: %d rows, before %d", name, len(out.List), count)
			}
			for _, w := range out.List {
				if math.IsNaN(w.Margin) || math.IsInf(w.Margin, 0) {
					t.Fatalf("%s: %s %s is %g", name, s.Kinds[w.Kind].ID, w.Case.Words, w.Margin)
				}
			}
		}
	}
}

// begun is a brief's first geometry of two axis positions, not solved for
// people, and its drive.
func begun(t testing.TB, b specs.Brief) (*Program, *specs.Geometry, drive.State) {
	t.Helper()
	s, err := NewProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	g := s.begin(2)
	s.HandlesOf(g, s.Boundary(s.FreeSettings(g, drive.State{})))
	d, err := s.Design(g)
	if err != nil {
		t.Fatal(err)
	}
	return s, g, d
}
