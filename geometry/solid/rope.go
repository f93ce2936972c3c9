package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Rope is a round body along a line of straight runs and arcs that go over into each
// other without a corner: a cable over its sheaves, a loop round its wheels.
type Rope struct {
	Diameter float64 // mm
	From, To r3.Vec  // ends of the line; of a closed one nothing
	Bends    []Bend  // in order, at least one
	Closed   bool    // the last bend leads to the first
}

// Bend is an arc of a line: from In about an axis of unit length through a centre,
// right-handed by Turn, rad, more than nothing and less than a whole one.
type Bend struct {
	Centre, Axis, In r3.Vec
	Turn             float64
}

// At is the point at the share u, 0 to 1, of the turn.
func (b *Bend) At(u float64) r3.Vec { return b.turned(u).Point(b.In) }

// Out is where it ends.
func (b *Bend) Out() r3.Vec { return b.At(1) }

func (b *Bend) turned(u float64) Placement { return Turn(b.Centre, b.Axis, u*b.Turn) }

// Belt is a rope of a diameter round two wheels whose axes are parallel, right-handed
// about them. Not ok where one wheel is inside the other.
func Belt(diameter float64, a, b, axis r3.Vec, ra, rb float64) (rope Rope, ok bool) {
	apart := r3.Sub(b, a)
	far := r3.Norm(apart)
	if far <= math.Abs(ra-rb) {
		return Rope{}, false
	}
	// From the line of centres to where the loop leaves the first wheel.
	half := math.Acos((ra - rb) / far)
	to := r3.Scale(1/far, apart)
	side := r3.Cross(axis, to)
	rim := func(centre r3.Vec, radius, angle float64) r3.Vec {
		s, c := math.Sincos(angle)
		return r3.Add(centre, r3.Scale(radius, r3.Add(r3.Scale(c, to), r3.Scale(s, side))))
	}
	return Rope{Diameter: diameter, Closed: true, Bends: []Bend{
		{Centre: a, Axis: axis, In: rim(a, ra, half), Turn: 2 * (math.Pi - half)},
		{Centre: b, Axis: axis, In: rim(b, rb, -half), Turn: 2 * half},
	}}, true
}

// Mirrored is the mirror image in the x-z plane.
func (r Rope) Mirrored() Rope {
	m := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	bends := make([]Bend, len(r.Bends))
	for i, b := range r.Bends {
		// A mirror image turns the other way about the mirrored axis.
		bends[i] = Bend{Centre: m(b.Centre), Axis: r3.Scale(-1, m(b.Axis)), In: m(b.In), Turn: b.Turn}
	}
	return Rope{Diameter: r.Diameter, From: m(r.From), To: m(r.To), Bends: bends, Closed: r.Closed}
}

// Length is that of the line, mm.
func (r Rope) Length() float64 {
	sum := 0.0
	for _, p := range r.pieces() {
		if p.bend == nil {
			sum += r3.Norm(r3.Sub(p.to, p.from))
		} else {
			sum += p.bend.Turn * r3.Norm(r3.Sub(p.bend.In, p.bend.Centre))
		}
	}
	return sum
}

// run is a piece of a rope's line, straight without a bend.
type run struct {
	from, to r3.Vec
	bend     *Bend
}

// shortest is the length of a straight run, mm, below which two bends touch.
const shortest = 1e-6

// pieces are straight runs and arcs of at most half a turn, in order. Each begins
// where the one before ends.
func (r Rope) pieces() []run {
	var out []run
	at := r.From
	if r.Closed {
		at = r.Bends[len(r.Bends)-1].Out()
	}
	straight := func(to r3.Vec) {
		if r3.Norm(r3.Sub(to, at)) > shortest {
			out = append(out, run{from: at, to: to})
		}
		at = to
	}
	for i := range r.Bends {
		b := r.Bends[i]
		straight(b.In)
		n := math.Ceil(b.Turn/math.Pi - 1e-9)
		for range int(n) {
			part := Bend{Centre: b.Centre, Axis: b.Axis, In: at, Turn: b.Turn / n}
			out = append(out, run{from: at, to: part.Out(), bend: &part})
			at = part.Out()
		}
	}
	if !r.Closed {
		straight(r.To)
	}
	return out
}

// Frames are where the line passes, own z onward and own x carried along without a
// twist: at the ends of every straight run, and on arcs so close that chords are within
// sagitta, mm, of them. The last frame of a closed rope is its first again.
func (r Rope) Frames(sagitta float64) []Placement {
	pieces := r.pieces()
	frame := r.first(&pieces[0])
	out := []Placement{frame}
	for i := range pieces {
		p := &pieces[i]
		if p.bend == nil {
			frame.Origin = p.to
			out = append(out, frame)
			continue
		}
		radius := r3.Norm(r3.Sub(p.bend.In, p.bend.Centre))
		n := math.Ceil(p.bend.Turn / (2 * math.Acos(1-min(1, sagitta/radius))))
		for k := range int(n) {
			out = append(out, p.bend.turned(float64(k+1)/n).Then(frame))
		}
		frame = out[len(out)-1]
	}
	return out
}

