package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for bars on shafts, mm.
const (
	barThroat = 4.0 // of the fillets round hubs, sleeves and pins
	hubRim    = 6.0 // of a bar's eye beyond its hub, for the fillet
)

// hubEye is the eye of a bar on a shaft.
func hubEye(v *values.Station) linkage.Eye {
	return linkage.Eye{Radius: v.Shaft/2 + collarWall + hubRim, Bore: v.Shaft}
}

// collar adds the hub of a bar, keyed on its shaft. Place is on the shaft's line at
// the collar's inner end.
func (b *builder) collar(id string, shaft assembly.Both, group int, place solid.Placement, long float64) assembly.Both {
	d := b.v.Shaft
	across := d + 2*collarWall
	collar := b.Pair(assembly.Part{ID: id, Title: "Shaft collar", Solid: solid.Tube(across, d, long), Place: place, Group: group,
		Stock:   assembly.Stock{Form: assembly.Round, Grade: b.v.Member.Grade, Size: [3]float64{across, d}, Length: long},
		Density: steelDensity, Traits: assembly.Turns})
	b.JoinPair(assembly.Fit, collar, shaft, place.Point(r3.Vec{Z: long / 2}), assembly.Detail{
		Diameter: d, Class: "H7/h6", Key: b.keyOf(long), Thread: 8, Count: 2})
	return collar
}

// barProfile is the outline of a bar with its bores.
func (b *builder) barProfile(v linkage.Bar) *solid.Profile {
	return b.profile(shape{eyeBarShape, [16]float64{v.Length, v.A.Radius, v.A.Bore, v.B.Radius, v.B.Bore}}, func() *solid.Profile {
		return solid.NewProfile(v.Outline(), v.Bores()...)
	})
}

// bar adds a bar cut from plate, its middle in a plane across the axis, from a
// place of that plane at an angle from forward.
func (b *builder) bar(id, title string, v linkage.Bar, group int, outward float64, at r2.Vec, angle float64) assembly.Both {
	thick := b.v.BarThick
	wide := 2 * max(v.A.Radius, v.B.Radius)
	return b.Pair(assembly.Part{ID: id, Title: title, Solid: prism(b.barProfile(v), -thick/2, thick/2), Place: b.inPlane(outward, at, angle), Group: group,
		Stock: b.plateStock(v.Length+v.A.Radius+v.B.Radius, wide, thick), Density: steelDensity, Traits: assembly.Turns})
}

// onShaft welds a bar to its collar, in the bar's face at a distance outward, and
// tells that the shaft goes through the bar's bore. At is on the shaft's line.
func (b *builder) onShaft(bar, collar, shaft assembly.Both, face float64, at r2.Vec) {
	rim := b.v.Shaft/2 + collarWall
	place := b.inPlane(face, at, 0)
	b.JoinPair(assembly.Weld, bar, collar, place.Point(r3.Vec{X: rim - 1}), assembly.Detail{Throat: barThroat, Run: 2 * math.Pi * rim})
	b.JoinPair(assembly.Fit, bar, shaft, place.Origin, assembly.Detail{Diameter: b.v.Shaft, Class: "H9/h6"})
}

// eyesApart is the slack by which a bar is longer than its eyes are wide together.
func eyesApart(v linkage.Bar) float64 { return v.Length - v.A.Radius - v.B.Radius }

// atLeast lengthens a bar until its outline exists.
func atLeast(v linkage.Bar) linkage.Bar {
	v.Length = max(v.Length, 1.01*math.Abs(v.A.Radius-v.B.Radius)+1)
	return v
}
