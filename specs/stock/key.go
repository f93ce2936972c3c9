package stock

// Key is a parallel key and its keyways, mm.
type Key struct {
	Width, Height float64
	ShaftDepth    float64 // of the keyway in the shaft, t1
	HubDepth      float64 // of the keyway in the hub past the bore, t2
	Source        string
	Mark          string
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

// KeyFor returns the parallel key for a shaft of a diameter from 6 to 65 mm: DIN
// 6885-1 (ISO 773 has the same sections). False outside that range.
func KeyFor(diameter float64) (Key, bool) {
	if !(diameter > 6) {
		return Key{}, false
	}
	for _, k := range keys() {
		if diameter <= k.upTo {
			return Key{k.width, k.height, k.shaft, k.hub, "DIN 6885-1, two public tables", "S"}, true
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
