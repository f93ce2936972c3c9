package stock

import (
	"math"
	"strconv"
)

// Screws is the system of threads that a shop has taps, drills and screws for. A station
// is designed with metric ones; of another system each is the one that takes its place.
type Screws int8

// The systems: metric coarse threads of ISO 261, and the coarse series of unified inch
// threads, UNC.
const (
	MetricCoarse Screws = iota
	UnifiedCoarse
)

// Thread is that which takes the place of a metric nominal diameter, mm; false where none
// is listed.
func (s Screws) Thread(nominal float64) (Thread, bool) {
	if s == UnifiedCoarse {
		for _, u := range unified() {
			if u.For == nominal {
				return u.thread(), true
			}
		}
	}
	return ThreadFor(nominal)
}

// Name is how a thread of a metric nominal diameter is called: M8, 5/16-18 UNC. What no
// inch thread is listed for keeps its own.
func (s Screws) Name(nominal float64) string {
	if t, ok := s.Thread(nominal); ok {
		return t.Name
	}
	return "M" + strconv.FormatFloat(nominal, 'g', 4, 64)
}

// Core is the drill for a thread, mm: of an inch thread the one of tables, for three
// quarters of the full depth; see [CoreHole].
func (s Screws) Core(nominal float64) float64 {
	if s == UnifiedCoarse {
		for _, u := range unified() {
			if u.For == nominal {
				return u.Drill * inch
			}
		}
	}
	return CoreHole(nominal)
}

// Drill is the drill that a plate is cut for a thread with, mm: metric ones are sold by
// tenths.
func (s Screws) Drill(nominal float64) float64 {
	core := s.Core(nominal)
	if s == MetricCoarse {
		return math.Ceil(10*core-1e-9) / 10
	}
	return core
}

// Torque returns the tightening torque of a screw in the place of a metric one of class
// 8.8, N·mm: that which gives it the same preload, so that what is screened holds. An inch
// screw of grade 8 (yield 130 ksi, SAE J429, M) bears that in every listed size (D).
func (s Screws) Torque(nominal float64) float64 {
	m, _ := ThreadFor(nominal)
	t, _ := s.Thread(nominal)
	if m.Diameter == 0 {
		return 0
	}
	return m.Torque() * t.Diameter / m.Diameter
}

// unifiedRow is an inch thread with the heads, nuts and washers of its size, in inches.
type unifiedRow struct {
	For           float64 // metric nominal diameter whose place it takes, mm
	Name          string
	Diameter      float64 // ASME B1.1
	Threads       float64 // an inch
	Drill         float64
	Across, Head  float64 // ASME B18.2.1; of the numbered sizes B18.6.3
	Nut           float64 // ASME B18.2.2
	Washer, Thick float64 // ASME B18.21.1, type A narrow
}

func unified() []unifiedRow {
	return []unifiedRow{
		{4, "8-32 UNC", 0.164, 32, 0.136, 0.25, 0.11, 0.125, 0.375, 0.049},
		{5, "10-24 UNC", 0.19, 24, 0.1495, 0.3125, 0.12, 0.125, 0.5, 0.049},
		{6, "1/4-20 UNC", 0.25, 20, 0.201, 0.4375, 0.15625, 0.21875, 0.625, 0.065},
		{8, "5/16-18 UNC", 0.3125, 18, 0.257, 0.5, 0.203125, 0.265625, 0.6875, 0.065},
		{10, "3/8-16 UNC", 0.375, 16, 0.3125, 0.5625, 0.234375, 0.328125, 0.8125, 0.065},
		{12, "1/2-13 UNC", 0.5, 13, 0.421875, 0.75, 0.3125, 0.4375, 1.0625, 0.095},
		{14, "9/16-12 UNC", 0.5625, 12, 0.484375, 0.8125, 0.359375, 0.484375, 1.1875, 0.095},
		{16, "5/8-11 UNC", 0.625, 11, 0.53125, 0.9375, 0.390625, 0.546875, 1.3125, 0.095},
		{20, "3/4-10 UNC", 0.75, 10, 0.65625, 1.125, 0.46875, 0.640625, 1.5, 0.134},
	}
}

// thread is a row in mm; the stress area by the formula of ASME B1.1.
func (u *unifiedRow) thread() Thread {
	stress := math.Pi / 4 * math.Pow(u.Diameter-0.9743/u.Threads, 2)
	return Thread{
		Name: u.Name, Diameter: u.Diameter * inch, Pitch: inch / u.Threads, Stress: stress * inch * inch,
		Across: u.Across * inch, Head: u.Head * inch, Nut: u.Nut * inch, Washer: u.Washer * inch, Thick: u.Thick * inch,
		Source: "ASME B1.1, B18.2.1, B18.2.2, B18.21.1", Mark: "M",
	}
}
