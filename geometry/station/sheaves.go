package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// sheaveBody is a sheave about its own z.
func sheaveBody(c *cable.Values) solid.Turned {
	rim, root := sheaveRim(c), c.Radius-c.Diameter/2
	w, g, bottom := sheaveAcross(c.Diameter)/2, grooveHalf(c.Diameter), 0.55*c.Diameter
	return solid.Turned{
		Outline: []r2.Vec{{X: rim, Y: -w}, {X: rim, Y: -g}, {X: root, Y: -bottom}, {X: root, Y: bottom}, {X: rim, Y: g}, {X: rim, Y: w}},
		Bore:    axle,
	}
}

// axleBolt is a hexagon bolt with its nut, round over the flats, about its own z with
// the middle of what it holds at 0.
func axleBolt(grip float64) solid.Turned {
	h := grip / 2
	return solid.Turned{Outline: []r2.Vec{
		{X: axleFlats / 2, Y: -h - axleHead}, {X: axleFlats / 2, Y: -h}, {X: axle / 2, Y: -h},
		{X: axle / 2, Y: h}, {X: axleFlats / 2, Y: h}, {X: axleFlats / 2, Y: h + axleNut},
	}}
}

// forkProfile is the U across the strip: x along the axle, y from the axle toward the
// bridge.
func (b *builder) forkProfile(c *cable.Values) *solid.Profile {
	in, bridge := forkGap(c)/2, sheaveRim(c)+forkRim
	return b.profile(shape{forkShape, [16]float64{in, bridge}}, func() *solid.Profile {
		const open = -forkWide / 2
		out, end := in+forkThick, bridge+forkThick
		return solid.NewProfile(contour.Polygon(
			r2.Vec{X: -out, Y: open}, r2.Vec{X: -in, Y: open}, r2.Vec{X: -in, Y: bridge}, r2.Vec{X: in, Y: bridge},
			r2.Vec{X: in, Y: open}, r2.Vec{X: out, Y: open}, r2.Vec{X: out, Y: end}, r2.Vec{X: -out, Y: end}))
	})
}

// forkFrame is the frame of a fork: x along the axle, y toward the bridge.
func forkFrame(s *cable.Sheave) solid.Placement {
	return solid.Placement{Origin: s.Centre, X: s.Axis, Y: s.Fork, Z: r3.Cross(s.Axis, s.Fork)}
}

// sheaveIDs are the ids of one sheave's parts.
type sheaveIDs struct{ sheave, fork, axle, stem, foot string }

var (
	guideIDs    = sheaveIDs{"sheave-guide", "sheave-guide-fork", "sheave-guide-axle", "", ""}
	railIDs     = sheaveIDs{"sheave-rail", "sheave-rail-fork", "sheave-rail-axle", "sheave-rail-stem", "sheave-rail-foot"}
	footIDs     = sheaveIDs{"sheave-tower", "sheave-tower-fork", "sheave-tower-axle", "sheave-tower-stem", "sheave-tower-foot"}
	outerIDs    = sheaveIDs{"sheave-outer", "sheave-outer-fork", "sheave-outer-axle", "sheave-outer-stem", ""}
	innerIDs    = sheaveIDs{"sheave-inner", "sheave-inner-fork", "sheave-inner-axle", "sheave-inner-stem", ""}
	floatingIDs = sheaveIDs{"sheave-floating", "sheave-floating-fork", "sheave-floating-axle", "", ""}
)

// sheave adds a sheave with axle and fork and returns the fork. The strip of the fork
// reaches from and to along the frame's z.
func (b *builder) sheave(add adder, id *sheaveIDs, s *cable.Sheave, group int, from, to float64, bores ...solid.Bore) assembly.Both {
	c, frame := &b.v.Tower.Cable, forkFrame(s)
	gap := forkGap(c)
	long := 2*(forkReach(c)+forkWide/2-forkThick) + gap + 2*forkThick
	item := "sheave-fork"
	if len(bores) > 0 {
		item = "guide-fork"
	}
	var traits assembly.Traits
	if s.Floating {
		traits = assembly.Rises
	}
	fork := add(assembly.Part{
		ID: id.fork, Item: item, Title: "Sheave fork", Stock: b.plateStock(long, to-from, forkThick),
		Solid: solid.Prism{
			Profile: b.forkProfile(c), From: solid.Flat(from), To: solid.Flat(to),
			Bores: append([]solid.Bore{{Dir: r3.Vec{X: 1}, Diameter: axle}}, bores...),
		},
		Place: frame, Group: group, Density: steelDensity, Traits: traits,
	})
	turn := solid.Placement{Origin: frame.Origin, X: frame.Y, Y: frame.Z, Z: frame.X}
	sheave := add(assembly.Part{
		ID: id.sheave, Item: "sheave", Title: "Sheave",
		Stock: assembly.Stock{Form: assembly.Round, Grade: "aluminium", Size: [3]float64{2 * sheaveRim(c), axle}, Length: sheaveAcross(c.Diameter)},
		Solid: sheaveBody(c), Place: turn, Group: group, Density: alloyDensity, Traits: traits | assembly.Turns,
	})
	grip := gap + 2*forkThick
	bolt := axleBolt(grip)
	pin := add(assembly.Part{
		ID: id.axle, Item: "sheave-axle", Title: "Sheave axle", Stock: assembly.Stock{Form: assembly.Bought, Name: "bolt M12 with nut", Size: [3]float64{axle}, Length: grip + axleNut},
		Solid: bolt, Place: turn, Group: group, Mass: steelDensity * bolt.Volume(), Traits: traits | assembly.Fastener,
	})
	b.join(assembly.Fit, sheave, pin, frame.Origin, assembly.Detail{Diameter: axle, Class: "F8/h8"})
	b.join(assembly.Fit, pin, fork, frame.Point(r3.Vec{X: grip/2 - forkThick/2}), assembly.Detail{Diameter: axle, Thread: axle, Count: 1})
	return fork
}

