package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of what carries the guide sheave, mm (own choices): a plate that hangs on the
// outer edge of the swivel sole, past the index plate, and a pin on it that reaches out
// to the plane of the cam.
const (
	hangerThick = 12.0
	hangerWide  = 90.0 // along the sole's edge
	hangerBoss  = 32.0 // radius round the pin
	hangerWeld  = 5.0  // throat of the fillets on the sole's edge and round the pin
	guidePin    = 30.0 // diameter, turned down to the sheave's bore
	pinWasher   = 2.0  // of the nut on its end
)

// HangerIn is the inner face of the guide sheave's hanger along the axis: outside the
// index plate.
func (p *Planes) HangerIn() float64 { return p.RingOut + layerClear }

// inSwivel is a place of the plane across the middle axis position, forward and up from
// the pivot, in (down, normal).
func (b *builder) inSwivel(x, y float64) r2.Vec {
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(b.axis.X, b.axis)))
	at := r3.Add(r3.Scale(x, forward), r3.Scale(y, r3.Cross(b.axis, forward)))
	return r2.Vec{X: r3.Dot(at, b.down), Y: r3.Dot(at, b.normal)}
}

// guidePlace is the middle of the guide sheave in (down, normal).
func (b *builder) guidePlace() r2.Vec {
	g := &b.v.Tower.Cable.Guide
	return r2.Add(b.second, b.inSwivel(g.X, g.Y))
}

// hangerAt is the middle of the hanger along the sole's edge, down the pad.
func (b *builder) hangerAt() float64 {
	foot := b.footHalf()
	return max(-foot, min(foot, b.guidePlace().X))
}

// hangerTab are the corners of the sole where the hanger is welded on, in (down,
// outward).
func (b *builder) hangerTab() [2]contour.Disk {
	const r = 5.0
	x, w := b.hangerAt(), b.planes.HangerIn()
	return [2]contour.Disk{{At: r2.Vec{X: x - hangerWide/2 + r, Y: w - r}, Radius: r}, {At: r2.Vec{X: x + hangerWide/2 - r, Y: w - r}, Radius: r}}
}

// guideSheave adds the guide sheave with its hanger.
func (b *builder) guideSheave() {
	c, p, group := &b.v.Tower.Cable, &b.planes, b.swivels[0]
	at, x, inner := b.guidePlace(), b.hangerAt(), p.HangerIn()
	top := -b.carry + indexThick + soleThick
	key := shape{hangerShape, [16]float64{at.X - x, at.Y, top}}
	profile, size := b.blank(key, func() *solid.Profile {
		corner := func(dx, dy float64) contour.Disk { return contour.Disk{At: r2.Vec{X: dx, Y: dy}} }
		return solid.NewProfile(contour.Around(
			corner(-hangerWide/2, top), corner(hangerWide/2, top), corner(-hangerWide/2, top-soleThick), corner(hangerWide/2, top-soleThick),
			contour.Disk{At: r2.Vec{X: at.X - x, Y: at.Y}, Radius: hangerBoss}))
	})
	place := b.across(inner)
	place.Origin = b.atAxis(x, 0, inner)
	hanger := b.Pair(assembly.Part{
		ID: "guide-hanger", Title: "Guide sheave's hanger", Group: group, Stock: b.plateStock(size.Y, size.X, hangerThick),
		Solid: prism(profile, 0, hangerThick), Place: place, Density: steelDensity, Traits: assembly.Swivels,
	})
	b.join(assembly.Weld, hanger, b.sole, b.atAxis(x, top-soleThick/2, inner), assembly.Detail{Throat: hangerWeld, Run: 2 * hangerWide})

	// The pin's own zero is the middle of the sheave.
	half := sheaveAcross(c.Diameter)/2 + sheavePlay
	root, end := inner+hangerThick-p.Cam, half+pinWasher+axleNut
	b.need("guide-outside-hanger", -root-half-layerClear)
	root = min(root, -half-1)
	middle := b.across(p.Cam)
	middle.Origin = b.atAxis(at.X, at.Y, p.Cam)
	pin := b.Pair(assembly.Part{
		ID: "guide-pin", Title: "Guide sheave's pin", Group: group,
		Stock:   assembly.Stock{Form: assembly.Round, Grade: b.v.Member.Grade, Size: [3]float64{guidePin}, Length: end - root},
		Solid:   solid.Turned{Outline: []r2.Vec{{X: guidePin / 2, Y: root}, {X: guidePin / 2, Y: -half}, {X: axle / 2, Y: -half}, {X: axle / 2, Y: end}}},
		Place:   middle,
		Density: steelDensity, Traits: assembly.Swivels,
	})
	b.join(assembly.Weld, pin, hanger, b.atAxis(at.X, at.Y, inner+hangerThick), assembly.Detail{Throat: hangerWeld, Run: math.Pi * guidePin})
	sheave := b.wheel("sheave-guide", middle, group, assembly.Swivels)
	b.join(assembly.Fit, sheave, pin, middle.Origin, assembly.Detail{Diameter: axle, Class: "F8/h8"})
	nut := solid.Turned{Outline: []r2.Vec{{X: axleFlats / 2, Y: half}, {X: axleFlats / 2, Y: end}}, Bore: axle}
	lock := b.Pair(assembly.Part{
		ID: "guide-nut", Title: "Lock nut of the guide sheave", Group: group,
		Stock: assembly.Stock{Form: assembly.Bought, Name: "lock nut M12 with washer", Size: [3]float64{axle}},
		Solid: nut, Place: middle, Mass: steelDensity * nut.Volume(), Traits: assembly.Swivels | assembly.Fastener,
	})
	b.join(assembly.Fit, lock, pin, middle.Point(r3.Vec{Z: half + axleNut/2}), assembly.Detail{Diameter: axle, Thread: axle, Count: 1})

	b.need("guide-below-sole", top-soleThick-at.Y-hangerBoss)
	if b.v.Geared() {
		b.need("hanger-clear-of-wheel", -top-b.v.Cam.ArmWheel/2-b.v.Cam.Tip-layerClear/2)
	}
}
