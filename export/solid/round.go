package solid

import (
	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/solid"
)

// Round is a hull of balls with its boundary, as a part of a model.
type Round struct {
	solid.Balls
	boundary *solid.Shell
}

// NewRound returns the hull of balls, or the error of solid.Balls.Shell.
func NewRound(balls ...solid.Ball) (Round, error) {
	s, err := solid.Balls(balls).Shell()
	return Round{balls, s}, err
}

// Shell implements Body.
func (r Round) Shell() *solid.Shell { return r.boundary }

// fineness is how many triangles there are along each edge of the octahedron
// from which a round body is divided: normals then differ by 10 degrees at most
// from one corner to the next, and the triangles of a ball of 90 mm stand 0.4 mm
// off it.
const fineness = 16

// round divides a convex body without corners: each point of a divided octahedron
// is a direction, and stands for the body's farthest point there, of which it is
// the normal.
func (m *Mesh) round(c solid.Convex) {
	at := map[[3]int]int{}
	corner := func(x, y, z int) int {
		key := [3]int{x, y, z}
		n, ok := at[key]
		if !ok {
			d := r3.Unit(r3.Vec{X: float64(x), Y: float64(y), Z: float64(z)})
			n = m.vertex(c.Support(d), d)
			at[key] = n
		}
		return n
	}
	for octant := range 8 {
		sx, sy, sz := 1-2*(octant&1), 1-2*(octant>>1&1), 1-2*(octant>>2)
		put := func(a, b, c [2]int) {
			var t [3]int
			for k, v := range [3][2]int{a, b, c} {
				t[k] = corner(sx*v[0], sy*v[1], sz*(fineness-v[0]-v[1]))
			}
			if sx*sy*sz < 0 {
				t[1], t[2] = t[2], t[1]
			}
			m.Triangles = append(m.Triangles, t)
		}
		for i := range fineness {
			for j := range fineness - i {
				put([2]int{i, j}, [2]int{i + 1, j}, [2]int{i, j + 1})
				if i+j < fineness-1 {
					put([2]int{i + 1, j}, [2]int{i + 1, j + 1}, [2]int{i, j + 1})
				}
			}
		}
	}
}
