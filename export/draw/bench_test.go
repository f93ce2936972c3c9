package draw

import "testing"

// All sheets and cut files of one station in three formats.
func BenchmarkAll(b *testing.B) {
	r := result(b, "arm-pad-station")
	h := holds(b, r)
	for b.Loop() {
		if _, err := All(r, h, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Pictures are drawn anew for every change on the page.
func BenchmarkPictures(b *testing.B) {
	r := result(b, "arm-pad-station")
	for b.Loop() {
		if _, err := Pictures(r); err != nil {
			b.Fatal(err)
		}
	}
}