// bridgeOf is the middle of the outer face of a fork's bridge.
func bridgeOf(s *cable.Sheave, c *cable.Values) r3.Vec {
	return r3.Add(s.Centre, r3.Scale(forkReach(c), s.Fork))
}

// stem adds the round stem between a fork's bridge and what carries it.
func (b *builder) stem(id, item string, s *cable.Sheave, fork, on assembly.Both, length float64) {
	from := bridgeOf(s, &b.v.Tower.Cable)
	to := r3.Add(from, r3.Scale(length, s.Fork))
	stem := b.Pair(assembly.Part{
		ID: id, Item: item, Title: "Sheave stem",
		Stock: assembly.Stock{Form: assembly.Round, Grade: b.v.Member.Grade, Size: [3]float64{stemAcross}, Length: length},
		Solid: solid.Round(stemAcross, length), Place: solid.Along(from, to, s.Axis), Group: b.frame, Density: steelDensity,
	})
	round := assembly.Detail{Throat: tubeWeld, Run: math.Pi * stemAcross}
	b.join(assembly.Weld, fork, stem, from, round)
	b.join(assembly.Weld, stem, on, to, round)
}

// sheaves adds the sheaves of the cable's way with all that carries them.
func (b *builder) sheaves() {
	v := b.v
	if !v.HasStack() || !b.routed {
		return
	}
	c, t, r := &v.Tower.Cable, &b.towerPlan, &b.route
	guide, rail, foot, outer, inner := &r.Sheaves[0], &r.Sheaves[1], &r.Sheaves[2], &r.Sheaves[3], &r.Sheaves[4]
	base := b.railFoot(&railIDs, rail, true)
	b.railFoot(&footIDs, foot, false)
	b.guideSheave(guide, base)
	under := t.Tall - v.Member.Height
	for _, s := range []struct {
		id *sheaveIDs
		*cable.Sheave
	}{{&outerIDs, outer}, {&innerIDs, inner}} {
		fork := b.sheave(b.Pair, s.id, s.Sheave, b.frame, -forkWide/2, forkWide/2)
		b.stem(s.id.stem, "sheave-stem-high", s.Sheave, fork, assembly.One(b.towerTop), under-bridgeOf(s.Sheave, c).Z)
	}
	if !v.Tower.Pair {
		floating := &r.Sheaves[5]
		fork := b.sheave(b.one, &floatingIDs, floating, b.stackGroup, -forkWide/2, forkWide/2)
		b.join(assembly.Weld, fork, b.stackHead, bridgeOf(floating, c), assembly.Detail{Throat: tubeWeld, Run: 2 * forkWide})
	}

	b.FlexPair(assembly.Flexible{
		ID: "cable", Title: "Cable", Stock: assembly.Stock{Form: assembly.Bought, Name: c.Name, Size: [3]float64{c.Diameter}, Length: r.Length},
		Path: r.Path(make([]r3.Vec, 0, 64)), Mass: r.Length / 1000 * c.PerMetre,
	})
}

// railFoot adds a sheave that stands on the rail: a plate on the rail's top, that
// reaches out under it, and a stem. The plate of the sheave by the guide's post
// carries that as well.
func (b *builder) railFoot(id *sheaveIDs, s *cable.Sheave, post bool) assembly.Both {
	v, c := b.v, &b.v.Tower.Cable
	bridge := bridgeOf(s, c)
	low, high := bridge.X-forkWide/2-plateLedge, bridge.X+forkWide/2+plateLedge
	if post {
		low, high = guidePlate(v, s.In.X, math.Copysign(1, bridge.X-s.In.X))
	}
	inner, outer := b.postY+v.Member.Width/2-5, s.Centre.Y-stemAcross/2-10
	w, h := high-low, inner-outer
	at := r3.Vec{X: (low + high) / 2, Y: (inner + outer) / 2, Z: b.baseTop}
	plate := b.Pair(assembly.Part{
		ID: id.foot, Title: "Sheave foot plate", Stock: b.plateStock(h, w, sheaveFoot),
		Solid: solid.Straight(b.rect(w, h, 0), sheaveFoot), Place: solid.Shift(at), Group: b.frame, Density: steelDensity,
	})
	on := r3.Vec{X: at.X, Y: b.postY, Z: b.baseTop}
	b.join(assembly.Weld, plate, b.rails, on, assembly.Detail{Throat: tubeWeld, Run: 2 * w})
	fork := b.sheave(b.Pair, id, s, b.frame, -forkWide/2, forkWide/2)
	b.stem(id.stem, "sheave-stem-low", s, fork, plate, bridge.Z-b.baseTop-sheaveFoot)
	return plate
}
