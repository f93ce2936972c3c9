package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the back pad, mm (own choices).
const (
	backLift   = 10.0 // of the pad's lower edge above the lowest seat, along the slope
	backPlate  = 8.0  // bracket plates between strut and board
	backAcross = 180.0
	backAlong  = 80.0
	backInset  = 0.12 // of the pad's length from its end to the middle of a bracket plate
)

// backStrut is the strut of the back pad: it leans as the pad does, behind it, from a
// cross member up.
type backStrut struct {
	foot, along, back r3.Vec  // middle of its foot on the base; up the slope; square to the pad, away from its face
	high              float64 // its length along the middle
}

// newBackStrut works it out; base is the height of the cross member's top.
func newBackStrut(v *values.Station, base float64) backStrut {
	s, c := math.Sincos(v.Back.Angle)
	k := backStrut{along: r3.Vec{X: -s, Z: c}, back: r3.Vec{X: -c, Z: -s}}
	depth := padThick + backPlate + v.Member.Height/2
	at := r3.Add(r3.Vec{X: v.Back.Foot, Z: v.Seat.Lowest}, r3.Scale(depth, k.back))
	down := (at.Z - base) / c
	k.foot = r3.Sub(at, r3.Scale(down, k.along))
	k.high = down + v.Back.Length*(1-backInset) + backAlong/2
	return k
}

// backPad adds the back pad: a leaning strut on a cross member, bracket plates welded
// on its front, and the cushion screwed to them.
func (b *builder) backPad() {
	v, k, m := b.v, &b.v.Back, &b.v.Member
	if !v.HasBack() {
		return
	}
	s := newBackStrut(v, b.baseTop)
	sn, cs := math.Sincos(k.Angle)
	const clear = 1.0
	// The pad's lower edge is the nearest to the seat as that rises past it.
	b.need("seat-clear-of-back", v.Seat.Front-v.Seat.Depth-(k.Foot-backLift*sn)-clear)
	// Own z up the strut, own y forward; the foot is cut level.
	tube := solid.Prism{Profile: b.section(m), From: solid.End{Tilt: r2.Vec{Y: -sn / cs}}, To: solid.Flat(s.high)}
	strut := b.Add(assembly.Part{
		ID: "back-strut", Title: "Back pad strut", Stock: tubeStock(m, s.high+m.Height/2*sn/cs), Group: b.frame,
		Solid: tube, Place: solid.Along(s.foot, r3.Add(s.foot, s.along), r3.Vec{X: 1}), Density: steelDensity,
	})
	weld := b.tubeWeld(m)
	weld.Run = 2*m.Width + 2*m.Height/cs
	b.Join(assembly.Weld, strut, b.crossBack.part, s.foot, weld)
	end := r3.Add(s.foot, r3.Scale(s.high, s.along))
	b.cap("back-strut-cap", "back-strut-cap", m, solid.Along(end, r3.Add(end, s.along), r3.Vec{X: 1}), assembly.One(strut), b.frame)

	// Own x up the slope, own z out of the pad.
	face := r3.Vec{X: k.Foot, Z: v.Seat.Lowest}
	on := func(up, behind float64) solid.Placement {
		at := r3.Add(face, r3.Add(r3.Scale(up, s.along), r3.Scale(behind, s.back)))
		out := r3.Scale(-1, s.back)
		return solid.Placement{Origin: at, X: s.along, Y: r3.Cross(out, s.along), Z: out}
	}
	long := k.Length - backLift
	middle := backLift + long/2
	// The arm pads stand before the back pad, or beside it.
	before := math.Inf(1)
	for _, up := range [2]float64{v.Rest.Near, v.Rest.Far} {
		for _, below := range [2]float64{v.Rest.Offset, b.carry} {
			before = min(before, r3.Dot(r3.Sub(face, b.onRest(up, -below).Origin), s.back))
		}
	}
	b.needs = append(b.needs, Need{ID: "arm-pads-before-back", Slack: max(before, -b.pivot.Y-v.Rest.Width/2-k.Width/2) - clear, Late: true})
	board := b.upholstered("back", "Back pad", long, k.Width, on(middle, 0), b.frame, 0, b.one)
	across := min(backAcross, k.Width-2*seatEdge)
	profile := b.fourHoles(backAlong, across, 9, backAlong-30, across-40)
	for i, share := range [3]float64{backInset, 0.5, 1 - backInset} {
		at := on(k.Length*share, padThick+backPlate)
		plate := b.Add(assembly.Part{
			ID: [3]string{"back-bracket-low", "back-bracket-middle", "back-bracket-high"}[i], Item: "back-bracket", Title: "Back pad bracket plate",
			Stock: b.plateStock(across, backAlong, backPlate), Group: b.frame, Solid: prism(profile, 0, backPlate), Place: at, Density: steelDensity,
		})
		b.Join(assembly.Weld, plate, strut, at.Origin, assembly.Detail{Throat: tubeWeld, Run: 2 * backAlong})
		b.Join(assembly.Bolts, plate, board[0], on(k.Length*share, padThick).Origin, assembly.Detail{Thread: 8, Count: 4, Length: 25, Pattern: [2]float64{backAlong - 30, across - 40}})
	}
}
