package seat

import (
	"math"

	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/people"
)

// The lowest position of a foot plate is no higher than highestStep, as far as a
// frame's file goes: above it the floor under the feet is another floor.
const highestStep = 600.0

// HasSteps says whether a foot plate is asked for; without one the feet's
// place is reported and not judged.
func (s *Placer) HasSteps() bool { return s.Asked.Posture.FootPlate == "steps" }

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

// Sole is how far a person's shoe sole hangs above the floor from a seat.
func (s *Placer) Sole(p people.Person, seat float64) float64 {
	return seat - p.PoplitealHeight - s.Asked.People.Shoe
}

// EveryStep gives a geometry a foot plate that reaches everybody, for the
// search; stepsOf trims it to what is used.
func (s *Placer) EveryStep(g *specs.Geometry) {
	if !s.HasSteps() {
		return
	}
	const highest = 360.0 // above the least
	pitch := s.Asked.Posture.FootPitch
	low := s.LeastStep()
	n := int(math.Ceil((low + highest) / pitch))
	g.FootPlate = &specs.FootPlate{Lowest: low, Pitch: pitch, Positions: min(20, n)}
}

// StepsOf sets the foot plate's positions from where persons' soles hang in their
// settings: nobody for whom the floor is too far is
// farther than half a step from one. Without such a person there is no plate.
func (s *Placer) StepsOf(g *specs.Geometry, who []Occupant) {
	if !s.HasSteps() {
		return
	}
	m := drive.NewMachine(g)
	low, high := math.Inf(1), math.Inf(-1)
	var p Sitter
	for i := range who {
		p.Host(s, &who[i])
		if sole := s.Sole(p.person, m.Geometry.Seat.Top(who[i].Seat)); sole > s.LimitOf("foot-gap")/2 {
			low, high = math.Min(low, sole), math.Max(high, sole)
		}
	}
	g.FootPlate = nil
	if high < low {
		return
	}
	pitch := s.Asked.Posture.FootPitch
	plate := specs.FootPlate{Lowest: math.Min(highestStep, math.Max(s.LeastStep(), math.Floor(low))), Pitch: pitch}
	plate.Positions = 1 + int(math.Max(0, math.Ceil((high-plate.Lowest)/pitch-0.5)))
	plate.Positions = min(20, plate.Positions)
	g.FootPlate = &plate
}
