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

// Own choices for the swivel bracket, mm.
const (
	weldRoom  = 8.0  // for such a weld under a boss
	ribThick  = 8.0  // between the cheeks
	ribBelow  = 25.0 // its top below the axis, under the bearings' nuts
	ribIn     = 6.0  // its middle inward from the side of the pivot's housing, where every cheek reaches
	ringClear = 2.0  // of the cheeks' bores round the bearing's inner ring
	adjust    = 8.0  // way of a countershaft along its slots, either way, to tighten the chain or belt
)

// bracket adds what swivels with the axis: the sole plate on the index plate, the
// two cheeks square to the axis, and the pivot's bearings outward on them.
func (b *builder) bracket() {
	v := b.v
	group := b.swivels[0]
	top := -b.carry + indexThick + soleThick // of the sole, along the normal
	points := b.points
	foot := b.footHalf()

	// The sole lies in (down, inward) so that its own z is the pad's normal.
	place := solid.Placement{Origin: b.atAxis(0, -b.carry+indexThick, 0), X: b.down, Y: r3.Scale(-1, b.axis), Z: b.normal}
	flip := func(q r2.Vec) r2.Vec { return r2.Vec{X: q.X, Y: -q.Y} }
	sole, size := b.shapes.Blank(shape{soleShape, [16]float64{b.planes.Bearings, foot, points.rear.X, points.front.X}}, func() *solid.Profile {
		disks := b.soleDisks()
		for i := range disks {
			disks[i].At = flip(disks[i].At)
		}
		round := func(q r2.Vec, d float64) contour.Path { return circle(q.X, -q.Y, d) }
		return solid.NewProfile(contour.Around(disks[:]...), round(points.rear, clampHole), round(points.front, clampHole), round(points.pin, pinBody))
	})
	b.sole = b.Pair(assembly.Part{
		ID: "swivel-sole", Title: "Swivel sole", Group: group, Stock: b.plateStock(size.X, size.Y, soleThick),
		Solid: prism(sole, 0, soleThick), Place: place, Density: steelDensity, Traits: assembly.Swivels,
	})
	angles := make([]float64, len(b.angles))
	for i, t := range b.angles {
		angles[i] = t - b.angles[b.middle]
	}
	b.JoinPair(assembly.Swivel, b.sole, b.index, b.atAxis(0, -b.carry+indexThick, b.planes.Bearings),
		assembly.Detail{Thread: clampThread, Count: 2, Length: 40, Diameter: indexPin, Angles: angles})
	b.pullPin(points.pin)

	b.innerCheek = b.cheek("inner-cheek", "Inner cheek", b.planes.InnerCheek, true)
	b.outerCheek = b.cheek("outer-cheek", "Outer cheek", b.planes.OuterCheek, false)
	for _, c := range [2]struct {
		part assembly.Both
		w    float64
	}{{b.innerCheek, b.planes.InnerCheek}, {b.outerCheek, b.planes.OuterCheek}} {
		b.JoinPair(assembly.Weld, c.part, b.sole, b.atAxis(0, top, c.w), assembly.Detail{Throat: cheekWeld, Run: 2 * foot})
	}
	if high := -ribBelow - top; high >= 15 {
		at := solid.Placement{Origin: b.atAxis(ribIn-v.Bearing.Across/2, top+high/2, b.planes.Bearings), X: b.axis, Y: b.normal, Z: r3.Scale(-1, b.down)}
		rib := b.Pair(assembly.Part{
			ID: "cheek-rib", Title: "Cheek rib", Group: group, Stock: b.plateStock(values.CheekApart, high, ribThick),
			Solid: prism(b.rect(values.CheekApart, high, 0), -ribThick/2, ribThick/2), Place: at, Density: steelDensity, Traits: assembly.Swivels,
		})
		weld := assembly.Detail{Throat: cheekWeld, Run: high}
		b.JoinPair(assembly.Weld, rib, b.innerCheek, at.Point(r3.Vec{X: -values.CheekApart / 2}), weld)
		b.JoinPair(assembly.Weld, rib, b.outerCheek, at.Point(r3.Vec{X: values.CheekApart / 2}), weld)
		b.JoinPair(assembly.Weld, rib, b.sole, at.Point(r3.Vec{Y: -high / 2}), assembly.Detail{Throat: cheekWeld, Run: values.CheekApart})
	}
	b.pivotUnits = b.flangeUnits("pivot", "Pivot", r2.Vec{})

	u := &v.Bearing
	half := u.Across/2 + math.Abs(b.oval.Y)*(u.Long-u.Across)/2 + bossOver + weldRoom
	b.need("pivot-over-sole", -top-half)
	if v.Second != nil {
		b.need("second-shaft-over-sole", b.second.Y-half-top)
		b.need("shafts-apart", r2.Norm(b.second)-u.Across-2*bossOver)
		// Its inner bearing stays outside the pad, or past its far end.
		clear := math.Inf(1)
		wide := (u.Across + math.Abs(b.oval.X)*(u.Long-u.Across)) / 2
		for _, t := range b.angles {
			s, c := math.Sincos(t)
			up, in := -b.second.X*c, (b.planes.InnerCheek-values.CheekThick/2-u.Ring)*c+b.second.X*s
			clear = min(clear, max(in-wide*math.Abs(s)-v.Rest.Width/2, up-wide-v.Rest.Far))
		}
		b.need("second-shaft-clear-of-pad", clear)
	}
}

