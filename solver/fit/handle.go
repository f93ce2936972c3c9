package fit

import (
	"math"

	"armwright/specs"
)

// gripping is a seated person with an arm on an axis position, about to take
// hold of a handle position.
type gripping struct {
	p sitter
	w swing
}

// How far the handle of a frame's file goes, mm: what persons on a station that
// suits nobody want may lie beyond.
const (
	mostHandles              = 60
	leastReach, mostReach    = 50.0, 800.0
	mostGrip, mostGripMiddle = 500.0, 300.0
)

// handlesOf sets the handle's positions and grip from what the boundary
// persons want in the given settings, and the arm's mass with them.
func (s *placer) handlesOf(g *specs.Geometry, set []setting) {
	m := newMachine(g)
	lo, hi := math.Inf(1), math.Inf(-1)
	in, outward := math.Inf(1), math.Inf(-1)
	list := make([]gripping, len(s.persons))
	scratch := &rows{card: &s.card, quiet: true}
	for i := range list {
		p, w := &list[i].p, &list[i].w
		p.take(s, i)
		at := s.sit(m, p, set[i].seat, scratch)
		s.swingOn(m, p, &at, &p.limbs[0], set[i].axis, w, scratch)
		s.follow(m, w)
		scratch.list = scratch.list[:0]
		lo, hi = math.Min(lo, w.want.Radius), math.Max(hi, w.want.Radius)
		in = math.Min(in, w.want.Axial-p.body.HandHalf)
		outward = math.Max(outward, w.want.Axial+p.body.HandHalf)
	}
	h := &g.Handle
	h.Pitch = s.asked.Posture.HandlePitch
	h.Middle = math.Max(-mostGripMiddle, math.Min(mostGripMiddle, math.Round((in+outward)/2)))
	h.GripLength = math.Min(mostGrip, math.Ceil(outward-in+gripRoom))
	h.Diameter = grip
	s.firstHandle(m, list, lo, hi)
	h.ArmMass, h.ArmCentre = armMass(s.arm.Mass, h.Least+float64(h.Positions-1)*h.Pitch)
}

// firstHandle sets the first handle position and their number for wanted radii
// between lo and hi. Positions are whole pitches from the first one and hold
// everybody within half a pitch; the first is a whole millimetre, so one pitch
// holds few candidates and every one is tried. Of those with which the worst
// served person meets hand-path and handle-reach, one with the fewest positions
// is taken; else, and among these, that with the largest margin for this person.
func (s *placer) firstHandle(m machine, list []gripping, lo, hi float64) {
	h := &m.geo.Handle
	half := h.Pitch / 2
	at := func(least float64) {
		h.Least = math.Max(leastReach, math.Min(mostReach, least))
		h.Positions = min(mostHandles, int(math.Max(0, math.Ceil((hi-least-half)/h.Pitch)))+1)
	}
	scratch := &rows{card: &s.card, quiet: true}
	top, fewest, first := math.Inf(-1), 0, math.Floor(lo)
	for least := math.Ceil(lo - half); least <= lo+half; least++ {
		at(least)
		met := top >= 0
		if met && h.Positions > fewest {
			continue
		}
		floor := top
		if met && h.Positions < fewest {
			floor = -tie // any that meets them will do
		}
		if v := s.worstHold(m, list, floor, scratch); v > floor+tie {
			top, fewest, first = v, h.Positions, least
		}
	}
	at(first)
}

// worstHold is the least over persons of the largest margin, in units that
// matter, that a handle position gives each, or the first found at or below
// floor.
func (s *placer) worstHold(m machine, list []gripping, floor float64, scratch *rows) float64 {
	worst := math.Inf(1)
	for i := range list {
		p, w := &list[i].p, &list[i].w
		best := math.Inf(-1)
		for _, handle := range m.handles(w.want.Radius) {
			s.hold(m, p, w, handle, scratch)
			best = max(best, scratch.take())
		}
		if worst = min(worst, best); worst <= floor {
			break
		}
	}
	return worst
}
