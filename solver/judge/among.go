package judge

import (
	"math"

	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/people"
)

// Bounds on the search for persons of a rare kind: among so many times the sample the
// first are counted, and no more than so many are drawn.
const (
	pilots    = 20
	mostDrawn = 500_000
)

// Among are random persons for whom something holds, about as many as the brief's
// sample: as many are drawn as the kind's share of a first draw asks for, fewer where
// the kind is so rare that the draw would be out of measure.
func Among(w specs.People, holds func(*people.Person) bool) Persons {
	p := drive.Population(w)
	first, found := min(pilots*w.Sample, mostDrawn), 0
	for who := range p.Draw(first, uint64(w.Seed)) {
		if holds(&who) {
			found++
		}
	}
	n := min(mostDrawn, int(math.Ceil(float64(w.Sample)*float64(first)/math.Max(1, float64(found)))))
	drawn := p.Draw(n, uint64(w.Seed))
	return Persons{Source: Random(w).Source, All: func(yield func(people.Person) bool) {
		for who := range drawn {
			if holds(&who) && !yield(who) {
				return
			}
		}
	}}
}

// Cover counts who of a crowd fits a station's frame and judges nothing else of it.
// The frame is taken as it would be read back from its file; errors are those of
// CheckPeople.
func Cover(f specs.Frame, crowd Persons) (Crowd, error) {
	f = f.Quantised()
	s, err := New(&f.Asked)
	if err != nil {
		return Crowd{}, err
	}
	return s.Count(&f.Geometry, crowd)
}

// Count is Cover of a geometry of the judge's brief, which is taken as it is.
func (s *Judge) Count(g *specs.Geometry, crowd Persons) (Crowd, error) {
	if err := Missing(&specs.Frame{Asked: *s.Asked, Geometry: *g}); err != nil {
		return Crowd{}, err
	}
	made, err := s.Evaluate(g)
	if err != nil {
		return Crowd{}, err
	}
	st, err := s.Complete(g, &made)
	if err != nil {
		return Crowd{}, err
	}
	return s.cover(g, made, &st, crowd), nil
}
