package person

import (
	"math"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Segment is a segment of the body, or a part of one.
type Segment int8

// The segments.
const (
	Head Segment = iota
	Neck
	Chest
	Belly
	Pelvis
	Thigh
	Shank
	Foot
	UpperArm
	Forearm
	Hand
	segments
)

var segmentNames = [segments]string{"head", "neck", "chest", "belly", "pelvis", "thigh", "shank", "foot", "upper arm", "forearm", "hand"}

// String returns the trade's name, as "upper arm".
func (s Segment) String() string { return segmentNames[s] }

// Paired reports whether there is one on each side.
func (s Segment) Paired() bool { return s >= Thigh }

// Most is the largest number of balls of a body.
const most = 5

// Body is one convex body: the hull of a few balls. It is a solid.Convex in the
// machine frame.
type Body struct {
	Segment Segment
	Left    bool // of a paired segment
	// Round is the least of the balls' radii. Every point of the body is within
	// Round of its core, so that gaps may be measured from the core, which is
	// quicker and shallower.
	Round float64

	balls [most]solid.Ball
	n     int
	box
}

// newBody returns the hull of balls, of which there must be one to five.
func newBody(segment Segment, left bool, balls ...solid.Ball) Body {
	b := Body{Segment: segment, Left: left, Round: math.Inf(1), n: len(balls)}
	copy(b.balls[:], balls)
	for _, v := range balls {
		b.Round = min(b.Round, v.Radius)
	}
	b.bound()
	return b
}

// bound sets the corners of the body's upright box.
func (b *Body) bound() {
	b.box = emptyBox()
	for i := range b.n {
		v := &b.balls[i]
		b.low.X, b.high.X = min(b.low.X, v.Centre.X-v.Radius), max(b.high.X, v.Centre.X+v.Radius)
		b.low.Y, b.high.Y = min(b.low.Y, v.Centre.Y-v.Radius), max(b.high.Y, v.Centre.Y+v.Radius)
		b.low.Z, b.high.Z = min(b.low.Z, v.Centre.Z-v.Radius), max(b.high.Z, v.Centre.Z+v.Radius)
	}
}

// Balls returns the balls of which the body is the hull.
func (b *Body) Balls() []solid.Ball { return b.balls[:b.n] }

// Bounds returns the corners of the smallest upright box round the body.
func (b *Body) Bounds() (low, high r3.Vec) { return b.low, b.high }

// Support implements solid.Convex.
func (b *Body) Support(d r3.Vec) r3.Vec { return b.support(d, 0) }

// core is a body less a skin of its least radius.
type core struct{ *Body }

// Support implements solid.Convex.
func (c core) Support(d r3.Vec) r3.Vec { return c.support(d, c.Round) }

func (b *Body) support(d r3.Vec, less float64) r3.Vec {
	length := math.Sqrt(r3.Norm2(d))
	best, at := math.Inf(-1), 0
	for i := range b.n {
		v := &b.balls[i]
		if h := r3.Dot(d, v.Centre) + length*(v.Radius-less); h > best {
			best, at = h, i
		}
	}
	v := &b.balls[at]
	if length == 0 {
		return v.Centre
	}
	return r3.Add(v.Centre, r3.Scale((v.Radius-less)/length, d))
}

// Gap returns the signed distance of the body from another convex one: negative
// by how far they would have to be moved apart.
func (b *Body) Gap(c solid.Convex, at solid.Placement) float64 {
	gap, _, _ := solid.Distance(core{b}, solid.World(), c, at)
	return gap - b.Round
}

// nearer is Gap where that is less than a limit, and otherwise something between the
// limit and the gap, sooner. Along way, from the body, they are that far apart.
func (b *Body) nearer(c solid.Convex, at *solid.Placement, than float64) (gap float64, way r3.Vec) {
	gap, way = solid.Nearer(core{b}, solid.World(), c, *at, than+b.Round)
	return gap - b.Round, way
}

// Mirrored returns the body's counterpart on the other side.
func (b *Body) Mirrored() Body {
	m := *b
	m.Left = b.Segment.Paired() && !b.Left
	for i := range m.n {
		m.balls[i].Centre.Y = -m.balls[i].Centre.Y
	}
	m.low.Y, m.high.Y = -b.high.Y, -b.low.Y
	return m
}

// in returns the body as seen from a frame of which the outer frame's placement is
// given: at takes the machine frame to the other.
func (b *Body) in(at *solid.Placement) Body {
	m := *b
	for i := range m.n {
		m.balls[i].Centre = at.Point(m.balls[i].Centre)
	}
	m.bound()
	return m
}
