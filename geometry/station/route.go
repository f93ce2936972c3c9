package station

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"
)

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

// laidPlane is the plane of the cam in which the cable is laid: that of the middle axis
// position, or half way between the two in the middle.
func (b *builder) laidPlane() solid.Placement {
	n := len(b.angles)
	if n%2 == 1 {
		return b.camPlane()
	}
	return solid.Turn(b.pivot, b.normal, (b.angles[b.middle]-b.angles[b.middle-1])/2).Then(b.camPlane())
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
	b.route, b.routed = cable.Lead(&v.Tower.Cable, b.camPlanes(), b.middle, b.laidPlane(), levels(0))
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

// routeNeeds tells what the cable's way asks of the places of cam, post and tower.
func (b *builder) routeNeeds(r *cable.Route) {
	v, c := b.v, &b.v.Tower.Cable
	side, post := forkSide(c), -b.postY
	out := -r.Hang.Y
	b.need("guide-wrap", c.Radius*(r.Wrap-leastWrap))
	b.need("guide-outboard", out-hangOut(v)-(post+v.Member.Width/2))
	b.need("run-clear", out-side-sheaveGap/2-(post+v.Member.Width/2))
	ends := []float64{r.Hang.X, v.Base.Tower}
	reach := c.Radius + forkWide/2 + sheaveGap
	b.need("rail-under-sheaves", min(min(ends[0], ends[1])-reach-v.Base.Rear, v.Base.Front-max(ends[0], ends[1])-reach))
	b.need("tower-clear-of-guide", math.Abs(r.Hang.X-v.Base.Tower)-2*(c.Radius+sheaveRim(c))-sheaveGap)
	ahead := math.Copysign(1, v.Base.Tower-r.Hang.X)
	low, high := guidePlate(v, r.Hang.X, ahead)
	b.need("guide-clear-of-post", max(low-b.postX, b.postX-high)-v.Member.Height/2-sheaveGap/2)
	_, arm := ArmEnds(v)
	arm += capThick
	if v.Base.Tower > 0 { // the arms point level and forward once in their range
		b.need("tower-clear-of-arms", v.Base.Tower-towerDeep(v)-arm-sheaveGap)
	}
	b.need("tower-clear-of-post", math.Abs(b.postX-v.Base.Tower)-v.Member.Height-sheaveGap)
	b.need("tower-between-rails", post-v.Member.Width/2-(b.towerPlan.Upright+v.Member.Width/2))
	b.need("outer-sheave-clear", out-c.Radius-sheaveRim(c)-sheaveGap/2-(b.towerPlan.Upright+v.Member.Width/2))
	h := r.Hanger()
	b.need("guide-height", r.Hang.Z-forkReach(c)+h.Lowest-h.Stem-(b.runLevel()+c.Radius+sheaveRim(c)+sheaveGap))
}

const leastWrap = 15 * math.Pi / 180 // round the guide sheave: the cable stays in its groove; judgement

// hangOut is half the guide sheave's swivel tube with the least stub to its post.
func hangOut(v *values.Station) float64 { return v.Arm.Width/2 + leastStub }

const leastStub = 8.0 // mm, for the weld

// guidePlate are the ends along x of the plate on the rail under the guide sheave's
// post and the sheave below, for a cable that leads ahead (1) or to the rear (-1).
func guidePlate(v *values.Station, x, ahead float64) (low, high float64) {
	near, far := v.Member.Height/2+plateLedge, v.Tower.Cable.Radius+forkWide/2+plateLedge
	if ahead > 0 {
		return x - near, x + far
	}
	return x - far, x + near
}

const plateLedge = 5.0 // of a plate beyond what is welded on it, mm
