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
	a        *assembly.Assembly
	contacts []Contact
	arranged bool      // parts are measured
	sin      []float64 // of each flexion
	cos      []float64
	groups   []group
	parts    []part // by group, those of the left last
	runs     []run  // of parts of one group that lie side by side

	carried [][]solid.Placement // by flexion, of each group, positions as in the reference pose
	stood   []standing          // positions that were asked for
	still   []solid.Placement   // of each group in one person's positions, arms at the reference flexion
	stands  []solid.Placement   // likewise of its frame
	trunk   [5]Body             // scratch: of one person
	legs    [3]Body
	bodies  []Body // scratch: one person's bodies seen from a group
	turned  Body   // and one of them seen from a group as it turns
	fore    []Body // and forearm and hand at each flexion
	swept   [2]box // round either, wherever it comes
}

// standing is where groups are in one person's positions.
type standing struct {
	pose          assembly.Pose
	still, stands []solid.Placement
}

// group is one rigid group of the assembly.
type group struct {
	first, last int             // of parts
	runs        [2]int          // the first and past the last
	frame       solid.Placement // the reference pose, turned as the first part is: boxes fit better
	box                         // in the frame
	way         box             // of a group that moves: round its parts at all flexions, seen from its top
	moves       bool            // with the flexion
	top         int             // of a group that moves: the nearest ancestor that does not
	turned      []float64       // of a group that moves: how far it has turned at each flexion, rad
	right       bool            // or middle
}

// run is some parts of a group, one after another, and the box round them.
type run struct {
	first, last int
	box
}

// runLength is how many parts a run has.
const runLength = 8

// part is one part of the station, in its group's frame.
type part struct {
	index  int // in the assembly
	meant  uint16
	body   solid.Solid
	pieces []solid.Convex // of the body, nil before they are wanted
	place  solid.Placement
	box
	centre r3.Vec // of a ball round it
	reach  float64
	way    []float64 // of a part that moves: how far the ball's centre has come at each flexion
	at     []r3.Vec  // and where it is, seen from its group's top
}

// Nearest is how near a part of the station comes to one segment.
type Nearest struct {
	Gap     float64 // mm; negative as deep as they share space
	Part    int     // index in the assembly, -1 where nothing is near
	Flexion int     // index of the flexion, of parts or segments that move; else -1
}

// Reset makes the surroundings those of an assembly over flexions, rad, at least one,
// in rising order. Motions of its groups must depend on the flexion or on positions,
// not on both.
func (s *Surroundings) Reset(a *assembly.Assembly, contacts []Contact, flexions []float64) {
	s.a = a
	s.sin, s.cos = s.sin[:0], s.cos[:0]
	for len(s.carried) < len(flexions) {
		s.carried = append(s.carried, nil)
	}
	s.carried = s.carried[:len(flexions)]
	for k, theta := range flexions {
		sin, cos := math.Sincos(theta)
		s.sin, s.cos = append(s.sin, sin), append(s.cos, cos)
		s.carried[k] = append(s.carried[k][:0], make([]solid.Placement, len(a.Groups))...)
	}
	s.contacts, s.arranged, s.stood = contacts, false, s.stood[:0]
	s.hold(flexions)
	s.frames()
}

// hold finds the groups that move with the flexion and where the right ones go.
func (s *Surroundings) hold(flexions []float64) {
	a := s.a
	s.groups = s.groups[:0]
	pose := a.Reference
	for g := range a.Groups {
		from := &a.Groups[g]
		v := group{top: g, right: from.Side != assembly.Left}
		at := func(theta float64) solid.Placement {
			if from.Motion == nil {
				return solid.World()
			}
			pose.Flexion = [2]float64{theta, theta}
			return from.Motion.Displacement(&pose, 0)
		}
		carried := from.Parent >= 0 && s.groups[from.Parent].moves
		switch {
		case carried:
			v.moves, v.top = true, s.groups[from.Parent].top
		case at(flexions[0]) != at(flexions[len(flexions)-1]): // what does not move gets the same, bit for bit
			v.moves, v.top = true, max(0, from.Parent)
		}
		for k := 0; v.moves && v.right && k < len(flexions); k++ {
			s.carried[k][g] = at(flexions[k])
			if carried {
				s.carried[k][g] = s.carried[k][from.Parent].Then(s.carried[k][g])
			}
		}
		if v.moves && v.right {
			v.turned = make([]float64, len(s.carried))
			for k := 1; k < len(s.carried); k++ {
				v.turned[k] = v.turned[k-1] + turn(&s.carried[k-1][g], &s.carried[k][g])
			}
		}
		s.groups = append(s.groups, v)
	}
}

// frames gives every group its frame.
func (s *Surroundings) frames() {
	for g := range s.groups {
		s.groups[g].frame = solid.World()
	}
	for i := len(s.a.Parts) - 1; i >= 0; i-- { // the first of a group decides
		if p := &s.a.Parts[i]; s.a.Groups[p.Group].Parent >= 0 {
			s.groups[p.Group].frame = solid.Placement{X: p.Place.X, Y: p.Place.Y, Z: p.Place.Z}
		}
	}
}

