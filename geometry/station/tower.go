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

// tower adds uprights, top, rod bar and stacks.
func (b *builder) tower() {
	v, m := b.v, &b.v.Member
	if !v.HasStack() {
		return
	}
	b.planTower()
	t := b.towerPlan
	x := v.Base.Tower

	foot := r3.Vec{X: x, Y: -t.Upright, Z: b.baseTop}
	long := t.Tall - m.Height - capPlate - b.baseTop
	head := r3.Vec{X: x, Y: -t.Upright, Z: b.baseTop + long}
	upright := b.Pair(assembly.Part{
		ID: "tower-upright", Title: "Tower upright", Stock: tubeStock(m, long), Group: b.frame,
		Solid: solid.Prism{Profile: b.section(m), To: solid.Flat(long), Bores: []solid.Bore{{At: r3.Vec{Z: t.Over - b.baseTop}, Dir: r3.Vec{X: 1}, Diameter: cableHole}}},
		Place: solid.Along(foot, head, r3.Vec{X: 1}), Density: steelDensity,
	})
	b.join(assembly.Weld, upright, assembly.One(b.crossTower.part), foot, b.tubeWeld(m))
	bolts := b.profile(shape{capShape, [16]float64{m.Height, m.Width, v.Cores.M10}}, func() *solid.Profile {
		return solid.NewProfile(contour.Rectangle(m.Height, m.Width, 0), circle(-capPitch/2, 0, v.Cores.M10), circle(capPitch/2, 0, v.Cores.M10)) // tapped
	})
	plate := b.Pair(assembly.Part{
		ID: "tower-cap", Title: "Cap plate of a tower upright", Stock: b.plateStock(m.Height, m.Width, capPlate), Group: b.frame,
		Solid: solid.Straight(bolts, capPlate), Place: solid.Shift(head), Density: steelDensity,
	})
	b.join(assembly.Weld, upright, plate, head, b.tubeWeld(m))

	// The top reaches out to the outer sheaves. It is bolted on, so that guide rods
	// and plates go in from above.
	out := max(t.Upright+m.Width/2, -b.route.Hang.Y-v.Tower.Cable.Radius+stemAcross)
	end := r3.Vec{X: x, Y: -out, Z: t.Tall - m.Height/2}
	bores := make([]solid.Bore, 0, 4)
	for _, y := range [2]float64{-t.Upright, t.Upright} {
		for _, dx := range [2]float64{-capPitch / 2, capPitch / 2} {
			bores = append(bores, solid.Bore{At: r3.Vec{X: dx, Z: y + out}, Dir: r3.Vec{Y: 1}, Diameter: capBolt + 1})
		}
	}
	b.towerTop = b.Add(assembly.Part{
		ID: "tower-top", Title: "Tower top", Stock: tubeStock(m, 2*out), Group: b.frame,
		Solid: solid.Prism{Profile: b.section(m), To: solid.Flat(2 * out), Bores: bores},
		Place: solid.Along(end, r3.Add(end, r3.Vec{Y: 1}), r3.Vec{Z: 1}), Density: steelDensity,
	})
	top := assembly.One(b.towerTop)
	b.join(assembly.Bolts, plate, top, r3.Vec{X: x, Y: -t.Upright, Z: t.Tall - m.Height},
		assembly.Detail{Thread: capBolt, Count: 2, Length: m.Height + capPlate, Pattern: [2]float64{capPitch}})
	at := solid.Along(end, r3.Add(end, r3.Vec{Y: -1}), r3.Vec{Z: 1})
	caps := b.Pair(assembly.Part{
		ID: "tower-top-cap", Title: "End cap", Group: b.frame,
		Stock: assembly.Stock{Form: assembly.Bought, Name: m.Name, Grade: "polyethylene", Size: [3]float64{m.Height, m.Width, m.Wall}},
		Solid: solid.Straight(b.rect(m.Width, m.Height, m.Corner), capThick), Place: at, Density: plugDensity,
	})
	b.join(assembly.Fit, caps, top, end, assembly.Detail{})

	b.rodBar(upright)
	if v.Tower.Pair {
		group := b.GroupPair("stack", assembly.One(b.frame), &assembly.Lift{Share: 1})
		b.stackGroup = group[0]
		b.stack(b.Pair)
		b.stackEye()
	} else {
		b.stackGroup = b.Group("stack", b.frame, &assembly.Lift{Share: 1})
		b.stack(b.one)
	}
}

