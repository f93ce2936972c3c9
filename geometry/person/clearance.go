package person

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Gaps are the nearest parts to each segment of one person, of either side.
type Gaps struct {
	Of   [segments]Nearest
	Feet Feet // where they are, of the places that keep the legs clear
}

// Least returns the segment with the least gap.
func (g *Gaps) Least() (Segment, Nearest) {
	at := Segment(0)
	for i := range g.Of {
		if g.Of[i].Gap < g.Of[at].Gap {
			at = Segment(i)
		}
	}
	return at, g.Of[at]
}

// legs is the least gap of thighs, shanks and feet.
func (g *Gaps) legs() float64 { return min(g.Of[Thigh].Gap, g.Of[Shank].Gap, g.Of[Foot].Gap) }

// Gaps measures how near the station comes to a person: everything that stands
// still in the person's positions to the trunk, legs and upper arm; what moves with
// the right arm to them, at every flexion; and everything to forearm and hand as
// they move. Meant contacts are left out. Gaps of reach, mm, or more are not told
// apart: they are told as reach, with Part -1. The positions are those of pose; its
// flexions and lifts do not matter. Where the legs come nearer than reach with the
// feet as the person's pose has them, the other places for the feet are tried, and
// the one that leaves the most room is told.
func (s *Surroundings) Gaps(sizes *Sizes, p *Pose, pose assembly.Pose, reach float64) Gaps {
	s.arrange()
	out := Gaps{Feet: p.Feet}
	for i := range out.Of {
		out.Of[i] = Nearest{reach, -1, -1}
	}
	s.stand(pose)
	bodies := sizes.Bodies(p)
	s.reach(sizes, p)
	s.standing(bodies[:], &out.Of)
	s.moving(bodies[:], &out.Of)
	s.held(&out.Of)
	s.passed(&out.Of)

	for f := Feet(0); f < feet && out.legs() < reach; f++ {
		if f == p.Feet {
			continue
		}
		other, moved := out, *p
		other.Feet, moved.Feet = f, f
		for _, i := range [...]Segment{Thigh, Shank, Foot} {
			other.Of[i] = Nearest{reach, -1, -1}
		}
		legs := bodies[firstOfLegs:firstOfArms]
		sizes.legs(&moved, legs)
		s.standing(legs, &other.Of)
		s.moving(legs, &other.Of)
		if other.legs() > out.legs()+tie {
			out = other
		}
	}
	return out
}

// Closest is where a person who sits comes nearest to the station.
type Closest struct {
	Nearest
	Segment Segment
	Feet    Feet // where they are, of the places that keep the legs clear
}

// Seated measures how near trunk, head and legs come to what does not move with the
// arms: the least that Gaps would tell of these, sooner. A gap of reach, mm, or more is
// told as reach, with Part -1.
func (s *Surroundings) Seated(sizes *Sizes, p *Pose, pose assembly.Pose, reach float64) Closest {
	s.arrange()
	s.stand(pose)
	far := Closest{Nearest{reach, -1, -1}, Head, p.Feet}
	out := far
	s.legs = sizes.leg(sizes.Leg(p))
	s.closest(s.legs[:], math.Inf(-1), &out)
	for f := Feet(0); f < feet && out.Gap < reach; f++ {
		if f == p.Feet {
			continue
		}
		other, moved := far, *p
		other.Feet, moved.Feet = f, f
		s.legs = sizes.leg(sizes.Leg(&moved))
		s.closest(s.legs[:], out.Gap+tie, &other)
		if other.Gap > out.Gap+tie {
			out = other
		}
	}
	s.trunk = sizes.trunk(p)
	s.closest(s.trunk[:], math.Inf(-1), &out)
	return out
}

