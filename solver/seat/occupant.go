package seat

import (
	"armwright/geometry/posture"
	"armwright/specs/people"
)

// Occupant is a person with the setting they take.
type Occupant struct {
	Setting
	index  int // among the boundary persons, -1 for another
	person people.Person
	body   posture.Body
}

// Sex of the person.
func (o *Occupant) Sex() people.Sex { return o.person.Sex }

// Boundary are the boundary persons in settings, one a person.
func (s *Placer) Boundary(set []Setting) []Occupant {
	list := make([]Occupant, len(s.Persons))
	for i := range list {
		list[i] = Occupant{set[i], i, s.Persons[i], s.Bodies[i]}
	}
	return list
}

// Occupant is another person, with no setting yet.
func (s *Placer) Occupant(who people.Person) Occupant {
	return Occupant{index: -1, person: who, body: Body(who, s.Asked.People, s.Asked.Posture.GripRotation)}
}

// Host readies the sitter for an occupant.
func (p *Sitter) Host(s *Placer, o *Occupant) { s.Receive(p, o.index, o.person, o.body) }
