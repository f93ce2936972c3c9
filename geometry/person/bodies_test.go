package person_test

import (
	"math"
	"testing"

	"armwright/geometry/person"
	"armwright/geometry/person/persontest"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// mean is the mean man or woman of the 2012 survey (Gordon et al. 2014; the table in
// reference/anthropometry.md), sizes as published, joints as the program places
// them: hip joint at half the thigh clearance and half the buttock depth, shoulder
// centre 45 below the acromion.
func mean(woman bool) persontest.Sitter {
	s := persontest.Sitter{Label: "mean man", Mass: 85.5, Stature: 1756.2, Sizes: person.Sizes{
		HipHeight: 180.5 / 2, Behind: 245.8 / 2, Trunk: 602.8 - 45 - 180.5/2, SittingHeight: 918.3,
		Bideltoid: 510.4, ChestDepth: 253.8, ChestBreadth: 289.4, AbdominalDepth: 254.7, HipBreadth: 379.3, ThighClearance: 180.5,
		ButtockKnee: 618.0, PoplitealHeight: 429.8, KneeHeight: 554.2, UpperArmGirth: 358.1, ForearmGirth: 310.1, HandBreadth: 88.3, FootLength: 271.2,
	}}
	half, upper, fore := 415.7/2-37.9, 327.2-45, 325.9
	if woman {
		s = persontest.Sitter{Label: "mean woman", Woman: true, Mass: 67.8, Stature: 1628.5, Sizes: person.Sizes{
			HipHeight: 167.9 / 2, Behind: 232.9 / 2, Trunk: 563.2 - 45 - 167.9/2, SittingHeight: 856.6,
			Bideltoid: 450.3, ChestDepth: 247.4, ChestBreadth: 269.3, AbdominalDepth: 229.7, HipBreadth: 399.0, ThighClearance: 167.9,
			ButtockKnee: 590.6, PoplitealHeight: 388.2, KneeHeight: 511.3, UpperArmGirth: 305.6, ForearmGirth: 264.1, HandBreadth: 78.2, FootLength: 246.3,
		}}
		half, upper, fore = 365.4/2-37.9, 303.2-45, 296.2
	}
	s.Sizes.CalfGirth = person.CalfGirth(s.Mass, s.Stature)
	// Upright, on a seat as high as the legs are long, upper arms hanging and elbows
	// bent square: the survey's posture.
	s.Seat = s.Sizes.PoplitealHeight
	s.Hip = persontest.Vector{0, 0, s.Seat + s.Sizes.HipHeight}
	s.Shoulder = persontest.Vector{0, -half, s.Hip[2] + s.Sizes.Trunk}
	s.Elbow = persontest.Vector{0, -half, s.Shoulder[2] - upper}
	s.Path = [3]persontest.Vector{s.Elbow, {fore, 0, 0}, {0, 0, -fore}}
	s.Grip = persontest.Vector{0, -1, 0}
	return s
}

// all are the bodies of a person with the elbows bent square.
func all(s *person.Sizes, p *person.Pose) []person.Body {
	b := s.Bodies(p)
	out := b[:]
	for i := range p.Arms {
		fore, hand := s.Forearm(&p.Arms[i], i == 1, 1, 0)
		out = append(out, fore, hand)
	}
	return out
}

func TestBodiesHaveThePublishedSizes(t *testing.T) {
	for _, woman := range []bool{false, true} {
		who := mean(woman)
		pose, s := who.Pose(), who.Sizes
		low, high := map[string]r3.Vec{}, map[string]r3.Vec{}
		for _, b := range all(&s, &pose) {
			name := b.Segment.String()
			if b.Left {
				name += " left"
			}
			low[name], high[name] = b.Bounds()
		}
		seat, back := who.Seat, -s.Behind
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			{"hip breadth over the thighs", high["thigh left"].Y - low["thigh"].Y, s.HipBreadth},
			{"hip breadth over the pelvis", high["pelvis"].Y - low["pelvis"].Y, s.HipBreadth},
			{"thigh clearance", high["thigh"].Z - seat, s.ThighClearance},
			{"underside of the thigh on the seat", low["thigh"].Z, seat},
			{"underside of the pelvis on the seat", low["pelvis"].Z, seat},
			{"rear of the buttocks", low["pelvis"].X, back},
			{"buttock-knee length", high["thigh"].X - back, s.ButtockKnee},
			{"knee height", high["shank"].Z, s.KneeHeight},
			{"sole on the floor", low["foot"].Z, 0},
			{"foot length with its shoe", high["foot"].X - low["foot"].X, s.FootLength + 25},
			{"sitting height", high["head"].Z - seat, s.SittingHeight},
			{"head length", high["head"].X - low["head"].X, 199 * s.SittingHeight / 918.3},
			{"head breadth", high["head"].Y - low["head"].Y, 154 * s.SittingHeight / 918.3},
			{"bideltoid breadth", high["upper arm left"].Y - low["upper arm"].Y, s.Bideltoid},
			{"chest depth", high["chest"].X - low["chest"].X, s.ChestDepth},
			{"chest breadth", high["chest"].Y - low["chest"].Y, s.ChestBreadth},
			{"abdominal depth", high["belly"].X - back, s.AbdominalDepth},
			{"acromion over the seat, 10 of tissue above it", high["upper arm"].Z - seat, s.Trunk + s.HipHeight + 45 + 10},
		} {
			if math.Abs(c.got-c.want) > 1e-9 {
				t.Errorf("%s: %s is %.2f, want %.2f", who.Label, c.what, c.got, c.want)
			}
		}
		// Not used to make the bodies: what they come to beside the survey.
		foot, popliteal, rest := 101.9, 502.9, 245.0
		if woman {
			foot, popliteal, rest = 92.7, 485.1, 232.4
		}
		for _, c := range []struct {
			what              string
			got, want, within float64
		}{
			{"foot breadth with its shoe", high["foot"].Y - low["foot"].Y, foot + 10, 1},
			{"buttock-popliteal length to the back of the knee", high["thigh"].X - (s.KneeHeight - s.PoplitealHeight) - back, popliteal, 20},
			// The survey's elbow rests on the olecranon, which stands 36.5 and 31.1 below the axis.
			{"elbow rest height", low["upper arm"].Z - seat, rest, 20},
		} {
			if math.Abs(c.got-c.want) > c.within {
				t.Errorf("%s: %s is %.1f, survey %.1f", who.Label, c.what, c.got, c.want)
			}
		}
	}
}

