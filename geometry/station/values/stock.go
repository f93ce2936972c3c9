package values

import "math"

// Section is a rectangular hollow section as stock lists it.
type Section struct {
	Name, Grade   string
	Height, Width float64 // outside; a level tube stands Height up, an upright has Height along x
	Wall, Corner  float64 // wall, and outer corner radius
}

// FlangeUnit is a bearing insert in a two-bolt oval flange housing.
type FlangeUnit struct {
	Name         string
	Bore         float64 // of the shaft
	Long, Across float64 // of the oval
	Spacing      float64 // between its two bolts
	Hole, Thread float64 // for the bolts, and their thread
	Foot         float64 // thickness of the flange at the bolts
	Centre       float64 // mounting face to the middle of the balls
	Body         float64 // mounting face to the end of the housing
	Ring         float64 // mounting face to the end of the inner ring
	Outer        float64 // diameter of the insert's outer ring
	Inner        float64 // outer diameter of the inner ring
	Mass         float64
}

// Cores are the drills, mm, for threads that plates are cut with: of metric screws or of
// those in their place.
type Cores struct{ M8, M10 float64 }

// Key is a parallel key, mm; it is cut to whole steps of its length.
type Key struct{ Width, Height, Step float64 }

// Cut is the length of the key that goes into a length, mm: as long, or the whole steps
// that are in it.
func (k *Key) Cut(long float64) float64 {
	const rounding = 1e-9
	if k.Step > 0 {
		return k.Step * math.Floor(long/k.Step+rounding)
	}
	return long
}
