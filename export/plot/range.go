package plot

import (
	"math"
	"strconv"
)

// Runs are the stretches of a list without gaps, as first and end.
func Runs(list []float64) (out [][2]int) {
	for i := 0; i < len(list); i++ {
		from := i
		for i < len(list) && !math.IsNaN(list[i]) {
			i++
		}
		if i > from {
			out = append(out, [2]int{from, i})
		}
	}
	return out
}

// Tick is a round step that divides a span into four to ten.
func Tick(span float64) float64 {
	if !(span > 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(span)))
	for _, f := range []float64{0.1, 0.2, 0.5} {
		if span/(f*p) <= 10 {
			return f * p
		}
	}
	return p
}

// Label writes a value at a tick with the decimals of the step between ticks.
func Label(v, step float64) string {
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	return strconv.FormatFloat(math.Round(v*1e9)/1e9+0, 'f', decimals, 64)
}

// Extent is the range of a figure.
type Extent struct{ Low, High float64 }

// NewExtent widens a range so that it is not empty and nothing lies on its edge.
func NewExtent(low, high float64) Extent {
	room := (high - low) / 25
	if room == 0 {
		room = math.Max(math.Abs(low)/25, 1)
	}
	return Extent{low - room, high + room}
}

// Ticks are the round values within a range.
func (e Extent) Ticks() []float64 {
	const fine = 1e6 // a millionth of a unit: what is added up is told without its rounding
	step := Tick(e.High - e.Low)
	var list []float64
	for i := math.Ceil(e.Low / step); i*step <= e.High; i++ {
		list = append(list, math.Round(i*step*fine)/fine+0)
	}
	return list
}