// first is the frame at the start of the line. Own x lies along the first bend's axis,
// so that it stays out of the plane of what bends in one plane.
func (r Rope) first(p *run) Placement {
	x := r.Bends[0].Axis
	var z r3.Vec
	if p.bend == nil {
		z = r3.Unit(r3.Sub(p.to, p.from))
	} else {
		z = r3.Unit(r3.Cross(p.bend.Axis, r3.Sub(p.from, p.bend.Centre)))
	}
	return Placement{Origin: p.from, X: x, Y: r3.Cross(z, x), Z: z}
}

// Shell returns the boundary as faces and edges: two half pipes for every straight run,
// two halves of a torus for every bend, and an end where there is one.
func (r Rope) Shell() *Shell {
	s := &Shell{}
	pieces := r.pieces()
	frame := r.first(&pieces[0])
	ring := func(at Placement) [2]int { return s.rim(&stretch{at: at, radius: r.Diameter / 2}, End{}) }
	low := ring(frame)
	start, begin := low, frame
	for i := range pieces {
		p := &pieces[i]
		surface := Surface{Kind: Cylinder, At: frame, Radius: r.Diameter / 2}
		if p.bend != nil {
			surface = p.bend.torus(r.Diameter / 2)
			frame = p.bend.turned(1).Then(frame)
		}
		frame.Origin = p.to
		high := start
		if !r.Closed || i < len(pieces)-1 {
			high = ring(frame)
		}
		var seam [2]int
		for k := range 2 {
			from, to := s.Edges[low[k]].From, s.Edges[high[k]].From
			var arc *Ellipse
			if p.bend != nil {
				arc = p.bend.beside(s.Vertices[from])
			}
			seam[k] = s.edge(from, to, arc)
		}
		for k := range 2 {
			s.face(surface, Loop{{low[k], false}, {seam[1-k], false}, {high[k], true}, {seam[k], true}})
		}
		low = high
	}
	if !r.Closed {
		s.face(plane(begin.Origin, r3.Scale(-1, begin.Z)), Loop{{start[1], true}, {start[0], true}})
		s.face(plane(frame.Origin, frame.Z), Loop{{low[0], false}, {low[1], false}})
	}
	return s
}

// torus is the surface round the bend, its own seam where no face is.
func (b *Bend) torus(radius float64) Surface {
	middle := b.At(.5)
	x := r3.Unit(r3.Sub(b.Centre, middle))
	return Surface{
		Kind: Torus, At: Placement{Origin: b.Centre, X: x, Y: r3.Cross(b.Axis, x), Z: b.Axis},
		Radius: r3.Norm(r3.Sub(b.In, b.Centre)), Tube: radius,
	}
}

// beside is the arc that a point of the first ring draws.
func (b *Bend) beside(q r3.Vec) *Ellipse {
	d := r3.Sub(q, b.Centre)
	along := r3.Scale(r3.Dot(d, b.Axis), b.Axis)
	u := r3.Sub(d, along)
	return &Ellipse{Centre: r3.Add(b.Centre, along), U: u, V: r3.Cross(b.Axis, u), Sweep: b.Turn}
}

// Bent is a rope of a diameter along a line of corners, the first and the last one its
// ends, rounded to a radius. Not ok where a corner leaves no room for that.
func Bent(diameter, radius float64, corners []r3.Vec) (rope Rope, ok bool) {
	n := len(corners)
	if n < 3 {
		return Rope{}, false
	}
	out := Rope{Diameter: diameter, From: corners[0], To: corners[n-1]}
	used := 0.0 // of the run to the next corner by the bend before
	for i := 1; i < n-1; i++ {
		in, on := r3.Sub(corners[i], corners[i-1]), r3.Sub(corners[i+1], corners[i])
		far := r3.Norm(in)
		in, on = r3.Unit(in), r3.Unit(on)
		axis := r3.Cross(in, on)
		sin := r3.Norm(axis)
		turn := math.Atan2(sin, r3.Dot(in, on))
		if turn < straightOn {
			used -= far
			continue
		}
		reach := radius * math.Tan(turn/2)
		if used+reach > far+shortest {
			return Rope{}, false
		}
		axis = r3.Scale(1/sin, axis)
		b := Bend{Axis: axis, In: r3.Sub(corners[i], r3.Scale(reach, in)), Turn: turn}
		b.Centre = r3.Add(b.In, r3.Scale(radius, r3.Cross(axis, in)))
		out.Bends = append(out.Bends, b)
		used = reach
	}
	if last := r3.Norm(r3.Sub(corners[n-1], corners[n-2])); used > last+shortest || len(out.Bends) == 0 {
		return Rope{}, false
	}
	return out, true
}

// straightOn is a turn, rad, that is none.
const straightOn = 1e-9
