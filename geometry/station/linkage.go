package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The bars of a linkage lie side by side along the axis, outward: input bar on the
// arm's shaft, which ends there; coupler; output bar and plate lever on one hub on
// the output shaft. So no bar sweeps another's plane but the coupler's pins', which
// end between the planes; only the output shaft passes input bar and coupler, and
// needs tell by how much it clears them. Own choices, mm.
const (
	pinProud    = 5.0  // of a pin beyond the coupler's face: washer, ring and the groove's land
	ringThick   = 3.0  // washer and retaining ring together
	ringMass    = 0.01 // kg
	spacerRim   = 6.0  // of spacer and washer beyond the pin
	bushWall    = 2.0  // of the plain bushes in the coupler
	leastAcross = 12.0 // of the pins
	pinEyeRoom  = 14.0 // of an eye beyond a pin or its bush
)

// linkagePin is the diameter of the linkage's pins: as large as what a cutting machine
// pierces well in the bars' plate.
func linkagePin(v *values.Station) float64 { return max(leastAcross, v.BarThick) }

// LinkageBars are the bars of one arm's linkage.
type LinkageBars struct{ Input, Coupler, Output, Lever linkage.Bar }

// NewLinkageBars returns the bars of a train: input bar, output bar and plate lever
// begin at their shaft, the coupler at the input bar's pin.
func NewLinkageBars(v *values.Station) LinkageBars {
	t, pin := &v.Linkage.Train, linkagePin(v)
	hub := hubEye(v)
	fixed := linkage.Eye{Radius: pin/2 + pinEyeRoom, Bore: pin}
	bush := linkage.Eye{Radius: pin/2 + bushWall + pinEyeRoom, Bore: pin + 2*bushWall}
	return LinkageBars{
		Input:   linkage.Bar{Length: t.Bars.Input, A: hub, B: fixed},
		Coupler: linkage.Bar{Length: t.Bars.Coupler, A: bush, B: bush},
		Output:  linkage.Bar{Length: t.Bars.Output, A: hub, B: fixed},
		Lever:   linkage.Bar{Length: t.Radius, A: hub, B: sleeveEye()},
	}
}

// trainMotion moves the coupler, or what turns on the output shaft.
type trainMotion struct {
	train   *linkage.Train
	plane   solid.Placement // forwardPlane at the pivot
	from    linkage.Pose    // the reference pose's
	coupler bool
}

// Displacement implements assembly.Motion. Past the angles at which the bars reach
// each other they keep their place.
func (m *trainMotion) Displacement(pose *assembly.Pose, side int) solid.Placement {
	p, err := m.train.At(pose.Flexion[side])
	if err != nil {
		return solid.World()
	}
	turn, from, to := p.Output-m.from.Output, p.Shaft, p.Shaft
	if m.coupler {
		turn, from, to = p.Coupler-m.from.Coupler, m.from.Pin, p.Pin
	}
	s, c := math.Sincos(turn)
	in := solid.Placement{X: r3.Vec{X: c, Y: s}, Y: r3.Vec{X: -s, Y: c}, Z: r3.Vec{Z: 1}}
	in.Origin = r3.Vec{X: to.X - c*from.X + s*from.Y, Y: to.Y - s*from.X - c*from.Y}
	return m.plane.Then(in).Then(m.plane.Inverse())
}

// clearSteps is how finely needs look at a linkage's motion, steps of the range.
const clearSteps = 64

