package seat

import (
	"armwright/geometry/posture"
	"armwright/solver/build"
	"armwright/solver/drive"
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
		if p.Mass > s.Persons[s.Heavy].Mass {
			s.Heavy = i
		}
	}
	return s.Supposing(a)
}

// Supposing is the placer with the elbows that another brief, of the same persons,
// supposes.
func (s Placer) Supposing(a *specs.Asked) Placer {
	s.Asked, s.Bodies = a, nil
	for _, p := range s.Persons {
		s.Bodies = append(s.Bodies, Body(p, a.People, a.Posture.GripRotation))
	}
	return s
}

// WanderingTurn is the turn of the upper arm during the lift that is told beside a
// hand path reckoned without any: an elbow's own axis wanders by 2.6 to 5.7 degrees
// (Bottlang et al. 2000, seven elbows). Derived.
const WanderingTurn = 5 * specs.Degree

// TurnTold is the turn for which a hand path is told beside that of a still arm.
func (s *Placer) TurnTold() float64 {
	if t := s.Asked.Posture.LiftingTurn; t > 0 {
		return t
	}
	return WanderingTurn
}

// TellTurns completes a person, as placed, with the hand path of an arm that is still
// and of one that turns, of the arm with the longer one: that of the brief is the
// person's own.
func (s *Placer) TellTurns(m drive.Machine, p *Sitter, r *Person) {
	still := s.Asked.Posture.LiftingTurn == 0
	turn := 0.0
	if still {
		turn = WanderingTurn
	}
	other := s.parting(m, p, &p.Limbs[0], Setting{r.Seat, r.Axis, r.Handle}, turn)
	if p.Sides == 2 {
		other = max(other, s.parting(m, p, &p.Limbs[1], Setting{r.Seat, r.Left.Axis, r.Left.Handle}, turn))
	}
	if r.Still, r.Turning = r.HandPath, other; !still {
		r.Still, r.Turning = other, r.HandPath
	}
}
