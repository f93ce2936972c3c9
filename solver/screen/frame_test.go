package screen

import (
	"math"
	"slices"
	"testing"

	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// inSearch need not know of gaps beyond 5 mm, and follows what was nearest if near.
type inSearch struct {
	Afresh
	near bool
}

func (*inSearch) Fixed() bool                { return true }
func (k *inSearch) Near() bool               { return k.near }
func (*inSearch) BodyGap(int) (_, _ float64) { return math.Inf(1), 5 }

// frameRows are the rows of what parts need of a station.
func frameRows(s *Screen, sc *Scene, known Memory, quiet bool) []require.Row {
	out := &require.Rows{Card: &s.Card, Quiet: quiet}
	s.frame(sc, out, known)
	return out.List
}

// moved is the arm-pad station with its base changed.
func moved(t *testing.T, change func(b *specs.Base)) (*Screen, *Scene) {
	f := solvertest.Frame(t, "arm-pad-station")
	b := *f.Geometry.Base
	f.Geometry.Base = &b
	change(&b)
	return sceneOf(t, &f)
}

// A kept station has room for everything that its parts need. With a post or a rail
// moved one thing falls short: the row is not met, has the amount and names it.
func TestFrameClearNamesWhatIsShort(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		f := solvertest.Frame(t, name)
		s, sc := sceneOf(t, &f)
		rows := frameRows(s, sc, &Afresh{}, false)
		if len(rows) != len(sc.Station.Needs) || len(rows) < 10 {
			t.Errorf("%s: %d rows of %d needs", name, len(rows), len(sc.Station.Needs))
		}
		for _, w := range rows {
			if w.Margin < 0 {
				t.Errorf("%s: %s is short by %g mm", name, w.Case.Words, -w.Margin)
			}
		}
	}

	solved := solvertest.Frame(t, "arm-pad-station").Geometry.Base
	for _, c := range []struct {
		name   string
		change func(b *specs.Base)
		note   string
		value  float64
	}{
		// From the seat post's middle the base reaches back some 75 mm, of which half the
		// cross member takes 30 and the cap of the rail 4.
		{"seat post 60 mm back", func(b *specs.Base) { b.SeatPost -= 60 }, "seat post on base", solved.SeatPost - 60 - solved.Rear - 30 - 4},
		// Cross members of 60, 100 apart, leave 40, and a torch takes 60.
		{"tower to 100 mm from the seat post", func(b *specs.Base) { b.Tower = b.SeatPost + 100 }, "cross members apart", 100 - 60 - 60},
	} {
		s, sc := moved(t, c.change)
		w := s.named(frameRows(s, sc, &Afresh{}, false), "frame-clear", c.note)
		if len(w) != 1 {
			t.Errorf("%s: no row %q, fault %v", c.name, c.note, sc.Station.Fault)
			continue
		}
		if w[0].Margin >= 0 || math.Abs(w[0].Value-c.value) > 1e-6 {
			t.Errorf("%s: %s %.3f mm, want %.3f", c.name, c.note, w[0].Value, c.value)
		}
	}

	// A post moved by 200 mm under a plate that slopes as the pad does meets it 200 mm over
	// the slope's cosine from where it did, which leaves that much less room on the side to
	// which it was off the middle.
	s, sc := moved(t, func(*specs.Base) {})
	before := s.named(frameRows(s, sc, &Afresh{}, false), "frame-clear", "post under index plate")[0].Value
	along := 200 / math.Cos(sc.Geometry.Pad.Slope)
	least := math.Inf(1)
	for _, by := range []float64{-200, 200} {
		s, sc := moved(t, func(b *specs.Base) { b.PadPost += by })
		w := s.named(frameRows(s, sc, &Afresh{}, false), "frame-clear", "post under index plate")
		if len(w) != 1 || w[0].Margin >= 0 {
			t.Fatalf("post moved by %g mm: %+v", by, w)
		}
		least = min(least, w[0].Value)
	}
	if math.Abs(least-(before-along)) > 1e-6 {
		t.Errorf("the post is %.4f mm under its plate, want %.4f", least, before-along)
	}
}

// While it is searched for, every station has as many rows, each need in its own, and
// what cannot be built misses all of them.
func TestFrameRowsStayTheSameInASearch(t *testing.T) {
	known := &Afresh{Same: true}
	pad := solvertest.Frame(t, "arm-pad-station")
	s, sc := sceneOf(t, &pad)
	first := frameRows(s, sc, known, true)
	place := map[float64]int{}
	for i, w := range first {
		place[w.Value] = i
	}
	for _, n := range sc.Station.Needs {
		if _, ok := place[n.Slack]; !ok {
			t.Errorf("%s has no row", n.ID)
		}
	}
	if len(first) != needSlots+1 || len(sc.Station.Needs) > needSlots {
		t.Errorf("%d rows of %d needs", len(first), len(sc.Station.Needs))
	}
	needs := map[string]int{}
	for _, n := range sc.Station.Needs {
		needs[n.ID] = place[n.Slack]
	}

	// Another drive has other needs; those that both have keep their rows.
	if pad.Geometry.Counterweight.Mass == 0 {
		t.Fatal("the kept station has no counterweight")
	}
	pad.Geometry.Counterweight = nil
	s, sc = sceneOf(t, &pad)
	second := frameRows(s, sc, known, true)
	shared := 0
	for _, n := range sc.Station.Needs {
		if i, ok := needs[n.ID]; ok && second[i].Value == n.Slack {
			shared++
		}
	}
	if len(second) != len(first) || shared < len(sc.Station.Needs)-1 {
		t.Errorf("%d rows of %d, %d of %d needs in their places", len(second), len(first), shared, len(sc.Station.Needs))
	}
	if i := needs["counter-heavier-than-bar"]; second[i].Value < 1e3 {
		t.Errorf("a counterweight that is not there has %g mm of room", second[i].Value)
	}

	sc.Station.Assembly, sc.Station.Needs = nil, nil
	third := frameRows(s, sc, known, true)
	if len(third) != len(first) {
		t.Fatalf("%d rows of what cannot be built, else %d", len(third), len(first))
	}
	for _, w := range third {
		if w.Margin > -500 {
			t.Errorf("what cannot be built has %g mm", w.Value)
		}
	}
}

