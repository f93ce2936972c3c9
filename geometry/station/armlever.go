package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for the arm and its handle, mm and kg.
const (
	hubWall     = 17.5 // of the hub round the shaft: key and weld
	hubCorner   = 12.0
	slideLong   = 80.0
	slidePast   = 10.0 // of the arm's tube beyond the slide at the last position
	detentPin   = 8.0  // locking pin through slide and tube
	detentHole  = 8.5
	pinHandle   = 12.0 // its knob ends short of the plane of the inner bearings
	pinKnob     = 8.0  // radius
	detentMass  = 0.08
	rubberThick = 3.5
	gripWall    = 3.0
	plugLong    = 4.0
)

// ArmEnds are where the arm's tube begins and ends, mm from the axis.
func ArmEnds(v *values.Station) (from, to float64) {
	h := &v.Handle
	return v.Shaft/2 + hubWall, h.Greatest() + slideLong/2 + slidePast
}

// BearingGap is the gap between the arm and the still housing of its nearer bearing.
func BearingGap(v *values.Station) float64 {
	p := v.Planes()
	return p.InnerCheek - values.CheekThick/2 - v.Bearing.Body - p.Arm - v.Arm.Width/2
}

// armTraits are those of an arm's parts.
const armTraits = assembly.Turns | assembly.Stated

// arm adds what turns about the axis: shaft, hub, tube with its detents, and the
// handle that slides on it.
func (b *builder) arm() {
	v := b.v
	p := &b.planes
	h := &v.Handle
	group := b.arms[0]

	shaft := p.ShaftEnd - p.HubIn
	b.armShaft = b.Pair(assembly.Part{
		ID: "arm-shaft", Title: "Arm shaft", Group: group, Stock: assembly.Stock{Form: assembly.Round, Grade: "C45", Size: [3]float64{v.Shaft}, Length: shaft},
		Solid: solid.Round(v.Shaft, shaft), Place: b.acrossArm(p.HubIn), Density: steelDensity, Traits: armTraits,
	})
	b.shaftIn(b.armShaft, r2.Vec{}, b.pivotUnits)

	wide := v.Shaft + 2*hubWall
	long := p.HubOut - p.HubIn
	hub := b.profile(shape{hubShape, [16]float64{wide, v.Shaft}}, func() *solid.Profile {
		x, r := wide/2, wide/2-hubCorner
		return solid.NewProfile(contour.Around(contour.Disk{At: r2.Vec{X: x, Y: -x}}, contour.Disk{At: r2.Vec{X: x, Y: x}},
			contour.Disk{At: r2.Vec{X: -r, Y: r}, Radius: hubCorner}, contour.Disk{At: r2.Vec{X: -r, Y: -r}, Radius: hubCorner}), circle(0, 0, v.Shaft))
	})
	b.hub = b.Pair(assembly.Part{
		ID: "arm-hub", Title: "Arm hub", Group: group, Stock: b.plateStock(wide, long, wide),
		Solid: prism(hub, 0, long), Place: b.acrossArm(p.HubIn), Density: steelDensity, Traits: armTraits,
	})
	key := b.keyOf(long - 10)
	b.JoinPair(assembly.Fit, b.hub, b.armShaft, b.atArm(0, 0, p.Arm), assembly.Detail{Diameter: v.Shaft, Class: "H7/h6", Key: key, Thread: 8, Count: 2})

	from, to := ArmEnds(v)
	reach := to - slideLong/2 - slidePast
	place := solid.Along(b.atArm(from, 0, p.Arm), b.atArm(to, 0, p.Arm), b.armPlane.Y)
	tube := prism(b.section(&v.Arm), 0, to-from)
	d := assembly.NewDetents(h.Pitch, h.Positions, detentPin)
	span := d.Outer(d.Every - 1)
	first := h.Least - span/2 - from // where the slide's first hole is at the first position
	holes := d.Inner()
	tube.Bores = make([]solid.Bore, len(holes))
	for i, z := range holes {
		tube.Bores[i] = solid.Bore{At: r3.Vec{Z: first + z}, Dir: r3.Vec{X: 1}, Diameter: detentHole}
	}
	b.armTube = b.Pair(assembly.Part{
		ID: "arm-tube", Title: "Arm tube", Group: group, Stock: tubeStock(&v.Arm, to-from),
		Solid: tube, Place: place, Density: steelDensity, Traits: armTraits,
	})
	b.JoinPair(assembly.Weld, b.armTube, b.hub, b.atArm(from, 0, p.Arm), b.tubeWeld(&v.Arm))
	end := solid.Along(b.atArm(to, 0, p.Arm), b.atArm(to+1, 0, p.Arm), b.armPlane.Y)
	b.cap("arm-cap", "arm-cap", &v.Arm, end, b.armTube, group)

	b.handle(d)
	b.need("detents-in-slide", slideLong-span-2*pinEdge)
	play := v.Slide.Height - 2*v.Slide.Wall - v.Arm.Height
	b.need("slide-fits-arm", min(play, 4-play))
	// The grips of both arms come nearest to the midline at an end of the range.
	middle := math.Inf(1)
	for _, t := range b.angles {
		sn, cs := math.Sincos(t)
		for _, r := range [2]float64{h.Least, reach} {
			for _, theta := range [2]float64{v.First, v.Last} {
				middle = min(middle, v.Spacing/2+r*sn*math.Cos(theta)+p.GripIn*cs-h.Diameter/2)
			}
		}
	}
	b.need("grips-apart", middle)
	b.need("handle-past-hub", h.Least-slideLong/2-wide/2-5)
}

