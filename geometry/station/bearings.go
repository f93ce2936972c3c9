package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// unitDisks is the outline of a bearing housing, larger by over, in (down, normal).
func (b *builder) unitDisks(at r2.Vec, over float64) [3]contour.Disk {
	u := &b.v.Bearing
	end := r2.Scale(u.Spacing/2, b.oval)
	r := (u.Long-u.Spacing)/2 + over
	return [3]contour.Disk{{At: r2.Sub(at, end), Radius: r}, {At: at, Radius: u.Across/2 + over}, {At: r2.Add(at, end), Radius: r}}
}

// flangeUnits adds the two bearings of a shaft at a place (down, normal) of the
// bracket: the inner and the outer one, each on the outward face of its cheek.
func (b *builder) flangeUnits(id, title string, at r2.Vec) [2]unit {
	return [2]unit{
		b.flangeUnit(id+"-inner", id, title, at, b.planes.InnerCheek-values.CheekThick/2, -1, b.innerCheek),
		b.flangeUnit(id+"-outer", id, title, at, b.planes.OuterCheek+values.CheekThick/2, 1, b.outerCheek),
	}
}

func (b *builder) flangeUnit(id, item, title string, at r2.Vec, w, way float64, cheek assembly.Both) unit {
	u := &b.v.Bearing
	place := b.across(w)
	place.Origin = b.atAxis(at.X, at.Y, w)
	if way < 0 {
		place.Y, place.Z = r3.Scale(-1, place.Y), r3.Scale(-1, place.Z)
	}
	p := b.profile(shape{flangeShape, [16]float64{u.Long, u.Across, u.Spacing, u.Hole, u.Outer, b.oval.X}}, func() *solid.Profile {
		disks := b.unitDisks(r2.Vec{}, 0)
		end := r2.Scale(u.Spacing/2, b.oval)
		return solid.NewProfile(contour.Around(disks[:]...), circle(0, 0, u.Outer), contour.Circle(end, u.Hole/2), contour.Circle(r2.Scale(-1, end), u.Hole/2))
	})
	const insertShare = 0.3 // of the unit's mass, judgement
	housing := b.Pair(assembly.Part{
		ID: id + "-housing", Item: item + "-housing", Title: title + " bearing, oval flange unit", Group: b.swivels[0],
		Stock: assembly.Stock{Form: assembly.Bought, Name: u.Name, Grade: "cast iron", Size: [3]float64{u.Long, u.Across, u.Body}},
		Solid: prism(p, 0, u.Body), Place: place, Mass: (1 - insertShare) * u.Mass, Traits: assembly.Swivels,
	})
	insert := b.Pair(assembly.Part{
		ID: id + "-insert", Item: item + "-insert", Title: title + " bearing, insert of its unit", Group: b.swivels[0],
		Stock: assembly.Stock{Form: assembly.Bought, Name: u.Name, Grade: "bearing steel", Size: [3]float64{u.Outer, u.Bore, u.Ring}},
		Solid: solid.Turned{Outline: []r2.Vec{{X: u.Outer / 2, Y: 1}, {X: u.Outer / 2, Y: u.Body - 1}, {X: u.Inner / 2, Y: u.Body - 1}, {X: u.Inner / 2, Y: u.Ring}}, Bore: u.Bore},
		Place: place, Mass: insertShare * u.Mass, Traits: assembly.Swivels,
	})
	b.JoinPair(assembly.Bolts, housing, cheek, place.Point(r3.Vec{X: b.oval.X * u.Spacing / 2, Y: b.oval.Y * u.Spacing / 2}),
		assembly.Detail{Thread: u.Thread, Count: 2, Length: values.CheekThick + u.Foot + 16, Pattern: [2]float64{u.Spacing}})
	b.JoinPair(assembly.Fit, insert, housing, place.Point(r3.Vec{Z: u.Centre}), assembly.Detail{Diameter: u.Outer})
	return unit{housing, insert}
}

// shaftIn joins a shaft, whose axis is at a place of the bracket, to its two
// bearings and tells that it passes housings and cheeks.
func (b *builder) shaftIn(shaft assembly.Both, at r2.Vec, units [2]unit) {
	u := &b.v.Bearing
	for i, c := range [2]struct {
		cheek    assembly.Both
		w, balls float64
	}{
		{b.innerCheek, b.planes.InnerCheek, -values.CheekThick/2 - u.Centre},
		{b.outerCheek, b.planes.OuterCheek, values.CheekThick/2 + u.Centre},
	} {
		place := b.atAxis(at.X, at.Y, c.w+c.balls)
		b.JoinPair(assembly.Fit, shaft, units[i].insert, place, assembly.Detail{Diameter: u.Bore, Class: "h6"})
		b.JoinPair(assembly.Passage, shaft, units[i].housing, place, assembly.Detail{})
		b.JoinPair(assembly.Passage, shaft, c.cheek, b.atAxis(at.X, at.Y, c.w), assembly.Detail{})
	}
}
