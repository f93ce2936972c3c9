package stock

import (
	"cmp"
	"math"
	"slices"
)

// BeltPitch is the pitch of the toothed belts, mm: the 8 mm pitch of ISO 13050.
const BeltPitch = 8.0

// PulleyTeeth returns the tooth counts that 8 mm pulleys are commonly made
// with. Common practice, no source.
func PulleyTeeth() []int {
	return []int{22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 44, 48, 56, 64, 72, 80, 90, 112}
}

// PitchDiameter returns the pitch diameter, mm, of a pulley.
func PitchDiameter(teeth int) float64 { return BeltPitch * float64(teeth) / math.Pi }

// BeltDrive is a pair of pulleys between the arm's shaft and a parallel
// countershaft, which turn the same way.
type BeltDrive struct {
	Ratio       float64 // turns of the countershaft per turn of the arm
	ArmTeeth    int
	DrivenTeeth int
}

// Ratios returns the ratios from..to that a pair of PulleyTeeth attains,
// rising; of the pairs with one ratio the smallest.
func Ratios(from, to float64) []BeltDrive {
	var drives []BeltDrive
	for _, arm := range PulleyTeeth() {
		for _, driven := range PulleyTeeth() {
			if ratio := float64(arm) / float64(driven); from <= ratio && ratio <= to {
				drives = append(drives, BeltDrive{ratio, arm, driven})
			}
		}
	}
	slices.SortFunc(drives, func(a, b BeltDrive) int {
		return cmp.Or(cmp.Compare(a.Ratio, b.Ratio), cmp.Compare(a.ArmTeeth, b.ArmTeeth))
	})
	// Equal ratios of whole numbers divide to equal floats.
	return slices.CompactFunc(drives, func(a, b BeltDrive) bool { return a.Ratio == b.Ratio })
}
