package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"armwright/geometry/elbow"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// reference is the reference person of de Leva 1996, table 4, with the postures
// of reference/biomechanics.md 6c: hip, mid-shoulder and C7 above each other,
// head upright, thighs level, shanks upright.
func reference(sex people.Sex, slope float64) (people.Person, station.Body, station.Pose) {
	stature, mass := 1735.0, 61.9
	if sex == people.Man {
		stature, mass = 1741, 73
	}
	seg := people.Segments(sex)
	p := people.Person{Sex: sex, Stature: stature, Mass: mass}
	b := station.Body{Hip: 80, Trunk: seg.Trunk.Length * stature, UpperArm: seg.UpperArm.Length * stature, Forearm: 325, Hinge: elbow.Hinge{}}
	// The vertex stands a head above C7, which stands a trunk to the neck above the hip.
	p.SittingHeight = b.Hip + (seg.TrunkToNeck.Length+seg.Head.Length)*stature
	p.PoplitealHeight = seg.Shank.Length * stature
	p.FootLength = seg.Foot.Length * stature
	var pose station.Pose
	pose.Shoulder = r3.Vec{Z: b.Trunk}
	s, c := math.Sincos(slope)
	pose.Proximal = r3.Vec{X: -s, Z: c}
	pose.Elbow = r3.Sub(pose.Shoulder, r3.Scale(b.UpperArm, pose.Proximal))
	return p, b, pose
}

// [E1], [E2] of reference/biomechanics.md (D, from de Leva 1996, S): centre of
// mass from mid-hip, upper arm and elbow flexed 0/0 and 45/90 degrees. There the
// feet hang 30 mm below the ankles, here they are at the sole's height.
func TestSeatedReference(t *testing.T) {
	for _, v := range []struct {
		name         string
		sex          people.Sex
		slope, theta float64
		x, z         float64
	}{
		{"man 0/0", people.Man, 0, 0, 98.4, 169.6}, {"man 45/90", people.Man, 45 * deg, 90 * deg, 119.3, 189.7},
		{"woman 0/0", people.Woman, 0, 0, 85.2, 169.9}, {"woman 45/90", people.Woman, 45 * deg, 90 * deg, 103.4, 187.2},
	} {
		p, b, pose := reference(v.sex, v.slope)
		arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
		c := massCentre(p, b, pose, arm, v.theta)
		feet := 2 * people.Segments(v.sex).Foot.Mass * 30
		if math.Abs(c.X-v.x) > 0.5 || math.Abs(c.Z-feet-v.z) > 0.5 {
			t.Errorf("%s: (%.1f, %.1f), want (%.1f, %.1f)", v.name, c.X, c.Z-feet, v.x, v.z)
		}
	}
	// [E3]: with the upper arm at 45 degrees, bending the elbow by 90 moves the
	// centre up and down only.
	p, b, pose := reference(people.Man, 45*deg)
	arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
	if d := massCentre(p, b, pose, arm, 90*deg).X - massCentre(p, b, pose, arm, 0).X; math.Abs(d) > 1e-9 {
		t.Errorf("elbow 0 to 90 moves the centre by %g mm fore and aft", d)
	}
}

// [E4]: 220 mm ahead of the back of the buttocks at 77 kg, 273 mm at 140 kg,
// ±25 mm (laser scans of 447 women and 315 men, S). Persons drawn near those
// masses, sitting upright with arms down.
func TestSeatedCentreByMass(t *testing.T) {
	b := example(t, "arm-pad-station")
	persons := Population(b.People).Sample(8000, 7)
	for _, v := range []struct{ mass, want float64 }{{77, 220}, {140, 273}} {
		sum, n := 0.0, 0.0
		for _, p := range persons {
			if math.Abs(p.Mass-v.mass) > 5 {
				continue
			}
			body := Body(p, b.People, 0)
			pose := station.Pose{Proximal: r3.Vec{Z: 1}, Hip: r3.Vec{Z: body.Hip}}
			pose.Shoulder = r3.Vec{Y: -body.ShoulderHalf, Z: body.Hip + body.Trunk}
			pose.Elbow = r3.Sub(pose.Shoulder, r3.Vec{Z: body.UpperArm})
			arm, _ := pose.Turned(r3.Vec{Y: -1}, 0)
			sum += massCentre(p, body, pose, arm, 90*deg).X + body.Behind
			n++
		}
		if got := sum / n; n < 20 || math.Abs(got-v.want) > 25 {
			t.Errorf("%.0f kg: %.0f mm ahead of the buttocks over %.0f persons, want %.0f", v.mass, got, n, v.want)
		}
	}
}

