package contour

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Disk is a circle of an outline; radius 0 is a corner.
type Disk struct {
	At     r2.Vec
	Radius float64
}

// Around is the outline that a string makes round discs: the hull of bosses and
// corners, counter-clockwise.
func Around(disks ...Disk) Path {
	start := 0
	for i, d := range disks {
		if d.At.Y-d.Radius < disks[start].At.Y-disks[start].Radius {
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
			to := r2.Sub(d.At, disks[i].At)
			apart := r2.Norm(to)
			if apart <= math.Abs(disks[i].Radius-d.Radius) { // one inside the other
				continue
			}
			normal := math.Atan2(to.Y, to.X) - math.Acos((disks[i].Radius-d.Radius)/apart)
			t := math.Mod(normal-facing+4*math.Pi, 2*math.Pi)
			if t > 2*math.Pi-straight {
				t = 0
			}
			if next < 0 || t < turn-straight || t < turn+straight && apart > far {
				next, turn, far = j, t, apart
			}
		}
		if next < 0 {
			return Circle(disks[i].At, disks[i].Radius)
		}
		if i == start && len(visits) > 0 && facing+turn > down+2*math.Pi-straight {
			break
		}
		facing += turn
		visits = append(visits, visit{i, facing})
		i = next
	}
	out := Path{Closed: true, Vertices: make([]Vertex, 0, 2*len(visits))}
	arrive := visits[len(visits)-1].leave - 2*math.Pi
	for _, v := range visits {
		d := disks[v.disk]
		if d.Radius > 0 && v.leave > arrive+straight {
			out.Vertices = append(out.Vertices, onRim(d, arrive, math.Tan((v.leave-arrive)/4)))
		}
		out.Vertices = append(out.Vertices, onRim(d, v.leave, 0))
		arrive = v.leave
	}
	return out
}

// onRim is the vertex of a disc's rim at an outward normal.
func onRim(d Disk, normal, bulge float64) Vertex {
	s, c := math.Sincos(normal)
	return Vertex{X: d.At.X + d.Radius*c, Y: d.At.Y + d.Radius*s, Bulge: bulge}
}

// ArcSlot is a slot of a width along an arc about the origin, from one angle up to
// another, with round ends: a round hole where they are equal.
func ArcSlot(radius, from, to, width float64) Path {
	s0, c0 := math.Sincos(from)
	if to-from < 1e-9 {
		return Circle(r2.Vec{X: radius * c0, Y: radius * s0}, width/2)
	}
	s1, c1 := math.Sincos(to)
	out, in := radius+width/2, radius-width/2
	bulge := math.Tan((to - from) / 4)
	return Path{Closed: true, Vertices: []Vertex{
		{X: out * c0, Y: out * s0, Bulge: bulge}, {X: out * c1, Y: out * s1, Bulge: 1},
		{X: in * c1, Y: in * s1, Bulge: -bulge}, {X: in * c0, Y: in * s0, Bulge: 1},
	}}
}

// Slot is a straight slot between the middles of its round ends.
func Slot(from, to r2.Vec, width float64) Path {
	along := r2.Sub(to, from)
	n := r2.Norm(along)
	if n < 1e-9 {
		return Circle(from, width/2)
	}
	side := r2.Scale(width/2/n, r2.Vec{X: along.Y, Y: -along.X})
	v := func(p r2.Vec, bulge float64) Vertex { return Vertex{X: p.X, Y: p.Y, Bulge: bulge} }
	return Path{Closed: true, Vertices: []Vertex{
		v(r2.Add(from, side), 0), v(r2.Add(to, side), 1), v(r2.Sub(to, side), 0), v(r2.Sub(from, side), 1),
	}}
}

// Rectangle is one about a point of own x, own y at zero, with round corners.
func Rectangle(w, h, corner float64) Path {
	x, y := w/2-corner, h/2-corner
	return Around(Disk{r2.Vec{X: -x, Y: -y}, corner}, Disk{r2.Vec{X: x, Y: -y}, corner}, Disk{r2.Vec{X: x, Y: y}, corner}, Disk{r2.Vec{X: -x, Y: y}, corner})
}
