package dxf

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Numbers come out as the standard library rounds them, halves and the sign of
// a zero included.
func TestAppendFixed(t *testing.T) {
	same := func(t interface{ Errorf(string, ...any) }, v float64, decimals int) {
		want := strconv.FormatFloat(v, 'f', decimals, 64)
		if strings.Trim(want, "-0.") == "" {
			want = strings.TrimPrefix(want, "-")
		}
		if got := string(appendFixed(nil, v, decimals)); got != want {
			t.Errorf("%v to %d decimals is %s, want %s", v, decimals, got, want)
		}
	}
	for _, v := range []float64{0, math.Copysign(0, -1), 0.00005, -0.00005, 0.00015, 2.5, 1.00005, 0.99995, 0.99999951, -4e-5, -6e-5, 1e9, -1e9, 123456.789012345, 109951162.77755} {
		same(t, v, lengthDecimals)
		same(t, v, angleDecimals)
	}
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-largest, largest).Draw(t, "v")
		same(t, v, rapid.SampledFrom([]int{lengthDecimals, angleDecimals}).Draw(t, "decimals"))
		same(t, math.Round(v*1e3)/1e3+5e-5, lengthDecimals) // near a half
	})
}

// Writing allocates nothing for an entity.
func TestWritingAllocatesNothingAnEntity(t *testing.T) {
	few, many := crowd(1000), crowd(20_000)
	count := func(d *Document) float64 {
		return testing.AllocsPerRun(3, func() {
			if err := Write(nowhere{}, d, AC1015); err != nil {
				t.Fatal(err)
			}
		})
	}
	if a, b := count(few), count(many); b > a+5 {
		t.Errorf("%.0f allocations for 1000 entities, %.0f for 20 000", a, b)
	}
}

type nowhere struct{}

func (nowhere) Write(p []byte) (int, error) { return len(p), nil }
