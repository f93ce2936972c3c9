package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the chest pad's carrier, mm (own choices).
const (
	chestPlate  = 8.0 // under the board
	chestCheek  = 8.0
	chestTab    = 10.0  // thickness of a tab on an arm pad bracket's front face
	chestTall   = 36.0  // its height
	chestHold   = 60.0  // of it on the face, from the cushion's inner edge
	chestSleeve = 110.0 // of the slide's sleeve
	chestPin    = 30.0  // of the pin from the sleeve's front end
	chestPast   = 6.0   // from the foremost plate to the sleeve
	chestOver   = 10.0  // of the slide's front end beyond the sleeve
	chestReach  = 40.0  // of the crossbar ahead of the tabs at least: past the belly
	chestRim    = 2.0   // of a cheek round what it carries
	chestPass   = 2.0   // of a cheek from the arm pad's cushion
	chestFoot   = 20.0  // of the riser at least
	chestAside  = 15.0  // of the pad from the arm pads
	chestInset  = 15.0  // of the screws' middles from the plate's edges
)

const mostChestLean = math.Pi / 4

// chestPad adds the chest pad: cheeks on tabs of the arm pad brackets carry a
// crossbar ahead of the belly, on which a riser holds the sleeve of a drilled slide
// with the cushion at its rear end.
func (b *builder) chestPad() {
	v, c := b.v, &b.v.Chest
	if c.Positions < 1 {
		return
	}
	tube, outer := &v.Arm, &v.Slide
	half := tube.Height / 2
	sn, cs := math.Sincos(c.Lean)
	out := r3.Vec{X: -cs, Z: sn}
	travel := float64(c.Positions-1) * c.Pitch
	face := r3.Vec{X: c.Rear, Z: c.Height}
	tail := r3.Add(face, r3.Scale(-padThick-chestPlate, out)) // where the slide begins, in the rearmost position
	over := half * math.Abs(sn) / cs                          // of the slide's slanted end beyond its middle
	from := tail.X + travel + over + chestPast                // of the sleeve

	// Tabs on the brackets' front faces reach in past the cushions, beside the belly; the
	// crossbar stands level with them, under the sleeve's rear end.
	inner := v.Spacing/2 - v.Rest.Width/2 - chestPass // of the tabs, from the midline
	sd, cd := math.Sincos(v.Rest.Slope)
	rear, high := (chestTab*cd+chestTall*sd)/2+chestRim, (chestTab*sd+chestTall*cd)/2+chestRim
	end := r3.Sub(b.padFront, r3.Scale(chestTab/2, b.up))
	end.Y = -inner
	bar := r3.Vec{X: max(end.X+chestReach, from+half), Z: end.Z}
	from = bar.X - half
	riser := tail.Z - outer.Height/2 - (bar.Z + half)
	b.need("chest-pad-riser", riser-chestFoot)
	b.need("chest-pad-between-arm-pads", (v.Spacing-v.Rest.Width-c.Wide)/2-chestAside)
	riser = max(riser, chestFoot)
	axis := bar.Z + half + riser + outer.Height/2
	face.Z += axis - tail.Z
	tail.Z = axis

	out0 := v.Spacing/2 - v.Rest.Width/2 + chestHold
	tabAt := solid.Placement{Origin: b.padFront, X: r3.Vec{Y: 1}, Y: b.normal, Z: r3.Scale(-1, b.up)}
	tabAt.Origin.Y = -(inner + out0) / 2
	tabs := b.Pair(assembly.Part{
		ID: "chest-tab", Title: "Chest pad tab", Group: b.frame, Stock: b.plateStock(out0-inner, chestTall, chestTab),
		Solid: prism(b.rect(out0-inner, chestTall, 0), 0, chestTab), Place: tabAt, Density: steelDensity,
	})
	root := b.padFront
	root.Y = -(out0 - chestHold/2)
	b.JoinPair(assembly.Weld, tabs, b.padTube, root, assembly.Detail{Throat: tubeWeld, Run: 2 * chestHold})
	reach := bar.X - end.X
	wide, tall := reach+rear+half+chestRim, 2*max(high, half+chestRim)
	level := solid.Placement{Origin: r3.Add(end, r3.Vec{X: wide/2 - rear}), X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}
	cheeks := b.Pair(assembly.Part{
		ID: "chest-cheek", Title: "Chest pad cheek", Group: b.frame, Stock: b.plateStock(wide, tall, chestCheek),
		Solid: prism(b.rect(wide, tall, 0), 0, chestCheek), Place: level, Density: steelDensity,
	})
	b.JoinPair(assembly.Weld, cheeks, tabs, end, assembly.Detail{Throat: tubeWeld, Run: 2 * chestTall})
	inner -= chestCheek
	left := r3.Vec{X: bar.X, Y: -inner, Z: bar.Z}
	right := r3.Vec{X: bar.X, Y: inner, Z: bar.Z}
	crossbar := b.Add(assembly.Part{
		ID: "chest-crossbar", Title: "Chest pad crossbar", Group: b.frame, Stock: tubeStock(tube, 2*inner),
		Solid: prism(b.section(tube), 0, 2*inner), Place: solid.Along(left, right, r3.Vec{Z: 1}), Density: steelDensity,
	})
	b.join(assembly.Weld, cheeks, assembly.One(crossbar), left, b.tubeWeld(tube))
	foot := r3.Vec{X: bar.X, Z: bar.Z + half}
	head := r3.Vec{X: bar.X, Z: foot.Z + riser}
	post := b.Add(assembly.Part{
		ID: "chest-riser", Title: "Chest pad riser", Group: b.frame, Stock: tubeStock(tube, riser),
		Solid: prism(b.section(tube), 0, riser), Place: solid.Along(foot, head, r3.Vec{X: 1}), Density: steelDensity,
	})
	b.Join(assembly.Weld, post, crossbar, foot, b.tubeWeld(tube))

	d := assembly.NewDetents(c.Pitch, c.Positions, seatPin)
	pinAt := chestSleeve - chestPin // from the sleeve's rear end
	b.need("chest-pad-detents", pinAt-pinEdge-d.Outer(d.Every-1))
	at := func(x float64) r3.Vec { return r3.Vec{X: x, Z: axis} }
	up := r3.Vec{Z: 1}
	shell := prism(b.section(outer), 0, chestSleeve)
	for i := range d.Every {
		if z := pinAt - d.Outer(i); z > pinEdge {
			shell.Bores = append(shell.Bores, pinHole(z))
		}
	}
	sleeve := b.Add(assembly.Part{
		ID: "chest-sleeve", Title: "Chest pad sleeve", Group: b.frame, Stock: tubeStock(outer, chestSleeve),
		Solid: shell, Place: solid.Along(at(from), at(from+chestSleeve), up), Density: steelDensity,
	})
	b.Join(assembly.Weld, sleeve, post, head, b.tubeWeld(tube))

	group := b.Group("chest-pad", b.frame, &assembly.Steps{Setting: assembly.Chest, Step: r3.Vec{X: c.Pitch}})
	long := from + chestSleeve + chestOver - tail.X
	bar0 := solid.Prism{Profile: b.section(tube), From: solid.End{Tilt: r2.Vec{Y: sn / cs}}, To: solid.Flat(long)}
	for _, back := range d.Inner() {
		if z := from + pinAt - tail.X - back; z > pinEdge && z < long-pinEdge {
			bar0.Bores = append(bar0.Bores, pinHole(z))
		}
	}
	slide := b.Add(assembly.Part{
		ID: "chest-slide", Title: "Chest pad slide", Group: group, Stock: tubeStock(tube, long+over),
		Solid: bar0, Place: solid.Along(tail, r3.Add(tail, r3.Vec{X: 1}), up), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.Join(assembly.Slide, slide, sleeve, at(from+pinAt), assembly.Detail{Diameter: seatPin, Pitch: c.Pitch, Steps: c.Positions, Thread: 16})
	b.cap("chest-slide-cap", "arm-cap", tube, solid.Along(at(tail.X+long), at(tail.X+long+1), up), assembly.One(slide), group)

	held := b.frame
	if motion := d.PinMotion(assembly.Chest, r3.Vec{X: -1}); motion != nil {
		held = b.Group("chest-pin", b.frame, motion)
	}
	tip := outer.Width/2 + 8
	pinX := from + pinAt
	b.slidePin(b.one, slidePin{
		id: "chest-pin", title: "Pull pin of the chest pad", group: held, tip: r3.Vec{X: pinX, Y: tip, Z: axis}, long: 2 * tip,
		outer: assembly.One(sleeve), outerAt: r3.Vec{X: pinX, Y: -outer.Width/2 + outer.Wall/2, Z: axis}, inner: assembly.One(slide), innerAt: at(pinX),
	})

	on := func(behind float64) solid.Placement {
		return solid.Placement{Origin: r3.Add(face, r3.Scale(-behind, out)), X: r3.Vec{X: sn, Z: cs}, Y: r3.Vec{Y: 1}, Z: out}
	}
	high, broad := c.Long-2*plateIn, c.Wide-2*plateIn
	holes := [2]float64{high - 2*chestInset, broad - 2*chestInset}
	plate := b.Add(assembly.Part{
		ID: "chest-plate", Title: "Chest pad plate", Group: group, Stock: b.plateStock(high, broad, chestPlate),
		Solid: prism(b.fourHoles(high, broad, 9, holes[0], holes[1]), 0, chestPlate), Place: on(padThick + chestPlate), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.Join(assembly.Weld, slide, plate, tail, b.tubeWeld(tube))
	board := b.upholstered("chest-pad", "Chest pad", c.Long, c.Wide, on(0), group, assembly.Adjusts, b.one)
	b.Join(assembly.Bolts, plate, board[0], on(padThick).Origin, assembly.Detail{Thread: 8, Count: 4, Length: 25, Pattern: holes})
}
