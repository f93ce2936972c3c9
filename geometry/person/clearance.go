package person

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Gaps are the nearest parts to each segment of one person, of either side.
type Gaps [segments]Nearest

// Least returns the segment with the least gap.
func (g *Gaps) Least() (Segment, Nearest) {
	at := Segment(0)
	for i := range g {
		if g[i].Gap < g[at].Gap {
			at = Segment(i)
		}
	}
	return at, g[at]
}

// Gaps measures how near the station comes to a person: everything that stands
// still in the person's positions to the trunk, legs and upper arm; what moves with
// the right arm to them, at every flexion; and everything to forearm and hand as
// they move. Meant contacts are left out. Gaps of reach, mm, or more are not told
// apart: they are told as reach, with Part -1. The positions are those of pose; its
// flexions and lifts do not matter.
func (s *Surroundings) Gaps(sizes *Sizes, p *Pose, pose assembly.Pose, reach float64) Gaps {
	var out Gaps
	for i := range out {
		out[i] = Nearest{reach, -1, -1}
	}
	pose.Flexion, pose.Lift = s.a.Reference.Flexion, s.a.Reference.Lift
	s.still = s.a.At(pose, s.still)
	bodies := sizes.Bodies(p)
	s.reach(sizes, p)

	s.standing(&bodies, &out)
	s.moving(&bodies, &out)
	s.reaching(&out)
	return out
}

// measure lowers the least gap of a body's segment by that to a part at a place.
func (s *Surroundings) measure(b *Body, q *part, at *solid.Placement, flexion int, out *Nearest) {
	for _, c := range q.pieces {
		if gap := b.Gap(c, *at); gap < out.Gap {
			*out = Nearest{gap, q.index, flexion}
		}
	}
}

// standing measures what does not move with the arms.
func (s *Surroundings) standing(bodies *Bodies, out *Gaps) {
	world := solid.World()
	for g := range s.groups {
		v := &s.groups[g]
		if v.moves || v.first == v.last {
			continue
		}
		d := s.still[g]
		list := bodies[:]
		if d != world {
			inverse := d.Inverse()
			s.bodies = s.bodies[:0]
			for i := range bodies {
				s.bodies = append(s.bodies, bodies[i].in(&inverse))
			}
			list = s.bodies
		}
		for i := range list {
			b := &list[i]
			if b.Left {
				continue
			}
			near := &out[b.Segment]
			if apart(&v.low, &v.high, &b.low, &b.high) >= near.Gap {
				continue
			}
			for n := v.first; n < v.last; n++ {
				q := &s.parts[n]
				if q.meant&(1<<b.Segment) == 0 && apart(&q.low, &q.high, &b.low, &b.high) < near.Gap {
					s.measure(b, q, &q.place, -1, near)
				}
			}
		}
	}
}

// below returns the displacement of a group that moves against the nearest of its
// ancestors, or itself, of which the motion depends on the flexion: the handle's
// position on its arm.
func (s *Surroundings) below(g int, still *solid.Placement) solid.Placement {
	// No motion displaces anything in the reference pose, so that what is left of the
	// still displacement after the top's is the handle's.
	return s.still[s.groups[g].top].Inverse().Then(*still)
}

// moving measures what the right arm carries, to the bodies that keep still.
func (s *Surroundings) moving(bodies *Bodies, out *Gaps) {
	for g := range s.groups {
		v := &s.groups[g]
		if !v.moves || !v.right || v.first == v.last {
			continue
		}
		top := s.still[v.top]
		slide := s.below(g, &s.still[g])
		inverse := top.Inverse()
		s.bodies = s.bodies[:0]
		for i := range bodies {
			s.bodies = append(s.bodies, bodies[i].in(&inverse))
		}
		for i := range s.bodies {
			b := &s.bodies[i]
			near := &out[b.Segment]
			middle, half := r3.Scale(0.5, r3.Add(b.low, b.high)), r3.Norm(r3.Sub(b.high, b.low))/2
			for n := v.first; n < v.last; n++ {
				q := &s.parts[n]
				if q.meant&(1<<b.Segment) != 0 {
					continue
				}
				s.sweep(b, q, g, &slide, middle, half, near)
			}
		}
	}
}

