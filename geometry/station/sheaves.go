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

// Sizes of the guide sheave's swivel, mm (own choices): a hollow stem about the
// cable that leaves the sheave turns in a bush in a tube on a post of its own.
const (
	hangStem   = 25.0 // outer diameter of the hollow stem
	hangBore   = 12.0 // round the cable
	hangLong   = 60.0 // of the tube and its bush
	bushFlange = 3.0
	hangCollar = 12.0 // collar under the tube
	hangEnd    = 1.0  // of the stem below the collar
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

// guideSheave adds the guide sheave on its swivel, on a post that stands on a plate.
func (b *builder) guideSheave(s *cable.Sheave, base assembly.Both) {
	v, c, r := b.v, &b.v.Tower.Cable, &b.route
	swing := &assembly.Positions{Setting: assembly.Axis, Places: make([]solid.Placement, len(r.Swing))}
	for i, angle := range r.Swing {
		swing.Places[i] = solid.Turn(r.Hang, r3.Vec{Z: 1}, angle)
	}
	group := b.GroupPair("guide", assembly.One(b.frame), swing)[0]

	// The strip reaches from past the axle to past the cable that leaves.
	frame := forkFrame(s)
	aside := r3.Dot(frame.Z, r3.Sub(r.Hang, s.Centre))
	from, to := -forkWide/2, forkWide/2
	if aside > 0 {
		to = aside + hangStem/2 + 5
	} else {
		from = aside - hangStem/2 - 5
	}
	eye := solid.Bore{At: r3.Vec{Y: forkReach(c), Z: aside}, Dir: r3.Vec{Y: 1}, Diameter: hangBore}
	fork := b.sheave(b.Pair, &guideIDs, s, group, from, to, eye)

	down := r3.Vec{Z: -1}
	at := func(z float64) r3.Vec { return r3.Vec{X: r.Hang.X, Y: r.Hang.Y, Z: r.Hang.Z - forkReach(c) - z} }
	below := func(z float64) solid.Placement { return solid.Along(at(z), r3.Add(at(z), down), r3.Vec{X: 1}) }
	const long = bushFlange + hangLong + hangCollar + hangEnd
	stem := b.Pair(assembly.Part{
		ID: "guide-stem", Title: "Guide sheave's hollow stem",
		Stock: assembly.Stock{Form: assembly.Round, Grade: v.Member.Grade, Size: [3]float64{hangStem, hangBore}, Length: long},
		Solid: solid.Tube(hangStem, hangBore, long), Place: below(0), Group: group, Density: steelDensity,
	})
	b.join(assembly.Weld, stem, fork, at(0), assembly.Detail{Throat: tubeWeld, Run: math.Pi * hangStem})

	tube, z := &v.Arm, bushFlange
	sleeve := b.Pair(assembly.Part{
		ID: "guide-sleeve", Title: "Guide sheave's swivel tube", Stock: tubeStock(tube, hangLong),
		Solid: solid.Straight(b.section(tube), hangLong), Place: below(z), Group: b.frame, Density: steelDensity,
	})
	inner := min(tube.Width, tube.Height) - 2*tube.Wall
	body := solid.Turned{
		Outline: []r2.Vec{{X: inner/2 + tube.Wall, Y: 0}, {X: inner/2 + tube.Wall, Y: bushFlange}, {X: inner / 2, Y: bushFlange}, {X: inner / 2, Y: bushFlange + hangLong}},
		Bore:    hangStem,
	}
	bush := b.Pair(assembly.Part{
		ID: "guide-bush", Title: "Guide sheave's bush",
		Stock: assembly.Stock{Form: assembly.Round, Grade: "acetal", Size: [3]float64{inner + 2*tube.Wall, hangStem}, Length: bushFlange + hangLong},
		Solid: body, Place: below(0), Group: b.frame, Density: plasticDensity,
	})
	mid := at(z + hangLong/2)
	b.join(assembly.Fit, bush, sleeve, mid, assembly.Detail{Diameter: inner})
	b.join(assembly.Fit, stem, bush, mid, assembly.Detail{Diameter: hangStem, Class: "F8/h9"})
	b.join(assembly.Passage, stem, sleeve, mid, assembly.Detail{})
	b.join(assembly.Rest, fork, bush, at(0), assembly.Detail{})
	collar := b.Pair(assembly.Part{
		ID: "guide-collar", Title: "Shaft collar", Stock: assembly.Stock{Form: assembly.Bought, Name: "shaft collar 25", Size: [3]float64{40, hangStem}, Length: hangCollar},
		Solid: solid.Tube(40, hangStem, hangCollar), Place: below(z + hangLong), Group: group, Mass: 0.07,
	})
	b.join(assembly.Fit, collar, stem, at(z+hangLong+hangCollar/2), assembly.Detail{Diameter: hangStem, Thread: 6})
	b.join(assembly.Rest, collar, sleeve, at(z+hangLong), assembly.Detail{})

	// Post and stub: the post is bent and twisted by the cable far above its foot, as the frame is.
	column := &v.Member
	foot, top := b.baseTop+sheaveFoot, mid.Z+tube.Height/2
	place := func(z float64) r3.Vec { return r3.Vec{X: r.Hang.X, Y: b.postY, Z: z} }
	post := b.Pair(assembly.Part{
		ID: "guide-post", Title: "Guide sheave's post", Stock: tubeStock(column, top-foot),
		Solid: solid.Straight(b.section(column), top-foot), Place: solid.Along(place(foot), place(top), r3.Vec{X: 1}), Group: b.frame, Density: steelDensity,
	})
	b.join(assembly.Weld, post, base, place(foot), b.tubeWeld(column))
	from3 := place(mid.Z)
	from3.Y -= column.Width / 2
	gap := from3.Y - (r.Hang.Y + tube.Width/2)
	length := max(gap, leastStub)
	stub := b.Pair(assembly.Part{
		ID: "guide-stub", Title: "Guide sheave's stub", Stock: tubeStock(tube, length),
		Solid: solid.Straight(b.section(tube), length),
		Place: solid.Placement{Origin: from3, X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}}, Group: b.frame, Density: steelDensity,
	})
	around := b.tubeWeld(tube)
	b.join(assembly.Weld, stub, post, from3, around)
	b.join(assembly.Weld, stub, sleeve, r3.Vec{X: from3.X, Y: from3.Y - length, Z: from3.Z}, around)
}