// padFrame is a solved frame to vary: a clone of the example's.
func padFrame(t testing.TB) specs.Frame {
	t.Helper()
	b := example(t, "arm-pad-station")
	s, err := newProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	g := s.begin(3)
	s.anchor(g)
	s.handlesOf(g, s.freeSettings(g, drive{}))
	if _, err := s.design(g); err != nil {
		t.Fatal(err)
	}
	return specs.Frame{Format: "frame/1", Name: b.Name, Asked: b.Asked, Geometry: *g}
}

// gapRow is the row of the gaps with the given requirement and start of its
// note.
func gapRow(t testing.TB, s *program, g *specs.Geometry, id, note string) row {
	t.Helper()
	l := s.layout(g)
	out := &rows{card: &s.card}
	s.gaps(&scene{geo: g, layout: l, built: l.Build()}, nil, out)
	for _, w := range out.list {
		if s.kinds[w.kind].ID == id && strings.HasPrefix(w.note, note) {
			return w
		}
	}
	t.Fatalf("no row %s: %s", id, note)
	return row{}
}

// A gap of 99 mm where hands reach fails, one of 100 mm passes: the tower is
// moved until the grip comes that near to it.
func TestHandGapOf99Fails(t *testing.T) {
	f := padFrame(t)
	s, err := newProgram(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	b := *f.Geometry.Base
	f.Geometry.Base = &b
	b.TowerTall = f.Geometry.Pivots.Height + 300
	at := func(x float64) row {
		b.Tower = x
		return gapRow(t, s, &f.Geometry, "entry-gap", "grip to")
	}
	place := func(gap float64) row {
		lo, hi := f.Geometry.Handle.Least, 900.0
		for range 60 {
			if mid := (lo + hi) / 2; at(mid).value*100 < gap {
				lo = mid
			} else {
				hi = mid
			}
		}
		return at(hi)
	}
	for _, v := range []struct {
		gap float64
		met bool
	}{{99, false}, {100, true}} {
		w := place(v.gap)
		if math.Abs(w.value*100-v.gap) > 1e-6 || !strings.Contains(w.note, "Tower") {
			t.Fatalf("gap %.4f mm (%s), wanted %g to the tower", w.value*100, w.note, v.gap)
		}
		if met := w.margin/0.05 >= meets; met != v.met {
			t.Errorf("%g mm: met %v", v.gap, met)
		}
		l := s.layout(&f.Geometry)
		for _, p := range s.hazards(&f.Geometry, l, l.Build(), drive{}).Pairs {
			if p.Moving == gripName && p.Fixed == "Tower upright, right" {
				if p.Met != v.met || math.Abs(p.Gap-v.gap) > 1e-6 || !p.Closing || p.Part != station.Hand {
					t.Errorf("%g mm in the table: %+v", v.gap, p)
				}
				if want := map[bool]string{false: "toes", true: "hand"}[v.met]; p.Admits != want {
					t.Errorf("%g mm admits %q, want %q", v.gap, p.Admits, want)
				}
			}
		}
	}
}

// The number of rows must not hang on the geometry: the search differentiates
// them.
func TestRowsDoNotHangOnGeometry(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage", "arm-pad-station with a linkage"} {
		file, _, linked := strings.Cut(name, " with")
		b := example(t, file)
		if linked {
			b.Resistance.Drive = "linkage"
		}
		s, g, d := designed(t, b)
		set := s.freeSettings(g, d)
		count := -1
		for range 30 {
			for _, v := range s.variables(g) {
				*v.at = v.low + (v.high-v.low)*rng.Float64()
			}
			s.derive(g)
			out := &rows{card: &s.card}
			i := 0
			s.assess(g, d, &desk{}, func(m machine, p *sitter) Person {
				r := s.place(m, p, set[i], out)
				i++
				return r
			}, out, nil)
			if count < 0 {
				count = len(out.list)
			}
			if len(out.list) != count {
				t.Fatalf("%s: %d rows, before %d", name, len(out.list), count)
			}
			for _, w := range out.list {
				if math.IsNaN(w.margin) || math.IsInf(w.margin, 0) {
					t.Fatalf("%s: %s %s is %g", name, s.kinds[w.kind].ID, w.note, w.margin)
				}
			}
		}
	}
}

