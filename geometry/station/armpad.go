package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for padding, mm: board, foam and what is under them.
const (
	screwIn    = 15.0 // of the screws from the plate's edges
	screwClear = 14.0 // of a screw's middle from the tube under the plate
	screwHole  = 9.0
	screwApart = 1.5 * screwHole // rows of screws at least; judgement
)

// Sizes of the saddle plate between post and pad bracket, mm (own choices). It reaches
// past the post's sides, so that it is welded to these walls and not to the thin face.
const (
	saddleThick = 8.0
	saddleOver  = postLedge // beyond the post's sides, for the weld
	saddleBelow = 20.0      // beyond the underside of the bracket's tube
)

// armPad adds the pad under the upper arm, or behind it, its plate, and the tube
// that carries it from a saddle plate on the post, or from the stub. Index plate and pad
// plate lie on one plane, so that the tube's top meets both.
func (b *builder) armPad() {
	v := b.v
	r := &v.Rest
	long := r.Far - r.Near
	place := b.onRest((r.Near+r.Far)/2, -r.Offset)
	board := b.upholstered("arm-pad", "Arm pad", long, r.Width, place, b.frame, 0, b.Pair)
	pl, pw := long-2*plateIn, r.Width-2*plateIn
	// Two rows of screws, past the tube under the plate: where it lies at an end,
	// on this side of it.
	tubeAt := (r.Near+r.Far)/2 - b.padUp
	rows := [2]float64{screwIn - pl/2, pl/2 - screwIn}
	for i, x := range rows {
		if room := v.Arm.Width/2 + screwClear; math.Abs(x-tubeAt) < room {
			rows[i] = tubeAt - math.Copysign(room, x)
		}
	}
	// A pad too short for both has one row, at the end farther from the tube.
	screws := 4
	if rows[1]-rows[0] < screwApart {
		end := math.Copysign(max(0, pl/2-screwIn), -tubeAt)
		rows, screws = [2]float64{end, end}, 2
	}
	half := pw/2 - screwIn
	profile := b.profile(shape{padPlateShape, [16]float64{pl, pw, rows[0], rows[1]}}, func() *solid.Profile {
		holes := make([]contour.Path, 0, 4)
		for _, x := range rows[:screws/2] {
			holes = append(holes, circle(x, -half, screwHole), circle(x, half, screwHole))
		}
		return solid.NewProfile(contour.Rectangle(pl, pw, padRound), holes...)
	})
	plate := b.Pair(assembly.Part{
		ID: "arm-pad-plate", Title: "Arm pad plate", Group: b.frame, Stock: b.plateStock(pl, pw, padPlate),
		Solid: prism(profile, -padThick-padPlate, -padThick), Place: place, Density: steelDensity,
	})
	b.JoinPair(assembly.Bolts, plate, board, place.Point(r3.Vec{Z: -padThick}),
		assembly.Detail{Thread: 8, Count: screws, Length: 20, Pattern: [2]float64{rows[1] - rows[0], 2 * half}})

	tube := &v.Arm
	out := -b.postY - v.Member.Width/2 // inner face of what the tube stands on, from the midline
	on := b.carrier
	if !v.Reclined {
		out -= saddleThick
		on = b.padSaddle(out)
	}
	in := -b.pivot.Y - pw/2 + capThick
	deep := -b.carry - tube.Height/2
	y := func(from float64) r3.Vec {
		at := b.onRest(b.padUp, deep).Origin
		at.Y = -from
		return at
	}
	at := solid.Along(y(out), y(in), b.normal)
	bracket := b.Pair(assembly.Part{
		ID: "arm-pad-bracket", Title: "Arm pad bracket", Group: b.frame, Stock: tubeStock(tube, out-in),
		Solid: prism(b.section(tube), 0, out-in), Place: at, Density: steelDensity,
	})
	b.JoinPair(assembly.Weld, bracket, on, y(out), b.tubeWeld(tube))
	top := b.onRest(b.padUp, -b.carry).Origin
	b.JoinPair(assembly.Weld, plate, bracket, top, assembly.Detail{Throat: tubeWeld, Run: 2 * pw})
	b.padTube, b.padFront = bracket, b.onRest(b.padUp-tube.Height/2, deep).Origin
	end := solid.Along(y(in), y(in-1), b.normal)
	b.cap("arm-pad-cap", "arm-cap", tube, end, bracket, b.frame)

	// Where the index plate reaches over the tube it is welded to it as well.
	edge := top
	edge.Y = 2 - out
	if b.overIndex(edge) {
		b.JoinPair(assembly.Weld, bracket, b.index, edge, assembly.Detail{Throat: tubeWeld, Run: 60})
	}
}

// padSaddle adds the plate on the inner face of the post that spreads what the pad's
// bracket carries over its side walls: a parallelogram along them, under the index plate.
// Its inner face stands from the midline by a distance.
func (b *builder) padSaddle(from float64) assembly.Both {
	m := &b.v.Member
	s, c := math.Sincos(b.v.Rest.Slope)
	half, deep := m.Height/2+saddleOver, b.v.Arm.Height+saddleBelow
	profile, size := b.shapes.Blank(shape{saddleShape, [16]float64{half, deep, s, c}}, func() *solid.Profile {
		// In (down, normal), aside from the middle of the post and below its mitred end.
		at := func(aside, below float64) r2.Vec { return r2.Vec{X: (aside + below*s) / c, Y: -below} }
		return solid.NewProfile(contour.Polygon(at(half, 0), at(-half, 0), at(-half, deep), at(half, deep)))
	})
	// Own x down the pad, y out of it, z outward.
	place := solid.Placement{Origin: b.postTop, X: r3.Scale(-1, b.up), Y: b.normal, Z: r3.Vec{Y: -1}}
	place.Origin.Y = -from
	saddle := b.Pair(assembly.Part{
		ID: "arm-pad-saddle", Title: "Saddle plate", Group: b.frame, Stock: b.plateStock(max(size.X, size.Y), min(size.X, size.Y), saddleThick),
		Solid: prism(profile, 0, saddleThick), Place: place, Density: steelDensity,
	})
	on := place.Point(r3.Vec{X: 10 * s, Y: -10 * c, Z: saddleThick})
	b.JoinPair(assembly.Weld, saddle, b.carrier, on, assembly.Detail{Throat: tubeWeld, Run: 2*deep/c + 2*m.Height})
	return saddle
}

// overIndex reports whether a place of the carrying plane lies under the right index
// plate.
func (b *builder) overIndex(at r3.Vec) bool {
	part := &b.Parts[b.index[0]]
	q := part.Place.Inverse().Point(at)
	p := part.Solid.(solid.Prism).Profile.Outer()
	return p.Contains(r2.Vec{X: q.X, Y: q.Y})
}
