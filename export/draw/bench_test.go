package draw

import (
	"testing"

	"armwright/export/stationtest"
)

// All sheets and cut files of one station in three formats.
func BenchmarkAll(b *testing.B) {
	r := stationtest.Result(b, "arm-pad-station")
	h := holds(b, r)
	for b.Loop() {
		if _, err := All(r, h, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Pictures are drawn anew for every change on the page.
func BenchmarkPictures(b *testing.B) {
	r := stationtest.Result(b, "arm-pad-station")
	for b.Loop() {
		if _, err := Pictures(r); err != nil {
			b.Fatal(err)
		}
	}
}
