package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Check 32 (derived from ISO 5457:1999, 4.2) and the drawing spaces of the
// table of sizes (S tasstudent.com, cad-project.ru for the trimmed sizes).
func TestDrawingSpace(t *testing.T) {
	for _, c := range []struct {
		size          Size
		width, height float64
	}{{A4, 180, 277}, {A3, 390, 277}, {A2, 564, 400}, {A1, 811, 574}} {
		x, y, w, h := c.size.Space()
		if x != 20 || y != 10 || w != c.width || h != c.height {
			t.Errorf("%s: space %g x %g at (%g, %g), want %g x %g at (20, 10)", c.size, w, h, x, y, c.width, c.height)
		}
	}
}

// ASME Y14.1 sizes in inches (S graphics-cad.blogspot.com).
func TestInchSizes(t *testing.T) {
	for size, want := range map[Size][2]float64{InchA: {8.5, 11}, InchB: {17, 11}, InchC: {22, 17}, InchD: {34, 22}} {
		if w, h := size.Trimmed(); math.Abs(w/25.4-want[0]) > 1e-9 || math.Abs(h/25.4-want[1]) > 1e-9 {
			t.Errorf("%s is %g x %g mm", size, w, h)
		}
	}
}

// Reference fields of ISO 5457 (M): A3 8 x 6, A2 12 x 8, A1 16 x 12, 50 mm
// long, letters without I and O.
func TestReferenceFields(t *testing.T) {
	for size, want := range map[Size][2]int{A3: {8, 6}, A2: {12, 8}, A1: {16, 12}} {
		numerals, letters := map[string]float64{}, map[string]float64{}
		for _, p := range size.frame() {
			if l, ok := p.(Label); !ok {
				continue
			} else if _, err := strconv.Atoi(l.Value); err == nil {
				numerals[l.Value] = l.At.X
			} else {
				letters[l.Value] = l.At.Y
			}
		}
		if len(numerals) != want[0] || len(letters) != want[1] {
			t.Errorf("%s: %d x %d fields, want %v", size, len(numerals), len(letters), want)
		}
		if numerals["3"]-numerals["2"] != 50 {
			t.Errorf("%s: fields %g mm apart", size, numerals["3"]-numerals["2"])
		}
		if letters["A"] <= letters["B"] {
			t.Errorf("%s: letters do not run down", size)
		}
		for l := range letters {
			if strings.ContainsAny(l, "IO") {
				t.Errorf("%s: field %s", size, l)
			}
		}
	}
}

// ISO 5455:1979, 5.1 (S): every step is 1, 2 or 5 times a power of ten.
func TestScales(t *testing.T) {
	if got := len(Scales()); got != 18 {
		t.Errorf("%d scales, the standard's table has 18", got)
	}
	last := math.Inf(1)
	for _, s := range Scales() {
		if s.Factor() >= last {
			t.Errorf("%s is not smaller than the one before", s)
		}
		last = s.Factor()
		for _, n := range []int{s.Drawing, s.Real} {
			for n%10 == 0 {
				n /= 10
			}
			if !slices.Contains([]int{1, 2, 5}, n) {
				t.Errorf("%s is not recommended", s)
			}
		}
	}
}

// Check 35: line group 0.5 of ISO 128 (M/S); widths that DXF can name (370 in
// hundredths of a mm, S).
func TestLineGroup(t *testing.T) {
	for _, r := range Roles() {
		want := 0.25
		switch r {
		case Visible, Cut:
			want = 0.5
		case Border:
			want = 0.7
		case Lettering:
			want = 0.35
		}
		if w := r.Style().Width; w != want {
			t.Errorf("%s: width %g, want %g", r, w, want)
		}
		if hundredths := r.Style().Width * 100; !slices.Contains([]float64{25, 35, 50, 70}, hundredths) {
			t.Errorf("%s: %g is no lineweight of DXF", r, hundredths)
		}
	}
}

// Patterns at d = 0.25 (D from ISO 128-20, M): dashed 3/0.75, chain
// 6/0.75/0.125/0.75 mm, double-dot chain one dot and gap more.
func TestPatterns(t *testing.T) {
	for role, want := range map[Role][]float64{
		Visible: nil,
		Hidden:  {3, 0.75},
		Centre:  {6, 0.75, 0.125, 0.75},
		Phantom: {6, 0.75, 0.125, 0.75, 0.125, 0.75},
	} {
		if got := role.Style().Dash; !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", role, got, want)
		}
	}
}

// Check 36: eight mandatory fields and the lengths of ISO 7200:2004 (S
// proficad.com).
func TestTitleBlockFields(t *testing.T) {
	mandatory := 0
	limits := map[string]int{}
	for _, f := range (TitleBlock{}).Fields() {
		if f.Mandatory {
			mandatory++
		}
		limits[f.Name] = f.Limit
	}
	if mandatory != 8 {
		t.Errorf("%d mandatory fields, the standard has 8", mandatory)
	}
	for name, want := range map[string]int{"Title": 25, "Identification number": 16, "Revision index": 2,
		"Date of issue": 10, "Creator": 20, "Document type": 30, "Responsible department": 10} {
		if limits[name] != want {
			t.Errorf("%s: limit %d, want %d", name, limits[name], want)
		}
	}
	long := TitleBlock{Title: strings.Repeat("x", 26)}
	if got := long.tooLong(); len(got) != 1 || got[0].Fault != TooLong {
		t.Errorf("a title of 26 characters gives %v", got)
	}
	if got := (TitleBlock{Title: strings.Repeat("Ø", 25)}).tooLong(); got != nil {
		t.Errorf("a title of 25 characters gives %v", got)
	}
}

// The block is 180 mm wide in the lower right corner of the frame (M), and
// carries the notice whole.
func TestTitleBlockPlace(t *testing.T) {
	s := Sheet{Size: A3}
	prims, tight := s.drawTitleBlock("1:1")
	if len(tight) > 0 {
		t.Error(tight)
	}
	box := boxOf(prims)
	if box.Min.X != 230 || box.Max.X != 410 || box.Min.Y != 10 {
		t.Errorf("block spans %v", box)
	}
	var words []string
	for _, p := range prims {
		if l, ok := p.(Label); ok {
			words = append(words, l.Value)
		}
	}
	if !strings.Contains(strings.Join(words, " "), Notice) {
		t.Errorf("no notice in %q", words)
	}
}

// ISO 3098 heights step by √2 within rounding (M; standards.md 7.5).
func TestLetterHeights(t *testing.T) {
	all := letterHeights()
	for i := 1; i < len(all); i++ {
		if ratio := all[i] / all[i-1]; math.Abs(ratio-math.Sqrt2) > 0.03 {
			t.Errorf("%g to %g is a step of %.3f", all[i-1], all[i], ratio)
		}
	}
	if got := fit("a very long value for so small a field", 5, 40); got != 1.8 {
		t.Errorf("fit: %g", got)
	}
	if got := fit("short", 3.5, 40); got != 3.5 {
		t.Errorf("fit: %g", got)
	}
}
