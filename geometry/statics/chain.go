// Package statics is the equilibrium of a chain of rigid segments that rests on
// surfaces which can only push. Side view of the machine frame, seen from the user's
// right: x forward, y up, angles and moments counter-clockwise positive; mm, N, N·mm.
// Both sides of a body count together.
//
// The unknowns are the contact forces alone. Cutting the chain at a joint leaves what
// hangs on it as a free body, whose moments about the joint give the joint's own: so
// the whole body's balance is three equations, and each joint's moment and force are
// linear in the contact forces.
package statics

import "gonum.org/v1/gonum/spatial/r2"

// Force is a known force at a place.
type Force struct{ At, Force r2.Vec }

// Segment is a rigid segment of the chain. It hangs on one that comes before it.
type Segment struct {
	Parent int    // index of the segment that it hangs on; -1 of the first, which hangs on none
	Joint  r2.Vec // with the parent
	Forces []Force
}

// Patch is where a segment lies on a straight stretch of a linear foam: it pushes
// along Normal, and holds along its face up to Friction times what it pushes.
// The patch is taken as Points of equal share from end to end, in each of which foam
// gives in proportion to its force.
type Patch struct {
	Name     string
	Segment  int
	From, To r2.Vec // its ends
	Normal   r2.Vec // unit vector, the way it pushes the segment
	Points   int    // at least 1
	Friction float64
}

// Body is a chain on its patches.
type Body struct {
	Segments []Segment
	Patches  []Patch
}

// Contact is one point of a patch.
type Contact struct {
	Patch           int
	Segment         int
	At              r2.Vec
	Normal, Tangent r2.Vec  // Tangent is Normal turned clockwise
	Share           float64 // of its patch
	Friction        float64
}

// Contacts are the points of all patches, in their order.
func (b *Body) Contacts() []Contact {
	var out []Contact
	for i := range b.Patches {
		p := &b.Patches[i]
		for k := range p.Points {
			// The middles of equal parts.
			at := r2.Add(p.From, r2.Scale((float64(k)+0.5)/float64(p.Points), r2.Sub(p.To, p.From)))
			out = append(out, Contact{
				Patch: i, Segment: p.Segment, At: at, Normal: p.Normal, Tangent: r2.Vec{X: p.Normal.Y, Y: -p.Normal.X},
				Share: 1 / float64(p.Points), Friction: p.Friction,
			})
		}
	}
	return out
}

// beyond tells of every segment whether it hangs on the joint of a segment, itself
// included.
func (b *Body) beyond(joint int) []bool {
	out := make([]bool, len(b.Segments))
	out[joint] = true
	for i := joint + 1; i < len(out); i++ {
		p := b.Segments[i].Parent
		out[i] = p >= 0 && out[p]
	}
	return out
}