// rodBar adds the plate between the uprights that holds the guide rods' upper ends.
// Its notches let through what the stack carries up.
func (b *builder) rodBar(upright assembly.Both) {
	v, t, w := b.v, &b.towerPlan, &b.v.Tower
	c := &w.Cable
	half, front := t.Upright-v.Member.Width/2, v.Member.Height/2
	back, wide := -notchDeep(v), sheaveRim(c)+2*notchClear
	middles := []float64{0}
	if w.Pair {
		wide = eyeThick/2 + 2*notchClear
		middles = []float64{-t.Middle, t.Middle}
	}
	rear := back - rodBarWeb
	b.need("rod-bar-web", t.Rods-w.Rod/2-wide-w.Rod/2)
	b.need("buffers-under-stack", t.Buffers-(bufferAcross+w.Selector)/2)
	key := shape{rodBarShape, [16]float64{half, front, back, wide, t.Middle, t.Rods, w.Rod, float64(len(middles))}}
	profile := b.profile(key, func() *solid.Profile {
		p := []r2.Vec{{X: front, Y: half}, {X: rear, Y: half}, {X: rear, Y: -half}, {X: front, Y: -half}}
		var holes []contour.Path
		for _, y := range middles {
			p = append(p, r2.Vec{X: front, Y: y - wide}, r2.Vec{X: back, Y: y - wide}, r2.Vec{X: back, Y: y + wide}, r2.Vec{X: front, Y: y + wide})
			holes = append(holes, circle(0, y-t.Rods, w.Rod), circle(0, y+t.Rods, w.Rod))
		}
		return solid.NewProfile(contour.Polygon(p...), holes...)
	})
	b.rodBarPart = b.Add(assembly.Part{
		ID: "rod-bar", Title: "Guide rod bar", Stock: b.plateStock(2*half, front-rear, rodBarThick), Group: b.frame,
		Solid: solid.Straight(profile, rodBarThick), Place: solid.Shift(r3.Vec{X: v.Base.Tower, Z: t.RodBar}), Density: steelDensity,
	})
	b.join(assembly.Weld, upright, assembly.One(b.rodBarPart), r3.Vec{X: v.Base.Tower, Y: -half, Z: t.RodBar + rodBarThick/2},
		assembly.Detail{Throat: tubeWeld, Run: 2 * v.Member.Height})
}

// stackIDs are the ids of the plates of a stack from below.
var stackIDs = func() (ids [mostPlates]string) {
	for i := range ids {
		ids[i] = "stack-plate-" + string(rune('0'+(i+1)/10)) + string(rune('0'+(i+1)%10))
	}
	return ids
}()

