package person_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/person"
	"armwright/geometry/person/persontest"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// random is an assembly of the shape of a station's: boxes that stand still, others
// that swivel, turn with the arm, slide on it and rise with the seat.
func random(seed uint64, each int) *assembly.Assembly {
	r := rand.New(rand.NewPCG(seed, 1))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	var b assembly.Builder
	pivot := r3.Vec{Y: -213, Z: 819}
	axis := r3.Unit(r3.Vec{X: -.2, Y: -1, Z: .2})
	b.Reference.Flexion = [2]float64{.2, .2}
	frame := b.Group("frame", -1, nil)
	// An axis that leaves the rest plane displaces the swivel in the reference pose too.
	swivel := b.GroupPair("swivel", assembly.One(frame), &assembly.Positions{Setting: assembly.Axis, Places: []solid.Placement{solid.Turn(pivot, r3.Vec{X: 1}, .02), solid.Turn(pivot, r3.Vec{X: .68, Z: .73}, .15)}})
	arm := b.GroupPair("arm", swivel, &assembly.Turn{Point: pivot, Axis: axis, From: .2, Ratio: 1})
	handle := b.GroupPair("handle", arm, &assembly.Steps{Setting: assembly.Handle, Step: r3.Vec{X: 7, Z: -7}})
	seat := b.Group("seat", frame, &assembly.Steps{Setting: assembly.Seat, Step: r3.Vec{Z: 20}})
	box := func(group int, low, high r3.Vec) assembly.Part {
		n := r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
		at := r3.Vec{X: between(low.X, high.X), Y: between(low.Y, high.Y), Z: between(low.Z, high.Z)}
		long := between(20, 200)
		return assembly.Part{Item: "box", Group: group, Density: 7.85e-6,
			Solid: solid.Prism{Profile: solid.Rect(between(10, 80), between(10, 80), 0), From: solid.End{Z: -long}, To: solid.End{Z: long}},
			Place: solid.Along(at, r3.Add(at, n), r3.Vec{Z: 1})}
	}
	for i := range each {
		p := box(frame, r3.Vec{X: -700, Y: -600}, r3.Vec{X: 900, Y: -60, Z: 1400})
		p.ID = fmt.Sprintf("fixed-%d", i)
		if i%3 == 0 {
			p.Item = "soft"
		}
		b.Pair(p)
	}
	for g, group := range [3]int{swivel[0], arm[0], handle[0]} {
		for i := range each/10 + 1 {
			p := box(group, r3.Vec{X: -200, Y: -500, Z: 500}, r3.Vec{X: 300, Y: -150, Z: 1000})
			p.ID = fmt.Sprintf("moved-%d-%d", g, i)
			b.Pair(p)
		}
	}
	p := box(seat, r3.Vec{X: -300, Y: -10, Z: 200}, r3.Vec{X: 0, Y: 10, Z: 300})
	p.ID, p.Item = "seat", "soft"
	b.Add(p)
	return &b.Assembly
}

func flexions() []float64 {
	var out []float64
	for d := 5.0; d <= 130; d += 5 {
		out = append(out, d*deg)
	}
	return out
}

// slow is the same measured pair by pair, nothing passed over.
func slow(a *assembly.Assembly, who *persontest.Sitter, pose assembly.Pose, contacts []person.Contact, angles []float64, reach float64) person.Gaps {
	best := slowly(a, who, person.Ahead, pose, contacts, angles, reach)
	legs := func(g *person.Gaps) float64 {
		return min(g.Of[person.Thigh].Gap, g.Of[person.Shank].Gap, g.Of[person.Foot].Gap)
	}
	for _, feet := range []person.Feet{person.Under, person.Back} {
		if g := slowly(a, who, feet, pose, contacts, angles, reach); legs(&g) > legs(&best)+1e-3 {
			best = g
		}
	}
	return best
}

