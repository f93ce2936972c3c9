package statics

import "gonum.org/v1/gonum/spatial/r2"

// Linear is a value that is linear in the contact forces: Constant plus the sum of
// Normal times what each contact pushes and Tangent times what it holds along its
// face.
type Linear struct {
	Constant        float64
	Normal, Tangent []float64 // by contact
}

// At is the value at contact forces.
func (l *Linear) At(f *Forces) float64 {
	v := l.Constant
	for i := range l.Normal {
		v += l.Normal[i]*f.Push[i] + l.Tangent[i]*f.Hold[i]
	}
	return v
}

// Forces are those of every contact on the body, N.
type Forces struct {
	Push []float64 // along the contact's normal; none is negative
	Hold []float64 // along its tangent
}

// Balance is what the contact forces must make vanish, and what they do to each joint.
type Balance struct {
	Level, Upright, Turn Linear   // of all outer forces: N, and their moment about the first contact, N·mm
	Moments              []Linear // by segment: what its parent turns it by at their joint, N·mm; of the first none

	about r2.Vec // Turn's point
}

// Balance works out the equations of a body whose contacts are given.
func (b *Body) Balance(contacts []Contact) Balance {
	var out Balance
	whole := b.beyond(0)
	if len(contacts) > 0 {
		out.about = contacts[0].At
	}
	out.Level = b.sum(contacts, whole, func(_, f r2.Vec) float64 { return f.X })
	out.Upright = b.sum(contacts, whole, func(_, f r2.Vec) float64 { return f.Y })
	out.Turn = b.sum(contacts, whole, about(out.about))
	out.Moments = make([]Linear, len(b.Segments))
	for i := 1; i < len(b.Segments); i++ {
		// Its parent holds what all others do to what hangs on the joint.
		out.Moments[i] = b.sum(contacts, b.beyond(i), about(b.Segments[i].Joint)).negative()
	}
	return out
}

// Under is the balance of the body that it is of with one more force on a segment. What
// does not depend on the force is shared.
func (e Balance) Under(b *Body, segment int, f Force) Balance {
	e.Level.Constant += f.Force.X
	e.Upright.Constant += f.Force.Y
	e.Turn.Constant += about(e.about)(f.At, f.Force)
	e.Moments = append([]Linear(nil), e.Moments...)
	for i := segment; i > 0; i = b.Segments[i].Parent {
		e.Moments[i].Constant -= about(b.Segments[i].Joint)(f.At, f.Force)
	}
	return e
}

// Across is the force of the parent on a segment along a direction.
func (b *Body) Across(contacts []Contact, segment int, dir r2.Vec) Linear {
	return b.sum(contacts, b.beyond(segment), func(_, f r2.Vec) float64 { return r2.Dot(f, dir) }).negative()
}

// about is the moment of a force at a place about another.
func about(from r2.Vec) func(at, f r2.Vec) float64 {
	return func(at, f r2.Vec) float64 { return r2.Cross(r2.Sub(at, from), f) }
}

// sum adds up what is measured of all outer forces on some of the segments.
func (b *Body) sum(contacts []Contact, of []bool, measure func(at, f r2.Vec) float64) Linear {
	l := Linear{Normal: make([]float64, len(contacts)), Tangent: make([]float64, len(contacts))}
	for i := range b.Segments {
		if !of[i] {
			continue
		}
		for _, f := range b.Segments[i].Forces {
			l.Constant += measure(f.At, f.Force)
		}
	}
	for i := range contacts {
		c := &contacts[i]
		if of[c.Segment] {
			l.Normal[i] = measure(c.At, c.Normal)
			l.Tangent[i] = measure(c.At, c.Tangent)
		}
	}
	return l
}

func (l Linear) negative() Linear {
	l.Constant = -l.Constant
	for i := range l.Normal {
		l.Normal[i], l.Tangent[i] = -l.Normal[i], -l.Tangent[i]
	}
	return l
}
