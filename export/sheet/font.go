package sheet

import (
	"strings"
	"unicode"
)

// Lettering is measured with the metrics of Helvetica (Adobe core font metric
// file, 1000 units to the em), which Arial and its metric-compatible copies
// share. The repertoire is Windows-1252, what a core font of PDF can show; names
// in other letters of Europe are set in a second font, see Lettered.

// Proportions of the font to its capital height.
const (
	capUnits  = 718.0 // height of capitals
	dropUnits = 207.0 // depth of descenders
)

// FontSize is the font size (em, mm) whose capitals are height mm tall.
func FontSize(height float64) float64 { return height * 1000 / capUnits }

// ascii holds the advance widths of U+0020 to U+007E.
var ascii = [...]int{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
	556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
	611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
	667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
	222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// latin holds the advance widths of U+00A0 to U+00FF.
var latin = [...]int{
	278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 333, 400, 584, 333,
	333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611, 667, 667, 667, 667, 667, 667,
	1000, 722, 667, 667, 667, 667, 278, 278, 278, 278, 722, 722, 778, 778, 778, 778, 778, 584, 778,
	722, 722, 722, 722, 667, 667, 611, 556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556,
	278, 278, 278, 278, 556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556,
	500,
}

// punctuation holds the rest of Windows-1252, 0x80 to 0x9F, in code order.
const punctuation = "€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ"

var punctuationWidth = [...]int{
	556, 222, 556, 333, 1000, 556, 556, 333, 1000, 667, 333, 1000, 611, 222, 222, 333, 333, 350,
	556, 1000, 333, 1000, 500, 333, 944, 500, 667,
}

// runeWidth gives the advance width of r in thousandths of an em; ok is false
// for a rune outside the repertoire, which is taken as wide as a digit.
func runeWidth(r rune) (width int, ok bool) {
	switch {
	case r >= ' ' && r <= '~':
		return ascii[r-' '], true
	case r >= 0xA0 && r <= 0xFF:
		return latin[r-0xA0], true
	}
	n := 0
	for _, p := range punctuation {
		if p == r {
			return punctuationWidth[n], true
		}
		n++
	}
	return 556, false
}

// Printable reports whether every rune of s is in Windows-1252.
func Printable(s string) bool {
	for _, r := range s {
		if _, ok := runeWidth(r); !ok {
			return false
		}
	}
	return true
}

// beyond are the letters outside Windows-1252 that the second font has: Latin for
// the languages of Europe, Greek, Cyrillic and some signs of mathematics, a part of
// Windows Glyph List 4.
var beyond = &unicode.RangeTable{R16: []unicode.Range16{
	{Lo: 0x0100, Hi: 0x017F, Stride: 1},
	{Lo: 0x0386, Hi: 0x0386, Stride: 1}, {Lo: 0x0388, Hi: 0x038A, Stride: 1}, {Lo: 0x038C, Hi: 0x038C, Stride: 1},
	{Lo: 0x038E, Hi: 0x03A1, Stride: 1}, {Lo: 0x03A3, Hi: 0x03CE, Stride: 1},
	{Lo: 0x0401, Hi: 0x040C, Stride: 1}, {Lo: 0x040E, Hi: 0x044F, Stride: 1}, {Lo: 0x0451, Hi: 0x045C, Stride: 1},
	{Lo: 0x045E, Hi: 0x045F, Stride: 1}, {Lo: 0x0490, Hi: 0x0491, Stride: 1},
	{Lo: 0x2248, Hi: 0x2248, Stride: 1}, {Lo: 0x2260, Hi: 0x2260, Stride: 1}, {Lo: 0x2264, Hi: 0x2265, Stride: 1},
}}

// Lettered reports whether every rune of s can be shown on a sheet in any form:
// those that are not Printable in the second font of PDF.
func Lettered(s string) bool {
	for _, r := range s {
		if _, ok := runeWidth(r); !ok && !unicode.Is(beyond, r) {
			return false
		}
	}
	return true
}

// TextWidth is the width in mm of s in lettering whose capitals are height mm
// tall.
func TextWidth(s string, height float64) float64 {
	sum := 0
	for _, r := range s {
		w, _ := runeWidth(r)
		sum += w
	}
	return float64(sum) / 1000 * FontSize(height)
}

// depth is how far s reaches below its baseline.
func depth(s string, height float64) float64 {
	if strings.ContainsAny(s, "gjpqy,;()[]{}|/_Qµçþÿ§¶$@") {
		return height * dropUnits / capUnits
	}
	return 0
}

// Heights of lettering in mm, of the series of ISO 3098: that of tables, charts
// and small print, the smallest that a print of any of the sizes shows well;
// that of dimensions and notes; and the same on A1 and D.
const (
	SmallText = 2.5
	ViewText  = 3.5
	LargeText = 5.0
)

// Heights of lettering in mm (ISO 3098), smallest first.
func letterHeights() []float64 { return []float64{1.8, SmallText, ViewText, LargeText, 7, 10, 14, 20} }

// fit gives the largest height of ISO 3098, at most height, at which s is no
// wider than width. The smallest is returned if none fits.
func fit(s string, height, width float64) float64 {
	all := letterHeights()
	for i := len(all) - 1; i > 0; i-- {
		if all[i] <= height && TextWidth(s, all[i]) <= width {
			return all[i]
		}
	}
	return all[0]
}

// Wrap breaks s at spaces into lines no wider than width.
func Wrap(s string, height, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if next := line + " " + word; line != "" && TextWidth(next, height) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
