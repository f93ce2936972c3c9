package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r3"
)

// The sleeve that plates with a bore of 50 mm hang on, mm: a tube through the
// lever's eye, a ring that keeps the plates off the lever, and a spring collar that
// keeps them on.
const (
	plateBore    = 50.5 // of plates for sleeves of 48 to 50, judgement
	sleeveAcross = 48.3 // EN 10220
	sleeveWall   = 3.2
	sleeveRing   = 80.0 // across the ring
	springAcross = 80.0 // spring collar, bought
	springLong   = 25.0
	springMass   = 0.25
	sleeveRoom   = 16.0 // of the eye beyond the sleeve, for its weld
	capLong      = 8.0  // end cap pressed into the sleeve
)

// sleeveEye is the eye of a lever round the sleeve.
func sleeveEye() linkage.Eye {
	return linkage.Eye{Radius: sleeveAcross/2 + sleeveRoom, Bore: sleeveAcross}
}

// PileThickness is that of all plates together, of steel, mm.
func PileThickness(v *values.Plates) float64 {
	return v.Mass / (steelDensity * math.Pi / 4 * (v.Across*v.Across - plateBore*plateBore))
}

// sleeve adds the sleeve in a lever's eye with its plates. At is on the sleeve's
// line in the lever's inner face, own z outward.
func (b *builder) sleeve(lever assembly.Both, group int, at solid.Placement, plates *values.Plates) {
	thick := b.v.BarThick
	part := func(id, title string, from float64, s solid.Solid, stock assembly.Stock) assembly.Part {
		place := at
		place.Origin = at.Point(r3.Vec{Z: from})
		return assembly.Part{ID: id, Title: title, Stock: stock, Solid: s, Place: place, Group: group, Density: steelDensity, Traits: assembly.Turns}
	}
	long := thick + values.PlateGap + values.SleeveLong
	tube := b.Pair(part("plate-sleeve", "Plate sleeve", 0, prism(b.pipe(sleeveAcross, sleeveWall), 0, long),
		assembly.Stock{Form: assembly.Round, Name: "48.3x3.2", Grade: b.v.Member.Grade, Size: [3]float64{sleeveAcross, sleeveAcross - 2*sleeveWall}, Length: long}))
	around := math.Pi * sleeveAcross
	b.JoinPair(assembly.Weld, tube, lever, at.Point(r3.Vec{X: sleeveAcross / 2, Z: thick / 2}), assembly.Detail{Throat: barThroat, Run: around, Depth: thick})
	ring := b.Pair(part("plate-ring", "Plate ring", thick, prism(b.pipe(sleeveRing, (sleeveRing-sleeveAcross)/2), 0, values.PlateGap), b.plateStock(sleeveRing, sleeveRing, values.PlateGap)))
	b.JoinPair(assembly.Weld, ring, tube, at.Point(r3.Vec{X: sleeveAcross / 2, Z: thick + values.PlateGap}), assembly.Detail{Throat: barThroat, Run: around, Depth: thick + values.PlateGap})
	end := part("plate-sleeve-cap", "Sleeve cap", long-capLong, prism(b.disc(sleeveAcross-2*sleeveWall), 0, capLong), assembly.Stock{Form: assembly.Bought, Name: "round insert 48.3x3.2"})
	end.Density = plugDensity
	b.JoinPair(assembly.Fit, b.Pair(end), tube, at.Point(r3.Vec{Z: long - capLong/2}), assembly.Detail{Diameter: sleeveAcross - 2*sleeveWall})

	face, pile := thick+values.PlateGap, 0.0
	if plates.Mass > 0 {
		pile = PileThickness(plates)
		weights := part("plates", "Plates", face, prism(b.pipe(plates.Across, (plates.Across-plateBore)/2), 0, pile), assembly.Stock{Form: assembly.Bought, Name: "plates for sleeves of 50"})
		weights.Traits |= assembly.Load
		hung := b.Pair(weights)
		b.JoinPair(assembly.Fit, hung, tube, at.Point(r3.Vec{X: sleeveAcross / 2, Z: face + pile/2}), assembly.Detail{Diameter: plateBore, Class: "loose"})
		collar := part("plate-collar", "Spring collar", face+pile, prism(b.pipe(springAcross, (springAcross-sleeveAcross)/2), 0, springLong), assembly.Stock{Form: assembly.Bought, Name: "spring collar 50"})
		collar.Density, collar.Mass = 0, springMass
		b.JoinPair(assembly.Fit, b.Pair(collar), tube, at.Point(r3.Vec{X: sleeveAcross / 2, Z: face + pile + springLong/2}), assembly.Detail{Diameter: sleeveAcross, Class: "clamped by its spring"})
	}
	b.need("plates-on-sleeve", values.SleeveLong-pile-springLong-capLong)
}
