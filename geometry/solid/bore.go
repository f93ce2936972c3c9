package solid

import (
	"math"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Bore is a round hole drilled across a prism, through the flat faces it meets:
// At is a point of its centreline, Dir the direction the drill travels, across z
// (in the profile's plane) or along z (from an end). Depth 0 goes through
// everything, else it is measured along the centreline from the face met first,
// and the hole ends flat.
type Bore struct {
	At, Dir         r3.Vec
	Diameter, Depth float64
}

func (b Bore) mirrored() Bore {
	b.At.Y, b.Dir.Y = -b.At.Y, -b.Dir.Y
	return b
}

// endways reports whether the bore runs along z.
func (b Bore) endways() bool { return b.Dir.X == 0 && b.Dir.Y == 0 }

// frame returns the bore's own frame: z along the travel, y along the prism's z
// (of a bore along z, along the prism's y).
func (b Bore) frame() Placement {
	up := r3.Vec{Z: 1}
	if b.endways() {
		up = r3.Vec{Y: 1}
	}
	return Along(b.At, r3.Add(b.At, b.Dir), up)
}

// meeting is a face that a bore's centreline goes through: a side of the prism,
// which stands on an element of a loop (0 the outer one), or an end of it.
type meeting struct {
	along         float64 // place on the centreline
	loop, element int
	plane         End // the face's plane over the bore's own frame
}

// The loop of a meeting with an end of the prism, or with a blind hole's bottom.
const (
	atFrom   = -1
	atTo     = -2
	atBottom = -3
)

// stretch is a piece of material that a bore takes away: a round bar between two
// planes in the bore's frame.
type stretch struct {
	at         Placement
	radius     float64
	enter, out meeting
}

func (s *stretch) bulk() bulk {
	m := disc(s.radius)
	return m.bulk(s.enter.plane, s.out.plane)
}

func (s *stretch) moments() moments {
	m := disc(s.radius)
	return m.between(s.enter.plane, s.out.plane)
}

// Support returns the farthest point along d, both in the prism's frame.
func (s *stretch) Support(d r3.Vec) r3.Vec {
	d = s.at.own(d)
	e := s.out.plane
	if d.Z < 0 {
		e = s.enter.plane
	}
	n := r2.Vec{X: d.X + d.Z*e.Tilt.X, Y: d.Y + d.Z*e.Tilt.Y}
	q := r2.Vec{X: s.radius}
	if length := r2.Norm(n); length > 0 {
		q = r2.Scale(s.radius/length, n)
	}
	return s.at.Point(e.over(q))
}

// planeOver returns the plane with a normal through a point as heights over the
// x-y plane of a frame.
func planeOver(at Placement, normal, through r3.Vec) End {
	n, q := at.own(normal), at.own(r3.Sub(through, at.Origin))
	return End{Z: r3.Dot(n, q) / n.Z, Tilt: r2.Vec{X: -n.X / n.Z, Y: -n.Y / n.Z}}
}

// crossings returns the places t of the line o + t·d that an element crosses. An
// element owns its start and not its end, so that a corner counts once.
func crossings(o, d r2.Vec, e contour.Element) (ts [2]float64, n int) {
	side := func(q r2.Vec) float64 { return r2.Cross(d, r2.Sub(q, o)) }
	a, b := side(e.Start), side(e.End)
	if !e.IsArc() {
		if (a < 0) == (b < 0) {
			return ts, 0
		}
		ts[0] = r2.Dot(d, r2.Sub(e.Start, o)) + a/(a-b)*r2.Dot(d, r2.Sub(e.End, e.Start))
		return ts, 1
	}
	off, mid := side(e.Centre), r2.Dot(d, r2.Sub(e.Centre, o))
	w := e.Radius*e.Radius - off*off
	if w <= 0 {
		return ts, 0
	}
	w = math.Sqrt(w)
	for _, t := range [2]float64{mid - w, mid + w} {
		// On the arc's own side of its chord.
		q := r2.Add(o, r2.Scale(t, d))
		if s := r2.Cross(r2.Sub(e.End, e.Start), r2.Sub(q, e.Start)); s != 0 && (s < 0) == (e.Bulge > 0) {
			ts[n] = t
			n++
		}
	}
	return ts, n
}
