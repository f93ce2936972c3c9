package fit

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/aims"
	"armwright/testdata"
)

// witnessed is a brief that a judged station is known to meet: a kept station moved at
// random, its own figures half a percent wider as limits where the persons then keep
// settings that meet the rest, and ranges round its values.
func witnessed(t *testing.T, i int) (specs.Brief, *specs.Geometry) {
	t.Helper()
	names := []string{"arm-pad-station", "reclined-levers", "reclined-linkage"}
	r := rand.New(rand.NewPCG(11, uint64(i)))
	for far := 0.5; ; far *= 0.9 {
		if far < 1e-3 {
			t.Fatalf("no brief is drawn that a station near %s meets", names[i%3])
		}
		f := solvertest.Frame(t, names[i%3])
		s, err := NewProgram(&f.Asked)
		if err != nil {
			t.Fatal(err)
		}
		g := judge.Clone(&f.Geometry)
		for _, v := range s.Variables(g) {
			if v.Name != "swivel" {
				*v.at += (2*r.Float64() - 1) * v.scale * far
			}
		}
		s.derive(g)
		frame := judge.FrameFor(f.Name, &f.Asked, g)
		all, err := s.Margins(&frame.Geometry)
		if err != nil {
			continue
		}
		b := specs.Brief{Format: "brief/1", Name: f.Name, Minimise: aims.Default, Asked: f.Asked}
		sound := true
		for _, q := range all {
			kind := s.Kinds[s.KindOf(q.ID)]
			sound = sound && (q.Met || !kind.Kept && kind.Limit != "")
			if !q.Met && sound {
				sound = widen(&b, &kind, q.Value)
			}
		}
		if !sound {
			continue
		}
		for _, q := range all {
			if kind := s.Kinds[s.KindOf(q.ID)]; q.Met && !kind.Kept && kind.Limit != "" && !kind.Within {
				if before := b; widen(&b, &kind, q.Value) && !meets(t, b, &frame.Geometry) {
					b = before
				}
			}
		}
		p := &b.Posture
		around := func(r *specs.Range, v, by float64) { r.From, r.To = math.Min(r.To, v-by), math.Max(r.From, v+by) }
		around(&p.PivotHeight, g.Pivots.Height, 25)
		around(&p.PivotSpacing, g.Pivots.Spacing, 10)
		p.AxisPositions = len(g.Pivots.Axes)
		b.People.Sample = 100
		if b.Validate() != nil || !meets(t, b, &frame.Geometry) {
			continue
		}
		return b, &frame.Geometry
	}
}

// meets says whether a station meets a brief as Solve reads it: with other limits persons
// may take other settings than those that the limits are of.
func meets(t *testing.T, b specs.Brief, g *specs.Geometry) bool {
	t.Helper()
	b = b.Quantised()
	s, err := NewProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	all, err := s.Margins(g)
	return err == nil && !slices.ContainsFunc(all, func(q judge.Requirement) bool { return !q.Met && q.ID != "contact" })
}

// widen makes a station's figure the limit, half a percent wider.
func widen(b *specs.Brief, kind *require.Kind, value float64) bool {
	span, ok := b.Span(kind.Limit)
	if !ok {
		return false
	}
	by := 0.005 * math.Abs(value)
	if kind.AtLeast {
		by = -by
	}
	to := value + by
	if to < span.Least || to > span.Most {
		return false
	}
	span.Set(to)
	return true
}

// A brief that a station meets is met when the search begins at that station: whatever
// becomes of the search, it is not worse than where it began. Contact is no row of the
// search: docs/limits.md.
func TestNeverWorseThanItsStart(t *testing.T) {
	testdata.Long(t)
	for i := range 30 {
		b, g := witnessed(t, i)
		r, err := Solve(context.Background(), b, &Options{Starts: 1, Terse: true, Start: g})
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range r.Requirements {
			if !q.Met && q.ID != "contact" {
				t.Errorf("brief %d, begun at a station that meets it: %s %g, limit %g", i, q.ID, q.Value, q.Limit)
			}
		}
	}
}
