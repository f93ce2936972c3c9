package stock

// FlangeUnit is a bearing insert in a two-bolt oval flange housing, as ISO 3228
// sizes them. Lengths mm, mass kg.
type FlangeUnit struct {
	Name         string  // as it is ordered, without the inch bore's suffix
	Long, Across float64 // of the oval
	Spacing      float64 // between its two bolts
	Hole, Thread float64 // for the bolts, and their thread
	Foot         float64 // thickness of the flange at the bolts
	Centre       float64 // mounting face to the middle of the balls
	Body         float64 // mounting face to the end of the housing
	Ring         float64 // mounting face to the end of the inner ring
	Outer, Inner float64 // diameters of the insert's outer and inner ring
	Mass         float64
}

// Flange returns the housing in which a bearing unit's insert comes with a flange.
// Sizes are those of makers' catalogues, from memory; they differ from maker to
// maker by a few tenths.
func (b BearingUnit) Flange() FlangeUnit {
	switch {
	case b.Bore <= 20:
		return FlangeUnit{"UCFL204", 113, 60, 90, 12, 10, 11, 15, 25.5, 33.3, 47, 29, 0.45}
	case b.Bore <= 1*inch:
		return FlangeUnit{"UCFL205", 130, 68, 99, 16, 14, 14, 16, 27, 35.8, 52, 34, 0.6}
	}
	return FlangeUnit{"UCFL206", 148, 80, 117, 16, 14, 14, 18, 31, 40.2, 62, 40, 0.9}
}
