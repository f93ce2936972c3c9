package station

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the guide sheave's swivel, mm (own choices): a hollow stem about the
// cable that leaves the sheave turns in a bush in a tube on a post of its own.
const (
	hangStem  = 28.0 // outer diameter of the hollow stem
	hangBore  = 12.0 // round the cable
	guideKnob = 20.0 // of its pull pin
	guideOut  = 10.0 // of the knob from the tube: its lock nut
)

// guideSheave adds the guide sheave on its swivel, on a post that stands on a plate.
func (b *builder) guideSheave(s *cable.Sheave, base assembly.Both) {
	v, c, r := b.v, &b.v.Tower.Cable, &b.route
	h := r.Hanger()
	swing := &assembly.Positions{Setting: assembly.Axis, Places: make([]solid.Placement, len(r.Swing))}
	for i, angle := range r.Swing {
		swing.Places[i] = solid.Shift(r3.Vec{Z: r.Rise[i]}).Then(solid.Turn(r.Hang, r3.Vec{Z: 1}, angle))
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

	// Depths are told from the fork in the reference position; what stands still begins
	// at the flange, on which the fork lies in the lowest.
	down := r3.Vec{Z: -1}
	flange := -h.Lowest
	at := func(z float64) r3.Vec { return r3.Vec{X: r.Hang.X, Y: r.Hang.Y, Z: r.Hang.Z - forkReach(c) - z} }
	below := func(z float64) solid.Placement { return solid.Along(at(z), r3.Add(at(z), down), r3.Vec{X: 1}) }
	stem := b.Pair(assembly.Part{
		ID: "guide-stem", Title: "Guide sheave's hollow stem",
		Stock: assembly.Stock{Form: assembly.Round, Grade: v.Member.Grade, Size: [3]float64{hangStem, hangBore}, Length: h.Stem},
		Solid: stemBody(&h, flange), Place: below(0), Group: group, Density: steelDensity,
	})
	b.join(assembly.Weld, stem, fork, at(0), assembly.Detail{Throat: tubeWeld, Run: math.Pi * hangStem})

	tube, z := &v.Arm, flange+cable.HangerFlange
	shell := solid.Straight(b.section(tube), h.Tube)
	for _, deep := range h.Holes { // outside, from the user
		shell.Bores = append(shell.Bores, solid.Bore{At: r3.Vec{Z: deep - cable.HangerFlange}, Dir: r3.Vec{Y: -1}, Diameter: cable.HangerThread, Depth: tube.Wall + 1})
	}
	outward := solid.Placement{Origin: at(z), X: r3.Vec{X: 1}, Y: r3.Vec{Y: -1}, Z: down}
	sleeve := b.Pair(assembly.Part{
		ID: "guide-sleeve", Title: "Guide sheave's swivel tube", Stock: tubeStock(tube, h.Tube),
		Solid: shell, Place: outward, Group: b.frame, Density: steelDensity,
	})
	inner := min(tube.Width, tube.Height) - 2*tube.Wall
	body := solid.Turned{
		Outline: []r2.Vec{{X: inner/2 + tube.Wall, Y: 0}, {X: inner/2 + tube.Wall, Y: cable.HangerFlange}, {X: inner / 2, Y: cable.HangerFlange}, {X: inner / 2, Y: cable.HangerFlange + h.Tube}},
		Bore:    hangStem,
	}
	bush := b.Pair(assembly.Part{
		ID: "guide-bush", Title: "Guide sheave's bush",
		Stock: assembly.Stock{Form: assembly.Round, Grade: "acetal", Size: [3]float64{inner + 2*tube.Wall, hangStem}, Length: cable.HangerFlange + h.Tube},
		Solid: body, Place: below(flange), Group: b.frame, Density: plasticDensity,
	})
	mid := at(z + h.Tube/2)
	b.join(assembly.Fit, bush, sleeve, mid, assembly.Detail{Diameter: inner})
	b.join(assembly.Fit, stem, bush, mid, assembly.Detail{Diameter: hangStem, Class: "F8/h9"})
	b.join(assembly.Passage, stem, sleeve, mid, assembly.Detail{})
	collar := b.Pair(assembly.Part{
		ID: "guide-collar", Title: "Shaft collar", Stock: assembly.Stock{Form: assembly.Bought, Name: "shaft collar 28", Size: [3]float64{45, hangStem}, Length: cable.HangerCollar},
		Solid: solid.Tube(45, hangStem, cable.HangerCollar), Place: below(h.Stem - cable.HangerEnd - cable.HangerCollar), Group: group, Mass: 0.09,
	})
	b.join(assembly.Fit, collar, stem, at(h.Stem-cable.HangerEnd-cable.HangerCollar/2), assembly.Detail{Diameter: hangStem, Thread: 6})
	if len(h.Holes) == 0 {
		b.join(assembly.Rest, fork, bush, at(0), assembly.Detail{})
		b.join(assembly.Rest, collar, sleeve, at(z+h.Tube), assembly.Detail{})
	} else {
		b.guidePin(&h, at(flange+h.Holes[b.middle]), stem, bush, sleeve)
	}

	// Post and stub: the post is bent and twisted by the cable far above its foot, as the frame is.
	column := &v.Member
	foot, top := b.baseTop+sheaveFoot, mid.Z+tube.Height/2
	place := func(z float64) r3.Vec { return r3.Vec{X: r.Hang.X, Y: b.postY, Z: z} }
	post := b.Pair(assembly.Part{
		ID: "guide-post", Title: "Guide sheave's post", Stock: tubeStock(column, top-foot),
		Solid: solid.Straight(b.section(column), top-foot), Place: solid.Along(place(foot), place(top), r3.Vec{X: 1}), Group: b.frame, Density: steelDensity,
	})
	b.join(assembly.Weld, post, base, place(foot), b.tubeWeld(column))
	b.cap("guide-post-cap", "guide-post-cap", column, solid.Along(place(top), place(top+1), r3.Vec{X: 1}), post, b.frame)
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

// stemBody is the hollow stem about its own z, downward from the fork, with its grooves.
func stemBody(h *cable.Hanger, flange float64) solid.Turned {
	body := solid.Turned{Bore: hangBore, Outline: []r2.Vec{{X: hangStem / 2}}}
	grooves := slices.Sorted(slices.Values(h.Grooves))
	for _, deep := range grooves {
		low, high := flange+deep-cable.HangerGroove/2, flange+deep+cable.HangerGroove/2
		body.Outline = append(body.Outline, r2.Vec{X: hangStem / 2, Y: low}, r2.Vec{X: cable.HangerRoot / 2, Y: low},
			r2.Vec{X: cable.HangerRoot / 2, Y: high}, r2.Vec{X: hangStem / 2, Y: high})
	}
	body.Outline = append(body.Outline, r2.Vec{X: hangStem / 2, Y: h.Stem})
	return body
}

// guidePin adds the pull pin that sets the guide sheave's height, screwed into the hole
// of the axis position; now is that of the reference, on the stem's line.
func (b *builder) guidePin(h *cable.Hanger, now r3.Vec, stem, bush, sleeve assembly.Both) {
	tube := &b.v.Arm
	motion := &assembly.Positions{Setting: assembly.Axis, Places: make([]solid.Placement, len(h.Holes))}
	for i, deep := range h.Holes {
		motion.Places[i] = solid.Shift(r3.Vec{Z: h.Holes[b.middle] - deep})
	}
	group := b.GroupPair("guide-pin", assembly.One(b.frame), motion)[0]
	out := r3.Vec{Y: -1}
	wall := tube.Width / 2
	tip := r3.Add(now, r3.Scale(cable.HangerRoot/2, out))
	r, neck, knob := cable.HangerPin/2, wall-tube.Wall-cable.HangerRoot/2, wall+guideOut-cable.HangerRoot/2
	body := solid.Turned{Outline: []r2.Vec{{X: r}, {X: r, Y: neck}, {X: cable.HangerThread / 2, Y: neck}, {X: cable.HangerThread / 2, Y: knob}, {X: guideKnob / 2, Y: knob}, {X: guideKnob / 2, Y: knob + knobLong}}}
	pin := b.Pair(assembly.Part{
		ID: "guide-pin", Title: "Pull pin of the guide sheave", Group: group,
		Stock: assembly.Stock{Form: assembly.Bought, Name: "M10x1, pin 6", Grade: "steel", Size: [3]float64{cable.HangerPin, cable.HangerThread, knob + knobLong}},
		Solid: body, Place: solid.Along(tip, r3.Add(tip, out), r3.Vec{Z: 1}), Mass: steelDensity * body.Volume(), Traits: assembly.Adjusts | assembly.Fastener,
	})
	b.join(assembly.Fit, pin, sleeve, r3.Add(now, r3.Scale(wall-tube.Wall/2, out)), assembly.Detail{Diameter: cable.HangerThread, Thread: cable.HangerThread})
	b.join(assembly.Fit, pin, bush, r3.Add(now, r3.Scale(hangStem/2, out)), assembly.Detail{Diameter: cable.HangerPin})
	b.join(assembly.Fit, pin, stem, tip, assembly.Detail{Diameter: cable.HangerPin, Class: "H11/h9"})
}
