package fit

import "armwright/geometry/station"

// humeralTurn is how far the humerus may turn about its own length to meet
// the machine axis. Judgement; no published comfort limit at hand.
const humeralTurn = 10 * deg

// placer seats persons on one geometry of a brief after another.
type placer struct {
	builder
	bodies []station.Body // of the persons
	heavy  int            // index of the heaviest person
}

// newPlacer takes what does not differ from another one's, if it is one.
func newPlacer(b builder, like *placer) placer {
	s := placer{builder: b}
	a, known := b.asked, like.asked
	if known != nil && a.People == known.People && a.Posture.GripRotation == known.Posture.GripRotation {
		s.bodies, s.heavy = like.bodies, like.heavy
		return s
	}
	for i, p := range s.persons {
		s.bodies = append(s.bodies, Body(p, a.People, a.Posture.GripRotation))
		if p.Mass > s.persons[s.heavy].Mass {
			s.heavy = i
		}
	}
	return s
}
