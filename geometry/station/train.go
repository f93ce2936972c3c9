package station

import (
	"math"
	"strings"

	"armwright/geometry/linkage"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The bars of a linkage, cut from plate, and what holds them together, mm (own
// choices).
const (
	leastPin = 12.0 // pins between bars
	leastPeg = 24.0 // spigot of the plates' sleeve in the plate lever
	hubRoom  = 18.0 // of an eye beyond a shaft, for its weld
	pinRoom  = 14.0 // of an eye beyond a pin
	pegRoom  = 23.0 // of the plate lever's outer eye beyond the spigot

	// SleeveAcross, SleeveLength and SleeveMass (kg) are those of the tube, 3 mm
	// thick, that plates with a bore of 50 mm hang on.
	SleeveAcross = 48.0
	SleeveLength = plateHalf + guardRoom
	SleeveMass   = 0.3

	washer     = 2.0  // between input or output bar and coupler
	pinHead    = 12.0 // nut and end of a pin beyond the coupler
	leverClear = 28.0 // from the pins to the plate lever: no finger is caught between (ISO 13854: 25)
	plateHalf  = 15.0 // from the plate lever to the middle of the plates
)

// PinAcross is the diameter of the pins between bars of a thickness: as large as
// what a cutting machine pierces well.
func PinAcross(thick float64) float64 { return math.Max(leastPin, thick) }

// PegAcross is that of the plates' spigot.
func PegAcross(thick float64) float64 { return math.Max(leastPeg, thick) }

// TrainBars are the bars of one arm's linkage.
type TrainBars struct{ Input, Coupler, Output, Lever linkage.Bar }

// NamedBar is a bar with its title in the parts list.
type NamedBar struct {
	Title string
	linkage.Bar
}

// Named lists the bars from the arm to the plates.
func (b TrainBars) Named() [4]NamedBar {
	return [4]NamedBar{{"Input bar", b.Input}, {"Coupler", b.Coupler}, {"Output bar", b.Output}, {"Plate lever", b.Lever}}
}

// NewTrainBars returns the bars of a train, cut from plate of a thickness, on
// shafts of a diameter: input bar, output bar and plate lever begin at their
// shaft, the coupler at the input bar's pin.
func NewTrainBars(t linkage.Train, shaft, thick float64) TrainBars {
	eye := func(bore, room float64) linkage.Eye { return linkage.Eye{Radius: bore/2 + room, Bore: bore} }
	hub, pin, peg := eye(shaft, hubRoom), eye(PinAcross(thick), pinRoom), eye(PegAcross(thick), pegRoom)
	return TrainBars{
		Input:   linkage.Bar{Length: t.Bars.Input, A: hub, B: pin},
		Coupler: linkage.Bar{Length: t.Bars.Coupler, A: pin, B: pin},
		Output:  linkage.Bar{Length: t.Bars.Output, A: hub, B: pin},
		Lever:   linkage.Bar{Length: t.Radius, A: hub, B: peg},
	}
}

// leastWeb is the least plate between the two bores of a bar, mm: as much as stands
// beyond a pin's. It also keeps either eye from holding the other, as an eye is at
// most pegRoom wider than its bore.
const leastWeb = pinRoom

// Check tells whether the bars can be cut: a *linkage.Error for the first that is too
// short for its bores.
func (b TrainBars) Check() error {
	for _, v := range b.Named() {
		if web := v.Web(); !(web >= leastWeb) {
			return &linkage.Error{Kind: linkage.Input, What: strings.ToLower(v.Title) + ", plate between its bores (mm)", Value: web, Limit: leastWeb,
				Hint: "a longer bar, a thinner plate (stock.cam_plate) or a thinner shaft (stock.shaft)"}
		}
	}
	return nil
}

// LeastBars are the shortest lengths, mm, that pass Check: of the bar from a shaft to a
// pin, of the coupler and of the plate lever.
func LeastBars(shaft, thick float64) (shaftToPin, coupler, lever float64) {
	pin := PinAcross(thick)
	return (shaft+pin)/2 + leastWeb, pin + leastWeb, (shaft+PegAcross(thick))/2 + leastWeb
}

// Weights reduces the bars, and the plates' sleeve, to the joints of their train. perArea is the mass of
// the plate they are cut from, kg/mm².
func (b TrainBars) Weights(perArea float64) linkage.Weights {
	_, input := b.Input.Areas()
	near, far := b.Coupler.Areas()
	_, output := b.Output.Areas()
	_, lever := b.Lever.Areas()
	return linkage.Weights{Pin: perArea * (input + near), Joint: perArea * (far + output), Plates: perArea*lever + SleeveMass}
}

// ShaftClear is how near to the output shaft the coupler's line may come, mm:
// the coupler passes the shaft in its own plane, the plate lever beyond it.
func ShaftClear(shaft, thick float64) float64 {
	return shaft/2 + PinAcross(thick)/2 + pinRoom + washer
}

// The planes of a linkage across the axis, outward from the pivot, mm: input
// and output bar are where a cam would be, the coupler beyond them, then plate
// lever and plates on the output shaft, past the end of the arm's.

// CouplerPlane is the middle of the coupler.
func (l Layout) CouplerPlane() float64 { return l.CamPlane() + l.BarThick + washer }

// LeverPlane is the middle of the plate lever.
func (l Layout) LeverPlane() float64 { return l.CouplerPlane() + l.BarThick + pinHead + leverClear }

// PlatePlane is the middle of the plates of a lever or a linkage.
func (l Layout) PlatePlane() float64 {
	if l.Train == nil {
		return l.CamPlane()
	}
	return l.LeverPlane() + l.BarThick/2 + plateHalf
}

// PinLength is that of a coupler pin through two bars, with its ends.
func (l Layout) PinLength() float64 { return 2*l.BarThick + washer + 2*pinHead }

// OutputShaftLength is that of the output shaft: from the inner bearing to the
// plate lever's outer face.
func (l Layout) OutputShaftLength() float64 {
	return l.LeverPlane() + l.BarThick/2 - l.BearingPlane() + bearingRoom
}

// Bars are the bars of the linkage.
func (l Layout) Bars() TrainBars { return NewTrainBars(*l.Train, l.Shaft, l.BarThick) }

// pose is the train at theta past the first loaded angle. A layout is made of a
// linkage that closes over the loaded range.
func (l Layout) pose(theta float64) linkage.Pose {
	p, _ := l.Train.At(l.First + theta)
	return p
}

// output is a place of the plane across the axis in the machine frame, the axis
// taken level as everywhere in the layout.
func output(pivot r3.Vec, q r2.Vec, plane float64) r3.Vec {
	return r3.Add(pivot, r3.Vec{X: q.X, Y: math.Copysign(plane, pivot.Y), Z: q.Y})
}

// trainLumps are bars and plates of one arm at theta past the first loaded angle.
func (l *Layout) trainLumps(out []Lump, id, title string, pivot r3.Vec, theta float64) []Lump {
	p := l.pose(theta)
	b := l.Bars()
	for _, v := range []struct {
		id, title string
		bar       linkage.Bar
		from, to  r2.Vec
		plane     float64
	}{
		{"input-bar-", "Input bar, ", b.Input, r2.Vec{}, p.Pin, l.CamPlane()},
		{"coupler-", "Coupler, ", b.Coupler, p.Pin, p.Joint, l.CouplerPlane()},
		{"output-bar-", "Output bar, ", b.Output, p.Shaft, p.Joint, l.CamPlane()},
		{"plate-lever-", "Plate lever, ", b.Lever, p.Shaft, p.Plates, l.LeverPlane()},
	} {
		near, far := v.bar.Areas()
		at := r2.Add(v.from, r2.Scale(far/(near+far), r2.Sub(v.to, v.from)))
		out = append(out, Lump{ID: v.id + id, Title: v.title + title, Centre: output(pivot, at, v.plane), Mass: (near + far) * l.BarPerArea})
	}
	out = append(out, Lump{ID: "sleeve-" + id, Title: "Plate sleeve, " + title, Centre: output(pivot, p.Plates, l.PlatePlane()), Mass: SleeveMass})
	if l.PlatesEachArm > 0 {
		out = append(out, Lump{ID: "plates-" + id, Title: "Plates, " + title, Centre: output(pivot, p.Plates, l.PlatePlane()), Mass: l.PlatesEachArm})
	}
	return out
}

// OutputShaft is the middle of the right output shaft's bearings on an axis, given
// by its outward unit vector: the place turns with the axis.
func (l Layout) OutputShaft(axis r3.Vec) r3.Vec {
	q := l.Train.Shaft()
	return NewSwing(l.RightPivot(), axis, 0).InPlane(q.X, q.Y, l.BearingPlane())
}

// onSwivel tells whether the output shaft stands on the bar that carries the
// arm's bearings from the post behind them.
func (l Layout) onSwivel() bool {
	const aside = 1.0 // mm
	s := l.Train.Shaft()
	return l.HasBack && math.Abs(s.Y) < aside && s.X < 0 && s.X > l.PadPost
}

// ground is the fixed link of one arm's linkage: the output shaft's bearings and,
// where nothing else carries them, a bar from the arm's.
func (l Layout) ground(id, title string, pivot r3.Vec) (members []Member, lump Lump) {
	shaft := output(pivot, l.Train.Shaft(), l.BearingPlane())
	if !l.onSwivel() {
		members = append(members, Member{ID: "ground-" + id, Title: "Ground bar, " + title,
			A: output(pivot, r2.Vec{}, l.BearingPlane()), B: shaft, Deep: l.ArmTube, Wide: l.ArmTube, PerMetre: l.ArmPerMetre})
	}
	return members, Lump{ID: "shaft-" + id, Title: "Output shaft unit, " + title, Centre: shaft, Mass: pivotUnitMass}
}