// arrange sorts the parts by group and measures them in the reference pose.
func (s *Surroundings) arrange() {
	if s.arranged {
		return
	}
	s.arranged = true
	s.parts, s.runs = s.parts[:0], s.runs[:0]
	for g := range s.groups {
		v := &s.groups[g]
		v.first, v.runs[0] = len(s.parts), len(s.runs)
		v.box, v.way = emptyBox(), emptyBox()
		inverse := v.frame.Inverse()
		for _, left := range [2]bool{false, true} {
			s.line(g, left, &inverse)
		}
		v.last, v.runs[1] = len(s.parts), len(s.runs)
	}
}

// line adds the parts of a group, on the left or else where, with the inverse of the
// group's frame.
func (s *Surroundings) line(g int, left bool, inverse *solid.Placement) {
	v, from := &s.groups[g], len(s.parts)
	for i := range s.a.Parts {
		p := &s.a.Parts[i]
		if p.Group != g || (p.Side == assembly.Left) != left {
			continue
		}
		q := part{index: i, body: p.Solid, place: inverse.Then(p.Place)}
		if left { // its right twin tells
			q.meant |= 1<<Thigh - 1
		}
		for _, c := range s.contacts {
			if c.Item == p.Item {
				q.meant |= 1 << c.Segment
			}
		}
		around := solid.BoxOf(p.Solid, q.place)
		q.low, q.high = around.Bounds()
		q.centre, q.reach = q.ball()
		if v.moves && v.right {
			q.follow(s.carried, g, &v.frame)
			for _, c := range q.at {
				v.way.join(boxed(c, q.reach))
			}
		}
		v.join(q.box)
		if (len(s.parts)-from)%runLength == 0 {
			s.runs = append(s.runs, run{len(s.parts), len(s.parts), emptyBox()})
		}
		r := &s.runs[len(s.runs)-1]
		r.last++
		r.join(q.box)
		s.parts = append(s.parts, q)
	}
}

// convex are the convex bodies that make up the part.
func (q *part) convex() []solid.Convex {
	if q.pieces == nil {
		q.pieces = q.body.Pieces()
	}
	return q.pieces
}

// follow notes where the part's ball goes.
func (q *part) follow(carried [][]solid.Placement, g int, frame *solid.Placement) {
	centre := frame.Point(q.centre)
	q.at, q.way = make([]r3.Vec, len(carried)), make([]float64, len(carried))
	for k := range carried {
		q.at[k] = carried[k][g].Point(centre)
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

// box is an upright box between two corners.
type box struct{ low, high r3.Vec }

func emptyBox() box {
	inf := math.Inf(1)
	return box{r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}}
}

// boxed returns the box round a ball.
func boxed(centre r3.Vec, reach float64) box {
	r := r3.Vec{X: reach, Y: reach, Z: reach}
	return box{r3.Sub(centre, r), r3.Add(centre, r)}
}

// join makes the box large enough for another.
func (b *box) join(c box) {
	b.low = r3.Vec{X: min(b.low.X, c.low.X), Y: min(b.low.Y, c.low.Y), Z: min(b.low.Z, c.low.Z)}
	b.high = r3.Vec{X: max(b.high.X, c.high.X), Y: max(b.high.Y, c.high.Y), Z: max(b.high.Z, c.high.Z)}
}

// ball returns a ball round the box.
func (b *box) ball() (centre r3.Vec, reach float64) {
	return r3.Scale(0.5, r3.Add(b.low, b.high)), math.Sqrt(r3.Norm2(r3.Sub(b.high, b.low))) / 2
}

// beyond reports whether the box is farther than a distance, if that is positive, from a
// point.
func (b *box) beyond(p r3.Vec, far float64) bool {
	x := max(b.low.X-p.X, p.X-b.high.X, 0)
	y := max(b.low.Y-p.Y, p.Y-b.high.Y, 0)
	z := max(b.low.Z-p.Z, p.Z-b.high.Z, 0)
	return far > 0 && x*x+y*y+z*z >= far*far
}

// apart returns what two boxes show of the gap of their contents, which is no less:
// their distance, or where they meet, negative, the least way to part them.
func (b *box) apart(c *box) float64 {
	x := max(c.low.X-b.high.X, b.low.X-c.high.X)
	y := max(c.low.Y-b.high.Y, b.low.Y-c.high.Y)
	z := max(c.low.Z-b.high.Z, b.low.Z-c.high.Z)
	if x <= 0 && y <= 0 && z <= 0 {
		return max(x, y, z)
	}
	x, y, z = max(x, 0), max(y, 0), max(z, 0)
	return math.Sqrt(x*x + y*y + z*z)
}

// far tells that the contents of two boxes are no less than a distance apart, or, where
// that is negative, that the boxes show them to share no more space.
func (b *box) far(c *box, distance float64) bool {
	x := max(c.low.X-b.high.X, b.low.X-c.high.X)
	if x >= distance {
		return true
	}
	y := max(c.low.Y-b.high.Y, b.low.Y-c.high.Y)
	if y >= distance {
		return true
	}
	z := max(c.low.Z-b.high.Z, b.low.Z-c.high.Z)
	if z >= distance {
		return true
	}
	if distance <= 0 {
		return false
	}
	x, y, z = max(x, 0), max(y, 0), max(z, 0)
	return x*x+y*y+z*z >= distance*distance
}
