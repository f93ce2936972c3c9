package plot

import (
	"math"
	"strconv"
	"testing"
)

type triple [3]float64

// simulations turn linear RGB into what a reader without red or green cones sees:
// Machado, Oliveira and Fernandes 2009, A physiologically-based model for simulation of
// color vision deficiency, IEEE TVCG 15(6), severity 1.0 (from memory).
func simulations() map[string][3]triple {
	return map[string][3]triple{
		"usual":  {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
		"protan": {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
		"deutan": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	}
}

// linear is #rrggbb as linear RGB (IEC 61966-2-1).
func linear(t *testing.T, hex string) (c triple) {
	t.Helper()
	for i := range c {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		if x := float64(v) / 255; x <= 0.04045 {
			c[i] = x / 12.92
		} else {
			c[i] = math.Pow((x+0.055)/1.055, 2.4)
		}
	}
	return c
}

func seen(m [3]triple, c triple) (out triple) {
	for i, row := range m {
		out[i] = math.Max(0, math.Min(1, row[0]*c[0]+row[1]*c[1]+row[2]*c[2]))
	}
	return out
}

func luminance(c triple) float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// lab is CIE 1976 L*a*b* under D65.
func lab(c triple) triple {
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	x := f((0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.95047)
	y := f(luminance(c))
	z := f((0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.08883)
	return triple{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// difference is CIEDE2000 (Sharma, Wu and Dalal 2005).
func difference(p, q triple) float64 {
	rad := func(deg float64) float64 { return deg * math.Pi / 180 }
	power := func(c float64) float64 { c = math.Pow(c, 7); return math.Sqrt(c / (c + math.Pow(25, 7))) }
	g := 1.5 - 0.5*power((math.Hypot(p[1], p[2])+math.Hypot(q[1], q[2]))/2)
	p[1], q[1] = p[1]*g, q[1]*g
	c1, c2 := math.Hypot(p[1], p[2]), math.Hypot(q[1], q[2])
	hue := func(v triple) float64 { return math.Mod(math.Atan2(v[2], v[1])*180/math.Pi+360, 360) }
	h1, h2 := hue(p), hue(q)
	turn := h2 - h1
	mean := (h1 + h2) / 2
	switch {
	case c1*c2 == 0:
		turn, mean = 0, h1+h2
	case turn > 180:
		turn, mean = turn-360, math.Mod(mean+180, 360)
	case turn < -180:
		turn, mean = turn+360, math.Mod(mean+180, 360)
	}
	l, c := (p[0]+q[0])/2, (c1+c2)/2
	t := 1 - 0.17*math.Cos(rad(mean-30)) + 0.24*math.Cos(rad(2*mean)) + 0.32*math.Cos(rad(3*mean+6)) - 0.20*math.Cos(rad(4*mean-63))
	dl := (q[0] - p[0]) / (1 + 0.015*(l-50)*(l-50)/math.Sqrt(20+(l-50)*(l-50)))
	dc := (c2 - c1) / (1 + 0.045*c)
	dh := 2 * math.Sqrt(c1*c2) * math.Sin(rad(turn/2)) / (1 + 0.015*c*t)
	skew := -math.Sin(rad(60*math.Exp(-math.Pow((mean-275)/25, 2)))) * 2 * power(c)
	return math.Sqrt(dl*dl + dc*dc + dh*dh + skew*dc*dh)
}

// The formula against pairs of the table of Sharma, Wu and Dalal 2005 (from memory).
func TestDifference(t *testing.T) {
	for _, c := range []struct {
		p, q triple
		want float64
	}{
		{triple{50, 2.6772, -79.7751}, triple{50, 0, -82.7485}, 2.0425},
		{triple{50, 2.5, 0}, triple{73, 25, -18}, 27.1492},
		{triple{50, 2.5, 0}, triple{50, 3.1736, 0.5854}, 1.0000},
		{triple{2.0776, 0.0795, -1.1350}, triple{0.9033, -0.0636, -0.5514}, 0.9082},
	} {
		if got := difference(c.p, c.q); math.Abs(got-c.want) > 1e-4 {
			t.Errorf("%v and %v: %.4f, want %.4f", c.p, c.q, got, c.want)
		}
	}
}

// Lines of a chart are told apart by readers who see red and green alike, and stand out
// from their paper: 3 to 1, WCAG 2.1, 1.4.11.
func TestPaletteIsToldApart(t *testing.T) {
	const apart, contrast = 20, 3
	for paper, p := range map[string]Palette{"#fdfdfc": Light(), "#ffffff": Light(), "#16191c": Dark()} {
		lines := []string{p.One, p.Two, p.Three}
		for i, a := range lines {
			high, low := luminance(linear(t, a)), luminance(linear(t, paper))
			if got := (math.Max(high, low) + 0.05) / (math.Min(high, low) + 0.05); got < contrast {
				t.Errorf("%s on %s: contrast %.1f", a, paper, got)
			}
			for _, b := range lines[:i] {
				for who, m := range simulations() {
					if got := difference(lab(seen(m, linear(t, a))), lab(seen(m, linear(t, b)))); got < apart {
						t.Errorf("%s and %s, %s: %.1f apart", a, b, who, got)
					}
				}
			}
		}
	}
}

func TestLabel(t *testing.T) {
	for _, c := range []struct {
		v, step float64
		want    string
	}{{6 * 0.2, 0.2, "1.2"}, {0.30000000000000004, 0.1, "0.3"}, {40, 20, "40"}, {2500, 500, "2500"}, {math.Copysign(0, -1), 0.5, "0.0"}, {0.15, 0.05, "0.15"}, {1, 1, "1"}} {
		if got := Label(c.v, c.step); got != c.want {
			t.Errorf("%v by %v: %q, want %q", c.v, c.step, got, c.want)
		}
	}
}

// Names at the ends of lines keep apart, in their order, on the chart.
func TestNamesKeepApart(t *testing.T) {
	list := spread([]end{{y: 200}, {y: 201}, {y: 50}, {y: 52}, {y: 209}})
	for i := range list {
		if list[i].y > plotHeight-4 || i > 0 && list[i].y < list[i-1].y+12.9 {
			t.Errorf("names at %v", list)
		}
	}
}
