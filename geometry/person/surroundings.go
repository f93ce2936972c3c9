package person

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Contact is a segment that is meant to touch, and to sink into, parts of an item:
// thighs and the seat's foam, a hand and its grip. Gaps between them are not told.
type Contact struct {
	Segment Segment
	Item    string // of assembly.Part
}

// Surroundings is a station made ready for measuring how near it comes to persons.
// It is good for one assembly at a time; Reset makes it ready for the next.
//
// Person and station are taken to be mirror images of themselves: bodies of the
// middle and the right are measured against the parts of both sides, and only the
// right arm's parts are carried through the motion. Where the sides differ, ask
// again with person and pose mirrored.
type Surroundings struct {
	a      *assembly.Assembly
	sin    []float64 // of each flexion
	cos    []float64
	groups []group
	parts  []part // by group

	carried [][]solid.Placement // by flexion, of each group, positions as in the reference pose
	still   []solid.Placement   // of each group in one person's positions, arms at the reference flexion
	bodies  []Body              // scratch: one person's bodies seen from a group
	fore    []Body              // and forearm and hand at each flexion
}

// group is one rigid group of the assembly.
type group struct {
	first, last int // of parts
	low, high   r3.Vec
	moves       bool      // with the flexion
	top         int       // of a group that moves: the nearest ancestor that does not
	turned      []float64 // of a group that moves: how far it has turned at each flexion, rad
	right       bool      // or middle
}

// part is one part of the station in the reference pose.
type part struct {
	index     int // in the assembly
	meant     uint16
	pieces    []solid.Convex
	place     solid.Placement
	low, high r3.Vec
	centre    r3.Vec // of a ball round it
	reach     float64
	way       []float64 // of a part that moves: how far the ball's centre has come at each flexion
	at        []r3.Vec  // and where it is, seen from its group's top
}

// Nearest is how near a part of the station comes to one segment.
type Nearest struct {
	Gap     float64 // mm; negative as deep as they share space
	Part    int     // index in the assembly, -1 where nothing is near
	Flexion int     // index of the flexion, of parts or segments that move; else -1
}

// Reset makes the surroundings those of an assembly over flexions, rad, in rising
// order. Motions of its groups must depend on the flexion or on positions, not on
// both.
func (s *Surroundings) Reset(a *assembly.Assembly, contacts []Contact, flexions []float64) {
	s.a = a
	s.sin, s.cos = s.sin[:0], s.cos[:0]
	for len(s.carried) < len(flexions) {
		s.carried = append(s.carried, nil)
	}
	s.carried = s.carried[:len(flexions)]
	pose := a.Reference
	for k, theta := range flexions {
		sin, cos := math.Sincos(theta)
		s.sin, s.cos = append(s.sin, sin), append(s.cos, cos)
		pose.Flexion = [2]float64{theta, theta}
		s.carried[k] = a.At(pose, s.carried[k])
	}
	s.arrange(contacts)
}

// arrange sorts the parts by group and measures them in the reference pose.
func (s *Surroundings) arrange(contacts []Contact) {
	a := s.a
	s.groups, s.parts = s.groups[:0], s.parts[:0]
	for g := range a.Groups {
		v := group{first: len(s.parts), top: g, right: a.Groups[g].Side != assembly.Left}
		parent := a.Groups[g].Parent
		for k := range s.carried {
			// Placements are compared bit for bit: what does not move gets the same.
			if s.carried[k][g] != s.carried[0][g] {
				v.moves = true
			}
		}
		if v.moves && parent >= 0 {
			v.top = s.groups[parent].top
		}
		for v.moves && s.groups[v.top].moves {
			v.top = a.Groups[v.top].Parent
		}
		if v.moves && v.right {
			v.turned = make([]float64, len(s.carried))
			for k := 1; k < len(s.carried); k++ {
				v.turned[k] = v.turned[k-1] + turn(&s.carried[k-1][g], &s.carried[k][g])
			}
		}
		v.low, v.high = emptyBox()
		for i := range a.Parts {
			p := &a.Parts[i]
			if p.Group != g {
				continue
			}
			q := part{index: i, pieces: p.Solid.Pieces(), place: p.Place}
			for _, c := range contacts {
				if c.Item == p.Item {
					q.meant |= 1 << c.Segment
				}
			}
			q.low, q.high = solid.Bounds(p.Solid, p.Place)
			q.centre = r3.Scale(0.5, r3.Add(q.low, q.high))
			q.reach = r3.Norm(r3.Sub(q.high, q.low)) / 2
			if v.moves && v.right {
				q.follow(s.carried, g)
			}
			v.low, v.high = joined(v.low, v.high, q.low, q.high)
			s.parts = append(s.parts, q)
		}
		v.last = len(s.parts)
		s.groups = append(s.groups, v)
	}
}

// follow notes where the part's ball goes.
func (q *part) follow(carried [][]solid.Placement, g int) {
	q.at, q.way = make([]r3.Vec, len(carried)), make([]float64, len(carried))
	for k := range carried {
		q.at[k] = carried[k][g].Point(q.centre)
		if k > 0 {
			q.way[k] = q.way[k-1] + r3.Norm(r3.Sub(q.at[k], q.at[k-1]))
		}
	}
}

// turn returns the angle between two placements, rad.
func turn(a, b *solid.Placement) float64 {
	// The chord that a unit vector's end makes is largest across the axis: half the
	// sum of the squares of three such chords is that one's.
	d := r3.Norm2(r3.Sub(a.X, b.X)) + r3.Norm2(r3.Sub(a.Y, b.Y)) + r3.Norm2(r3.Sub(a.Z, b.Z))
	return 2 * math.Asin(min(1, math.Sqrt(d/2)/2))
}

func emptyBox() (low, high r3.Vec) {
	inf := math.Inf(1)
	return r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
}

func joined(low, high, l, h r3.Vec) (r3.Vec, r3.Vec) {
	return r3.Vec{X: min(low.X, l.X), Y: min(low.Y, l.Y), Z: min(low.Z, l.Z)},
		r3.Vec{X: max(high.X, h.X), Y: max(high.Y, h.Y), Z: max(high.Z, h.Z)}
}

// apart returns what two upright boxes show of the gap of their contents, which is no
// less: their distance, or where they meet, negative, the least way to part them.
func apart(low, high, l, h *r3.Vec) float64 {
	x := max(l.X-high.X, low.X-h.X)
	y := max(l.Y-high.Y, low.Y-h.Y)
	z := max(l.Z-high.Z, low.Z-h.Z)
	if x <= 0 && y <= 0 && z <= 0 {
		return max(x, y, z)
	}
	x, y, z = max(x, 0), max(y, 0), max(z, 0)
	return math.Sqrt(x*x + y*y + z*z)
}
