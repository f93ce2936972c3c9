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

// armPad adds the pad under the upper arm, or behind it, its plate, and the tube
// that carries it from the post or the stub. Index plate and pad plate lie on one
// plane, so that the tube's top meets both.
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
	out := -b.postY - v.Member.Width/2 // inner face of the post, from the midline
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
	b.JoinPair(assembly.Weld, bracket, b.carrier, y(out), b.tubeWeld(tube))
	top := b.onRest(b.padUp, -b.carry).Origin
	b.JoinPair(assembly.Weld, plate, bracket, top, assembly.Detail{Throat: tubeWeld, Run: 2 * pw})
	b.padTube, b.padFront = bracket, b.onRest(b.padUp-tube.Height/2, deep).Origin
	end := solid.Along(y(in), y(in-1), b.normal)
	b.cap("arm-pad-cap", "arm-cap", tube, end, bracket, b.frame)

	// Where the index plate reaches over the tube it is welded to it as well.
	edge := top
	edge.Y = b.postY + v.Member.Width/2 + 2
	if b.overIndex(edge) {
		b.JoinPair(assembly.Weld, bracket, b.index, edge, assembly.Detail{Throat: tubeWeld, Run: 60})
	}
}

// overIndex tells whether a place of the carrying plane lies under the right index
// plate.
func (b *builder) overIndex(at r3.Vec) bool {
	part := &b.Parts[b.index[0]]
	q := part.Place.Inverse().Point(at)
	p := part.Solid.(solid.Prism).Profile.Outer()
	return p.Contains(r2.Vec{X: q.X, Y: q.Y})
}
