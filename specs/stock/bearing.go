package stock

import "math"

// BearingUnit is a ball-bearing insert with its pillow block.
type BearingUnit struct {
	Name        string
	Bore        float64 // mm
	Dynamic     float64 // rating C, N
	Static      float64 // rating C0, N
	Height      float64 // foot to shaft centre, mm
	Length      float64 // of the foot, mm
	Width       float64 // of the foot, mm
	BoltSpacing float64 // mm
	BoltHole    float64 // diameter, mm
	Source      string
	Mark        string
}

func (b BearingUnit) name() string { return b.Name }

// Bearing returns the unit with a name of BearingNames, or an *UnknownError.
func Bearing(name string) (BearingUnit, error) { return find("bearing", name, bearings()) }

// BearingNames returns the names of the bearing units, by bore.
func BearingNames() []string { return names(bearings()) }

// bearings returns the units by insert, those of inch bores beside the metric
// ones of the same outer ring; block sizes S but for the heights of 205
// and the width of 206.
func bearings() []BearingUnit {
	const source = "makers' catalogues; ratings vary from maker to maker"
	return []BearingUnit{
		{"UC204", 20, 12800, 6650, 33.3, 127, 38, 95, 13, source, "M"},
		{"UC205", 25, 14000, 7850, 36.5, 140, 38, 105, 13, source, "M"},
		{"UC204-12", 0.75 * inch, 12800, 6650, 33.3, 127, 38, 95, 13, source, "M"},
		{"UC205-16", 1 * inch, 14000, 7850, 36.5, 140, 38, 105, 13, source, "M"},
		{"UC206", 30, 19500, 11300, 42.9, 163, 47, 121, 17, source, "M"},
		{"UC206-20", 1.25 * inch, 19500, 11300, 42.9, 163, 47, 121, 17, source, "M"},
	}
}

// StaticFactor returns s0 = C0/P0, the static rating over the greatest load,
// N, which governs a pivot that only swings (ISO 76). Without load it is the
// rating itself: a factor for 1 N.
func (b BearingUnit) StaticFactor(load float64) float64 {
	return b.Static / math.Max(math.Abs(load), 1)
}

// Life returns the rating life L10, million turns, under a steady load, N > 0
// (ISO 281, balls).
func (b BearingUnit) Life(load float64) float64 {
	share := b.Dynamic / load
	return share * share * share
}
