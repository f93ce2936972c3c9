package screen

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"armwright/geometry/posture"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen/crush"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// gapRow is the least row of the gaps with the given requirement and start of its
// note.
func gapRow(t testing.TB, s *Screen, sc *Scene, id, note string) require.Row {
	t.Helper()
	if sc.Station.Assembly == nil {
		t.Fatal(sc.Station.Fault)
	}
	out := &require.Rows{Card: &s.Card}
	s.gaps(sc, nil, out)
	least := require.Row{Value: math.Inf(1)}
	for _, w := range s.of(out.List, id) {
		if strings.HasPrefix(w.Case.Words, note) && w.Value < least.Value {
			least = w
		}
	}
	if least.Case.Words == "" {
		t.Fatalf("no row %s: %s", id, note)
	}
	return least
}

// A gap of 99 mm where hands reach fails, one of 100 mm passes: the tower is
// moved until the grip comes that near to it.
func TestHandGapOf99Fails(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s := screeningFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	b := *f.Geometry.Base
	f.Geometry.Base = &b
	at := func(x float64) *Scene {
		b.Tower = x
		st := s.Station(&f.Geometry, &d, nil)
		return s.Scene(&f.Geometry, d, nil, &st)
	}
	solved := b.Tower
	for _, v := range []struct {
		gap    float64
		met    bool
		admits string // ISO 13854: toes 50 mm, hand 100, arm and foot 120
	}{{99, false, "toes"}, {100, true, "hand"}} {
		lo, hi := solved-100, solved+100
		for range 60 {
			if mid := (lo + hi) / 2; gapRow(t, s, at(mid), "entry-gap", "grip to").Value*100 < v.gap {
				lo = mid
			} else {
				hi = mid
			}
		}
		sc := at(hi)
		w := gapRow(t, s, sc, "entry-gap", "grip to")
		if math.Abs(w.Value*100-v.gap) > 1e-6 || !strings.Contains(w.Case.Words, "Guide rod bar") {
			t.Fatalf("gap %.4f mm (%s), wanted %g to the tower", w.Value*100, w.Case.Words, v.gap)
		}
		if met := w.Margin/0.05 >= require.Meets; met != v.met {
			t.Errorf("%g mm: met %v", v.gap, met)
		}
		seen := false
		for _, p := range s.Hazards(sc).Pairs {
			if p.Moving != build.GripName || p.Fixed != "Guide rod bar" {
				continue
			}
			seen = true
			if p.Met != v.met || math.Abs(p.Gap-v.gap) > 1e-6 || !p.Closing || p.Part != crush.Hand || p.Required != 100 {
				t.Errorf("%g mm in the table: %+v", v.gap, p)
			}
			if p.Admits != v.admits {
				t.Errorf("%g mm admits %q, want %q", v.gap, p.Admits, v.admits)
			}
		}
		if !seen {
			t.Error("the pair is not among the hazards")
		}
	}
}

// The sweep against dense sampling: points all over the grip bar, at every angle and
// axis position, to the board of the seat, which is 18 mm thick under 42 of foam.
func TestSweepAgainstSampling(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	g := &f.Geometry
	s, sc := sceneOf(t, &f)
	h := &g.Handle
	// The grip's bar runs from the inner end of its clear length to the middle of the
	// arm's tube of 40, which is 10 mm beyond the outer end.
	in, out := h.Middle-h.GripLength/2, h.Middle+h.GripLength/2+10+s.Arm.B/2
	pivot := r3.Vec{Y: -g.Pivots.Spacing / 2, Z: g.Pivots.Height}
	least := math.Inf(1)
	for _, a := range g.Pivots.Axes {
		sw := build.NewSwing(pivot, a.Vector(), g.Pad.Slope)
		for _, theta := range s.Angles {
			for i := range 2001 {
				w := in + float64(i)/2000*(out-in)
				for _, r := range []float64{h.Least, h.Least + float64(h.Positions-1)*h.Pitch} {
					p := sw.At(r, w, theta)
					dx := math.Max(0, math.Max(p.X-g.Seat.Front, g.Seat.Front-g.Seat.Depth-p.X))
					dy := math.Max(0, math.Abs(p.Y)-g.Seat.Width/2)
					dz := math.Max(0, math.Max(p.Z-(g.Seat.Lowest-42), g.Seat.Lowest-60-p.Z))
					least = math.Min(least, math.Hypot(dx, math.Hypot(dy, dz))-h.Diameter/2)
				}
			}
		}
	}
	for _, p := range s.Hazards(sc).Pairs {
		if p.Moving == build.GripName && p.Fixed == "Seat, board" {
			if p.Gap > least+1e-9 || p.Gap < least-0.1 {
				t.Errorf("gap %.3f mm, sampling %.3f", p.Gap, least)
			}
			return
		}
	}
	t.Error("no pair of grip and seat")
}

