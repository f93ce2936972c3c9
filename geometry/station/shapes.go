package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

// shape is what a profile is made from: two with equal numbers are one.
type shape struct {
	kind shapeKind
	n    [16]float64
}

type shapeKind int8

const (
	rectShape shapeKind = iota
	tubeShape
	discShape
	pipeShape
	flangeShape
	indexShape
	soleShape
	cheekShape
	hubShape
	barShape
	eyeBarShape
	plateShape
	padPlateShape
)

// maxShapes bounds what a maker remembers.
const maxShapes = 1000

// profile returns the profile of a shape, made once.
func (b *builder) profile(s shape, make func() *solid.Profile) *solid.Profile {
	p, _ := b.blank(s, make)
	return p
}

// blank returns the profile of a shape with the size of the rectangle round it.
func (b *builder) blank(s shape, make func() *solid.Profile) (*solid.Profile, r2.Vec) {
	m, ok := b.shapes[s]
	if !ok {
		m.profile = make()
		box := m.profile.Outer().Bounds()
		m.size = r2.Sub(box.Max, box.Min)
		if b.shapes == nil {
			b.shapes = map[shape]made{}
		}
		b.shapes[s] = m
	}
	return m.profile, m.size
}

type made struct {
	profile *solid.Profile
	size    r2.Vec
}

// rect is a rectangle, w along own x, h along own y.
func (b *builder) rect(w, h, corner float64) *solid.Profile {
	return b.profile(shape{rectShape, [16]float64{w, h, corner}}, func() *solid.Profile { return solid.Rect(w, h, corner) })
}

// section is that of a tube: Width along own x, Height along own y.
func (b *builder) section(s *Section) *solid.Profile {
	return b.profile(shape{tubeShape, [16]float64{s.Width, s.Height, s.Wall, s.Corner}}, func() *solid.Profile {
		return solid.RectTube(s.Width, s.Height, s.Wall, s.Corner)
	})
}

func (b *builder) disc(d float64) *solid.Profile {
	return b.profile(shape{discShape, [16]float64{d}}, func() *solid.Profile { return solid.Disc(d) })
}

func (b *builder) pipe(d, wall float64) *solid.Profile {
	return b.profile(shape{pipeShape, [16]float64{d, wall}}, func() *solid.Profile { return solid.Pipe(d, wall) })
}

// prism carries a profile between two heights.
func prism(p *solid.Profile, from, to float64) solid.Prism {
	return solid.Prism{Profile: p, From: solid.Flat(from), To: solid.Flat(to)}
}

// tubeStock is a tube of a long-point length.
func tubeStock(s *Section, length float64) assembly.Stock {
	return assembly.Stock{Form: assembly.Tube, Name: s.Name, Grade: s.Grade, Size: [3]float64{s.Height, s.Width, s.Wall}, Length: length}
}

// plateStock is a plate cut from a thickness.
func (b *builder) plateStock(long, wide, thick float64) assembly.Stock {
	return assembly.Stock{Form: assembly.Plate, Grade: b.v.Member.Grade, Size: [3]float64{long, wide, thick}}
}

// disk is a circle of an outline; radius 0 is a corner.
type disk struct {
	at     r2.Vec
	radius float64
}

