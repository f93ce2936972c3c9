package sweep

import (
	"testing"

	"pgregory.net/rapid"
)

// The front is what comparing every design with every other leaves.
func TestFrontIsWhatNobodyBetters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		more := rapid.SliceOfN(rapid.Bool(), 1, 3).Draw(t, "more")
		list := rapid.SliceOfN(rapid.SliceOfN(rapid.Float64Range(0, 5), len(more), len(more)), 0, 40).Draw(t, "designs")
		for _, p := range list { // ties are what goes wrong
			for k := range p {
				p[k] = float64(int(p[k]))
			}
		}
		f := NewFront[int](more...)
		for i, p := range list {
			f.Add(p, i)
		}
		better := func(a, b []float64) (some, no bool) {
			for k := range a {
				switch gain := a[k] - b[k]; {
				case gain == 0:
				case gain > 0 == more[k]:
					some = true
				default:
					no = true
				}
			}
			return some, no
		}
		var want []int
		for i, p := range list {
			stays := true
			for j, q := range list {
				some, no := better(q, p)
				if !no && (some || j < i) {
					stays = false
				}
			}
			if stays {
				want = append(want, i)
			}
		}
		if len(want) != len(f.Points()) {
			t.Fatalf("%d on the front, want %d", len(f.Points()), len(want))
		}
		for i, p := range f.Points() {
			if p.Design != want[i] {
				t.Fatalf("front %v, want %v", f.Points(), want)
			}
		}
	})
}
