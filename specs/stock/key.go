package stock

import (
	"math"
	"strconv"
)

// Key is a parallel key and its keyways, mm.
type Key struct {
	Width, Height float64
	ShaftDepth    float64 // of the keyway in the shaft, t1
	HubDepth      float64 // of the keyway in the hub past the bore, t2
	Standard      string  // by which it is ordered
	Source        string
	Mark          string
}

// Width classes of the keyways: those of ISO 286 that DIN 6885-1 has for a close fit, or
// the class of fit of ASME B17.1 in which key and keyways are of bar stock (M).
const squareFit = "class 1"

// ShaftClass is the class of the keyway's width in the shaft.
func (k Key) ShaftClass() string {
	if k.Standard == inchKey {
		return squareFit
	}
	return "N9"
}

// HubClass is that in the hub.
func (k Key) HubClass() string {
	if k.Standard == inchKey {
		return squareFit
	}
	return "JS9"
}

// Grip returns the height, mm, over which the key bears on the hub's keyway: what
// of it stands out of the shaft.
func (k Key) Grip() float64 { return k.Height - k.ShaftDepth }

// Pressure returns the pressure, N/mm², of a key on the side of the hub's keyway
// over length mm under a torque, N·mm, on a shaft of diameter mm: 2T/(d (h − t1) l),
// the handbook's simple formula, the force taken at the shaft's surface.
func (k Key) Pressure(torque, diameter, length float64) float64 {
	return 2 * torque / (diameter * k.Grip() * length)
}

// KeyFor returns the key for a shaft of a diameter from 6 to 65 mm: of an inch shaft the
// square key of ASME B17.1, of any other the parallel key of DIN 6885-1 (ISO 773 has the
// same sections). False outside that range, and for inch shafts up to 5/16 in.
func KeyFor(diameter float64) (Key, bool) {
	if !(diameter > 6) {
		return Key{}, false
	}
	if InchSize(diameter) {
		return squareKey(diameter)
	}
	for _, k := range keys() {
		if diameter <= k.upTo {
			return Key{k.width, k.height, k.shaft, k.hub, metricKey, "DIN 6885-1, two public tables", "S"}, true
		}
	}
	return Key{}, false
}

type keyRow struct{ upTo, width, height, shaft, hub float64 }

// keys are the sections of DIN 6885-1, each for shafts above the one before: as
// two public tables give them, second hand.
func keys() []keyRow {
	return []keyRow{
		{8, 2, 2, 1.2, 1.0}, {10, 3, 3, 1.8, 1.4}, {12, 4, 4, 2.5, 1.8}, {17, 5, 5, 3.0, 2.3},
		{22, 6, 6, 3.5, 2.8}, {30, 8, 7, 4.0, 3.3}, {38, 10, 8, 5.0, 3.3}, {44, 12, 8, 5.0, 3.3},
		{50, 14, 9, 5.5, 3.8}, {58, 16, 10, 6.0, 4.3}, {65, 18, 11, 7.0, 4.4},
	}
}

// The standards of keys.
const (
	metricKey = "DIN 6885-1"
	inchKey   = "ASME B17.1"
)

// InchSize reports whether a size, mm, is a whole number of sixteenths of an inch, as
// shafts, bores and keys of the inch system are. No whole millimetre below 127 is.
func InchSize(size float64) bool {
	const sixteenth, rounding = inch / 16, 1e-6
	return size > 0 && math.Abs(size-sixteenth*math.Round(size/sixteenth)) < rounding
}

// squareKey is the square key of ASME B17.1 for an inch shaft; half of it is in the shaft,
// reckoned at its sides, and the hub's keyway is 0.005 in deeper than the key stands out
// (the standard's formulas, M).
func squareKey(diameter float64) (Key, bool) {
	const play, rounding = 0.005 * inch, 1e-9
	for _, k := range squareKeys() {
		if side := k.side * inch; diameter <= k.upTo*inch+rounding && diameter > smallestKeyed*inch {
			chord := math.Sqrt(diameter*diameter - side*side)
			return Key{side, side, (diameter + side - chord) / 2, (side-diameter+chord)/2 + play, inchKey, "ASME B17.1", "M"}, true
		}
	}
	return Key{}, false
}

// smallestKeyed is the shaft, in, above which squareKeys begin.
const smallestKeyed = 5.0 / 16

// squareKeys are the sides of square keys, each for shafts above the one before up to a
// diameter, inches: ASME B17.1 (M).
func squareKeys() []struct{ upTo, side float64 } {
	return []struct{ upTo, side float64 }{
		{7.0 / 16, 3.0 / 32}, {9.0 / 16, 1.0 / 8}, {7.0 / 8, 3.0 / 16}, {1.25, 1.0 / 4}, {1.375, 5.0 / 16},
		{1.75, 3.0 / 8}, {2.25, 1.0 / 2}, {2.75, 5.0 / 8},
	}
}

// KeyOrder is how a key of a section and length, mm, is ordered: by its standard and, in
// words of that, its size. The section tells the system: squares of inch keys are none of
// DIN 6885-1.
func KeyOrder(width, height, length float64) (standard, size string) {
	const parts = 32 // of an inch, of which sections and lengths are whole numbers
	of := func(x float64) string { return Fraction(int(math.Round(x/inch*parts)), parts) }
	for _, k := range squareKeys() {
		if width == height && math.Abs(width-k.side*inch) < 1e-6 {
			return inchKey, "square " + of(width) + " x " + of(length)
		}
	}
	sized := func(x float64) string { return strconv.FormatFloat(x, 'g', 4, 64) }
	return metricKey, "A " + sized(width) + " x " + sized(height) + " x " + sized(length)
}

// Screw is a metric screw of class 8.8, mm.
type Screw struct {
	Thread  float64 // nominal diameter
	Hole    float64 // of the clearance hole, fine (ISO 273, M)
	Across  float64 // width across the flats of its head (M)
	Stress  float64 // stress area, mm² (ISO 898-1, M)
	Preload float64 // N: 0.7 of the yield point of 640 N/mm² on the stress area
}

// ClampScrew returns the screw of clamp hubs: M8, class 8.8.
func ClampScrew() Screw {
	const yield, share = 640, 0.7
	s := Screw{Thread: 8, Hole: 8.4, Across: 13, Stress: 36.6}
	s.Preload = share * yield * s.Stress
	return s
}

// SteelFriction is the coefficient of friction of a steel hub clamped on a steel
// shaft, slightly oiled: 0.12 (handbooks, M).
const SteelFriction = 0.12