func slowly(a *assembly.Assembly, who *persontest.Sitter, feet person.Feet, pose assembly.Pose, contacts []person.Contact, angles []float64, reach float64) person.Gaps {
	out := person.Gaps{Feet: feet}
	for i := range out.Of {
		out.Of[i] = person.Nearest{Gap: reach, Part: -1, Flexion: -1}
	}
	seated := who.Pose()
	seated.Feet = feet
	bodies := who.Sizes.Bodies(&seated)
	try := func(b *person.Body, part, k int, groups []solid.Placement) {
		p := &a.Parts[part]
		for _, c := range contacts {
			if c.Segment == b.Segment && c.Item == p.Item {
				return
			}
		}
		for _, c := range p.Solid.Pieces() {
			if gap := b.Gap(c, groups[p.Group].Then(p.Place)); gap < out.Of[b.Segment].Gap {
				out.Of[b.Segment] = person.Nearest{Gap: gap, Part: part, Flexion: k}
			}
		}
	}
	for k, theta := range angles {
		pose.Flexion = [2]float64{theta, theta}
		groups := a.At(pose, nil)
		forearm, hand := who.Sizes.Forearm(&seated.Arms[0], false, math.Sin(theta), math.Cos(theta))
		for part := range a.Parts {
			g := &a.Groups[a.Parts[part].Group]
			turns := g.ID == "arm-right" || g.ID == "handle-right" || g.ID == "arm-left" || g.ID == "handle-left"
			if turns && g.Side == assembly.Left {
				continue
			}
			if !turns || k == 0 || k == len(angles)-1 || k == (len(angles)-1)/2 {
				try(&forearm, part, k, groups)
				try(&hand, part, k, groups)
			}
			if !turns && k > 0 {
				continue
			}
			for i := range bodies {
				at := k
				if !turns {
					at = -1
					if bodies[i].Left {
						continue
					}
				}
				try(&bodies[i], part, at, groups)
			}
		}
	}
	return out
}

var contacts = []person.Contact{{person.Thigh, "soft"}, {person.Pelvis, "soft"}, {person.Hand, "soft"}}

func TestGapsAreThoseOfEveryPair(t *testing.T) {
	st := persontest.Read(t, "arm-pad")
	angles := flexions()
	var s person.Surroundings
	clear, met, moving, tucked := 0, 0, 0, 0
	for seed := range uint64(12) {
		a := random(seed, 12)
		s.Reset(a, contacts, angles)
		for i := int(seed); i < len(st.Persons); i += 17 {
			who := &st.Persons[i]
			pose := assembly.Pose{Axis: i % 2, Seat: i % 4, Handle: i % 5}
			seated := who.Pose()
			got, want := s.Gaps(&who.Sizes, &seated, pose, 80), slow(a, who, pose, contacts, angles, 80)
			if got.Feet != want.Feet {
				t.Errorf("seed %d, %s: feet %v, pair by pair %v", seed, who.Label, got.Feet, want.Feet)
			}
			if got.Feet != person.Ahead {
				tucked++
			}
			for j := range got.Of {
				if math.Abs(got.Of[j].Gap-want.Of[j].Gap) > 1e-5 || (got.Of[j].Part < 0) != (want.Of[j].Part < 0) {
					t.Errorf("seed %d, %s, %v: %+v, pair by pair %+v", seed, who.Label, person.Segment(j), got.Of[j], want.Of[j])
				}
				switch {
				case got.Of[j].Part < 0:
				case got.Of[j].Gap < 0:
					met++
				default:
					clear++
				}
				if got.Of[j].Flexion >= 0 {
					moving++
				}
			}
		}
	}
	if clear < 20 || met < 20 || moving < 20 || tucked < 5 {
		t.Errorf("only %d gaps, %d overlaps, %d while moving, %d with the feet elsewhere: the boxes do not try the measure", clear, met, moving, tucked)
	}
}

func BenchmarkGaps(b *testing.B) {
	st := persontest.Read(b, "arm-pad")
	a := random(1, 60)
	var s person.Surroundings
	s.Reset(a, contacts, flexions())
	b.Run("reset", func(b *testing.B) {
		for b.Loop() {
			s.Reset(a, contacts, flexions())
		}
	})
	b.Run("person", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			who := &st.Persons[i%len(st.Persons)]
			seated := who.Pose()
			s.Gaps(&who.Sizes, &seated, assembly.Pose{Axis: i % 2, Seat: i % 4, Handle: i % 5}, 60)
		}
	})
}