// stack adds a stack with its foot plate, buffers, guide rods, selector bar and pin.
func (b *builder) stack(add adder) {
	v, t, w := b.v, &b.towerPlan, &b.v.Tower
	at := func(y, z float64) r3.Vec { return r3.Vec{X: v.Base.Tower, Y: y - t.Middle, Z: z} }
	cross := assembly.One(b.crossTower.part)

	// Of one stack in the middle the rods and buffers are each other's twins.
	places, names := []float64{-1}, [2]string{"", ""}
	if w.Pair {
		places, names = []float64{-1, 1}, [2]string{"-outer", "-inner"}
	}

	long, side := 2*t.Rods+w.Rod+20, v.Member.Width
	footProfile := b.profile(shape{stackFootShape, [16]float64{long, side, t.Rods, t.Buffers, w.Rod}}, func() *solid.Profile {
		return solid.NewProfile(contour.Rectangle(side, long, 0), circle(0, -t.Rods, w.Rod), circle(0, t.Rods, w.Rod),
			circle(0, -t.Buffers, 6.8), circle(0, t.Buffers, 6.8)) // tapped M8
	})
	foot := add(assembly.Part{
		ID: "stack-foot", Title: "Stack foot plate", Stock: b.plateStock(long, side, stackFoot), Group: b.frame,
		Solid: solid.Straight(footProfile, stackFoot), Place: solid.Shift(at(0, b.baseTop)), Density: steelDensity,
	})
	b.join(assembly.Weld, foot, cross, at(0, b.baseTop), assembly.Detail{Throat: tubeWeld, Run: 2 * long})

	rodLong := t.RodBar + rodBarThick + rodEnd - b.baseTop
	rods, buffers := make([]assembly.Both, len(places)), make([]assembly.Both, len(places))
	for i, s := range places {
		y := s * t.Buffers
		buffers[i] = b.Pair(assembly.Part{
			ID: "stack-buffer" + names[i], Item: "stack-buffer", Title: "Stack buffer", Group: b.frame,
			Stock: assembly.Stock{Form: assembly.Bought, Name: "rubber buffer 40x40, stud M8", Size: [3]float64{bufferAcross, bufferTall, 8}},
			Solid: solid.Round(bufferAcross, bufferTall), Place: solid.Shift(at(y, b.baseTop+stackFoot)), Density: gumDensity, Traits: assembly.Soft,
		})
		b.join(assembly.Bolts, buffers[i], foot, at(y, b.baseTop+stackFoot), assembly.Detail{Thread: 8, Count: 1})
		y = s * t.Rods
		rods[i] = b.Pair(assembly.Part{
			ID: "guide-rod" + names[i], Item: "guide-rod", Title: "Guide rod", Group: b.frame,
			Stock: assembly.Stock{Form: assembly.Round, Grade: "bright", Size: [3]float64{w.Rod}, Length: rodLong},
			Solid: solid.Round(w.Rod, rodLong), Place: solid.Shift(at(y, b.baseTop)), Density: steelDensity,
		})
		b.join(assembly.Fit, rods[i], foot, at(y, b.baseTop+stackFoot/2), assembly.Detail{Diameter: w.Rod, Class: "H8/h9"})
		b.join(assembly.Fit, rods[i], assembly.One(b.rodBarPart), at(y, t.RodBar+rodBarThick/2), assembly.Detail{Diameter: w.Rod, Class: "H8/h9", Thread: 6})
		b.join(assembly.Rest, rods[i], cross, at(y, b.baseTop), assembly.Detail{})
	}

	// The selector bar is welded into the top plate and hangs through the others; its
	// holes stand at their middles.
	barLong := t.StackTop - t.Low + barBelow
	pins := make([]solid.Bore, 0, w.Plates)
	for i := range w.Plates - 1 {
		pins = append(pins, solid.Bore{At: r3.Vec{Z: (float64(i)+.5)*w.PlateThick + barBelow}, Dir: r3.Vec{X: 1}, Diameter: w.PinHole})
	}
	bar := add(assembly.Part{
		ID: "selector-bar", Title: "Selector bar", Group: b.stackGroup,
		Stock: assembly.Stock{Form: assembly.Plate, Grade: "bright", Size: [3]float64{barLong, w.Selector, w.Selector}, Length: barLong},
		Solid: solid.Prism{Profile: b.rect(w.Selector, w.Selector, 0), To: solid.Flat(barLong), Bores: pins},
		Place: solid.Shift(at(0, t.Low-barBelow)), Density: steelDensity, Traits: assembly.Rises,
	})

	out := math.Copysign(1, v.Base.Tower) // the pin goes in from the far side of the user
	hole := []solid.Bore{{At: r3.Vec{Z: w.PlateThick / 2}, Dir: r3.Vec{X: -out}, Diameter: w.PinHole, Depth: w.PlateWidth/2 + selectorDeep(w) + 1}}
	profile := b.stackPlate()
	var below, lowest assembly.Both
	for i := range w.Plates {
		z := t.Low + float64(i)*w.PlateThick
		p := assembly.Part{
			ID: stackIDs[i], Item: "stack-plate", Title: "Stack plate", Group: b.stackGroup,
			Stock: assembly.Stock{Form: assembly.Plate, Grade: "steel", Size: [3]float64{w.PlateLength, w.PlateWidth, w.PlateThick}},
			Solid: solid.Prism{Profile: profile, To: solid.Flat(w.PlateThick), Bores: hole},
			Place: solid.Shift(at(0, z)), Density: steelDensity, Traits: assembly.Rises | assembly.Load,
		}
		kind := assembly.Passage
		if i == w.Plates-1 {
			p.ID, p.Item, p.Title = "stack-head", "stack-head", "Top plate of the stack"
			p.Solid, kind = solid.Straight(profile, w.PlateThick), assembly.Fit
		}
		plate := add(p)
		mid := z + w.PlateThick/2
		for k, s := range places {
			b.join(assembly.Passage, plate, rods[k], at(s*t.Rods, mid), assembly.Detail{Diameter: w.GuideHole})
		}
		b.join(kind, plate, bar, at(0, mid), assembly.Detail{Diameter: w.SelectorHole})
		if i == 0 {
			lowest = plate
			for k, s := range places {
				b.join(assembly.Rest, plate, buffers[k], at(s*t.Buffers, z), assembly.Detail{})
			}
		} else {
			b.join(assembly.Rest, plate, below, at(0, z), assembly.Detail{})
		}
		below = plate
	}
	b.stackHead = below
	if w.Plates == 1 {
		return // the head alone
	}

	// The pin stands under the whole stack.
	thick, mid := w.PinHole-0.5, t.Low+w.PlateThick/2
	deep := selectorDeep(w)
	from := at(0, mid)
	from.X -= out * deep
	pinLong := deep + w.PlateWidth/2
	knob := solid.Turned{Outline: []r2.Vec{{X: thick / 2}, {X: thick / 2, Y: pinLong}, {X: 15, Y: pinLong}, {X: 15, Y: pinLong + 25}}}
	pin := add(assembly.Part{
		ID: "selector-pin", Title: "Selector pin", Group: b.stackGroup,
		Stock: assembly.Stock{Form: assembly.Bought, Name: "pin with knob and magnet", Size: [3]float64{thick, 30}, Length: pinLong + 25},
		Solid: knob, Place: solid.Along(from, r3.Add(from, r3.Vec{X: out}), r3.Vec{Z: 1}), Mass: steelDensity * knob.Volume(),
		Traits: assembly.Rises | assembly.Adjusts | assembly.Fastener,
	})
	b.join(assembly.Fit, pin, lowest, at(0, mid), assembly.Detail{Diameter: w.PinHole})
	b.join(assembly.Fit, pin, bar, at(0, mid), assembly.Detail{Diameter: w.PinHole})
}