// around is the outline that a string makes round discs: the hull of bosses and
// corners, counter-clockwise.
func around(disks ...disk) contour.Path {
	start := 0
	for i, d := range disks {
		if d.at.Y-d.radius < disks[start].at.Y-disks[start].radius {
			start = i
		}
	}
	// Each visit of a disc ends where the outward normal is that of the line on to
	// the next.
	type visit struct {
		disk  int
		leave float64
	}
	var visits []visit
	const down, straight = -math.Pi / 2, 1e-9
	for i, facing := start, down; len(visits) < 3*len(disks); {
		next, turn, far := -1, 0.0, 0.0
		for j, d := range disks {
			to := r2.Sub(d.at, disks[i].at)
			apart := r2.Norm(to)
			if apart <= math.Abs(disks[i].radius-d.radius) { // one inside the other
				continue
			}
			normal := math.Atan2(to.Y, to.X) - math.Acos((disks[i].radius-d.radius)/apart)
			t := math.Mod(normal-facing+4*math.Pi, 2*math.Pi)
			if t > 2*math.Pi-straight {
				t = 0
			}
			if next < 0 || t < turn-straight || t < turn+straight && apart > far {
				next, turn, far = j, t, apart
			}
		}
		if next < 0 {
			return contour.Circle(disks[i].at, disks[i].radius)
		}
		if i == start && len(visits) > 0 && facing+turn > down+2*math.Pi-straight {
			break
		}
		facing += turn
		visits = append(visits, visit{i, facing})
		i = next
	}
	out := contour.Path{Closed: true, Vertices: make([]contour.Vertex, 0, 2*len(visits))}
	arrive := visits[len(visits)-1].leave - 2*math.Pi
	for _, v := range visits {
		d := disks[v.disk]
		if d.radius > 0 && v.leave > arrive+straight {
			out.Vertices = append(out.Vertices, onRim(d, arrive, math.Tan((v.leave-arrive)/4)))
		}
		out.Vertices = append(out.Vertices, onRim(d, v.leave, 0))
		arrive = v.leave
	}
	return out
}

// onRim is the vertex of a disc's rim at an outward normal.
func onRim(d disk, normal, bulge float64) contour.Vertex {
	s, c := math.Sincos(normal)
	return contour.Vertex{X: d.at.X + d.radius*c, Y: d.at.Y + d.radius*s, Bulge: bulge}
}

// arcSlot is a slot of a width along an arc about the origin, from one angle up to
// another, with round ends: a round hole where they are equal.
func arcSlot(radius, from, to, width float64) contour.Path {
	s0, c0 := math.Sincos(from)
	if to-from < 1e-9 {
		return contour.Circle(r2.Vec{X: radius * c0, Y: radius * s0}, width/2)
	}
	s1, c1 := math.Sincos(to)
	out, in := radius+width/2, radius-width/2
	bulge := math.Tan((to - from) / 4)
	return contour.Path{Closed: true, Vertices: []contour.Vertex{
		{X: out * c0, Y: out * s0, Bulge: bulge}, {X: out * c1, Y: out * s1, Bulge: 1},
		{X: in * c1, Y: in * s1, Bulge: -bulge}, {X: in * c0, Y: in * s0, Bulge: 1},
	}}
}

// slot is a straight slot between the middles of its round ends.
func slot(from, to r2.Vec, width float64) contour.Path {
	along := r2.Sub(to, from)
	n := r2.Norm(along)
	if n < 1e-9 {
		return contour.Circle(from, width/2)
	}
	side := r2.Scale(width/2/n, r2.Vec{X: along.Y, Y: -along.X})
	v := func(p r2.Vec, bulge float64) contour.Vertex { return contour.Vertex{X: p.X, Y: p.Y, Bulge: bulge} }
	return contour.Path{Closed: true, Vertices: []contour.Vertex{
		v(r2.Add(from, side), 0), v(r2.Add(to, side), 1), v(r2.Sub(to, side), 0), v(r2.Sub(from, side), 1),
	}}
}

// rectangle is one about a point of own x, own y at zero, with round corners.
func rectangle(w, h, corner float64) contour.Path {
	x, y := w/2-corner, h/2-corner
	return around(disk{r2.Vec{X: -x, Y: -y}, corner}, disk{r2.Vec{X: x, Y: -y}, corner}, disk{r2.Vec{X: x, Y: y}, corner}, disk{r2.Vec{X: -x, Y: y}, corner})
}

// circle is a round hole of a diameter.
func circle(x, y, diameter float64) contour.Path {
	return contour.Circle(r2.Vec{X: x, Y: y}, diameter/2)
}
