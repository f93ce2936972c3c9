package seat

import (
	"armwright/geometry/posture"
	"armwright/solver/build"
	"armwright/specs"
)

// HumeralTurn is how far the humerus may turn about its own length to meet
// the machine axis. Judgement; no published comfort limit at hand.
const HumeralTurn = 10 * specs.Degree

// Placer seats persons on one geometry of a brief after another.
type Placer struct {
	build.Builder
	Bodies []posture.Body // of the persons
	Heavy  int            // index of the heaviest person
}

// New takes what does not differ from another one's, if it is one.
func New(b build.Builder, like *Placer) Placer {
	s := Placer{Builder: b}
	a, known := b.Asked, like.Asked
	if known != nil && a.People == known.People && a.Posture.GripRotation == known.Posture.GripRotation {
		s.Bodies, s.Heavy = like.Bodies, like.Heavy
		return s
	}
	for i, p := range s.Persons {
		s.Bodies = append(s.Bodies, Body(p, a.People, a.Posture.GripRotation))
		if p.Mass > s.Persons[s.Heavy].Mass {
			s.Heavy = i
		}
	}
	return s
}
