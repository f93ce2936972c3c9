package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for weights on a shaft, mm.
const (
	eyeWall     = 18.0 // of a bar round the shaft
	weightEnd   = 22.0 // half the bar's width at the weight
	weightBolt  = 12.0
	weightThin  = 12.0 // thickness of a block too light for values.WeightThick
	weightSide  = 50.0 // side below which it is
	weightLeast = 36.0 // round its bolt
)

// counterweight adds the block that balances the arm, on a bar on the shaft.
func (b *builder) counterweight() {
	c := &b.v.Counter
	if c.Mass <= 0 {
		return
	}
	b.weightOnShaft("counter", "Counterweight", b.planes.Counter, c.Mass, c.Radius, math.Pi+c.Phase)
}

// weightOnShaft adds a bar with its collar on the arm's shaft and a block of steel
// on it, so that both have the moment of a mass at a radius, an angle ahead of the
// arm.
func (b *builder) weightOnShaft(id, title string, plane, mass, radius, ahead float64) {
	v := b.v
	p, size := b.shapes.Blank(shape{barShape, [16]float64{v.Shaft, radius}}, func() *solid.Profile {
		return solid.NewProfile(contour.Around(contour.Disk{Radius: v.Shaft/2 + eyeWall}, contour.Disk{At: r2.Vec{X: radius}, Radius: weightEnd}),
			circle(0, 0, v.Shaft), circle(radius, 0, weightHole))
	})
	s, k := math.Sincos(ahead)
	place := b.acrossArm(plane)
	place.X, place.Y = place.Vector(r3.Vec{X: k, Y: s}), place.Vector(r3.Vec{X: -s, Y: k})
	bar := b.Pair(assembly.Part{
		ID: id + "-bar", Title: title + " bar", Group: b.arms[0], Stock: b.plateStock(size.X, size.Y, values.WeightBar),
		Solid: prism(p, -values.WeightBar/2, values.WeightBar/2), Place: place, Density: steelDensity, Traits: armTraits,
	})
	collar := b.collar(id+"-collar", b.armShaft, b.arms[0], place.Then(solid.Shift(r3.Vec{Z: values.WeightBar / 2})), values.CollarLong)
	rim := v.Shaft/2 + collarWall
	b.JoinPair(assembly.Weld, collar, bar, place.Point(r3.Vec{X: rim - 1, Z: values.WeightBar / 2}), assembly.Detail{Throat: barThroat, Run: 2 * math.Pi * rim})
	b.JoinPair(assembly.Fit, bar, b.armShaft, place.Origin, assembly.Detail{Diameter: v.Shaft, Class: "H9/h6"})

	// The block is lighter by what the bar's own moment gives.
	of := b.Parts[bar[0]].Mass * p.Centroid().X
	block := mass - of/radius
	hole := math.Pi / 4 * weightHole * weightHole
	thick := values.WeightThick
	side := math.Sqrt(max(0, block)/(steelDensity*thick) + hole)
	if side < weightSide {
		thick = weightThin
		side = math.Sqrt(max(0, block)/(steelDensity*thick) + hole)
	}
	b.need(id+"-heavier-than-bar", side-weightLeast)
	side = max(side, weightLeast)
	weight := b.Pair(assembly.Part{
		ID: id + "-weight", Title: title, Group: b.arms[0], Stock: b.plateStock(side, side, thick),
		Solid: prism(b.plateWithHole(side, side, weightHole), values.WeightBar/2, values.WeightBar/2+thick),
		Place: place.Then(solid.Shift(r3.Vec{X: radius})), Density: steelDensity, Traits: armTraits,
	})
	b.JoinPair(assembly.Bolts, weight, bar, place.Point(r3.Vec{X: radius - weightHole, Z: values.WeightBar / 2}),
		assembly.Detail{Thread: weightBolt, Count: 1, Length: values.WeightBar + thick + 15})
	if v.Reclined { // the post stands behind, where the weight swings back
		reach := radius + side/math.Sqrt2
		b.need(id+"-clear-of-post", b.atAxis(0, 0, plane).X-reach-b.postX-v.Member.Height/2)
	}
	b.need(id+"-clear-of-collar", radius-side/2-rim)
}

// weightReach is how far from the pivot the weights on the arm's shaft come, 0 without
// any.
func weightReach(v *values.Station) float64 {
	reach := 0.0
	for _, w := range [2]struct{ mass, radius float64 }{{v.Counter.Mass, v.Counter.Radius}, {v.Eccentric.Mass, v.Eccentric.Radius}} {
		if w.mass > 0 {
			// A corner of the square block, which is no heavier than the weight.
			side := math.Sqrt(w.mass/(steelDensity*values.WeightThick) + math.Pi/4*weightHole*weightHole)
			reach = max(reach, w.radius+side/math.Sqrt2)
		}
	}
	return reach
}