// linkageNeeds tells by how much the output shaft clears what moves past it.
func (b *builder) linkageNeeds(bars *LinkageBars) {
	v := b.v
	t := &v.Linkage.Train
	radius := v.Shaft/2 + values.LayerClear
	shaft := t.Shaft()
	input, coupler := math.Inf(1), math.Inf(1)
	local := func(q, origin r2.Vec, angle float64) r2.Vec { return r2.Rotate(r2.Sub(q, origin), -angle, r2.Vec{}) }
	for k := range clearSteps + 1 {
		p, err := t.At(v.First + (v.Last-v.First)*float64(k)/clearSteps)
		if err != nil {
			continue
		}
		input = min(input, bars.Input.Distance(local(shaft, r2.Vec{}, p.Input+t.Direction))-radius)
		coupler = min(coupler, bars.Coupler.Distance(local(shaft, p.Pin, p.Coupler+t.Direction))-radius)
	}
	b.need("input-bar-output-shaft", input)
	b.need("coupler-output-shaft", coupler)
	b.need("output-bearings", r2.Norm(shaft)-v.Bearing.Across-values.LayerClear)
	// What turns on the arm's shaft inside the input bar passes the output shaft too.
	b.need("input-collar-output-shaft", r2.Norm(shaft)-v.Shaft/2-collarWall-radius)
	// The knob of the handle's pin reaches out to the shaft's inner bearing.
	d := assembly.NewDetents(v.Handle.Pitch, v.Handle.Positions, detentPin)
	aside := d.Outer(d.Every-1)/2 + pinKnob // of the pin from the slide's middle
	least, reach := v.Handle.Least-aside, v.Handle.Greatest()+aside
	ring := v.Bearing.Inner/2 + values.LayerClear
	b.need("handle-pin-output-shaft", max(least-r2.Norm(shaft)-ring, r2.Norm(shaft)-ring-reach))
	arm := b.armAbove()
	for _, w := range [...]struct {
		id                  string
		mass, radius, above float64 // above forward at flexion 0
	}{
		{"counterweight-output-shaft", v.Counter.Mass, v.Counter.Radius, arm + math.Pi + v.Counter.Phase},
		{"eccentric-weight-output-shaft", v.Eccentric.Mass, v.Eccentric.Radius, v.Eccentric.Phase},
	} {
		if w.mass <= 0 {
			continue
		}
		// The block reaches half its diagonal round its middle, its bar the eye's radius.
		diagonal := math.Sqrt(2 * w.mass / (steelDensity * values.WeightThick))
		flat := linkage.Bar{Length: w.radius, A: linkage.Eye{Radius: v.Shaft/2 + eyeWall}, B: linkage.Eye{Radius: max(diagonal/2, weightEnd)}}
		slack := math.Inf(1)
		for k := range clearSteps + 1 {
			theta := v.First + (v.Last-v.First)*float64(k)/clearSteps
			slack = min(slack, atLeast(flat).Distance(local(shaft, r2.Vec{}, theta+w.above))-radius)
		}
		b.need(w.id, slack)
	}
}

// closes is what a train that closes has in hand, mm: a yes or no, with room for a
// search that keeps clear of every limit.
const closes = 100.0

// linkage adds output shaft, bars, sleeve and plates. A train that does not close at
// the first loaded angle is left out and told.
func (b *builder) linkage() {
	v := b.v
	if v.Drive != values.LinkageDrive {
		return
	}
	t := &v.Linkage.Train
	closed := closes
	if err := t.Clear(v.First, v.Last); err != nil {
		closed = -1
	}
	b.need("linkage-closes", closed)
	p, err := t.At(v.First)
	if err != nil {
		return
	}
	bars := NewLinkageBars(v)
	for _, bar := range [...]struct {
		id string
		*linkage.Bar
	}{{"input-bar-length", &bars.Input}, {"coupler-length", &bars.Coupler}, {"output-bar-length", &bars.Output}, {"plate-lever-length", &bars.Lever}} {
		b.need(bar.id, eyesApart(*bar.Bar))
		*bar.Bar = atLeast(*bar.Bar)
	}
	b.linkageNeeds(&bars)
	plane := b.forwardPlane(0)
	coupled := b.GroupPair("coupler", b.swivels, &trainMotion{t, plane, p, true})
	output := b.GroupPair("output", b.swivels, &trainMotion{t, plane, p, false})
	shaft := b.outputShaft(output[0], p.Shaft)

	half := v.BarThick / 2
	in, mid, out, lev := b.planes.Input, b.planes.Coupler, b.planes.Output, b.planes.PlateLever
	inAngle, midAngle, outAngle := p.Input+t.Direction, p.Coupler+t.Direction, p.Output+t.Direction
	collar := b.collar("input-collar", b.armShaft, b.arms[0], b.inPlane(in-half-values.CollarLong, r2.Vec{}, 0), values.CollarLong)
	input := b.bar("input-bar", "Input bar", bars.Input, b.arms[0], in, r2.Vec{}, inAngle)
	b.onShaft(input, collar, b.armShaft, in-half, r2.Vec{})

	coupler := b.bar("coupler", "Coupler", bars.Coupler, coupled[0], mid, p.Pin, midAngle)

	crank := b.collar("output-collar", shaft, output[0], b.inPlane(out+half, p.Shaft, 0), values.LeverApart)
	outBar := b.bar("output-bar", "Output bar", bars.Output, output[0], out, p.Shaft, outAngle)
	lever := b.bar("plate-lever", "Plate lever", bars.Lever, output[0], lev, p.Shaft, p.Lever)
	b.onShaft(outBar, crank, shaft, out+half, p.Shaft)
	b.onShaft(lever, crank, shaft, lev-half, p.Shaft)

	// The input bar's pin looks outward, the output bar's inward.
	b.pin("input-pin", "Pin of the input bar", input, coupler, b.arms[0], b.inPlane(in-half, p.Pin, inAngle))
	inward := b.inPlane(out+half, p.Joint, outAngle)
	inward.Y, inward.Z = r3.Scale(-1, inward.Y), r3.Scale(-1, inward.Z)
	b.pin("output-pin", "Pin of the output bar", outBar, coupler, output[0], inward)

	face := b.inPlane(lev-half, p.Plates, p.Lever)
	b.sleeve(lever, output[0], face, &v.Linkage.Plates)
}

