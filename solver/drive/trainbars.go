package drive

import (
	"math"
	"strings"

	"armwright/geometry/linkage"
)

// The bars of a linkage, cut from plate, and what holds them together, mm (own
// choices).
const (
	leastPin = 12.0 // pins between bars
	leastPeg = 24.0 // spigot of the plates' sleeve in the plate lever
	hubRoom  = 18.0 // of an eye beyond a shaft, for its weld
	pinRoom  = 14.0 // of an eye beyond a pin
	pegRoom  = 23.0 // of the plate lever's outer eye beyond the spigot

	washer = 2.0 // between input or output bar and coupler

	// SleeveMass is that of the tube that plates with a bore of 50 mm hang on, kg.
	SleeveMass = 0.3
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

// Check reports whether the bars can be cut: a *linkage.Error for the first that is too
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