// holds reports whether a point lies in a body.
func holds(b *person.Body, at r3.Vec) bool {
	low, high := b.Bounds()
	if at.X < low.X || at.Y < low.Y || at.Z < low.Z || at.X > high.X || at.Y > high.Y || at.Z > high.Z {
		return false
	}
	return b.Gap(solid.Ball{}, solid.Shift(at)) <= 0
}

// volumes are those of the bodies by name, both sides together, and of them all,
// shared space counted once and given to the first, litres: by counting points of a
// grid of step mm.
func volumes(s *person.Sizes, p *person.Pose, step float64) (map[string]float64, float64) {
	bodies := all(s, p)
	low, high := bodies[0].Bounds()
	for i := range bodies {
		a, b := bodies[i].Bounds()
		low = r3.Vec{X: min(low.X, a.X), Y: min(low.Y, a.Y), Z: min(low.Z, a.Z)}
		high = r3.Vec{X: max(high.X, b.X), Y: max(high.Y, b.Y), Z: max(high.Z, b.Z)}
	}
	each := map[string]float64{}
	sum, cell := 0.0, step*step*step*1e-6
	for x := low.X + step/2; x < high.X; x += step {
		for y := low.Y + step/2; y < high.Y; y += step {
			for z := low.Z + step/2; z < high.Z; z += step {
				for i := range bodies {
					if holds(&bodies[i], r3.Vec{X: x, Y: y, Z: z}) {
						each[bodies[i].Segment.String()] += cell
						sum += cell
						break
					}
				}
			}
		}
	}
	return each, sum
}

// density is that of a living body: 1.02 to 1.08 kg/l from fat to lean (Durnin and
// Womersley 1974, from memory) with empty lungs, less by some 5 % for air and gut.
// The bodies leave out the hollows between them and count shoes, so that they are
// held to a band about that.
const densityLow, densityHigh = 1.0, 1.15

func TestVolumesComeToThePersonsMass(t *testing.T) {
	for _, name := range []string{"arm-pad", "reclined"} {
		st := persontest.Read(t, name)
		for i := 0; i < len(st.Persons); i += 5 {
			p := &st.Persons[i]
			pose := p.Pose()
			_, sum := volumes(&p.Sizes, &pose, 25)
			if d := p.Mass / sum; d < densityLow || d > densityHigh {
				t.Errorf("%s, %s: %.1f kg in %.1f l, %.3f kg/l", name, p.Label, p.Mass, sum, d)
			}
		}
	}
}

// Segment masses are shares of body mass after de Leva 1996, table 4 (reference/
// biomechanics.md), densities 1.09 for the shank, 1.13 forearm, 1.11 head and neck
// (Dempster 1955, from memory). Trunk, thigh and upper arm are cut elsewhere there.
func TestVolumesOfSegments(t *testing.T) {
	for _, woman := range []bool{false, true} {
		who := mean(woman)
		pose := who.Pose()
		each, sum := volumes(&who.Sizes, &pose, 10)
		share := map[string]float64{"shank": 2 * .0433, "forearm": 2 * .0162, "head": .0694}
		if woman {
			share = map[string]float64{"shank": 2 * .0481, "forearm": 2 * .0138, "head": .0668}
		}
		each["head"] += each["neck"]
		for segment, density := range map[string]float64{"shank": 1.09, "forearm": 1.13, "head": 1.11} {
			want := share[segment] * who.Mass / density
			if got := each[segment]; got < .75*want || got > 1.35*want {
				t.Errorf("%s: %s has %.2f l, its mass asks for %.2f", who.Label, segment, got, want)
			}
		}
		if d := who.Mass / sum; d < densityLow || d > densityHigh {
			t.Errorf("%s: %.3f kg/l", who.Label, d)
		}
	}
}

func TestMirroredBodiesAreMirrorImages(t *testing.T) {
	st := persontest.Read(t, "arm-pad")
	for i := range st.Persons {
		pose := st.Persons[i].Pose()
		list := all(&st.Persons[i].Sizes, &pose)
		at := map[person.Segment]person.Body{}
		for _, b := range list {
			if !b.Left {
				at[b.Segment] = b
			}
		}
		lefts := 0
		for _, b := range list {
			if !b.Left {
				continue
			}
			lefts++
			right := at[b.Segment]
			if m := right.Mirrored(); m != b {
				t.Errorf("%s: left %v is not the right one's image", st.Persons[i].Label, b.Segment)
			}
		}
		if lefts != 6 {
			t.Fatalf("%d bodies of the left side, want 6", lefts)
		}
	}
}