// pin adds a pin that is welded flush in one bar and turns in the coupler's bush: from
// the bar's far face, own z toward and past the coupler, a spacer between, a washer
// with a retaining ring at its end.
func (b *builder) pin(id, title string, bar, coupler assembly.Both, group int, at solid.Placement) {
	thick, d := b.v.BarThick, linkagePin(b.v)
	long := 2*thick + values.BarsApart + pinProud
	on := func(z float64) solid.Placement {
		p := at
		p.Origin = at.Point(r3.Vec{Z: z})
		return p
	}
	surface := func(radius, z float64) r3.Vec { return at.Point(r3.Vec{X: radius, Z: z}) }
	round := func(inside, outside float64) assembly.Stock {
		return assembly.Stock{Form: assembly.Round, Size: [3]float64{outside, inside}}
	}
	pin := b.Pair(assembly.Part{ID: id, Title: title, Solid: prism(b.disc(d), 0, long), Place: on(0), Group: group,
		Stock: assembly.Stock{Form: assembly.Round, Grade: b.v.Member.Grade, Size: [3]float64{d}, Length: long}, Density: steelDensity, Traits: assembly.Turns})
	b.JoinPair(assembly.Weld, pin, bar, surface(d/2, thick/2), assembly.Detail{Throat: barThroat, Run: math.Pi * d, Diameter: d, Depth: thick})

	spacer := b.Pair(assembly.Part{ID: id + "-spacer", Item: "pin-spacer", Title: "Spacer on a pin", Solid: prism(b.pipe(d+2*spacerRim, spacerRim), 0, values.BarsApart), Place: on(thick), Group: group,
		Stock: round(d, d+2*spacerRim), Density: steelDensity, Traits: assembly.Turns})
	b.JoinPair(assembly.Fit, spacer, pin, surface(d/2, thick+values.BarsApart/2), assembly.Detail{Diameter: d, Class: "loose"})
	b.JoinPair(assembly.Rest, spacer, bar, surface(d/2+spacerRim, thick), assembly.Detail{})
	b.JoinPair(assembly.Rest, spacer, coupler, surface(d/2+spacerRim, thick+values.BarsApart), assembly.Detail{})

	bush := b.Pair(assembly.Part{ID: id + "-bush", Item: "pin-bush", Title: "Plain bush", Solid: prism(b.pipe(d+2*bushWall, bushWall), 0, thick), Place: on(thick + values.BarsApart), Group: group,
		Stock: assembly.Stock{Form: assembly.Bought, Name: "plain bush, sintered bronze, ISO 2795", Size: [3]float64{d + 2*bushWall, d}, Length: thick}, Density: bronzeDensity, Traits: assembly.Turns})
	b.JoinPair(assembly.Fit, bush, coupler, surface(d/2+bushWall, thick+values.BarsApart+thick/2), assembly.Detail{Diameter: d + 2*bushWall, Class: "H7/s7"})
	b.JoinPair(assembly.Fit, bush, pin, surface(d/2, thick+values.BarsApart+thick/2), assembly.Detail{Diameter: d, Class: "H7/f7"})
	b.JoinPair(assembly.Passage, pin, coupler, surface(0, thick+values.BarsApart+thick/2), assembly.Detail{})

	far := 2*thick + values.BarsApart
	ring := b.Pair(assembly.Part{ID: id + "-ring", Item: "pin-ring", Title: "Washer and retaining ring", Solid: prism(b.pipe(d+2*spacerRim, spacerRim), 0, ringThick), Place: on(far), Group: group,
		Stock: assembly.Stock{Form: assembly.Bought, Name: "washer ISO 7089 and ring DIN 471", Size: [3]float64{d}}, Mass: ringMass, Traits: assembly.Turns | assembly.Fastener})
	b.JoinPair(assembly.Fit, ring, pin, surface(d/2, far+ringThick/2), assembly.Detail{Diameter: d})
	b.JoinPair(assembly.Rest, ring, coupler, surface(d/2+spacerRim, far), assembly.Detail{})
}

// outputShaft adds the output shaft in its own bearings in the bracket's cheeks. It
// ends in the plate lever's outer face, so that plates may cover it.
func (b *builder) outputShaft(group int, at r2.Vec) assembly.Both {
	v := b.v
	from, to := b.planes.RingIn-shaftProud, b.planes.PlateLever+v.BarThick/2
	place := b.inPlane(from, at, 0)
	shaft := b.Pair(assembly.Part{ID: "output-shaft", Title: "Output shaft", Solid: prism(b.disc(v.Shaft), 0, to-from), Place: place, Group: group,
		Stock: assembly.Stock{Form: assembly.Round, Grade: v.Member.Grade, Size: [3]float64{v.Shaft}, Length: to - from}, Density: steelDensity, Traits: assembly.Turns})
	b.shaftIn(shaft, b.second, b.flangeUnits("output", "Output shaft", b.second))
	return shaft
}

// shaftProud is how far a shaft stands out of its innermost bearing, mm.
const shaftProud = 5.0