// closest lowers the least gap by those of bodies of the middle and the right to what
// does not move with the arms. It need not be known once it is no more than enough.
func (s *Surroundings) closest(bodies []Body, enough float64, out *Closest) {
	near := &out.Nearest
	for g := range s.groups {
		v := &s.groups[g]
		if v.moves || v.first == v.last {
			continue
		}
		at := &s.stands[g]
		asIs := *at == solid.World()
		inverse := at.Inverse()
		centre, reach := v.ball()
		centre = at.Point(centre)
		for i := range bodies {
			b := &bodies[i]
			if !asIs {
				if b.beyond(centre, reach+near.Gap) {
					continue
				}
				s.turned = b.in(&inverse)
				b = &s.turned
			}
			if v.far(&b.box, near.Gap) {
				continue
			}
			for r := v.runs[0]; r < v.runs[1]; r++ {
				run := &s.runs[r]
				if run.far(&b.box, near.Gap) {
					continue
				}
				for n := run.first; n < run.last; n++ {
					q := &s.parts[n]
					if q.far(&b.box, near.Gap) || !q.meets(b.Segment) {
						continue
					}
					before := near.Gap
					if s.measure(b, q, -1, near); near.Gap < before {
						out.Segment = b.Segment
					}
					if near.Gap <= enough {
						return
					}
				}
			}
		}
	}
}

// stand puts every group where it is in a person's positions, at the reference flexion.
func (s *Surroundings) stand(pose assembly.Pose) {
	pose.Flexion, pose.Lift = s.a.Reference.Flexion, s.a.Reference.Lift
	for i := range s.stood {
		if at := &s.stood[i]; at.pose == pose {
			s.still, s.stands = at.still, at.stands
			return
		}
	}
	n := len(s.stood)
	s.stood = slices.Grow(s.stood, 1)[:n+1] // with the memory of the assembly before
	at := &s.stood[n]
	at.pose, at.still, at.stands = pose, s.a.At(pose, at.still), at.stands[:0]
	for g := range s.groups {
		at.stands = append(at.stands, at.still[g].Then(s.groups[g].frame))
	}
	s.still, s.stands = at.still, at.stands
}

// Follow measures again the gap that Seated told of, which had a part: of a station and
// a person that hardly differ from those.
func (s *Surroundings) Follow(sizes *Sizes, p *Pose, pose assembly.Pose, of *Closest) float64 {
	s.stand(pose)
	moved := *p
	moved.Feet = of.Feet
	bodies := sizes.Bodies(&moved)
	least := Nearest{math.Inf(1), -1, -1}
	at := &s.a.Parts[of.Part]
	frame, stands := &s.groups[at.Group].frame, &s.stands[at.Group]
	q := part{index: of.Part, body: at.Solid, place: frame.Inverse().Then(at.Place)}
	inverse := stands.Inverse()
	for i := range bodies {
		if b := &bodies[i]; b.Segment == of.Segment && !b.Left {
			seen := b.in(&inverse)
			s.measure(&seen, &q, -1, &least)
		}
	}
	return least.Gap
}

// tie keeps the choice of a place for the feet from hanging on the last bits, mm.
const tie = 1e-3

// measure lowers the least gap of a body's segment by that to a part, both as seen from
// the part's group, and returns what the gap is at least.
func (s *Surroundings) measure(b *Body, q *part, flexion int, out *Nearest) float64 {
	least := math.Inf(1)
	for _, c := range q.convex() {
		gap, _ := b.nearer(c, &q.place, out.Gap)
		if gap < out.Gap {
			*out = Nearest{gap, q.index, flexion}
		}
		least = min(least, gap)
	}
	return least
}

// follow is measure of a pair that moves from one
// call to the next. Way is a unit vector along which the part was apart from the body;
// it is set to that of this call, or to nothing.
func (s *Surroundings) follow(b *Body, q *part, flexion int, way *r3.Vec, out *Nearest) float64 {
	pieces := q.convex()
	if len(pieces) > 1 {
		return s.measure(b, q, flexion, out)
	}
	if *way != (r3.Vec{}) {
		back := r3.Scale(-1, *way)
		from := r3.Dot(*way, q.place.Point(pieces[0].Support(q.place.Inverse().Vector(back))))
		if gap := from - r3.Dot(*way, b.Support(*way)); gap >= out.Gap {
			return gap
		}
	}
	gap, to := b.nearer(pieces[0], &q.place, out.Gap)
	if gap < out.Gap {
		*out = Nearest{gap, q.index, flexion}
	}
	*way = to
	return gap
}

