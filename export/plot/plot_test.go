package plot

import (
	"math"
	"strings"
	"testing"
)

// A value that is missing leaves a gap, and a lone one is still seen.
func TestChartGaps(t *testing.T) {
	gap := math.NaN()
	for _, c := range []struct {
		y     []float64
		paths int
	}{{[]float64{1, 2, 3, 4}, 1}, {[]float64{1, gap, 3, 4}, 2}, {[]float64{gap, 2, gap, gap}, 1}, {[]float64{gap, gap, gap, gap}, 0}} {
		svg := Chart{X: []float64{0, 1, 2, 3}, Every: 1, Lines: []Line{{"", "it", c.y}}}.SVG()
		if n := strings.Count(string(svg), `class="it"`); n != c.paths {
			t.Errorf("%v: %d paths, want %d", c.y, n, c.paths)
		}
		if strings.Contains(string(svg), "NaN") {
			t.Errorf("%v: NaN in %s", c.y, svg)
		}
	}
}

func TestTick(t *testing.T) {
	for span, want := range map[float64]float64{0: 1, 1: 0.1, 1.3: 0.2, 4: 0.5, 7: 1, 45: 5, 80: 10, 120: 20} {
		if got := Tick(span); got < want*0.999 || got > want*1.001 {
			t.Errorf("Tick(%v) = %v, want %v", span, got, want)
		}
	}
}
