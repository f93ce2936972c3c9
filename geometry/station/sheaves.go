package station

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the sheaves and their forks, mm (own choices). A fork is a strip of flat
// bar bent to a U; its open end points away from what carries it.
const (
	sheaveLeast = 16.0 // width of a sheave
	sheavePlay  = 1.0  // between its side and the fork
	axle        = 12.0 // bolt M12
	axleFlats   = 18.0 // across the flats of its head and nut (ISO 4014)
	axleHead    = 7.5  // its thickness (ISO 4014)
	axleNut     = 10.8 // ISO 4032
	forkThick   = 6.0
	forkWide    = 40.0
	forkRim     = 5.0  // between the sheave's rim and the bridge
	stemAcross  = 25.0 // of the round stem
	stemLong    = 60.0 // of the longest one under a fork; what stands higher stands on a tube
	sheaveFoot  = 12.0 // plate under a stem on a rail
	footStem    = 12.0 // stem between that plate and the fork
)

// sheaveRim is the outer radius of a sheave: its groove is 1.5 cables deep (see
// cam.NewGroove), half a cable below the cable's centre.
func sheaveRim(c *cable.Values) float64 { return c.Radius + c.Diameter }

// grooveHalf is half the width of a groove of 45 degrees at the rim.
func grooveHalf(cable float64) float64 { return (0.55 + 1.5*(math.Sqrt2-1)) * cable }

// sheaveAcross is the width of a sheave: its groove with walls of 2 mm.
func sheaveAcross(cable float64) float64 { return max(sheaveLeast, 2*(grooveHalf(cable)+2)) }

// forkGap is the width between a fork's cheeks.
func forkGap(c *cable.Values) float64 { return sheaveAcross(c.Diameter) + 2*sheavePlay }

// forkReach is from the axle to the outer face of the bridge.
func forkReach(c *cable.Values) float64 { return sheaveRim(c) + forkRim + forkThick }

// forkSide is half the width over a fork, the axle's nut counted.
func forkSide(c *cable.Values) float64 { return forkGap(c)/2 + forkThick + axleNut }

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

// adder adds a part in the middle, or a pair.
type adder func(assembly.Part) assembly.Both

func (b *builder) one(p assembly.Part) assembly.Both { return assembly.One(b.Add(p)) }

// join joins parts of a pair, or in the middle, or one in the middle with both of a
// pair.
func (b *builder) join(kind assembly.JointKind, p, q assembly.Both, at r3.Vec, d assembly.Detail) {
	if p[0] == p[1] && q[0] == q[1] {
		b.Join(kind, p[0], q[0], at, d)
		return
	}
	b.JoinPair(kind, p, q, at, d)
}

// forkFrame is the frame of a fork: x along the axle, y toward the bridge.
func forkFrame(s *cable.Sheave) solid.Placement {
	return solid.Placement{Origin: s.Centre, X: s.Axis, Y: s.Fork, Z: r3.Cross(s.Axis, s.Fork)}
}

// sheaveIDs are the ids of one sheave's parts.
type sheaveIDs struct{ sheave, fork, axle, stem, foot string }

var (
	railIDs     = sheaveIDs{"sheave-rail", "sheave-rail-fork", "sheave-rail-axle", "sheave-rail-stem", "sheave-rail-foot"}
	footIDs     = sheaveIDs{"sheave-tower", "sheave-tower-fork", "sheave-tower-axle", "sheave-tower-stem", "sheave-tower-foot"}
	outerIDs    = sheaveIDs{"sheave-outer", "sheave-outer-fork", "sheave-outer-axle", "sheave-outer-stem", ""}
	innerIDs    = sheaveIDs{"sheave-inner", "sheave-inner-fork", "sheave-inner-axle", "sheave-inner-stem", ""}
	floatingIDs = sheaveIDs{"sheave-floating", "sheave-floating-fork", "sheave-floating-axle", "", ""}
)

