package cutfile

import (
	"math"
	"strings"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// Etched letters, mm: as large as fits, within these.
const (
	etchTall  = 6.0
	etchLeast = 2.5
	etchClear = 1.5 // to every edge
)

// Name is a name in strokes, to be etched where a plate has room for it, in as many
// lines as it has words between hyphens if need be; nil where there is none. It may
// have small letters, digits and hyphens.
func Name(name string, outer contour.Path, holes []contour.Path) [][2]r2.Vec {
	box := outer.Bounds()
	words := strings.Split(name, "-")
	for tall := etchTall; tall >= etchLeast; tall -= 0.5 {
		for _, lines := range [][]string{{name}, twoLines(words), words} {
			wide := 0.0
			for _, l := range lines {
				wide = max(wide, float64(len(l)))
			}
			wide *= letterPitch * tall
			high := tall * (1.6*float64(len(lines)) - 0.6)
			const steps = 24
			for k := range (steps + 1) * (steps + 1) {
				// From the middle outward, in a fixed order.
				i, j := spiral(k%(steps+1), steps), spiral(k/(steps+1), steps)
				at := r2.Vec{
					X: box.Min.X + float64(i)/steps*(box.Max.X-box.Min.X) - wide/2,
					Y: box.Min.Y + float64(j)/steps*(box.Max.Y-box.Min.Y) - high/2,
				}
				if roomFor(outer, holes, r2.Box{Min: r2.Sub(at, r2.Vec{X: etchClear, Y: etchClear}), Max: r2.Add(at, r2.Vec{X: wide + etchClear, Y: high + etchClear})}) {
					var out [][2]r2.Vec
					for n, l := range lines {
						out = append(out, letters(l, r2.Vec{X: at.X, Y: at.Y + high - tall - 1.6*tall*float64(n)}, tall)...)
					}
					return out
				}
			}
		}
	}
	return nil
}

// twoLines puts words in two lines of about equal length.
func twoLines(words []string) []string {
	best := words
	least := math.Inf(1)
	for i := 1; i < len(words); i++ {
		a, b := strings.Join(words[:i], "-"), strings.Join(words[i:], "-")
		if long := float64(max(len(a), len(b))); long < least {
			best, least = []string{a, b}, long
		}
	}
	return best
}

// spiral is the k-th place of n+1 counted from the middle outward.
func spiral(k, n int) int {
	if k%2 == 0 {
		return n/2 + k/2
	}
	return n/2 - (k+1)/2
}

// roomFor reports whether a box lies in the material: no edge enters it.
func roomFor(outer contour.Path, holes []contour.Path, box r2.Box) bool {
	middle := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	if !outer.Contains(middle) {
		return false
	}
	rim := contour.Polygon(box.Min, r2.Vec{X: box.Max.X, Y: box.Min.Y}, box.Max, r2.Vec{X: box.Min.X, Y: box.Max.Y})
	for _, loop := range append([]contour.Path{outer}, holes...) {
		for i := range loop.Len() {
			e := loop.Element(i)
			const pieces = 8
			for k := range pieces {
				if e.Bulge == 0 && k > 0 && segmentClear(e.Start, e.End, box) {
					break
				}
				if !segmentClear(e.At(float64(k)/pieces), e.At(float64(k+1)/pieces), box) {
					return false
				}
			}
		}
		if rim.Contains(loop.Vertices[0].Point()) {
			return false
		}
	}
	for _, h := range holes {
		if h.Contains(middle) {
			return false
		}
	}
	return true
}

// segmentClear reports whether a segment stays out of a box (Liang and Barsky 1984).
func segmentClear(a, b r2.Vec, box r2.Box) bool {
	from, to := 0.0, 1.0
	d := r2.Sub(b, a)
	for _, c := range [4][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		switch {
		case c[0] == 0 && c[1] < 0:
			return true
		case c[0] < 0:
			from = max(from, c[1]/c[0])
		case c[0] > 0:
			to = min(to, c[1]/c[0])
		}
	}
	return from > to
}

// letterPitch is the advance of a letter in terms of its height: four sixths wide and
// two between.
const letterPitch = 5.0 / 6

// letters writes a word of small letters, digits and hyphens in strokes from the lower
// left of its line.
func letters(word string, at r2.Vec, tall float64) [][2]r2.Vec {
	var out [][2]r2.Vec
	for i, c := range word {
		x := at.X + float64(i)*letterPitch*tall
		for _, stroke := range strings.Split(strokes(c), " ") {
			for k := 0; k+3 < len(stroke); k += 2 {
				point := func(k int) r2.Vec {
					return r2.Vec{X: x + float64(stroke[k]-'0')/6*tall, Y: at.Y + float64(stroke[k+1]-'0')/6*tall}
				}
				out = append(out, [2]r2.Vec{point(k), point(k + 2)})
			}
		}
	}
	return out
}

// strokes are a letter's lines on a grid of 4 by 6, each a run of points x and y;
// own drawing.
func strokes(c rune) string {
	switch c {
	case 'a':
		return "002640 1333"
	case 'b':
		return "00063645443303 3342413000"
	case 'c':
		return "4536160501103041"
	case 'd':
		return "00062645412000"
	case 'e':
		return "46060040 0333"
	case 'f':
		return "460600 0333"
	case 'g':
		return "45361605011030414323"
	case 'h':
		return "0006 4640 0343"
	case 'i':
		return "2026 1030 1636"
	case 'j':
		return "4641301001"
	case 'k':
		return "0006 4603 0340"
	case 'l':
		return "060040"
	case 'm':
		return "0006234640"
	case 'n':
		return "00064046"
	case 'o':
		return "103041453616050110"
	case 'p':
		return "00063645443303"
	case 'q':
		return "103041453616050110 3140"
	case 'r':
		return "00063645443303 2340"
	case 's':
		return "453616050413334241301001"
	case 't':
		return "0646 2620"
	case 'u':
		return "060110304146"
	case 'v':
		return "062046"
	case 'w':
		return "0610233046"
	case 'x':
		return "0046 0640"
	case 'y':
		return "062346 2320"
	case 'z':
		return "06460040"
	case '0':
		return "103041453616050110 0145"
	case '1':
		return "0426 2620"
	case '2':
		return "05163645440040"
	case '3':
		return "0516364544334241301001 1333"
	case '4':
		return "30360242"
	case '5':
		return "460603334241301001"
	case '6':
		return "4536160501103041423303"
	case '7':
		return "064610"
	case '8':
		return "13334241301001021304051636454433"
	case '9':
		return "0110304145361605041343"
	case '-':
		return "1333"
	}
	return ""
}