// Pull pin, screwed into the sole (bought), mm and kg.
const (
	pinBody = 20.0 // thread M20x1.5
)

func (b *builder) pullPin(at r2.Vec) {
	place := solid.Placement{Origin: b.atAxis(at.X, -b.carry, at.Y), X: b.down, Y: r3.Scale(-1, b.axis), Z: b.normal}
	r := indexPin / 2
	pin := b.Pair(assembly.Part{
		ID: "index-pin", Title: "Pull pin", Group: b.swivels[0],
		Stock: assembly.Stock{Form: assembly.Bought, Name: "M20x1.5, pin 12", Grade: "steel", Size: [3]float64{indexPin, pinBody, 60}},
		Solid: solid.Turned{Outline: []r2.Vec{{X: r}, {X: r, Y: indexThick}, {X: pinBody / 2, Y: indexThick}, {X: pinBody / 2, Y: 38}, {X: 14, Y: 38}, {X: 14, Y: 60}}},
		Place: place, Mass: pinMass, Traits: assembly.Swivels | assembly.Adjusts | assembly.Fastener,
	})
	b.JoinPair(assembly.Fit, pin, b.sole, b.atAxis(at.X, -b.carry+indexThick, at.Y), assembly.Detail{Diameter: pinBody, Thread: pinBody})
	b.JoinPair(assembly.Fit, pin, b.index, b.atAxis(at.X, -b.carry, at.Y), assembly.Detail{Diameter: indexPin, Class: "H11/h9"})
}

// cheek adds one plate across the axis: round the housings of its bearings, down to
// the sole, and the inner one out to the stops.
func (b *builder) cheek(id, title string, w float64, inner bool) assembly.Both {
	v := b.v
	u := &v.Bearing
	top := -b.carry + indexThick + soleThick
	foot := b.footHalf()
	key := shape{cheekShape, [16]float64{foot, top, u.Spacing, u.Across, b.oval.X, b.second.X, b.second.Y, v.Last, v.Arm.Height}}
	key.n[12] = v.Cores.M8
	if inner {
		key.n[9] = 1
	}
	if v.Second != nil {
		key.n[10] = 1
	}
	if !inner && v.HasGuard() {
		key.n[11] = v.Cam.Reach
	}
	p, size := b.shapes.Blank(key, func() *solid.Profile {
		disks := []contour.Disk{{At: r2.Vec{X: -foot, Y: top}}, {At: r2.Vec{X: foot, Y: top}}}
		pivot := b.unitDisks(r2.Vec{}, bossOver)
		disks = append(disks, pivot[:]...)
		end := r2.Scale(u.Spacing/2, b.oval)
		holes := []contour.Path{circle(0, 0, u.Inner+2*ringClear), contour.Circle(end, u.Hole/2), contour.Circle(r2.Scale(-1, end), u.Hole/2)}
		if v.Second != nil {
			second := b.unitDisks(b.second, bossOver)
			disks = append(disks, second[:]...)
			way := r2.Vec{}
			if v.Geared() {
				way = r2.Scale(adjust, r2.Unit(b.second))
			}
			for _, h := range [3]struct {
				at r2.Vec
				d  float64
			}{{b.second, u.Inner + 2*ringClear}, {r2.Add(b.second, end), u.Hole}, {r2.Sub(b.second, end), u.Hole}} {
				holes = append(holes, contour.Slot(r2.Sub(h.at, way), r2.Add(h.at, way), h.d))
			}
		}
		if !inner && v.HasGuard() {
			for _, q := range b.planGuard().ears {
				disks = append(disks, contour.Disk{At: q, Radius: guardEar})
				holes = append(holes, circle(q.X, q.Y, v.Cores.M8)) // tapped
			}
		}
		if inner {
			for _, s := range b.stopPlaces() {
				for _, x := range [2]float64{-stopWide/2 - weldRoom, stopWide/2 + weldRoom} {
					for _, y := range [2]float64{-stopThick/2 - weldRoom, stopThick/2 + weldRoom} {
						disks = append(disks, contour.Disk{At: r2.Add(s.middle, r2.Add(r2.Scale(x, s.along), r2.Scale(y, s.across)))})
					}
				}
			}
		}
		return solid.NewProfile(contour.Around(disks...), holes...)
	})
	return b.Pair(assembly.Part{
		ID: id, Title: title, Group: b.swivels[0], Stock: b.plateStock(size.X, size.Y, values.CheekThick),
		Solid: prism(p, -values.CheekThick/2, values.CheekThick/2), Place: b.across(w), Density: steelDensity, Traits: assembly.Swivels,
	})
}
