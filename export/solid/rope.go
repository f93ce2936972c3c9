package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/solid"
)

// sides is how many triangles go round a rope: as many as look round.
const sides = 20

// rope divides a rope into rings of points, and its ends.
func (m *Mesh) rope(r solid.Rope, sagitta float64) {
	frames := r.Frames(sagitta)
	ring := func(f *solid.Placement, normal func(r3.Vec) r3.Vec) int {
		start := len(m.Points)
		for k := range sides {
			s, c := math.Sincos(2 * math.Pi * float64(k) / sides)
			out := f.Vector(r3.Vec{X: c, Y: s})
			m.vertex(r3.Add(f.Origin, r3.Scale(r.Diameter/2, out)), normal(out))
		}
		return start
	}
	outward := func(out r3.Vec) r3.Vec { return out }
	first := ring(&frames[0], outward)
	low := first
	for i := 1; i < len(frames); i++ {
		high := first
		if !r.Closed || i < len(frames)-1 {
			high = ring(&frames[i], outward)
		}
		for k := range sides {
			n := (k + 1) % sides
			m.Triangles = append(m.Triangles, [3]int{low + k, low + n, high + n}, [3]int{low + k, high + n, high + k})
		}
		low = high
	}
	if r.Closed {
		return
	}
	end := func(f *solid.Placement, way float64) {
		z := r3.Scale(way, f.Z)
		start := ring(f, func(r3.Vec) r3.Vec { return z })
		for k := 1; k < sides-1; k++ {
			t := [3]int{start, start + k, start + k + 1}
			if way < 0 {
				t[1], t[2] = t[2], t[1]
			}
			m.Triangles = append(m.Triangles, t)
		}
	}
	end(&frames[0], -1)
	end(&frames[len(frames)-1], 1)
}