// meets reports whether a part is looked at for a segment.
func (q *part) meets(segment Segment) bool { return q.meant&(1<<segment) == 0 }

// displaced is where a group's frame is at a flexion, in the person's positions.
func (s *Surroundings) displaced(g, k int) solid.Placement {
	v := &s.groups[g]
	if !v.moves {
		return s.stands[g]
	}
	return s.still[v.top].Then(s.carried[k][g]).Then(s.below(g)).Then(v.frame)
}

// below returns the displacement of a group that moves against the nearest of its
// ancestors, or itself, of which the motion depends on the flexion: the handle's
// position on its arm.
func (s *Surroundings) below(g int) solid.Placement {
	// No motion displaces anything in the reference pose, so that what is left of the
	// still displacement after the top's is the handle's.
	return s.still[s.groups[g].top].Inverse().Then(s.still[g])
}

// seen returns bodies as seen from a displaced group.
func (s *Surroundings) seen(bodies []Body, at *solid.Placement) []Body {
	if *at == solid.World() {
		return bodies
	}
	inverse := at.Inverse()
	s.bodies = s.bodies[:0]
	for i := range bodies {
		s.bodies = append(s.bodies, bodies[i].in(&inverse))
	}
	return s.bodies
}

// standing measures what does not move with the arms.
func (s *Surroundings) standing(bodies []Body, out *[segments]Nearest) {
	for g := range s.groups {
		v := &s.groups[g]
		if v.moves || v.first == v.last {
			continue
		}
		at := &s.stands[g]
		inverse := at.Inverse()
		centre, reach := v.ball()
		centre = at.Point(centre)
		for i := range bodies {
			near := &out[bodies[i].Segment]
			if bodies[i].Left || bodies[i].beyond(centre, reach+near.Gap) {
				continue
			}
			b := &s.turned
			*b = bodies[i].in(&inverse)
			if v.apart(&b.box) >= near.Gap {
				continue
			}
			for n := v.first; n < v.last; n++ {
				if q := &s.parts[n]; q.meets(b.Segment) && q.apart(&b.box) < near.Gap {
					s.measure(b, q, -1, near)
				}
			}
		}
	}
}

// moving measures what the right arm carries, to the bodies that keep still.
func (s *Surroundings) moving(bodies []Body, out *[segments]Nearest) {
	for g := range s.groups {
		v := &s.groups[g]
		if !v.moves || !v.right || v.first == v.last {
			continue
		}
		slide := s.below(g)
		aside := math.Sqrt(r3.Norm2(slide.Origin))
		list := s.seen(bodies, &s.still[v.top])
		for i := range list {
			b := &list[i]
			near := &out[b.Segment]
			if v.way.apart(&b.box)-aside >= near.Gap {
				continue
			}
			for n := v.first; n < v.last; n++ {
				if q := &s.parts[n]; q.meets(b.Segment) {
					s.sweep(b, q, g, &slide, aside, near)
				}
			}
		}
	}
}

