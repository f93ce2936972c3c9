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
	stemAcross  = 20.0 // of the round stem
	sheaveFoot  = 12.0 // plate under a stem on a rail
	footStem    = 12.0 // stem between that plate and the fork
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
	b.route, b.routed = cable.Lead(&v.Tower.Cable, b.camPlanes(), b.middle, levels(0))
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

// routeNeeds tells what the cable's way asks of the places of cam, post and tower.
func (b *builder) routeNeeds(r *cable.Route) {
	v, c := b.v, &b.v.Tower.Cable
	side, post := forkSide(c), -b.postY
	out := -r.Hang.Y
	b.need("guide-wrap", c.Radius*(r.Wrap-leastWrap))
	b.need("guide-outboard", out-hangOut(v)-(post+v.Arm.Width/2))
	b.need("run-clear", out-side-sheaveGap/2-(post+v.Member.Width/2))
	ends := []float64{r.Hang.X, v.Base.Tower}
	reach := c.Radius + forkWide/2 + sheaveGap
	b.need("rail-under-sheaves", min(min(ends[0], ends[1])-reach-v.Base.Rear, v.Base.Front-max(ends[0], ends[1])-reach))
	b.need("tower-clear-of-guide", math.Abs(r.Hang.X-v.Base.Tower)-2*(c.Radius+sheaveRim(c))-sheaveGap)
	ahead := math.Copysign(1, v.Base.Tower-r.Hang.X)
	low, high := guidePlate(v, r.Hang.X, ahead)
	b.need("guide-clear-of-post", max(low-b.postX, b.postX-high)-v.Member.Height/2-sheaveGap/2)
	h := &v.Handle
	arm := h.Least + float64(h.Positions-1)*h.Pitch + slideLong/2 + slidePast + capThick
	if v.Base.Tower > 0 { // the arms point level and forward once in their range
		b.need("tower-clear-of-arms", v.Base.Tower-b.towerDeep()-arm-sheaveGap)
	}
	b.need("tower-clear-of-post", math.Abs(b.postX-v.Base.Tower)-v.Member.Height-sheaveGap)
	b.need("tower-between-rails", post-v.Member.Width/2-(b.towerPlan.Upright+v.Member.Width/2))
	b.need("outer-sheave-clear", out-c.Radius-sheaveRim(c)-sheaveGap/2-(b.towerPlan.Upright+v.Member.Width/2))
	b.need("guide-height", r.Hang.Z-forkReach(c)-bushFlange-hangLong-hangCollar-hangEnd-(b.runLevel()+c.Radius+sheaveRim(c)+sheaveGap))
}

const leastWrap = 15 * math.Pi / 180 // round the guide sheave: the cable stays in its groove; judgement

// hangOut is half the guide sheave's swivel tube with the least stub to its post.
func hangOut(v *Values) float64 { return v.Arm.Width/2 + leastStub }

const leastStub = 8.0 // mm, for the weld

// guidePlate are the ends along x of the plate on the rail under the guide sheave's
// post and the sheave below, for a cable that leads ahead (1) or to the rear (-1).
func guidePlate(v *Values, x, ahead float64) (low, high float64) {
	near, far := v.Arm.Height/2+plateLedge, v.Tower.Cable.Radius+forkWide/2+plateLedge
	if ahead > 0 {
		return x - near, x + far
	}
	return x - far, x + near
}

const plateLedge = 5.0 // of a plate beyond what is welded on it, mm

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

	// Post and stub.
	foot, top := b.baseTop+sheaveFoot, mid.Z+tube.Height/2
	place := func(z float64) r3.Vec { return r3.Vec{X: r.Hang.X, Y: b.postY, Z: z} }
	post := b.Pair(assembly.Part{
		ID: "guide-post", Title: "Guide sheave's post", Stock: tubeStock(tube, top-foot),
		Solid: solid.Straight(b.section(tube), top-foot), Place: solid.Along(place(foot), place(top), r3.Vec{X: 1}), Group: b.frame, Density: steelDensity,
	})
	b.join(assembly.Weld, post, base, place(foot), b.tubeWeld(tube))
	from3 := place(mid.Z)
	from3.Y -= tube.Width / 2
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

const plasticDensity = 1.41e-6 // acetal, judgement
