package stock

import "math"

// Thread is a coarse thread with the heads, nuts and washers of its size, mm. The sources
// below are those of metric ones.
type Thread struct {
	Name            string  // "M8", "5/16-18 UNC"
	Diameter, Pitch float64 // ISO 261
	Stress          float64 // stress area, mm², ISO 898-1
	Across, Head    float64 // width across flats and height of the head, ISO 4017
	Nut             float64 // height, ISO 4032, of the same width
	Washer, Thick   float64 // outside diameter and thickness, ISO 7089
	Source          string
	Mark            string
}

// ThreadFor returns the thread of a nominal diameter from M4 to M20; false for others.
func ThreadFor(diameter float64) (Thread, bool) {
	for _, t := range threads() {
		if t.Diameter == diameter {
			t.Name = "M" + number(diameter)
			t.Source, t.Mark = "ISO 261, ISO 898-1, ISO 4017, ISO 4032, ISO 7089", "M"
			return t, true
		}
	}
	return Thread{}, false
}

func threads() []Thread {
	return []Thread{
		{"", 4, 0.7, 8.78, 7, 2.8, 3.2, 9, 0.8, "", ""}, {"", 5, 0.8, 14.2, 8, 3.5, 4.7, 10, 1, "", ""}, {"", 6, 1, 20.1, 10, 4, 5.2, 12, 1.6, "", ""},
		{"", 8, 1.25, 36.6, 13, 5.3, 6.8, 16, 1.6, "", ""}, {"", 10, 1.5, 58, 16, 6.4, 8.4, 20, 2, "", ""}, {"", 12, 1.75, 84.3, 18, 7.5, 10.8, 24, 2.5, "", ""},
		{"", 14, 2, 115, 21, 8.8, 12.8, 28, 2.5, "", ""}, {"", 16, 2, 157, 24, 10, 14.8, 30, 3, "", ""}, {"", 20, 2.5, 245, 30, 12.5, 18, 37, 3, "", ""},
	}
}

// CoreHole returns the drill for a thread: its diameter less the coarse pitch, as shops
// drill it (common practice); for one that is not listed less a sixth.
func CoreHole(diameter float64) float64 {
	if t, ok := ThreadFor(diameter); ok {
		return t.Diameter - t.Pitch
	}
	return diameter * 5 / 6
}

// Torque returns the tightening torque of a screw of class 8.8, N·mm: 0.16 d F, the
// factor for slightly oiled threads (handbooks, M), for the preload F of ClampScrew,
// 0.7 of the yield point of 640 N/mm² on the stress area (D).
func (t Thread) Torque() float64 { return 0.16 * t.Diameter * 0.7 * 640 * t.Stress }

// hexagon is the area of a hexagon of a width across flats.
func hexagon(across float64) float64 { return math.Sqrt(3) / 2 * across * across }

// ScrewMass returns the mass of a hexagon screw threaded to the head, ISO 4017, of a
// length under it, kg: head and stress area times length (D).
func (t Thread) ScrewMass(length float64) float64 {
	return SteelDensity * (hexagon(t.Across)*t.Head + t.Stress*length)
}

// NutMass returns that of a hexagon nut, ISO 4032, kg (D).
func (t Thread) NutMass() float64 {
	return SteelDensity * (hexagon(t.Across) - math.Pi/4*t.Diameter*t.Diameter) * t.Nut
}

// WasherMass returns that of a plain washer, ISO 7089, kg (D).
func (t Thread) WasherMass() float64 {
	hole := 1.06 * t.Diameter
	return SteelDensity * math.Pi / 4 * (t.Washer*t.Washer - hole*hole) * t.Thick
}
