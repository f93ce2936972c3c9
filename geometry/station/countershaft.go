package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// countershaft adds the second shaft of a geared cam on its two bearings, the wheels on
// both shafts, and the chain or belt. Slots in the cheeks let the bearings move to
// tighten it.
func (b *builder) countershaft() {
	v, c, p := b.v, &b.v.Cam, &b.planes
	if !v.Geared() || v.Second == nil {
		return
	}
	group := b.GroupPair("countershaft", b.swivels, &assembly.Turn{
		Point: b.atAxis(b.second.X, b.second.Y, 0), Axis: b.axis, From: v.First, Ratio: v.Ratio,
	})
	b.counterGroup = group[0]
	units := b.flangeUnits("countershaft", "Countershaft", b.second)
	from, to := p.RingIn-values.LayerClear, p.Cam+v.CamWide/2
	place := b.across(from)
	place.Origin = b.atAxis(b.second.X, b.second.Y, from)
	b.counterShaft = b.Pair(assembly.Part{
		ID: "countershaft", Title: "Countershaft", Group: group[0],
		Stock: assembly.Stock{Form: assembly.Round, Grade: "C45", Size: [3]float64{v.Shaft}, Length: to - from},
		Solid: solid.Round(v.Shaft, to-from), Place: place, Density: steelDensity, Traits: assembly.Turns,
	})
	b.shaftIn(b.counterShaft, b.second, units)

	wheel := func(id, title string, at r2.Vec, pitch float64, shaft assembly.Both, group int) {
		place := b.across(p.Wheel)
		place.Origin = b.atAxis(at.X, at.Y, p.Wheel)
		boss, rim, w, f := v.Shaft/2+bossWall, pitch/2+c.Tip, v.WheelWide/2, c.Face/2
		wheel := b.Pair(assembly.Part{
			ID: id, Title: title, Group: group,
			Stock: assembly.Stock{Form: assembly.Bought, Name: c.Loop, Size: [3]float64{pitch, v.Shaft, v.WheelWide}},
			Solid: solid.Turned{Outline: []r2.Vec{{X: boss, Y: -w}, {X: boss, Y: -f}, {X: rim, Y: -f}, {X: rim, Y: f}, {X: boss, Y: f}, {X: boss, Y: w}}, Bore: v.Shaft},
			Place: place, Density: steelDensity, Traits: assembly.Turns,
		})
		b.join(assembly.Fit, wheel, shaft, place.Origin, assembly.Detail{
			Diameter: v.Shaft, Class: "H7/h6", Key: b.keyOf(v.WheelWide - 2), Thread: 6, Count: 1})
	}
	wheel("wheel-arm", "Wheel on the arm shaft", r2.Vec{}, c.ArmWheel, b.armShaft, b.arms[0])
	wheel("wheel-driven", "Wheel on the countershaft", b.second, c.DrivenWheel, b.counterShaft, group[0])
	apart := r2.Norm(b.second)
	b.need("wheels-apart", apart-(c.ArmWheel+c.DrivenWheel)/2-2*c.Tip-values.LayerClear)

	path := loopPath(r2.Vec{}, b.second, c.ArmWheel/2, c.DrivenWheel/2)
	line := make([]r3.Vec, len(path))
	for i, q := range path {
		line[i] = b.atAxis(q.X, q.Y, p.Wheel)
	}
	length := loopLength(apart, c.ArmWheel/2, c.DrivenWheel/2)
	b.FlexPair(assembly.Flexible{
		ID: "loop", Title: "Drive loop", Stock: assembly.Stock{Form: assembly.Bought, Name: c.Loop, Length: length},
		Path: line, Closed: true, Mass: length / 1000 * c.LoopPerMetre,
	})
}

// loopLength is the length of an open loop round two wheels by their pitch radii: the
// handbooks' 2 C cos a + (r1 + r2) pi + 2 a (r1 - r2), sin a = (r1 - r2)/C. 0 where one
// is inside the other.
func loopLength(apart, ra, rb float64) float64 {
	if apart <= math.Abs(ra-rb) {
		return 0
	}
	a := math.Asin((ra - rb) / apart)
	return 2*apart*math.Cos(a) + math.Pi*(ra+rb) + 2*a*(ra-rb)
}

// loopPath is the closed line round two circles, counter-clockwise, arcs in chords.
func loopPath(a, b r2.Vec, ra, rb float64) []r2.Vec {
	to := r2.Sub(b, a)
	apart := r2.Norm(to)
	if apart <= math.Abs(ra-rb) {
		return nil
	}
	along := math.Atan2(to.Y, to.X)
	half := math.Acos((ra - rb) / apart) // from the line of centres to where the loop leaves the first wheel
	const chord = 15 * math.Pi / 180
	var out []r2.Vec
	arc := func(c r2.Vec, r, from, to float64) {
		n := int(math.Ceil((to - from) / chord))
		for i := range n + 1 {
			s, k := math.Sincos(from + (to-from)*float64(i)/float64(n))
			out = append(out, r2.Vec{X: c.X + r*k, Y: c.Y + r*s})
		}
	}
	arc(a, ra, along+half, along+2*math.Pi-half)
	arc(b, rb, along-half, along+half)
	return out
}