// wheel adds the turning part of a sheave, a pair, about its place's own z.
func (b *builder) wheel(id string, at solid.Placement, group int, traits assembly.Traits) assembly.Both {
	return b.Pair(b.wheelPart(id, at, group, traits))
}

func (b *builder) wheelPart(id string, at solid.Placement, group int, traits assembly.Traits) assembly.Part {
	c := &b.v.Tower.Cable
	return assembly.Part{
		ID: id, Item: "sheave", Title: "Sheave",
		Stock: assembly.Stock{Form: assembly.Round, Grade: "aluminium", Size: [3]float64{2 * sheaveRim(c), axle}, Length: sheaveAcross(c.Diameter)},
		Solid: sheaveBody(c), Place: at, Group: group, Density: alloyDensity, Traits: traits | assembly.Turns,
	}
}

// sheave adds a sheave with axle and fork and returns the fork.
func (b *builder) sheave(add adder, id *sheaveIDs, s *cable.Sheave, group int) assembly.Both {
	c, frame := &b.v.Tower.Cable, forkFrame(s)
	gap := forkGap(c)
	long := 2*(forkReach(c)+forkWide/2-forkThick) + gap + 2*forkThick
	var traits assembly.Traits
	if s.Floating {
		traits = assembly.Rises
	}
	fork := add(assembly.Part{
		ID: id.fork, Item: "sheave-fork", Title: "Sheave fork", Stock: b.plateStock(long, forkWide, forkThick),
		Solid: solid.Prism{
			Profile: b.forkProfile(c), From: solid.Flat(-forkWide / 2), To: solid.Flat(forkWide / 2),
			Bores: []solid.Bore{{Dir: r3.Vec{X: 1}, Diameter: axle}},
		},
		Place: frame, Group: group, Density: steelDensity, Traits: traits,
	})
	turn := solid.Placement{Origin: frame.Origin, X: frame.Y, Y: frame.Z, Z: frame.X}
	sheave := add(b.wheelPart(id.sheave, turn, group, traits))
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

// sheavePost carries a fork that stands high above what carries it: a tube with a cap
// plate.
func (b *builder) sheavePost(s *cable.Sheave, fork, on assembly.Both, length float64) {
	m, from := &b.v.Member, bridgeOf(s, &b.v.Tower.Cable)
	foot := r3.Vec{X: from.X, Y: from.Y, Z: from.Z - length}
	long := length - capPlate
	place := solid.Along(foot, from, r3.Vec{X: 1})
	post := b.Pair(assembly.Part{
		ID: "sheave-post", Title: "Sheave post", Stock: tubeStock(m, long), Group: b.frame,
		Solid: prism(b.section(m), 0, long), Place: place, Density: steelDensity,
	})
	cap := b.Pair(assembly.Part{
		ID: "sheave-post-cap", Title: "Cap plate of a sheave post", Stock: b.plateStock(m.Height, m.Width, capPlate), Group: b.frame,
		Solid: prism(b.rect(m.Width, m.Height, 0), long, length), Place: place, Density: steelDensity,
	})
	b.join(assembly.Weld, post, on, foot, b.tubeWeld(m))
	b.join(assembly.Weld, cap, post, place.Point(r3.Vec{Z: long}), b.tubeWeld(m))
	b.join(assembly.Weld, fork, cap, from, assembly.Detail{Throat: tubeWeld, Run: 4 * forkWide})
}

// runLevel is the height of the cable along the rail: what a sheave there needs above
// it.
func (b *builder) runLevel() float64 {
	c := &b.v.Tower.Cable
	return b.baseTop + sheaveFoot + footStem + forkReach(c) - c.Radius
}

// camPlane is the plane of the cam in the middle axis position: origin on its axis, own
// x forward, y up.
func (b *builder) camPlane() solid.Placement {
	p := b.forwardPlane(b.planes.Cam)
	p.Origin = b.atAxis(b.second.X, b.second.Y, b.planes.Cam)
	return p
}

// camPlanes are those planes in every axis position.
func (b *builder) camPlanes() []solid.Placement {
	middle := b.camPlane()
	places := b.Groups[b.swivels[0]].Motion.(*assembly.Positions).Places
	out := make([]solid.Placement, len(places))
	for i := range places {
		out[i] = places[i].Then(middle)
	}
	return out
}

// planTower lays out the tower and leads the cable to it.
func (b *builder) planTower() {
	v := b.v
	levels := func(set float64) cable.Levels {
		b.towerPlan = NewTower(&v.Tower, b.baseTop, v.Member.Height, set)
		t := &b.towerPlan
		return cable.Levels{Run: b.runLevel(), Rise: v.Base.Tower, Over: t.Over, Down: t.Down, Rest: t.Rest, Pair: v.Tower.Pair}
	}
	b.route, b.routed = cable.Lead(&v.Tower.Cable, b.camPlanes(), b.middle, b.normal, levels(0))
	if !b.routed {
		b.need("cable-leads-down", -v.Tower.Cable.Radius)
		return
	}
	// What the axis takes of the cable as it is set does not depend on the tower.
	if tight := slices.Min(b.route.Slack); tight < 0 {
		b.route.Onto(levels(-tight))
	}
	b.routeNeeds(&b.route)
}

// sheaves adds the sheaves of the cable's way with all that carries them.
func (b *builder) sheaves() {
	v := b.v
	if !v.HasStack() || !b.routed {
		return
	}
	c, t, r := &v.Tower.Cable, &b.towerPlan, &b.route
	b.guideSheave()
	low, high := r.Sheaves[1:3], r.Sheaves[3:]
	if r.AtTower {
		low, high = r.Sheaves[1:2], r.Sheaves[2:]
	}
	for i, id := range [2]*sheaveIDs{&railIDs, &footIDs} {
		if i < len(low) {
			b.railFoot(id, &low[i])
		}
	}
	outer, inner := &high[0], &high[1]
	under := t.Tall - v.Member.Height
	for _, s := range []struct {
		id *sheaveIDs
		*cable.Sheave
	}{{&outerIDs, outer}, {&innerIDs, inner}} {
		fork := b.sheave(b.Pair, s.id, s.Sheave, b.frame)
		b.stem(s.id.stem, "sheave-stem-high", s.Sheave, fork, assembly.One(b.towerTop), under-bridgeOf(s.Sheave, c).Z)
	}
	if !v.Tower.Pair {
		floating := &high[2]
		fork := b.sheave(b.one, &floatingIDs, floating, b.stackGroup)
		b.join(assembly.Weld, fork, b.stackHead, bridgeOf(floating, c), assembly.Detail{Throat: tubeWeld, Run: 2 * forkWide})
	}

	b.FlexPair(assembly.Flexible{
		ID: "cable", Title: "Cable", Stock: assembly.Stock{Form: assembly.Bought, Name: c.Name, Size: [3]float64{c.Diameter}, Length: r.Length},
		Path: r.Path(make([]r3.Vec, 0, 64)), Mass: r.Length / 1000 * c.PerMetre,
	})
}

// routeNeeds tells what the cable's way asks of the places of cam, post and tower.
func (b *builder) routeNeeds(r *cable.Route) {
	v, c := b.v, &b.v.Tower.Cable
	next := r.Sheaves[1].Centre
	side, post, out := forkSide(c), -b.postY, -next.Y
	b.need("guide-wrap", c.Radius*(r.Wrap-leastWrap))
	b.need("guide-span", r.Span-leastSpan)
	// How much farther aside the guide sheave might swing: what the cable grows by is the
	// square of its way aside over twice the span.
	aside := func(slack float64) float64 { return math.Sqrt(2 * max(0, r.Span) * math.Abs(slack)) }
	b.need("cable-even-first", aside(2*cableEven)-aside(r.Slack[0]))
	b.need("cable-even-last", aside(2*cableEven)-aside(r.Slack[len(r.Slack)-1]))
	b.need("run-clear", out-side-sheaveGap/2-(post+v.Member.Width/2))
	rear, front := v.Base.Tower, v.Base.Tower
	if !r.AtTower {
		rear, front = min(rear, next.X), max(front, next.X)
		b.need("tower-clear-of-rail-sheave", math.Abs(next.X-v.Base.Tower)-c.Radius-2*sheaveRim(c)-sheaveGap)
		b.need("rail-sheave-clear-of-post", math.Abs(next.X-b.postX)-v.Member.Height/2-sheaveRim(c)-sheaveGap)
	} else {
		b.need("tower-sheave-over-rail", next.Z-c.Radius-b.runLevel())
		b.need("tower-sheave-under-top", r.Sheaves[2].Centre.Z-next.Z-2*sheaveRim(c)-forkWide/2-sheaveGap)
	}
	reach := c.Radius + forkWide/2 + sheaveGap
	b.need("rail-under-rear-sheave", rear-reach-v.Base.Rear) // two, since a search may be at both limits
	b.need("rail-under-front-sheave", v.Base.Front-front-reach)
	h := &v.Handle
	arm := h.Least + float64(h.Positions-1)*h.Pitch + slideLong/2 + slidePast + capThick
	if v.Base.Tower > 0 { // the arms point level and forward once in their range
		b.need("tower-clear-of-arms", v.Base.Tower-b.towerDeep()-arm-sheaveGap)
	}
	b.need("tower-clear-of-post", math.Abs(b.postX-v.Base.Tower)-v.Member.Height-sheaveGap)
	b.need("tower-between-rails", post-v.Member.Width/2-(b.towerPlan.Upright+v.Member.Width/2))
	b.need("outer-sheave-clear", out-c.Radius-sheaveRim(c)-sheaveGap/2-(b.towerPlan.Upright+v.Member.Width/2))
}

const (
	leastWrap = 15 * math.Pi / 180 // round the guide sheave: the cable stays in its groove; judgement
	leastSpan = 150.0              // of free cable after it: its plane swings beside the next sheave's; judgement
	cableEven = 2.0                // by which the cable may be longer or shorter than in the middle of its positions: a degree of the arm; judgement
)

const plateLedge = 5.0 // of a plate beyond what is welded on it, mm

// railFoot adds a sheave that stands on the rail: a plate on the rail's top, that
// reaches out under it, and a stem.
func (b *builder) railFoot(id *sheaveIDs, s *cable.Sheave) {
	v, c := b.v, &b.v.Tower.Cable
	bridge := bridgeOf(s, c)
	long := footStem
	if b.route.AtTower {
		long = max(long, bridge.Z-b.baseTop-sheaveFoot)
	}
	half, high := stemAcross/2, long > stemLong
	if high {
		half = max(v.Member.Width, v.Member.Height) / 2
	}
	inner, outer := b.postY+v.Member.Width/2-5, s.Centre.Y-half-10
	w, h := max(forkWide, 2*half)+2*plateLedge, inner-outer
	at := r3.Vec{X: bridge.X, Y: (inner + outer) / 2, Z: b.baseTop}
	plate := b.Pair(assembly.Part{
		ID: id.foot, Title: "Sheave foot plate", Stock: b.plateStock(h, w, sheaveFoot),
		Solid: solid.Straight(b.rect(w, h, 0), sheaveFoot), Place: solid.Shift(at), Group: b.frame, Density: steelDensity,
	})
	on := r3.Vec{X: at.X, Y: b.postY, Z: b.baseTop}
	b.join(assembly.Weld, plate, b.rails, on, assembly.Detail{Throat: tubeWeld, Run: 2 * w})
	fork := b.sheave(b.Pair, id, s, b.frame)
	if high {
		b.sheavePost(s, fork, plate, long)
		return
	}
	b.stem(id.stem, "sheave-stem-low", s, fork, plate, long)
}