// handle adds slide, grip and locking pin.
func (b *builder) handle(d assembly.Detents) {
	v := b.v
	p := &b.planes
	h := &v.Handle
	group := b.hand[0]
	at := func(along, across, outward float64) r3.Vec { return b.atArm(h.Least+along, across, outward) }

	place := solid.Along(at(-slideLong/2, 0, p.Arm), at(slideLong/2, 0, p.Arm), b.armPlane.Y)
	tube := prism(b.section(&v.Slide), 0, slideLong)
	start := -d.Outer(d.Every-1) / 2 // of the first hole, from the slide's middle
	tube.Bores = make([]solid.Bore, d.Every)
	for i := range tube.Bores { // in the outer wall alone: the grip is welded on the inner one
		tube.Bores[i] = solid.Bore{At: r3.Vec{Z: slideLong/2 + start + d.Outer(i)}, Dir: r3.Vec{X: 1}, Diameter: detentHole, Depth: v.Slide.Wall + 1}
	}
	const traits = armTraits | assembly.Adjusts
	b.slide = b.Pair(assembly.Part{
		ID: "handle-slide", Title: "Handle slide", Group: group, Stock: tubeStock(&v.Slide, slideLong),
		Solid: tube, Place: place, Density: steelDensity, Traits: traits,
	})
	b.JoinPair(assembly.Slide, b.slide, b.armTube, at(0, 0, p.Arm), assembly.Detail{Diameter: detentPin, Pitch: h.Pitch, Steps: h.Positions})

	half := v.Slide.Width / 2
	bar := h.Diameter - 2*rubberThick
	inward := func(w float64) solid.Placement { return solid.Along(at(0, 0, w), at(0, 0, w-1), b.armPlane.Y) }
	root := p.Arm - half
	long := root - p.GripIn - plugLong
	grip := b.Pair(assembly.Part{
		ID: "grip-bar", Title: "Grip bar", Group: group,
		Stock: assembly.Stock{Form: assembly.Round, Grade: v.Arm.Grade, Size: [3]float64{bar, bar - 2*gripWall}, Length: long},
		Solid: solid.Tube(bar, bar-2*gripWall, long), Place: inward(root), Density: steelDensity, Traits: traits,
	})
	b.JoinPair(assembly.Weld, grip, b.slide, at(bar/2-1, 0, root), assembly.Detail{Throat: tubeWeld, Run: 3 * bar})
	plug := b.Pair(assembly.Part{
		ID: "grip-plug", Title: "Grip plug", Group: group,
		Stock: assembly.Stock{Form: assembly.Bought, Grade: "polyethylene", Size: [3]float64{bar, plugLong}},
		Solid: solid.Round(bar, plugLong), Place: inward(p.GripIn + plugLong), Density: plugDensity, Traits: traits,
	})
	b.JoinPair(assembly.Fit, plug, grip, at(bar/2-1, 0, p.GripIn+plugLong), assembly.Detail{Diameter: bar - 2*gripWall})
	rubber := b.Pair(assembly.Part{
		ID: "grip-rubber", Title: "Grip rubber", Group: group,
		Stock: assembly.Stock{Form: assembly.Bought, Grade: "rubber", Size: [3]float64{h.Diameter, bar}, Length: h.Length},
		Solid: solid.Tube(h.Diameter, bar, h.Length), Place: inward(p.GripOut), Density: gumDensity, Traits: traits | assembly.Soft,
	})
	b.JoinPair(assembly.Fit, rubber, grip, at(0, 0, p.GripMiddle), assembly.Detail{Diameter: bar})
	b.JoinPair(assembly.Fit, rubber, plug, at(0, 0, p.GripIn), assembly.Detail{Diameter: bar})

	// The pin goes through the slide's outer wall and both of the tube's.
	pinGroup := b.hand
	if motion := d.PinMotion(assembly.Handle, b.armPlane.X); motion != nil {
		pinGroup = b.GroupPair("handle-pin", b.hand, motion)
	}
	tip := p.Arm - v.Arm.Width/2
	shank := half + v.Arm.Width/2
	pin := b.Pair(assembly.Part{
		ID: "handle-pin", Title: "Locking pin", Group: pinGroup[0],
		Stock: assembly.Stock{Form: assembly.Bought, Grade: "steel", Size: [3]float64{detentPin, shank}},
		Solid: solid.Turned{Outline: []r2.Vec{{X: detentPin / 2}, {X: detentPin / 2, Y: shank}, {X: 8, Y: shank}, {X: 8, Y: shank + pinHandle}}},
		Place: solid.Along(at(start, 0, tip), at(start, 0, tip+1), b.armPlane.Y), Mass: detentMass, Traits: traits | assembly.Fastener,
	})
	b.JoinPair(assembly.Fit, pin, b.slide, at(start, 0, p.Arm+half), assembly.Detail{Diameter: detentPin})
	b.JoinPair(assembly.Fit, pin, b.armTube, at(start, 0, p.Arm), assembly.Detail{Diameter: detentPin})
}
