package stock

import (
	"math"
	"testing"
)

// Rows of DIN 6885-1 as a gear maker's public sheet prints them: key b x h, t1,
// and the hub's d + t2.
func TestKeyFor(t *testing.T) {
	for _, c := range []struct{ d, b, h, t1, t2 float64 }{
		{25, 8, 7, 4, 3.3}, {30, 8, 7, 4, 3.3}, {30.01, 10, 8, 5, 3.3},
		{40, 12, 8, 5, 3.3}, {45, 14, 9, 5.5, 3.8}, {58, 16, 10, 6, 4.3}, {60, 18, 11, 7, 4.4},
	} {
		k, ok := KeyFor(c.d)
		if !ok || k.Width != c.b || k.Height != c.h || k.ShaftDepth != c.t1 || k.HubDepth != c.t2 {
			t.Errorf("shaft %g: %+v, want %g x %g, %g and %g", c.d, k, c.b, c.h, c.t1, c.t2)
		}
		// The keyways together are deeper than the key: it never bears on its back.
		if play := k.ShaftDepth + k.HubDepth - k.Height; play < 0.1 || play > 0.45 {
			t.Errorf("shaft %g: play over the key %.2f mm", c.d, play)
		}
	}
	for _, d := range []float64{0, 6, 65.1, math.NaN(), math.Inf(1)} {
		if k, ok := KeyFor(d); ok {
			t.Errorf("shaft %g has a key %+v", d, k)
		}
	}
}

// Square keys of inch shafts as handbooks print ASME B17.1 (M): side, depth of the keyway
// in the shaft measured from its top, and from the far side of the bore to the hub's keyway.
// 1 in: S = 0.859, T = 1.114; 1 1/4 in: S = 1.112, T = 1.367.
func TestInchKeyFor(t *testing.T) {
	for _, c := range []struct{ d, side, s, t float64 }{
		{1, 1.0 / 4, 0.859, 1.114}, {1.25, 1.0 / 4, 1.112, 1.367}, {1.5, 3.0 / 8, 1.289, 1.669},
	} {
		k, ok := KeyFor(c.d * inch)
		if !ok || math.Abs(k.Width-c.side*inch) > 1e-9 || k.Height != k.Width || k.Standard != "ASME B17.1" || k.Mark != "M" {
			t.Fatalf("shaft %g in: %+v", c.d, k)
		}
		if got := c.d - k.ShaftDepth/inch; math.Abs(got-c.s) > 0.001 {
			t.Errorf("shaft %g in: S %.4f, want %.3f", c.d, got, c.s)
		}
		if got := c.d + k.HubDepth/inch; math.Abs(got-c.t) > 0.001 {
			t.Errorf("shaft %g in: T %.4f, want %.3f", c.d, got, c.t)
		}
		if play := k.ShaftDepth + k.HubDepth - k.Height; math.Abs(play-0.005*inch) > 1e-9 {
			t.Errorf("shaft %g in: play %.3f mm", c.d, play)
		}
	}
	if k, _ := KeyFor(25); k.Standard != "DIN 6885-1" {
		t.Errorf("25 mm: %+v", k)
	}
	if k, ok := KeyFor(inch * 5 / 16); ok {
		t.Errorf("5/16 in has a key %+v", k)
	}
	for d := 7.0; d <= 38; d++ {
		if _, ok := KeyFor(d * inch / 16); !ok && d > 7 {
			t.Errorf("no key for a shaft of %g/16 in", d)
		}
	}
	for _, c := range []struct {
		w, h, l        float64
		standard, size string
	}{
		{inch / 4, inch / 4, 1.5 * inch, "ASME B17.1", "square 1/4 x 1 1/2"}, {8, 7, 40, "DIN 6885-1", "A 8 x 7 x 40"}, {4, 4, 20, "DIN 6885-1", "A 4 x 4 x 20"},
	} {
		if standard, size := KeyOrder(c.w, c.h, c.l); standard != c.standard || size != c.size {
			t.Errorf("ordered as %s %s, want %s %s", standard, size, c.standard, c.size)
		}
	}
}

// Every common diameter of bright round bar (own choice) has a key.
func TestEveryShaftHasAKey(t *testing.T) {
	for _, d := range []float64{12, 15, 16, 20, 25, 30, 35, 40, 45, 50, 60} {
		if _, ok := KeyFor(d); !ok {
			t.Errorf("no key for a shaft of %g mm", d)
		}
	}
}

// Textbook: 100 N·m on a 25 mm shaft is 8 kN at its surface; on 3 mm by 30 mm,
// 88.9 N/mm².
func TestKeyPressure(t *testing.T) {
	k, _ := KeyFor(25)
	if p := k.Pressure(100e3, 25, 30); math.Abs(p-8000.0/90) > 1e-9 {
		t.Errorf("pressure %.4f", p)
	}
}

// The preload is below that of tightening tables, which use the screw up to 0.9
// of its yield point: 17.2 kN for M8 8.8 at a friction of 0.12 (VDI 2230, M).
func TestClampScrew(t *testing.T) {
	s := ClampScrew()
	if math.Abs(s.Preload-16397) > 1 || s.Preload > 17200 {
		t.Errorf("preload %.0f N", s.Preload)
	}
}
