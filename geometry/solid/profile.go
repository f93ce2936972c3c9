package solid

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r2"

	"armwright/geometry/contour"
)

// Profile is a plane area: an outer loop and holes in it, of lines and arcs, mm.
// It does not change once made; bodies may share one, also across goroutines.
type Profile struct {
	outer contour.Path   // counter-clockwise
	holes []contour.Path // clockwise: the material is on the left of every loop

	// Made when first asked for: not all bodies are weighed, few are measured against
	// others, and not all have a mirror image.
	weighing  sync.Once
	area      planar // up to the second degree
	turning   sync.Once
	planar    planar // up to the third
	bounding  sync.Once
	bounds    r2.Box
	rimming   sync.Once
	rim       rim
	once      sync.Once
	convex    []rim
	mirroring sync.Once
	mirror    *Profile
}

// NewProfile returns the area inside a closed outer loop less the holes. Loops
// may run either way round; the profile keeps the outer one counter-clockwise
// and holes clockwise, each from its given first vertex. Whether the loops are
// sound is for Validate to say.
func NewProfile(outer contour.Path, holes ...contour.Path) *Profile {
	p := &Profile{outer: orient(outer, 1), holes: make([]contour.Path, len(holes))}
	for i, h := range holes {
		p.holes[i] = orient(h, -1)
	}
	return p
}

// areas returns the moments of the area up to the second degree, which volume and
// centroid of a prism take.
func (p *Profile) areas() *planar {
	p.weighing.Do(func() { p.area = p.planarTo(2) })
	return &p.area
}

// moments returns those up to the third degree.
func (p *Profile) moments() *planar {
	p.turning.Do(func() { p.planar = p.planarTo(3) })
	return &p.planar
}

func (p *Profile) planarTo(degree int) (m planar) {
	var r roundRule
	m.add(p.outer, degree, &r)
	for _, h := range p.holes {
		m.add(h, degree, &r)
	}
	return m
}

// Bounds returns the smallest upright box round the outer loop, arcs included.
func (p *Profile) Bounds() r2.Box {
	p.bounding.Do(func() { p.bounds = p.outer.Bounds() })
	return p.bounds
}

// edge returns the rim of the outer loop.
func (p *Profile) edge() rim {
	p.rimming.Do(func() { p.rim = newRim(p.outer) })
	return p.rim
}

// orient returns a closed copy of the path that runs counter-clockwise for
// sign 1 and clockwise for sign -1.
func orient(p contour.Path, sign float64) contour.Path {
	q := contour.Path{Closed: true, Vertices: p.Vertices}
	if q.Area()*sign < 0 {
		return reverse(q, 1, -1)
	}
	return q
}

// reverse returns the path run the other way from the same first vertex, with
// y times ySign and bulges times bulgeSign.
func reverse(p contour.Path, ySign, bulgeSign float64) contour.Path {
	n := len(p.Vertices)
	q := contour.Path{Closed: true, Vertices: make([]contour.Vertex, n)}
	for i := range q.Vertices {
		v := p.Vertices[(n-i)%n]
		q.Vertices[i] = contour.Vertex{X: v.X, Y: ySign * v.Y, Bulge: bulgeSign * p.Vertices[n-1-i].Bulge}
	}
	return q
}

// Mirrored returns the profile with y turned to -y: the same one whenever asked,
// and of that one this.
func (p *Profile) Mirrored() *Profile {
	p.mirroring.Do(func() {
		q := &Profile{outer: reverse(p.outer, -1, 1), holes: make([]contour.Path, len(p.holes))}
		for i, h := range p.holes {
			q.holes[i] = reverse(h, -1, 1)
		}
		q.mirroring.Do(func() { q.mirror = p })
		p.mirror = q
	})
	return p.mirror
}

// Outer returns the outer loop, counter-clockwise. It must not be changed.
func (p *Profile) Outer() contour.Path { return p.outer }

// Holes returns the holes, clockwise. They must not be changed.
func (p *Profile) Holes() []contour.Path { return p.holes }

// Area returns the area, mm².
func (p *Profile) Area() float64 { return p.areas()[0][0] }

// Centroid returns the middle of the area.
func (p *Profile) Centroid() r2.Vec {
	m := p.areas()
	a := m[0][0]
	return r2.Vec{X: m[1][0] / a, Y: m[0][1] / a}
}

// Second returns the second moments of area about the centroid, mm⁴: ∫y², ∫x²
// and ∫xy.
func (p *Profile) Second() (xx, yy, xy float64) {
	m, c := p.areas(), p.Centroid()
	return m[0][2] - m[0][1]*c.Y, m[2][0] - m[1][0]*c.X, m[1][1] - m[1][0]*c.Y
}

// Rect returns a rectangle about the origin, w along x and h along y, with
// corners rounded by the radius corner, 0 for sharp ones.
func Rect(w, h, corner float64) *Profile { return NewProfile(rect(w, h, corner)) }

func rect(w, h, corner float64) contour.Path {
	x, y, c := w/2, h/2, corner
	if c < touching {
		return contour.Polygon(r2.Vec{X: -x, Y: -y}, r2.Vec{X: x, Y: -y}, r2.Vec{X: x, Y: y}, r2.Vec{X: -x, Y: y})
	}
	quarter := math.Tan(math.Pi / 8)
	p := contour.Path{Closed: true}
	add := func(x, y, bulge float64) {
		// A side of which the corners leave nothing has one vertex, not two.
		if n := len(p.Vertices); n > 0 && math.Hypot(x-p.Vertices[n-1].X, y-p.Vertices[n-1].Y) < touching {
			p.Vertices[n-1].Bulge = bulge
			return
		}
		p.Vertices = append(p.Vertices, contour.Vertex{X: x, Y: y, Bulge: bulge})
	}
	add(-x+c, -y, 0)
	add(x-c, -y, quarter)
	add(x, -y+c, 0)
	add(x, y-c, quarter)
	add(x-c, y, 0)
	add(-x+c, y, quarter)
	add(-x, y-c, 0)
	add(-x, -y+c, quarter)
	return p
}

// RectTube returns the section of a rectangular tube about the origin: w along
// x, h along y, the wall, and the outer corner radius. The inner radius is the
// outer one less the wall, sharp if that leaves nothing.
func RectTube(w, h, wall, outerCorner float64) *Profile {
	return NewProfile(rect(w, h, outerCorner), rect(w-2*wall, h-2*wall, outerCorner-wall))
}

// Disc returns a full circle of diameter d about the origin.
func Disc(d float64) *Profile { return NewProfile(contour.Circle(r2.Vec{}, d/2)) }

// Pipe returns the section of a round tube of outer diameter d.
func Pipe(d, wall float64) *Profile {
	return NewProfile(contour.Circle(r2.Vec{}, d/2), contour.Circle(r2.Vec{}, d/2-wall))
}

// loop returns the outer loop for 0 and the holes after it.
func (p *Profile) loop(i int) contour.Path {
	if i == 0 {
		return p.outer
	}
	return p.holes[i-1]
}
