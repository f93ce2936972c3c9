package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices, mm.
const (
	postShift  = 90.0 // of the post along the index plate from under the bearings
	stubLeast  = 40.0 // of a stub's shorter side
	padEndRoom = 25.0 // from the middle of the pad's bracket tube to either end of the pad
)

// posts adds the two posts on the rails, and the level stubs before them that
// carry the index plates of a reclined station. Nothing stands between the posts:
// that is where the legs are.
func (b *builder) posts() {
	v := b.v
	m := &v.Member
	s, c := math.Sincos(v.Rest.Slope)
	under := b.atAxis(0, -b.carry, b.planes.Bearings)
	aside := b.planes.Bearings * math.Sin(b.angles[b.middle]) // of the bearings, up the pad from the pivot
	tube := v.Arm.Height / 2                                  // of the pad's bracket
	var wanted float64
	if v.Reclined {
		wanted = (v.Rest.Near+v.Rest.Far)/2 - aside - tube*c/s
	} else {
		wanted = (under.X - v.Base.PadPost) / c
	}
	shift := max(-postShift, min(postShift, wanted))
	b.shift = shift
	b.setSwivel()
	top := r3.Add(under, r3.Scale(shift, b.up)) // where the tube's axis meets the carrying plane
	b.postX = top.X
	if v.Reclined {
		b.postX = min(v.Base.PadPost, top.X-m.Height/2-stubLeast)
		b.padUp = aside + shift + tube*c/s
	} else {
		b.padUp = aside + shift - tube*s/c
	}
	b.postTop = top

	if !(top.Z-m.Height/2*max(1, s/c) > b.baseTop) {
		b.fail("pivots.height", "the pivots stand high enough for a post under them")
	}
	if !(b.postY < -m.Width) {
		b.fail("pivots.spacing", "the posts stand apart")
	}
	from := r3.Vec{X: b.postX, Y: b.postY, Z: b.baseTop}
	place := solid.Along(from, r3.Vec{X: b.postX, Y: b.postY, Z: b.baseTop + 1}, r3.Vec{X: 1})
	part := assembly.Part{ID: "pivot-post", Title: "Pivot post", Group: b.frame, Place: place, Density: steelDensity}
	if v.Reclined {
		long := top.Z + m.Height/2 + 10 - b.baseTop
		part.Stock, part.Solid = tubeStock(m, long), prism(b.section(m), 0, long)
	} else {
		long := top.Z - b.baseTop
		part.Stock = tubeStock(m, long+m.Height/2*s/c)
		part.Solid = solid.Prism{Profile: b.section(m), To: solid.End{Z: long, Tilt: r2.Vec{Y: -s / c}}}
	}
	b.post = b.Pair(part)
	b.JoinPair(assembly.Weld, b.post, b.rails, from, b.tubeWeld(m))
	b.carrier = b.post
	b.need("post-on-rail", min(b.postX-m.Height/2-v.Base.Rear-footIn, v.Base.Front-footIn-b.postX-m.Height/2))

	if !v.Reclined {
		b.need("post-under-index-plate", postShift-math.Abs(wanted))
	} else {
		end := r3.Vec{X: b.postX, Y: b.postY, Z: from.Z + part.Stock.Length}
		b.cap("post-cap", "post-cap", m, solid.Along(end, r3.Vec{X: end.X, Y: end.Y, Z: end.Z + 1}, r3.Vec{X: 1}), b.post, b.frame)

		start := r3.Vec{X: b.postX + m.Height/2, Y: b.postY, Z: top.Z}
		long := top.X - start.X
		b.stub = b.Pair(assembly.Part{
			ID: "pivot-stub", Title: "Pivot stub", Group: b.frame, Stock: tubeStock(m, long+m.Height/2*c/s),
			Solid:   solid.Prism{Profile: b.section(m), To: solid.End{Z: long, Tilt: r2.Vec{Y: -c / s}}},
			Place:   solid.Along(start, top, r3.Vec{Z: 1}),
			Density: steelDensity,
		})
		b.JoinPair(assembly.Weld, b.stub, b.post, start, b.tubeWeld(m))
		b.carrier = b.stub
		b.need("stub-length", top.X-m.Height/2-stubLeast-v.Base.PadPost)
	}
	b.need("pad-over-bracket", min(b.padUp-v.Rest.Near, v.Rest.Far-b.padUp)-padEndRoom)
}