// sweep measures one part through the motion to one body, both seen from the group's
// top, the part slid aside by a distance. From a gap that has way to spare, flexions
// are passed over.
func (s *Surroundings) sweep(b *Body, q *part, g int, slide *solid.Placement, aside float64, near *Nearest) {
	turned := s.groups[g].turned
	middle, half := b.ball()
	var way r3.Vec
	for k := 0; k < len(s.carried); {
		carried := &s.carried[k][g]
		// From the ball round the part, which turning does not change, and from the part.
		centre := q.at[k]
		if aside > 0 {
			centre = r3.Add(centre, carried.Vector(slide.Origin))
		}
		ball, gap := math.Sqrt(r3.Norm2(r3.Sub(middle, centre)))-half-q.reach, math.Inf(-1)
		if ball < near.Gap {
			at := carried.Then(*slide).Then(s.groups[g].frame)
			inverse := at.Inverse()
			s.turned = b.in(&inverse)
			if gap = q.apart(&s.turned.box); gap < near.Gap {
				gap = s.follow(&s.turned, q, k, &way, near)
			}
		}
		from := k
		for k++; k < len(s.carried); k++ {
			angle := turned[k] - turned[from]
			moved := q.way[k] - q.way[from] + aside*angle
			if moved > ball-near.Gap && moved+q.reach*angle > gap-near.Gap {
				break
			}
		}
	}
}

// reach puts forearm and hand where they are at each flexion.
func (s *Surroundings) reach(sizes *Sizes, p *Pose) {
	s.fore = s.fore[:0]
	s.swept = [2]box{emptyBox(), emptyBox()}
	for k := range s.sin {
		forearm, hand := sizes.Forearm(&p.Arms[0], false, s.sin[k], s.cos[k])
		s.fore = append(s.fore, forearm, hand)
		s.swept[0].join(forearm.box)
		s.swept[1].join(hand.box)
	}
}

// held measures forearm and hand to what goes along with them, and so moves hardly
// against them, at the ends and in the middle of the motion.
func (s *Surroundings) held(out *[segments]Nearest) {
	last := len(s.sin) - 1
	for g := range s.groups {
		v := &s.groups[g]
		if last < 0 || !v.moves || !v.right || v.first == v.last {
			continue
		}
		for _, k := range [3]int{0, last / 2, last} {
			at := s.displaced(g, k)
			list := s.seen(s.fore[2*k:2*k+2], &at)
			for i := range list {
				b := &list[i]
				near := &out[b.Segment]
				for n := v.first; n < v.last; n++ {
					if q := &s.parts[n]; q.meets(b.Segment) && q.apart(&b.box) < near.Gap {
						s.measure(b, q, k, near)
					}
				}
			}
		}
	}
}

// passed measures forearm and hand, wherever they come, to what stands still. From a
// gap that has way to spare, flexions are passed over.
func (s *Surroundings) passed(out *[segments]Nearest) {
	for g := range s.groups {
		v := &s.groups[g]
		if v.moves || v.first == v.last {
			continue
		}
		centre, reach := v.ball()
		round := boxed(s.stands[g].Point(centre), reach)
		if round.apart(&s.swept[0]) >= out[Forearm].Gap && round.apart(&s.swept[1]) >= out[Hand].Gap {
			continue
		}
		list := s.seen(s.fore, &s.stands[g])
		for i := range 2 {
			segment := s.fore[i].Segment
			near, swept := &out[segment], emptyBox()
			for k := i; k < len(list); k += 2 {
				swept.join(list[k].box)
			}
			for n := v.first; n < v.last; n++ {
				q := &s.parts[n]
				if !q.meets(segment) || q.apart(&swept) >= near.Gap {
					continue
				}
				var way r3.Vec
				for k := i; k < len(list); {
					b := &list[k]
					gap := q.apart(&b.box)
					if gap < near.Gap {
						gap = s.follow(b, q, k/2, &way, near)
					}
					from := k
					for k += 2; k < len(list) && moved(&list[from], &list[k]) <= gap-near.Gap; k += 2 {
					}
				}
			}
		}
	}
}

// moved is how far any point of a body has moved to where the other one has it.
func moved(a, b *Body) float64 {
	far := 0.0
	for i := range a.n {
		far = max(far, r3.Norm2(r3.Sub(b.balls[i].Centre, a.balls[i].Centre)))
	}
	return math.Sqrt(far)
}
