package stock

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// BeltPitch is the pitch of the toothed belts, mm: the 8 mm pitch of ISO 13050.
const BeltPitch = 8.0

// ChainPitch is the pitch of the roller chains, mm: 1/2 in, of 08B and of number 40 (both
// in ISO 606, M).
const ChainPitch = 12.7

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

// Transmission is what joins two parallel shafts without slip: a toothed belt
// or a roller chain.
type Transmission struct {
	Name   string  // "belt" or "chain"
	Title  string  // what to buy
	Pitch  float64 // mm
	Teeth  []int   // tooth counts that wheels are commonly made with
	Even   bool    // whether its links come in pairs only
	Mass   float64 // kg/m; of a belt 30 mm wide, judgement; of the chain from a maker's table (S)
	Source string
	Mark   string

	Teethed  float64 // width of a sprocket's teeth, mm; 0 for a belt, whose width is chosen
	Breaking float64 // breaking load of the chain, N; 0 for a belt
	Breaks   string  // the same, in the words of whom it is told to
}

func (t Transmission) name() string { return t.Name }

func belt() Transmission {
	return Transmission{Name: "belt", Title: "toothed belt 8M", Pitch: BeltPitch, Teeth: PulleyTeeth(), Mass: 0.2,
		Source: "ISO 13050 pitch; tooth counts common practice", Mark: "M"}
}

// TransmissionOf returns the transmission "belt" or "chain", or an *UnknownError.
func TransmissionOf(name string) (Transmission, error) {
	return find("transmission", name, transmissions())
}

func transmissions() []Transmission {
	return []Transmission{belt(), {
		Name: "chain", Title: "roller chain 08B", Pitch: ChainPitch,
		Teeth: []int{13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 30, 32, 34, 36, 38}, Even: true, Mass: 0.70,
		Source: "ISO 606 pitch; tooth counts common practice", Mark: "M",
		Teethed: 8, Breaking: chainBreaking, Breaks: "breaking load of 08B-1, 18 kN",
	}}
}

// In is what stands for a transmission in a region: in us for the chain 08B number 40 of
// ASME B29.1, of the same pitch, so that the wheels have the same sizes. Its teeth are 0.93
// of the 5/16 in between its inner plates less 0.006 in, its least breaking load is 3125
// lbf, its mass 0.41 lb/ft (all M).
func (t Transmission) In(region string) Transmission {
	if region != "us" || !t.Even {
		return t
	}
	t.Title, t.Source = "roller chain 40, ASME B29.1", "ASME B29.1 pitch; tooth counts common practice"
	t.Mass = 0.41 * poundMass / (12 * inch) * perMetre
	t.Teethed = (0.93*5/16 - 0.006) * inch
	t.Breaking, t.Breaks = 3125*pound, "least breaking load of number 40, 3125 lbf"
	return t
}

// Ratios returns the ratios from..to that a pair of wheels attains, rising; of
// the pairs with one ratio the smallest.
func (t Transmission) Ratios(from, to float64) []BeltDrive {
	var drives []BeltDrive
	for _, arm := range t.Teeth {
		for _, driven := range t.Teeth {
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

// WheelDiameter returns the pitch diameter, mm, of a wheel: of a pulley p z/π,
// on which the belt's cords lie as an arc; of a sprocket p/sin(π/z), on which
// the chain's pins stand as a polygon.
func (t Transmission) WheelDiameter(teeth int) float64 {
	if t.Even {
		return t.Pitch / math.Sin(math.Pi/float64(teeth))
	}
	return t.Pitch * float64(teeth) / math.Pi
}

// LoopLength returns the length, mm, of the loop round two wheels at a centre
// distance, mm. Each wheel takes up its teeth times the pitch over the full
// turn, which for a pulley is its circumference:
//
//	2 C cos α + z1 p (1/2 + α/π) + z2 p (1/2 − α/π),  sin α = (d1 − d2)/2C
//
// It is NaN where the wheels would lie in one another.
func (t Transmission) LoopLength(teeth1, teeth2 int, centre float64) float64 {
	alpha := math.Asin((t.WheelDiameter(teeth1) - t.WheelDiameter(teeth2)) / (2 * centre))
	return 2*centre*math.Cos(alpha) + t.Pitch*(float64(teeth1)*(0.5+alpha/math.Pi)+float64(teeth2)*(0.5-alpha/math.Pi))
}

// Close returns the whole number of pitches of the loop round two wheels whose
// centre distance comes nearest to the one wanted, and that distance, mm; for a
// chain the number is even, so that it closes without a cranked link. The error
// is a *CentreError where the wheels would touch.
func (t Transmission) Close(teeth1, teeth2 int, wanted float64) (pitches int, centre float64, err error) {
	least := (t.WheelDiameter(teeth1) + t.WheelDiameter(teeth2)) / 2
	if !(wanted > least) || math.IsInf(wanted, 0) {
		return 0, 0, &CentreError{wanted, least}
	}
	step := 1
	if t.Even {
		step = 2
	}
	length := t.LoopLength(teeth1, teeth2, wanted) / t.Pitch
	pitches = step * int(math.Round(length/float64(step)))
	for ; t.Pitch*float64(pitches) <= t.LoopLength(teeth1, teeth2, least); pitches += step {
	}
	// The length rises with the centre distance: bisect.
	lo, hi := least, wanted+float64(step)*t.Pitch
	for range 80 {
		mid := (lo + hi) / 2
		if t.LoopLength(teeth1, teeth2, mid) < t.Pitch*float64(pitches) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return pitches, (lo + hi) / 2, nil
}

// CentreError says that two wheels do not fit side by side.
type CentreError struct{ Centre, Least float64 }

func (e *CentreError) Error() string {
	return fmt.Sprintf("centre distance %.4g mm leaves no room for the wheels, which need more than %.4g mm", e.Centre, e.Least)
}

// Hint says what to change.
func (e *CentreError) Hint() string { return "set the shafts farther apart or use smaller wheels" }
