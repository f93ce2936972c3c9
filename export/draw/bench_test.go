package draw

import "testing"

// All sheets and cut files of one station in three formats.
func BenchmarkAll(b *testing.B) {
	r := result(b, "arm-pad-station")
	for b.Loop() {
		if _, err := All(r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