// The person's bulks where they can be reckoned: the chest's front on the
// middle line is half its depth less the protraction ahead of an upright trunk.
func TestBulks(t *testing.T) {
	p := seat.Person{Body: posture.Body{Trunk: 450, Hip: 80, ChestDepth: 240, ChestBreadth: 300, BellyFront: 100, BellyHeight: 110, ThighDepth: 160, ThighHalf: 90, Knee: 500},
		Person: people.Person{Sex: people.Man, Stature: 1741, SittingHeight: 900}}
	p.Pose.Hip = r3.Vec{Z: 480}
	p.Pose.Shoulder = r3.Vec{Y: -170, Z: 930}
	s := bulksOf(&p)
	gap := func(i int, q r3.Vec) float64 { return s[i].box.Gap(q, q) - s[i].radius }
	for _, v := range []struct {
		name string
		got  float64
		want float64
	}{
		{"chest, 300 mm ahead", gap(0, r3.Vec{X: 300, Z: 800}), 300 - (120 - posture.Protraction)},
		{"chest, beside", gap(0, r3.Vec{X: -posture.Protraction, Y: -400, Z: 800}), 400 - 150},
		{"belly, 300 mm ahead", gap(1, r3.Vec{X: 300, Z: 480 + 110}), 200},
		{"thigh, above", gap(3, r3.Vec{X: 200, Y: -90, Z: 700}), 700 - (400 + 160)},
		// The head's centre half a head (0.5002 of 242.9 mm) below the vertex.
		{"head, above", gap(2, r3.Vec{Z: 1600}), 1600 - (400 + 900 - 0.5002*242.9) - headRadius},
	} {
		if math.Abs(v.got-v.want) > 1e-6 {
			t.Errorf("%s: %.3f mm, want %.3f", v.name, v.got, v.want)
		}
	}
}

// BenchmarkBalanceAndHazards evaluates balance, seated forces, members and
// hazards of one candidate at 3 loads. 30 persons and 140 angles are what a time
// is asked for; the others show how it grows with either.
func BenchmarkBalanceAndHazards(b *testing.B) {
	for _, size := range [][2]int{{30, 140}, {10, 140}, {50, 140}, {30, 35}, {30, 70}, {30, 280}} {
		b.Run(fmt.Sprintf("persons=%d/angles=%d", size[0], size[1]), func(b *testing.B) {
			benchmarkCandidate(b, size[0], size[1])
		})
	}
}

func benchmarkCandidate(b *testing.B, persons, angles int) {
	f := solvertest.Frame(b, "arm-pad-station")
	s := screeningFor(b, &f.Asked)
	s.Persons, s.Bodies = s.Persons[:persons], s.Bodies[:persons]
	s.Heavy = 0
	for i, p := range s.Persons {
		if p.Mass > s.Persons[s.Heavy].Mass {
			s.Heavy = i
		}
	}
	s.Angles, s.Sin, s.Cos, s.Shape = solvertest.Divided(b, s.Asked, angles)
	g := &f.Geometry
	d, err := s.Evaluate(g)
	if err != nil {
		b.Fatal(err)
	}
	m := drive.NewMachine(g)
	out, scratch := &require.Rows{Card: &s.Card}, &require.Rows{Card: &s.Card}
	sat := make([]seat.Person, len(s.Persons))
	p := seat.Sitter{Level: d.Level}
	for i := range sat {
		p.Take(&s.Placer, i)
		sat[i] = s.Best(m, &p, out, scratch)
	}
	known := &Afresh{}
	b.ResetTimer()
	for b.Loop() {
		out.List = out.List[:0]
		st := s.Station(g, &d, known.Workshop().Maker())
		s.Whole(g, d, &st, sat, out, known, nil)
	}
}