// bodyRows are the rows of bodies and parts.
func bodyRows(s *Screen, sc *Scene, known Memory) []require.Row {
	out := &require.Rows{Card: &s.Card}
	s.bodies(sc, out, known)
	return out.List
}

// Everybody sits clear in the kept stations. With the tower over their legs everybody
// is turned away, and a part of the tower is named.
func TestThighsInTheTowerTurnAway(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s, sc := sceneOf(t, &f)
	rows := bodyRows(s, sc, &Afresh{})
	if len(rows) != len(s.Persons) {
		t.Fatalf("%d rows for %d persons", len(rows), len(s.Persons))
	}
	for i, w := range rows {
		if w.Who != i || w.Margin < 0 {
			t.Errorf("%s: %s %.2f mm", s.Persons[i].Label, w.Case.Words, w.Value)
		}
	}

	// A search that need not know gaps from somewhere on looks no farther than four of
	// the 2.5 mm that matter beyond the limit; differences follow what was nearest.
	known := &inSearch{}
	for i, w := range bodyRows(s, sc, known) {
		if math.Abs(w.Value-min(rows[i].Value, f.Limits.BodyFrame+10)) > 1e-9 {
			t.Errorf("%s: %.3f mm in a search, else %.3f", s.Persons[i].Label, w.Value, rows[i].Value)
		}
	}
	known.Workshop().looked(sc, known)
	known.near = true
	for i, w := range bodyRows(s, sc, known) {
		if math.Abs(w.Value-min(rows[i].Value, f.Limits.BodyFrame+10)) > 1e-9 {
			t.Errorf("%s: %.3f mm in a difference, else %.3f", s.Persons[i].Label, w.Value, rows[i].Value)
		}
	}

	// Between the seat's front edge and the nearest knee.
	knee := math.Inf(1)
	for i := range sc.seated {
		knee = min(knee, sc.seated[i].Pose.Hip.X+sc.seated[i].Body.Knee-sc.seated[i].Body.ThighDepth)
	}
	b := *f.Geometry.Base
	b.Tower = (f.Geometry.Seat.Front + knee) / 2
	f.Geometry.Base = &b
	s, sc = sceneOf(t, &f)
	if sc.Station.Assembly == nil {
		t.Fatal(sc.Station.Fault)
	}
	for i, w := range bodyRows(s, sc, &Afresh{}) {
		// A rod of the stack, 20 mm and more across, stands in every thigh whole, or a
		// tube of 60; what holds the rods may stand deeper in a chest.
		if w.Value > -20 || !slices.Contains([]string{"thigh to Guide rod, right", "thigh to Tower upright, right", "chest to Guide rod bar"}, w.Case.Words) {
			t.Errorf("%s: %s %.2f mm", s.Persons[i].Label, w.Case.Words, w.Value)
		}
	}
	away := bodyRows(s, sc, &Afresh{})
	for i, w := range bodyRows(s, sc, &Afresh{Same: true}) {
		if math.Abs(w.Value-away[i].Value) > 1e-9 {
			t.Errorf("%s: %.3f mm in a search, else %.3f", s.Persons[i].Label, w.Value, away[i].Value)
		}
	}
	sc.Station.Assembly = nil
	for _, w := range bodyRows(s, sc, &Afresh{}) {
		if w.Margin > -500 {
			t.Errorf("what cannot be built leaves %g mm", w.Value)
		}
	}
}

// Of what cannot be built, every row of the station's parts is there, of the same kind
// as else, and none is met.
func TestWhatCannotBeBuiltMeetsNothing(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s, sc := sceneOf(t, &f)
	whole := func(g *specs.Geometry) []require.Row {
		out := &require.Rows{Card: &s.Card, Quiet: true}
		st := s.Station(g, &sc.drive, nil)
		s.Whole(g, sc.drive, &st, sc.seated, out, &Afresh{Same: true}, nil)
		return out.List
	}
	built := whole(&f.Geometry)
	base := *f.Geometry.Base
	f.Geometry.Base = &base
	base.Front = base.Rear - 100
	none := whole(&f.Geometry)
	if len(none) != len(built) {
		t.Fatalf("%d rows, of what can be built %d", len(none), len(built))
	}
	missed := map[string]bool{}
	for i, w := range none {
		id := s.Kinds[w.Kind].ID
		if w.Kind != built[i].Kind {
			t.Fatalf("row %d is of %s, was of %s", i, id, s.Kinds[built[i].Kind].ID)
		}
		switch id {
		case "frame-clear", "body-frame", "crush-gap", "entry-gap", "footprint-length", "footprint-width", "height":
			missed[id] = true
			if w.Margin >= 0 {
				t.Errorf("%s: %g is met", id, w.Value)
			}
		}
	}
	if len(missed) != 7 {
		t.Errorf("only %v are asked for", missed)
	}
	if len(s.of(none, "tilt-empty")) == 0 || s.of(none, "tilt-empty")[0].Margin >= 0 {
		t.Error("it stands")
	}
}
