package station

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the guard, mm (own choices): a sheet outside the drive on two spacers, that
// stand on a flat bar across the top of the outer cheek.
const (
	guardBarWide  = 40.0
	guardBarThick = 8.0
	guardHole     = 9.0  // for it
	guardSpacer   = 16.0 // diameter
	guardOver     = 10.0 // of the sheet beyond what turns behind it
	guardPast     = 12.0 // from what turns to a spacer
)

// guardPlan is the places (down, normal) of what holds the guard.
type guardPlan struct {
	ears    [2]r2.Vec // bolts of bar on cheek
	spacers [2]r2.Vec
}

// planGuard keeps the bar above the bearing housings, and the spacers out of the way of
// the cam and of what the arm's shaft carries.
func (b *builder) planGuard() guardPlan {
	v, u := b.v, &b.v.Bearing
	const clear, ear = guardPast + guardSpacer/2, 20.0
	reach := v.Cam.Reach + clear
	housing := math.Abs(b.oval.Y)*u.Long/2 + math.Abs(b.oval.X)*u.Across/2
	high := max(0, b.second.Y) + housing + bossOver + guardBarWide/2
	if !v.Geared() {
		high = max(high, reach*math.Cos(math.Pi/6))
	}
	across := func(radius, dy float64) float64 { return math.Sqrt(max(0, radius*radius-dy*dy)) }
	end := 2*ear + guardEar
	if w := weightReach(v); w > 0 {
		end = max(end, across(w+clear, high))
	}
	cam := across(reach, high-b.second.Y)
	return guardPlan{
		ears:    [2]r2.Vec{{X: min(-ear, b.second.X), Y: high}, {X: max(ear, b.second.X), Y: high}},
		spacers: [2]r2.Vec{{X: min(-end, b.second.X-cam), Y: high}, {X: max(end, b.second.X+cam), Y: high}},
	}
}

// guards adds the guard outside chain and cam.
func (b *builder) guards() {
	v, p := b.v, &b.planes
	if !v.HasGuard() {
		return
	}
	plan, group := b.planGuard(), b.swivels[0]
	face := p.OuterCheek + values.CheekThick/2
	at := func(q r2.Vec, w float64) r3.Vec { return b.atAxis(q.X, q.Y, w) }

	from, to := plan.spacers[0], plan.spacers[1]
	half := guardBarWide / 2
	bar := b.profile(shape{guardBarShape, [16]float64{from.X, to.X, from.Y, plan.ears[0].X, plan.ears[1].X}}, func() *solid.Profile {
		var holes []contour.Path
		for _, q := range [4]r2.Vec{from, plan.ears[0], plan.ears[1], to} {
			holes = append(holes, circle(q.X, q.Y, guardHole))
		}
		corner := func(q r2.Vec, dx, dy float64) contour.Disk { return contour.Disk{At: r2.Vec{X: q.X + dx, Y: q.Y + dy}} }
		return solid.NewProfile(contour.Around(corner(from, -guardEar, -half), corner(to, guardEar, -half), corner(to, guardEar, half), corner(from, -guardEar, half)), holes...)
	})
	arm := b.Pair(assembly.Part{
		ID: "guard-bar", Title: "Guard bar", Stock: b.plateStock(to.X-from.X+2*guardEar, guardBarWide, guardBarThick), Group: group,
		Solid: prism(bar, 0, guardBarThick), Place: b.across(face), Density: steelDensity, Traits: assembly.Swivels,
	})
	for _, q := range plan.ears {
		b.join(assembly.Bolts, arm, b.outerCheek, at(q, face), assembly.Detail{Thread: guardBolt, Count: 1, Length: 30})
	}

	// The sheet covers the cam, and wheel and weights on the arm's shaft.
	wheel := v.Shaft / 2
	if v.Geared() {
		wheel = v.Cam.ArmWheel/2 + v.Cam.Tip
	}
	wheel = max(wheel, weightReach(v)) + guardOver
	reach := v.Cam.Reach + guardOver
	sheet := b.profile(shape{guardShape, [16]float64{from.X, to.X, from.Y, wheel, reach, b.second.X, b.second.Y}}, func() *solid.Profile {
		return solid.NewProfile(contour.Around(contour.Disk{Radius: wheel}, contour.Disk{At: b.second, Radius: reach}, contour.Disk{At: from, Radius: guardEar}, contour.Disk{At: to, Radius: guardEar}),
			circle(from.X, from.Y, guardHole), circle(to.X, to.Y, guardHole))
	})
	box := sheet.Bounds()
	stock := b.plateStock(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y, v.GuardThick)
	stock.Form = assembly.Sheet
	cover := b.Pair(assembly.Part{
		ID: "drive-guard", Title: "Drive guard", Stock: stock, Group: group,
		Solid: prism(sheet, 0, v.GuardThick), Place: b.across(p.Guard), Density: steelDensity, Traits: assembly.Swivels | assembly.Guard,
	})
	long := p.Guard - face - guardBarThick
	for i, q := range plan.spacers {
		place := b.across(face + guardBarThick)
		place.Origin = at(q, face+guardBarThick)
		spacer := b.Pair(assembly.Part{
			ID: [2]string{"guard-spacer-rear", "guard-spacer-front"}[i], Item: "guard-spacer", Title: "Guard spacer", Group: group,
			Stock: assembly.Stock{Form: assembly.Round, Grade: v.Member.Grade, Size: [3]float64{guardSpacer}, Length: long},
			Solid: solid.Round(guardSpacer, long), Place: place, Density: steelDensity, Traits: assembly.Swivels,
		})
		screw := assembly.Detail{Thread: guardBolt, Count: 1, Length: 25} // tapped at both ends
		b.join(assembly.Bolts, spacer, arm, place.Origin, screw)
		b.join(assembly.Bolts, spacer, cover, at(q, p.Guard), screw)
	}
	b.shield()
	if b.routed {
		c := &v.Tower.Cable
		leave := r3.Sub(b.route.Sheaves[0].Centre, b.pivot)
		away := math.Hypot(r3.Dot(leave, b.down), r3.Dot(leave, b.normal))
		b.need("guide-clear-of-guard", away-sheaveRim(c)-wheel-sheaveGap)
	}
}

// shield marks what turns between the bearings and the guard.
func (b *builder) shield() {
	behind := [4]int{b.arms[0], b.arms[1], -1, -1}
	if b.v.Geared() {
		behind[2], behind[3] = b.counterGroup, b.counterGroup+1
	}
	for i := range b.Parts {
		p := &b.Parts[i]
		at := p.Centre
		if p.Side == assembly.Left {
			at.Y = -at.Y
		}
		if slices.Contains(behind[:], p.Group) && r3.Dot(r3.Sub(at, b.pivot), b.axis) > b.planes.RingOut {
			p.Traits |= assembly.Guarded
		}
	}
}
