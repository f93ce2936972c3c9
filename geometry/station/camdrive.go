package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of a cam's hub, mm (own choices): a turned flange with a boss on the cam's
// inner side, on a key.
const (
	camFlange   = 10.0
	bossWall    = 12.5 // of the boss, and of a wheel's, round the shaft
	flangeEdge  = 10.0 // of the flange beyond the bolts' circle
	boltHeadOut = 8.0  // of the bolts' heads beyond the outer cheek
	clampOver   = 1.5  // of a clamp's screw beyond the ears, in threads: nut, washers and its end
)

// camSeat is the shaft that the cam sits on.
func (b *builder) camSeat() (shaft assembly.Both, group int) {
	if b.v.Geared() {
		return b.counterShaft, b.counterGroup
	}
	return b.armShaft, b.arms[0]
}

// camPlace is the place of what is drawn in the plane of the cam at flexion 0, in the
// reference pose: own z outward from the middle of the cam.
func (b *builder) camPlace() solid.Placement {
	return b.camPlane().Then(solid.Turn(r3.Vec{}, r3.Vec{Z: 1}, b.v.Ratio*b.v.First))
}

// camDrive adds the cam, a core between two cheeks, on its hub.
func (b *builder) camDrive() {
	v, c := b.v, &b.v.Cam
	if v.Drive != values.CamDrive || c.Root == nil || c.Blank == nil {
		return
	}
	shaft, group := b.camSeat()
	place := b.camPlace()
	on := func(z float64) r3.Vec { return place.Point(r3.Vec{Z: z}) }
	plate := func(id, item, title string, p *solid.Profile, from, thick float64) assembly.Both {
		box := p.Bounds()
		part := b.Pair(assembly.Part{
			ID: id, Item: item, Title: title, Stock: b.plateStock(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y, thick), Group: group,
			Solid: prism(p, from, from+thick), Place: place, Density: steelDensity, Traits: assembly.Turns,
		})
		b.join(assembly.Fit, part, shaft, on(from+thick/2), assembly.Detail{Diameter: v.Shaft, Class: "H7/h6"})
		return part
	}
	core := plate("cam-core", "cam-core", "Cam core", c.Root, -c.Core/2, c.Core)
	inner := plate("cam-cheek-inner", "cam-cheek", "Cam cheek", c.Blank, -c.Core/2-c.Cheek, c.Cheek)
	outer := plate("cam-cheek-outer", "cam-cheek", "Cam cheek", c.Blank, c.Core/2, c.Cheek)

	hub, through := b.camHub(shaft, group, place)
	kind, d := assembly.Weld, assembly.Detail{Throat: 4, Run: 2 * math.Pi * (v.Shaft/2 + bossWall)}
	if c.Bolts > 0 {
		kind, d = assembly.Bolts, assembly.Detail{Thread: c.Bolt, Count: c.Bolts, Length: c.Core + 2*c.Cheek + through + c.Bolt, Pattern: [2]float64{c.Circle}}
	}
	b.join(kind, hub, inner, on(-c.Core/2-c.Cheek), d)
	b.join(kind, inner, core, on(-c.Core/2), d)
	b.join(kind, core, outer, on(c.Core/2), d)
}

// camHub adds what holds the cam on its shaft, on the cam's inner side: a turned hub on
// a key, which reaches through the cam's plates where these are keyed, or a split one
// that a screw clamps. Through is what the cam's bolts go through of it.
func (b *builder) camHub(shaft assembly.Both, group int, place solid.Placement) (hub assembly.Both, through float64) {
	v, c := b.v, &b.v.Cam
	on := func(z float64) r3.Vec { return place.Point(r3.Vec{Z: z}) }
	face := -c.Core/2 - c.Cheek
	part := assembly.Part{ID: "cam-hub", Title: "Cam hub", Group: group, Place: place, Density: steelDensity, Traits: assembly.Turns}
	if c.Split != nil {
		box := c.Split.Bounds()
		part.Title = "Split hub"
		part.Stock = b.plateStock(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y, c.SplitThick)
		part.Solid = prism(c.Split, face-c.SplitThick, face)
		hub = b.Pair(part)
		b.join(assembly.Fit, hub, shaft, on(face-c.SplitThick/2), assembly.Detail{
			Diameter: v.Shaft, Class: "H7/h6", Thread: c.Clamp, Count: 1, Length: c.Ears + clampOver*c.Clamp})
		return hub, c.SplitThick
	}
	// The flange lies against the inner cheek; the boss carries key and screws.
	boss := v.Shaft/2 + bossWall
	rim := boss
	outline := []r2.Vec{{X: boss, Y: face - values.CamHub}, {X: boss, Y: face}}
	if c.Bolts > 0 {
		rim, boss = c.Circle/2+flangeEdge, min(boss, (c.Circle-c.Bolt)/2-1) // the screws' ends pass the boss
		outline = []r2.Vec{{X: boss, Y: face - values.CamHub}, {X: boss, Y: face - camFlange}, {X: rim, Y: face - camFlange}, {X: rim, Y: face}}
	}
	part.Stock = assembly.Stock{Form: assembly.Round, Grade: v.Member.Grade, Size: [3]float64{2 * rim, v.Shaft}, Length: values.CamHub}
	part.Solid = solid.Turned{Outline: outline, Bore: v.Shaft}
	hub = b.Pair(part)
	long := values.CamHub - 2.0
	if c.Keyed {
		long += c.Core + 2*c.Cheek
	}
	b.join(assembly.Fit, hub, shaft, on(face-values.CamHub/2+(long-values.CamHub+2)/2), assembly.Detail{
		Diameter: v.Shaft, Class: "H7/h6", Key: b.keyOf(long), Thread: 8, Count: 2})
	return hub, camFlange
}
