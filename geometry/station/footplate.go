package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the foot plate, mm (own choices).
const (
	treadThick   = 6.0
	treadWide    = 500.0
	treadSleeve  = 120.0 // of the sleeves on the guides
	treadClear   = 5.0   // from the lowest bearer to the base
	treadOver    = 10.0  // of the guides above the highest sleeve
	treadPinDrop = 25.0  // of the pin below the sleeve's end
)

// LeastFootPlate is the least height, mm, of the top of a foot plate whose bearer
// passes over the base.
func LeastFootPlate(member, guide *values.Section) float64 {
	return footRise + member.Height + treadClear + guide.Height + treadThick
}

// footPlate adds the foot plate: a tread on a bearer between two sleeves that slide on
// drilled guides, one on each rail, outside shanks and feet.
func (b *builder) footPlate() {
	v, f := b.v, &b.v.FootPlate
	if f.Positions < 1 {
		return
	}
	guide, sleeve := &v.Arm, &v.Slide
	travel := float64(f.Positions-1) * f.Pitch
	low := f.Lowest - treadThick - guide.Height // underside of the bearer
	b.need("foot-plate-over-base", low-b.baseTop-treadClear)
	b.need("foot-plate-on-rails", min(f.X-guide.Height/2-v.Base.Rear, v.Base.Front-f.X-guide.Height/2)-footIn)
	room := max(b.postX-f.X, f.X-b.postX) - v.Member.Height/2 - sleeve.Height/2 - sheaveGap
	b.need("foot-plate-clear-of-posts", room)
	if v.HasStack() {
		b.need("foot-plate-clear-of-stack", max(v.Base.Tower-f.X, f.X-v.Base.Tower)-f.Depth/2-towerDeep(v)-sheaveGap)
	}
	low = max(low, b.baseTop+treadClear)
	group := b.Group("foot-plate", b.frame, &assembly.Steps{Setting: assembly.Foot, Step: r3.Vec{Z: f.Pitch}})

	at := func(z float64) r3.Vec { return r3.Vec{X: f.X, Y: b.postY, Z: z} }
	stand := func(z float64) solid.Placement { return solid.Along(at(z), at(z+1), r3.Vec{X: 1}) }
	high := low + treadSleeve + travel + treadOver - b.baseTop
	d := assembly.NewDetents(f.Pitch, f.Positions, seatPin)
	// The sleeve climbs: the guide's holes are above the lowest one, as the sleeve's
	// are above its first.
	spread := d.Outer(d.Every - 1)
	b.need("foot-plate-detents", treadSleeve-treadPinDrop-pinEdge-spread)
	pinAt := low + max(pinEdge, treadSleeve-treadPinDrop-spread)
	fixed := prism(b.section(guide), 0, high)
	for _, up := range d.Inner() {
		if z := pinAt + up - b.baseTop; z < high-pinEdge {
			fixed.Bores = append(fixed.Bores, pinHole(z))
		}
	}
	guides := b.Pair(assembly.Part{
		ID: "foot-guide", Title: "Foot plate guide", Stock: tubeStock(guide, high), Group: b.frame,
		Solid: fixed, Place: stand(b.baseTop), Density: steelDensity,
	})
	b.join(assembly.Weld, guides, b.rails, at(b.baseTop), b.tubeWeld(guide))
	b.cap("foot-guide-cap", "foot-guide-cap", guide, stand(b.baseTop+high), guides, b.frame)

	moving := prism(b.section(sleeve), 0, treadSleeve)
	for i := range d.Every {
		if z := pinAt + d.Outer(i) - low; z < treadSleeve-pinEdge {
			hole := pinHole(z) // in the outer wall alone: the bearer is on the inner one
			hole.Dir.X, hole.Depth = -1, sleeve.Wall+1
			moving.Bores = append(moving.Bores, hole)
		}
	}
	sleeves := b.Pair(assembly.Part{
		ID: "foot-sleeve", Title: "Foot plate sleeve", Stock: tubeStock(sleeve, treadSleeve), Group: group,
		Solid: moving, Place: stand(low), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.join(assembly.Slide, sleeves, guides, at(low+treadSleeve/2), assembly.Detail{Diameter: seatPin, Pitch: f.Pitch, Steps: f.Positions, Thread: 16})
	inside := sleeve.Width/2 - sleeve.Wall - 0.5
	tip := at(pinAt)
	tip.Y += inside
	held := group
	if motion := d.PinMotion(assembly.Foot, r3.Vec{Z: 1}); motion != nil {
		held = b.GroupPair("foot-pin", assembly.One(group), motion)[0]
	}
	b.slidePin(b.Pair, slidePin{
		id: "foot-pin", title: "Pull pin of the foot plate", group: held, tip: tip, long: inside + sleeve.Width/2 + 8,
		outer: sleeves, outerAt: r3.Vec{X: f.X, Y: b.postY - sleeve.Width/2 + sleeve.Wall/2, Z: pinAt}, inner: guides, innerAt: at(pinAt),
	})

	end := r3.Vec{X: f.X, Y: b.postY + sleeve.Width/2, Z: low + guide.Height/2}
	long := -2 * end.Y
	bearer := b.Add(assembly.Part{
		ID: "foot-bearer", Title: "Foot plate bearer", Stock: tubeStock(guide, long), Group: group,
		Solid: prism(b.section(guide), 0, long), Place: solid.Along(end, r3.Add(end, r3.Vec{Y: 1}), r3.Vec{Z: 1}), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.join(assembly.Weld, sleeves, assembly.One(bearer), end, b.tubeWeld(guide))
	wide := min(treadWide, long)
	top := r3.Vec{X: f.X, Z: low + guide.Height}
	tread := b.Add(assembly.Part{
		ID: "foot-tread", Title: "Foot plate", Stock: b.plateStock(wide, f.Depth, treadThick), Group: group,
		Solid: prism(b.rect(f.Depth, wide, treadCorner), 0, treadThick), Place: solid.Shift(top), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.Join(assembly.Weld, tread, bearer, top, assembly.Detail{Throat: tubeWeld, Run: wide})
}

const treadCorner = 20.0 // radius, mm
