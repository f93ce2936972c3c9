package seat

import (
	"math"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/specs"
)

// gripping is a seated person with an arm on an axis position, about to take
// hold of a handle position.
type gripping struct {
	p Sitter
	w Swing
}

// How far the handle of a frame's file goes, mm: what persons on a station that
// suits nobody want may lie beyond.
const (
	mostHandles              = 60
	leastReach, mostReach    = 50.0, 800.0
	mostGrip, mostGripMiddle = 500.0, 300.0
)

// HandlesOf sets the handle's positions and grip from what persons want in their
// settings, and the arm's mass with them.
func (s *Placer) HandlesOf(g *specs.Geometry, who []Occupant) {
	m := drive.NewMachine(g)
	lo, hi := math.Inf(1), math.Inf(-1)
	in, outward := math.Inf(1), math.Inf(-1)
	list := make([]gripping, len(who))
	scratch := &require.Rows{Card: &s.Card, Quiet: true}
	for i := range list {
		p, w := &list[i].p, &list[i].w
		p.Host(s, &who[i])
		at := s.Sit(m, p, who[i].Seat, scratch)
		s.SwingOn(m, p, &at, &p.Limbs[0], who[i].Axis, w, scratch)
		s.Follow(m, w)
		scratch.List = scratch.List[:0]
		lo, hi = math.Min(lo, w.Want.Radius), math.Max(hi, w.Want.Radius)
		in = math.Min(in, w.Want.Axial-p.Body.HandHalf)
		outward = math.Max(outward, w.Want.Axial+p.Body.HandHalf)
	}
	h := &g.Handle
	h.Pitch = s.Asked.Posture.HandlePitch
	h.Middle = math.Max(-mostGripMiddle, math.Min(mostGripMiddle, math.Round((in+outward)/2)))
	h.GripLength = math.Min(mostGrip, math.Ceil(outward-in+drive.GripRoom))
	h.Diameter = drive.Grip
	s.firstHandle(m, list, lo, hi)
	h.ArmMass, h.ArmCentre = s.ArmWeight(g)
}

// firstHandle sets the first handle position and their number for wanted radii
// between lo and hi. Positions are whole pitches from the first one and hold
// everybody within half a pitch; the first is a whole millimetre, so one pitch
// holds few candidates and every one is tried. Of those with which the worst
// served person meets hand-path and handle-reach, one with the fewest positions
// is taken; else, and among these, that with the largest margin for this person.
func (s *Placer) firstHandle(m drive.Machine, list []gripping, lo, hi float64) {
	h := &m.Geometry.Handle
	half := h.Pitch / 2
	at := func(least float64) {
		h.Least = math.Max(leastReach, math.Min(mostReach, least))
		h.Positions = min(mostHandles, int(math.Max(0, math.Ceil((hi-least-half)/h.Pitch)))+1)
	}
	scratch := &require.Rows{Card: &s.Card, Quiet: true}
	top, fewest, first := math.Inf(-1), 0, math.Floor(lo)
	for least := math.Ceil(lo - half); least <= lo+half; least++ {
		at(least)
		met := top >= 0
		if met && h.Positions > fewest {
			continue
		}
		floor := top
		if met && h.Positions < fewest {
			floor = -Tie // any that meets them will do
		}
		if v := s.worstHold(m, list, floor, scratch); v > floor+Tie {
			top, fewest, first = v, h.Positions, least
		}
	}
	at(first)
}

// worstHold is the least over persons of the largest margin, in units that
// matter, that a handle position gives each, or the first found at or below
// floor.
func (s *Placer) worstHold(m drive.Machine, list []gripping, floor float64, scratch *require.Rows) float64 {
	worst := math.Inf(1)
	for i := range list {
		p, w := &list[i].p, &list[i].w
		best := math.Inf(-1)
		for _, handle := range m.Handles(w.Want.Radius) {
			s.Grip(m, p, w, handle, scratch)
			best = max(best, scratch.Take())
		}
		if worst = min(worst, best); worst <= floor {
			break
		}
	}
	return worst
}