// Anchored stations have no rows of tipping; the pull of the anchors is told,
// and that they are a must.
func TestAnchored(t *testing.T) {
	f := padFrame(t)
	f.People.Sample = 100
	const tilt = 15 * deg
	f.Limits.TiltOccupied = tilt
	base := *f.Geometry.Base
	base.Rear, base.Width = 0, 450
	f.Geometry.Base = &base
	loose, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	if q, ok := loose.Requirement("tilt-occupied"); !ok || q.Met {
		t.Fatalf("a station with rear feet below the pivots holds: %+v", q)
	}
	f.Space.Anchor = "yes"
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"tilt-empty", "tilt-occupied", "tilt-entry"} {
		if _, ok := r.Requirement(id); ok {
			t.Errorf("anchored: %s is asked for", id)
		}
	}
	// The pull by moments about the edge that tips first: two anchors a side.
	least := r.Least
	reach := base.Front - base.Rear
	inside := math.Tan(least.Tilt) * least.Z
	pull := least.Mass * 9.80665 * (least.Z*math.Tan(tilt) - inside) / reach / 2
	if least.Edge != "rear" || r.Balance.AnchorPull < pull-1e-6 || pull <= 0 {
		t.Errorf("anchors pull %.1f N, the least tilt over the %s alone asks for %.1f", r.Balance.AnchorPull, least.Edge, pull)
	}
	if !strings.Contains(strings.Join(r.Notes, " "), "must be anchored") {
		t.Errorf("the notes do not say so: %q", r.Notes)
	}
}

