package pdf_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"armwright/export/pdf"
	"armwright/export/sheet"
	"armwright/export/sheet/sheettest"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/goregular"
	"gonum.org/v1/gonum/spatial/r2"
)

func render(t *testing.T) []byte {
	t.Helper()
	var drawings []*sheet.Drawing
	for _, s := range []*sheet.Sheet{sheettest.Bracket(), sheettest.Strip()} {
		d, err := s.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		drawings = append(drawings, d)
	}
	var b bytes.Buffer
	if err := pdf.Set(&b, "Example", drawings...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Names in letters that Helvetica lacks keep them: an independent reader gets back
// what was written, whichever the letters, in the same bytes each time.
func TestOtherLetters(t *testing.T) {
	names := []string{"Łódź Žižkov Ελλάς", "Мастерская Иванова", "Dvořák ≤ β", "Plain Ø25 “x”"}
	d := &sheet.Drawing{Width: 210, Height: 297, Title: "Letters"}
	for i, name := range names {
		d.Primitives = append(d.Primitives, sheet.Label{Role: sheet.Lettering, At: r2.Vec{X: 20, Y: 250 - 20*float64(i)}, Value: name, Height: 3.5})
	}
	var first []byte
	for i := range 20 {
		var b bytes.Buffer
		if err := pdf.Set(&b, "Letters", d); err != nil {
			t.Fatal(err)
		}
		if i > 0 && !bytes.Equal(first, b.Bytes()) {
			t.Fatal("the same sheet gave other bytes")
		}
		first = b.Bytes()
	}
	if len(first) > 40<<10 {
		t.Errorf("%d bytes for four texts: the whole font is in the file", len(first))
	}
	has := repertoire(t, goregular.TTF)
	for r := rune(0x100); r < 0x2300; r++ {
		if sheet.Lettered(string(r)) && !sheet.Printable(string(r)) && !has[r] {
			t.Errorf("%c (U+%04X) is counted on, but the font lacks it", r, r)
		}
	}
	if sheet.Lettered("漢") || sheet.Lettered("شركة") {
		t.Error("letters that no font here has are counted on")
	}
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("ARMWRIGHT_READERS") == "required" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	cmd := exec.Command(tool, "-enc", "UTF-8", "-", "-")
	cmd.Stdin = bytes.NewReader(first)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		if !strings.Contains(string(out), name) {
			t.Errorf("%q is read as %q", name, out)
		}
	}
}

// repertoire are the runes of the basic plane that a TrueType font has a glyph for:
// its cmap table of format 4 (ISO/IEC 14496-22, 5.2.1.3.1).
func repertoire(t *testing.T, font []byte) map[rune]bool {
	at := func(i int) int { return int(binary.BigEndian.Uint16(font[i:])) }
	long := func(i int) int { return int(binary.BigEndian.Uint32(font[i:])) }
	cmap := 0
	for i := range at(4) {
		if entry := 12 + 16*i; string(font[entry:entry+4]) == "cmap" {
			cmap = long(entry + 8)
		}
	}
	has := map[rune]bool{}
	for i := range at(cmap + 2) {
		sub := cmap + long(cmap+4+8*i+4)
		if at(sub) != 4 {
			continue
		}
		n := at(sub + 6) // twice the number of segments
		for s := 0; s < n; s += 2 {
			end, start, delta, offset := at(sub+14+s), at(sub+16+n+s), at(sub+16+2*n+s), at(sub+16+3*n+s)
			for c := start; c <= end && c < 0xFFFF; c++ {
				glyph := c + delta
				if offset != 0 {
					glyph = at(sub + 16 + 3*n + s + offset + 2*(c-start))
				}
				if glyph&0xFFFF != 0 {
					has[rune(c)] = true
				}
			}
		}
	}
	if !has['A'] || has[0xE123] {
		t.Fatal("the font's table is not read rightly")
	}
	return has
}

func TestReproducible(t *testing.T) {
	a := render(t)
	for range 10 {
		if !bytes.Equal(a, render(t)) {
			t.Fatal("the same sheets gave other bytes")
		}
	}
}

// Check 42 (D): A3 landscape is 1190.5512 x 841.8898 pt, A4 portrait 595.2756
// x 841.8898. The library writes hundredths of a point (0.0035 mm).
func TestPageSizes(t *testing.T) {
	box := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	size := func(object []byte) (out [2]float64, ok bool) {
		m := box.FindSubmatch(object)
		if m == nil {
			return out, false
		}
		for i := range out {
			out[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
		}
		return out, true
	}
	var got [][2]float64
	var inherited [2]float64 // from the page tree, for pages without their own
	for _, object := range bytes.Split(render(t), []byte("endobj")) {
		own, ok := size(object)
		switch {
		case bytes.Contains(object, []byte("/Type /Pages")):
			inherited = own
		case bytes.Contains(object, []byte("/Type /Page\n")):
			if !ok {
				own = [2]float64{}
			}
			got = append(got, own)
		}
	}
	want := [][2]float64{{1190.5512, 841.8898}, {595.2756, 841.8898}}
	if len(got) != len(want) {
		t.Fatalf("%d pages", len(got))
	}
	for i := range got {
		if got[i] == ([2]float64{}) {
			got[i] = inherited
		}
	}
	for i, w := range want {
		if math.Abs(got[i][0]-w[0]) > 0.005 || math.Abs(got[i][1]-w[1]) > 0.005 {
			t.Errorf("page %d is %v pt, want %v", i+1, got[i], w)
		}
	}
}

// The catalog asks for no print scaling (ISO 32000-1, table 150), and the
// cross-reference table is still where the file says, with every object in it
// at its offset.
func TestCatalog(t *testing.T) {
	out := render(t)
	if !bytes.Contains(out, []byte("/ViewerPreferences << /PrintScaling /None >>")) {
		t.Error("no print scaling preference")
	}
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(out)
	if m == nil {
		t.Fatal("no startxref")
	}
	at, _ := strconv.Atoi(string(m[1]))
	if !bytes.HasPrefix(out[at:], []byte("xref\n0 ")) {
		t.Fatalf("at %d is %q", at, out[at:at+10])
	}
	entries := regexp.MustCompile(`(\d{10}) 00000 n`).FindAllSubmatch(out[at:], -1)
	for i, e := range entries {
		offset, _ := strconv.Atoi(string(e[1]))
		if want := fmt.Sprintf("%d 0 obj", i+1); !bytes.HasPrefix(out[offset:], []byte(want)) {
			t.Errorf("object %d is not at %d", i+1, offset)
		}
	}
	if len(entries) < 8 {
		t.Errorf("%d objects", len(entries))
	}
}

func TestOutline(t *testing.T) {
	out := render(t)
	for _, name := range []string{"01 Bearing bracket", "02 Hole strip"} {
		wide := "\xfe\xff"
		for _, r := range name {
			wide += "\x00" + string(r)
		}
		if !bytes.Contains(out, []byte(name)) && !bytes.Contains(out, []byte(wide)) {
			t.Errorf("no outline entry %q", name)
		}
	}
}

// content gives the pages' drawing operators.
func content(t *testing.T, file []byte) string {
	t.Helper()
	var all strings.Builder
	for _, m := range regexp.MustCompile(`(?s)/FlateDecode /Length (\d+)>>\nstream\n`).FindAllSubmatchIndex(file, -1) {
		r, err := zlib.NewReader(bytes.NewReader(file[m[1]:]))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(&all, r); err != nil {
			t.Fatal(err)
		}
	}
	return all.String()
}

// Diameter, plus-minus and degree are single Windows-1252 bytes; widths and
// patterns are those of the roles in points.
func TestContent(t *testing.T) {
	s := content(t, render(t))
	for _, want := range []string{"(\xd825 H7)", "(60 \xb10.1)", "(45\xb0)", "(Example Workshop)", "1.42 w", "0.71 w", "[8.50 2.13] 0.00 d", "[17.01 2.13 0.35 2.13] 0.00 d"} {
		if !strings.Contains(s, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, bad := range []string{"NaN", "Inf"} {
		if strings.Contains(s, bad) {
			t.Errorf("contains %s", bad)
		}
	}
}

// The widths that the layout counts on are those of the font: the library's
// copy of the Adobe metrics of Helvetica.
func TestTextWidths(t *testing.T) {
	f := fpdf.New("P", "mm", "A4", "")
	f.SetFont("Helvetica", "", 10)
	f.SetFontUnitSize(10)
	encode := f.UnicodeTranslatorFromDescriptor("cp1252")
	for r := ' '; r < 0x2200; r++ {
		s := string(r)
		if !sheet.Printable(s) {
			continue
		}
		// A font of 10 mm has capitals of 7.18 mm.
		if got, want := sheet.TextWidth(s, 7.18), f.GetStringWidth(encode(s)); math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: %g, the font has %g", r, got, want)
		}
	}
	if !sheet.Printable("Ø±°×–“”€µ") || sheet.Printable("θ") {
		t.Error("repertoire")
	}
}

func TestNothing(t *testing.T) {
	var e *pdf.Error
	if err := pdf.Set(io.Discard, "x"); !errors.As(err, &e) {
		t.Errorf("error %v", err)
	}
}

func TestWriterError(t *testing.T) {
	r, w := io.Pipe()
	r.CloseWithError(io.ErrClosedPipe)
	if err := pdf.Set(w, "x", &sheet.Drawing{Width: 10, Height: 10}); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("error %v", err)
	}
}