// selectorDeep is how far the pin reaches past the middle of the plate, through the
// bar.
func selectorDeep(w *values.Tower) float64 { return w.Selector/2 + 5 }

// stackPlate is the section of a stack's plates, their length along y.
func (b *builder) stackPlate() *solid.Profile {
	w, rod := &b.v.Tower, b.towerPlan.Rods
	key := shape{stackPlateShape, [16]float64{w.PlateWidth, w.PlateLength, w.GuideHole, w.SelectorHole}}
	return b.profile(key, func() *solid.Profile {
		return solid.NewProfile(contour.Rectangle(w.PlateWidth, w.PlateLength, 0),
			circle(0, -rod, w.GuideHole), circle(0, rod, w.GuideHole), contour.Rectangle(w.SelectorHole, w.SelectorHole, 0))
	})
}

// stackEye adds the plate at which an arm's own cable ends.
func (b *builder) stackEye() {
	t := &b.towerPlan
	profile := b.profile(shape{kind: eyeShape}, func() *solid.Profile {
		return solid.NewProfile(contour.Around(contour.Disk{At: r2.Vec{X: -eyeWide / 2}}, contour.Disk{At: r2.Vec{X: eyeWide / 2}}, contour.Disk{At: r2.Vec{Y: eyeTall}, Radius: eyeWide / 2}), circle(0, eyeTall, eyeHole))
	})
	at := r3.Vec{X: b.v.Base.Tower, Y: -t.Middle, Z: t.StackTop}
	eye := b.Pair(assembly.Part{
		ID: "stack-eye", Title: "Cable eye of the stack", Stock: b.plateStock(eyeTall+eyeWide/2, eyeWide, eyeThick), Group: b.stackGroup,
		Solid: prism(profile, -eyeThick/2, eyeThick/2), Density: steelDensity, Traits: assembly.Rises,
		Place: solid.Placement{Origin: at, X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}},
	})
	b.join(assembly.Weld, eye, b.stackHead, at, assembly.Detail{Throat: tubeWeld, Run: 2 * eyeWide})
}