// The sweep against dense sampling: points all over the grip bar, at every
// angle and axis position, to points all over the crossbar's solid.
func TestSweepAgainstSampling(t *testing.T) {
	f := padFrame(t)
	g := &f.Geometry
	s, err := newProgram(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	l := s.layout(g)
	st := l.Build()
	var bar station.Member
	for _, m := range st.Members {
		if m.ID == "crossbar" {
			bar = m
		}
	}
	least := math.Inf(1)
	for _, a := range g.Pivots.Axes {
		axis := station.AxisVector(a.Toe, a.Cant)
		sw := station.NewSwing(l.RightPivot(), axis, g.Pad.Slope)
		for _, theta := range s.angles {
			for i := range 101 {
				w := l.GripMiddle - l.GripLength/2 + float64(i)/100*(l.ArmPlane()-l.GripMiddle+l.GripLength/2)
				for _, r := range []float64{g.Handle.Least, l.ArmReach} {
					p := sw.At(r, w, theta)
					for j := range 201 {
						y := bar.A.Y + float64(j)/200*(bar.B.Y-bar.A.Y)
						dx := math.Max(0, math.Abs(p.X-bar.A.X)-bar.Deep/2)
						dz := math.Max(0, math.Abs(p.Z-bar.A.Z)-bar.Deep/2)
						least = math.Min(least, math.Hypot(p.Y-y, math.Hypot(dx, dz))-g.Handle.Diameter/2)
					}
				}
			}
		}
	}
	for _, p := range s.hazards(g, l, st, drive{}).Pairs {
		if p.Moving == gripName && p.Fixed == "Crossbar" {
			if p.Gap > least+1e-9 || p.Gap < least-0.5 {
				t.Errorf("gap %.3f mm, sampling %.3f", p.Gap, least)
			}
			return
		}
	}
	t.Error("no pair of grip and crossbar")
}

// The person's solids where they can be reckoned: the chest's front on the
// middle line is half its depth less the protraction ahead of an upright trunk.
func TestSolids(t *testing.T) {
	p := Person{Body: station.Body{Trunk: 450, Hip: 80, ChestDepth: 240, ChestBreadth: 300, BellyFront: 100, BellyHeight: 110, ThighDepth: 160, ThighHalf: 90, Knee: 500},
		Person: people.Person{Sex: people.Man, Stature: 1741, SittingHeight: 900}}
	p.Pose.Hip = r3.Vec{Z: 480}
	p.Pose.Shoulder = r3.Vec{Y: -170, Z: 930}
	s := solidsOf(&p)
	gap := func(i int, q r3.Vec) float64 { return s[i].box.Gap(q, q) - s[i].radius }
	for _, v := range []struct {
		name string
		got  float64
		want float64
	}{
		{"chest, 300 mm ahead", gap(0, r3.Vec{X: 300, Z: 800}), 300 - (120 - station.Protraction)},
		{"chest, beside", gap(0, r3.Vec{X: -station.Protraction, Y: -400, Z: 800}), 400 - 150},
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

// Combined stress of a tube by the handbook: 50x50x3 (W 7.787 cm³, S) under 100
// N·m and 50 N·m: σ = 12.84, τ = T/(2·47²·3) = 3.773, √(σ² + 3τ²) = 14.41 N/mm².
func TestCombinedStress(t *testing.T) {
	b := example(t, "arm-pad-station")
	b.Stock.Member = "50x50x3"
	s, err := newProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	if got := combined(s.member, 100e3, 0, 50e3); math.Abs(got-14.41) > 0.01 {
		t.Errorf("%.3f N/mm², want 14.41", got)
	}
	// A lighter tube than the suggested one does not hold, and a heavier brief
	// never suggests a lighter one.
	f := frameLoads{post: 500e3, postBent: 250e3, postTwist: 50e3, seat: 200e3, postHigh: 500}
	light := s.suggest(f)
	f.post *= 2
	heavy := s.suggest(f)
	if len(light) != 2 || len(heavy) != 2 {
		t.Fatalf("suggested %v and %v", light, heavy)
	}
	for i := range light {
		if light[i].Mass > heavy[i].Mass || light[i].Stress > 1 || heavy[i].Stress > 1 {
			t.Errorf("%v, under twice the load %v", light[i], heavy[i])
		}
	}
}

// Every joint is told, each with a limit and a source, in both postures.
func TestProtectionTellsEveryJoint(t *testing.T) {
	f := padFrame(t)
	f.People.Sample = 100
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, p := range r.Protection {
		seen[p.Joint] = true
		if p.Source == "" || p.Person == "" || math.IsInf(p.Value, 0) || p.Limit == 0 {
			t.Errorf("%+v", p)
		}
		if p.Met != (p.Value <= p.Limit+1e-9) {
			t.Errorf("%s: %g against %g: met %v", p.What, p.Value, p.Limit, p.Met)
		}
	}
	for _, joint := range []string{"elbow", "wrist", "shoulder", "spine", "head and neck"} {
		if !seen[joint] {
			t.Errorf("nothing about the %s", joint)
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
	f := padFrame(b)
	s, err := newProgram(&f.Asked)
	if err != nil {
		b.Fatal(err)
	}
	s.persons, s.bodies = s.persons[:persons], s.bodies[:persons]
	s.heavy = 0
	for i, p := range s.persons {
		if p.Mass > s.persons[s.heavy].Mass {
			s.heavy = i
		}
	}
	s.grid(angles)
	g := &f.Geometry
	d, err := s.drive(g)
	if err != nil {
		b.Fatal(err)
	}
	set := s.freeSettings(g, d)
	m := newMachine(g)
	out := &rows{card: &s.card}
	sat := make([]Person, len(s.persons))
	p := sitter{level: d.level}
	for i := range sat {
		p.take(&s.placer, i)
		sat[i] = s.place(m, &p, set[i], out)
	}
	b.ResetTimer()
	for b.Loop() {
		out.list = out.list[:0]
		l := s.layout(g)
		st := l.Build()
		sc := &scene{geo: g, layout: l, built: st, drive: d, seated: sat}
		s.stability(sc, out, &afresh{}, nil)
		s.members(g, l, sat, d.level, d.heavyTension, out)
		s.gaps(sc, nil, out)
		s.bodyGaps(sc, out, &afresh{})
	}
}
