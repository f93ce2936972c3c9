package fit

import (
	"math"

	"armwright/specs"
	"armwright/specs/people"
)

// lowestStep is the least height of a foot plate: a plate on its frame. Own
// choice. The lowest position of a plate is no higher than highestStep, as far as
// a frame's file goes: above it the floor under the feet is another floor.
const (
	lowestStep  = 40.0
	highestStep = 600.0
)

// hasSteps says whether a foot plate is asked for; without one the feet's
// place is reported and not judged.
func (s *placer) hasSteps() bool { return s.asked.Posture.FootPlate == "steps" }

// stand puts the feet, in shoes, on the floor or on the nearest position of the
// foot plate. Sole is how far the shoe's sole would hang above the floor. A
// floor that is nearer than the legs are long is no fault, the feet go forward;
// a plate that is too high lifts the thighs.
func stand(plate *specs.FootPlate, sole float64) (position int, gap float64) {
	position, gap = -1, sole
	if plate == nil {
		return position, gap
	}
	off := math.Max(0, sole)
	for i := range plate.Positions {
		d := sole - plate.Lowest - float64(i)*plate.Pitch
		if math.Abs(d) < off {
			position, gap, off = i, d, math.Abs(d)
		}
	}
	return position, gap
}

// sole is how far a person's shoe sole hangs above the floor from a seat.
func (s *placer) sole(p people.Person, seat float64) float64 {
	return seat - p.PoplitealHeight - s.asked.People.Shoe
}

// everyStep gives a geometry a foot plate that reaches everybody, for the
// search; stepsOf trims it to what is used.
func (s *placer) everyStep(g *specs.Geometry) {
	if !s.hasSteps() {
		return
	}
	const highest = 400.0
	pitch := s.asked.Posture.FootPitch
	n := int(math.Ceil((highest - lowestStep) / pitch))
	g.FootPlate = &specs.FootPlate{Lowest: lowestStep, Pitch: pitch, Positions: min(20, n)}
}

// stepsOf sets the foot plate's positions from where the boundary persons'
// soles hang in the given settings: nobody for whom the floor is too far is
// farther than half a step from one. Without such a person there is no plate.
func (s *placer) stepsOf(g *specs.Geometry, set []setting) {
	if !s.hasSteps() {
		return
	}
	m := newMachine(g)
	low, high := math.Inf(1), math.Inf(-1)
	var p sitter
	for i, c := range set {
		p.take(s, i)
		if sole := s.sole(p.person, m.seatTop(c.seat)); sole > s.limitOf("foot-gap")/2 {
			low, high = math.Min(low, sole), math.Max(high, sole)
		}
	}
	g.FootPlate = nil
	if high < low {
		return
	}
	pitch := s.asked.Posture.FootPitch
	plate := specs.FootPlate{Lowest: math.Min(highestStep, math.Max(lowestStep, math.Floor(low))), Pitch: pitch}
	plate.Positions = 1 + int(math.Max(0, math.Ceil((high-plate.Lowest)/pitch-0.5)))
	plate.Positions = min(20, plate.Positions)
	g.FootPlate = &plate
}
