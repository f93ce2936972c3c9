package drive

import (
	"errors"
	"math"
	"testing"

	"armwright/geometry/linkage"

	"pgregory.net/rapid"
)

// The shortest bars that pass can be cut, whatever shaft and plate: outline and shares
// of area are finite, there is plate all round both bores. A little shorter, and the
// bar is refused by name.
func TestShortestBarsCanBeCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft := rapid.Float64Range(12, 60).Draw(t, "shaft") // stock.shaft
		thick := rapid.Float64Range(4, 40).Draw(t, "thick")  // stock.cam_plate
		long, coupler, lever := LeastBars(shaft, thick)
		train := linkage.Train{Bars: linkage.FourBar{Input: long, Coupler: coupler, Output: long}, Radius: lever}
		bars := NewTrainBars(train, shaft, thick)
		for _, b := range bars.Named() {
			atA, atB := b.Areas()
			if !(atA+atB > 0) || math.IsInf(atA-atB, 0) {
				t.Fatalf("%s: areas %g and %g", b.Title, atA, atB)
			}
			outline := b.Outline()
			if err := outline.Validate(); err != nil {
				t.Fatalf("%s: %v", b.Title, err)
			}
			for _, bore := range b.Bores() {
				for _, q := range bore.Points(0.01) {
					if room := -b.Distance(q); room < pinRoom-0.02 {
						t.Fatalf("%s: %g mm from bore to edge", b.Title, room)
					}
				}
			}
		}
		// A hair longer for the rounding of sums; then each a millimetre shorter.
		const hair = 1e-9
		train.Bars.Input, train.Bars.Coupler, train.Bars.Output, train.Radius = long+hair, coupler+hair, long+hair, lever+hair
		if err := NewTrainBars(train, shaft, thick).Check(); err != nil {
			t.Fatal(err)
		}
		for i, shorter := range []*float64{&train.Bars.Input, &train.Bars.Coupler, &train.Bars.Output, &train.Radius} {
			*shorter--
			var e *linkage.Error
			if err := NewTrainBars(train, shaft, thick).Check(); !errors.As(err, &e) || e.Kind != linkage.Input || e.Hint == "" {
				t.Fatalf("bar %d: %v", i, err)
			}
			*shorter++
		}
	})
}
