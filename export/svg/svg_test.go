package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/sheet/sheettest"
	"armwright/export/svg"

	"gonum.org/v1/gonum/spatial/r2"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func render(t *testing.T, s *sheet.Sheet) []byte {
	t.Helper()
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := (svg.Renderer{}).Render(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// small is one of each primitive.
func small() *sheet.Drawing {
	at := func(x, y, bulge float64) sheet.Vertex { return sheet.Vertex{Vec: r2.Vec{X: x, Y: y}, Bulge: bulge} }
	return &sheet.Drawing{
		Width: 100, Height: 50, Number: 3, Title: "One & all", Description: "Each <primitive> once.",
		Primitives: []sheet.Primitive{
			sheet.Stroke{Role: sheet.Visible, Path: []sheet.Vertex{at(10, 10, 0), at(30, 10, 1), at(30, 30, -0.414213562), at(10.00004, 30, 0)}},
			sheet.Stroke{Role: sheet.Visible, Path: []sheet.Vertex{at(60, 20, 1), at(50, 20, 1)}, Closed: true},
			sheet.Stroke{Role: sheet.Centre, Path: []sheet.Vertex{at(45, 20, 0), at(65, 20, 0)}},
			sheet.Fill{Role: sheet.Dimensioning, Loops: [][]sheet.Vertex{{at(70, 10, 0), at(72.5, 10.33, 0), at(72.5, 9.67, 0)}}},
			sheet.Label{Role: sheet.Lettering, At: r2.Vec{X: 80, Y: 10}, Value: "Ø25 ±0.1 <&>", Height: 3.5, Rotation: math.Pi / 2, H: sheet.Middle},
		},
	}
}

func TestGolden(t *testing.T) {
	var b bytes.Buffer
	if err := (svg.Renderer{}).Render(&b, small()); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("testdata", "small.svg")
	if *update {
		if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b.Bytes(), want) {
		t.Errorf("got\n%s", b.Bytes())
	}
}

type element struct {
	XMLName  xml.Name
	Attr     []xml.Attr `xml:",any,attr"`
	Text     string     `xml:",chardata"`
	Children []element  `xml:",any"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// The document is well formed, at true size (check 42: user unit mm, so 100 mm
// is 377.95276 CSS px at 96 px to the inch), and names itself: title first,
// then desc, role img, labelled by both (MDN; W3C ACT rule 7d6734).
func TestDocument(t *testing.T) {
	for _, c := range []struct {
		s                      *sheet.Sheet
		width, height, viewBox string
	}{
		{sheettest.Bracket(), "420mm", "297mm", "0 0 420 297"},
		{sheettest.Strip(), "210mm", "297mm", "0 0 210 297"},
	} {
		out := render(t, c.s)
		var doc element
		if err := xml.Unmarshal(out, &doc); err != nil {
			t.Fatal(err)
		}
		if doc.attr("width") != c.width || doc.attr("height") != c.height || doc.attr("viewBox") != c.viewBox {
			t.Errorf("size %s x %s, view %s", doc.attr("width"), doc.attr("height"), doc.attr("viewBox"))
		}
		title, desc := doc.Children[0], doc.Children[1]
		if title.XMLName.Local != "title" || title.Text != c.s.TitleBlock.Title || desc.XMLName.Local != "desc" {
			t.Errorf("begins with %s %q, %s", title.XMLName.Local, title.Text, desc.XMLName.Local)
		}
		if doc.attr("role") != "img" || doc.attr("aria-labelledby") != title.attr("id")+" "+desc.attr("id") {
			t.Errorf("role %q labelled by %q", doc.attr("role"), doc.attr("aria-labelledby"))
		}
		if !strings.Contains(desc.Text, sheet.Notice) {
			t.Error("no notice in the description")
		}
		for _, bad := range []string{"NaN", "Inf", "vector-effect", "href=\"http", "%!"} {
			if bytes.Contains(out, []byte(bad)) {
				t.Errorf("contains %s", bad)
			}
		}
	}
}

// The bar of 100 mm is 100 user units long.
func TestScaleBar(t *testing.T) {
	out := render(t, sheettest.Bracket())
	if !bytes.Contains(out, []byte(`d="M236 238L336 238L336 236L236 236Z"`)) {
		t.Error("no bar from x = 236 to 336")
	}
}

// Line patterns of standards.md 7.4 at d = 0.25, in mm.
func TestPatterns(t *testing.T) {
	out := render(t, sheettest.Bracket())
	for _, want := range []string{
		`class="hidden" fill="none" stroke="black" stroke-width="0.25" stroke-linejoin="round" stroke-dasharray="3 0.75"`,
		`class="centre" fill="none" stroke="black" stroke-width="0.25" stroke-linejoin="round" stroke-dasharray="6 0.75 0.125 0.75"`,
		`class="visible" fill="none" stroke="black" stroke-width="0.5"`,
		`class="border" fill="none" stroke="black" stroke-width="0.7"`,
	} {
		if !bytes.Contains(out, []byte(want)) {
			t.Errorf("no %s", want)
		}
	}
}

func TestDeterministic(t *testing.T) {
	a := render(t, sheettest.Strip())
	for range 5 {
		if !bytes.Equal(a, render(t, sheettest.Strip())) {
			t.Fatal("the same sheet gave other bytes")
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestWriterError(t *testing.T) {
	if err := (svg.Renderer{}).Render(broken{}, small()); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("error %v", err)
	}
}

// The flags of an arc (SVG 1.1, 8.3.8): of two circles through both ends, the arc of
// more than half a turn or less, and the one that turns towards positive y, which runs
// down. The ends of each arc here are (10, 0) and (0, 10) on the paper; the bulge is
// tan(turn/4), counter-clockwise positive.
func TestArcFlags(t *testing.T) {
	for _, c := range []struct {
		turn float64 // degrees
		want string
	}{
		{90, "M10 0A10 10 0 0 0 0 -10"},
		{-90, "M10 0A10 10 0 0 1 0 -10"},
		{270, "M10 0A10 10 0 1 0 0 -10"},
		{-270, "M10 0A10 10 0 1 1 0 -10"},
		{179, "M10 0A7.0713 7.0713 0 0 0 0 -10"},
		{181, "M10 0A7.0713 7.0713 0 1 0 0 -10"},
	} {
		path := []sheet.Vertex{{Vec: r2.Vec{X: 10}, Bulge: math.Tan(c.turn * math.Pi / 180 / 4)}, {Vec: r2.Vec{Y: 10}}}
		if got := svg.Path(path, false); got != c.want {
			t.Errorf("turn of %g degrees: %s, want %s", c.turn, got, c.want)
		}
	}
}