// sweep measures one part through the motion to one body, both seen from the group's
// top. From a gap that has way to spare, flexions are passed over.
func (s *Surroundings) sweep(b *Body, q *part, g int, slide *solid.Placement, middle r3.Vec, half float64, near *Nearest) {
	turned := s.groups[g].turned
	aside := r3.Norm(slide.Origin)
	place := slide.Then(q.place)
	for k := 0; k < len(s.carried); {
		carried := &s.carried[k][g]
		at := carried.Then(*slide)
		gap := r3.Norm(r3.Sub(middle, at.Point(q.centre))) - half - q.reach
		if gap < near.Gap {
			inverse := at.Inverse()
			seen := b.in(&inverse)
			if apart(&q.low, &q.high, &seen.low, &seen.high) < near.Gap {
				at = carried.Then(place)
				s.measure(b, q, &at, k, near)
			}
		}
		from := k
		for k++; k < len(s.carried) && q.way[k]-q.way[from]+aside*(turned[k]-turned[from]) <= gap-near.Gap; k++ {
		}
	}
}

// reach puts forearm and hand where they are at each flexion.
func (s *Surroundings) reach(sizes *Sizes, p *Pose) {
	s.fore = s.fore[:0]
	for k := range s.sin {
		forearm, hand := sizes.Forearm(&p.Arms[0], false, s.sin[k], s.cos[k])
		s.fore = append(s.fore, forearm, hand)
	}
}

// reaching measures forearm and hand: through the motion to what stands still, and
// at its ends and middle to what moves with them and so hardly against them.
func (s *Surroundings) reaching(out *Gaps) {
	if len(s.fore) == 0 {
		return
	}
	var low, high [2]r3.Vec // of forearm and hand wherever they are
	for i := range 2 {
		low[i], high[i] = emptyBox()
	}
	for i := range s.fore {
		low[i%2], high[i%2] = joined(low[i%2], high[i%2], s.fore[i].low, s.fore[i].high)
	}
	world := solid.World()
	for g := range s.groups {
		v := &s.groups[g]
		if v.moves && !v.right {
			continue
		}
		for n := v.first; n < v.last; n++ {
			q := &s.parts[n]
			for i := range 2 {
				near := &out[s.fore[i].Segment]
				if q.meant&(1<<s.fore[i].Segment) != 0 {
					continue
				}
				if v.moves {
					slide := s.below(g, &s.still[g])
					last := len(s.sin) - 1
					for _, k := range [3]int{0, last / 2, last} {
						at := s.still[v.top].Then(s.carried[k][g]).Then(slide.Then(q.place))
						s.touch(&s.fore[2*k+i], q, &at, k, near)
					}
					continue
				}
				at, l, h := q.place, q.low, q.high
				if d := s.still[g]; d != world {
					at = d.Then(q.place)
					l, h = boxed(d.Point(q.centre), q.reach)
				}
				if apart(&l, &h, &low[i], &high[i]) > near.Gap {
					continue
				}
				for k := range s.sin {
					s.touch(&s.fore[2*k+i], q, &at, k, near)
				}
			}
		}
	}
}

// boxed returns the upright box round a ball.
func boxed(centre r3.Vec, reach float64) (low, high r3.Vec) {
	r := r3.Vec{X: reach, Y: reach, Z: reach}
	return r3.Sub(centre, r), r3.Add(centre, r)
}

// touch measures a body and a part at one flexion.
func (s *Surroundings) touch(b *Body, q *part, at *solid.Placement, k int, near *Nearest) {
	middle, half := r3.Scale(0.5, r3.Add(b.low, b.high)), r3.Norm(r3.Sub(b.high, b.low))/2
	// The ball round the part goes with it: its centre in the part's own frame is
	// found back from the reference pose.
	centre := at.Point(q.place.Inverse().Point(q.centre))
	if math.Sqrt(r3.Norm2(r3.Sub(middle, centre)))-half-q.reach < near.Gap {
		s.measure(b, q, at, k, near)
	}
}
