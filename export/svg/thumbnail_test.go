package svg_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/sheet/sheettest"
	"armwright/export/svg"

	"gonum.org/v1/gonum/spatial/r2"
)

// A thumbnail is well-formed, much smaller than its sheet, and no stroke of it
// leaves the paper.
func TestThumbnail(t *testing.T) {
	s := sheettest.Bracket()
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	var b, full bytes.Buffer
	if err := svg.Thumbnail(&b, d); err != nil {
		t.Fatal(err)
	}
	if err := (svg.Renderer{}).Render(&full, d); err != nil {
		t.Fatal(err)
	}
	if 3*b.Len() > full.Len() {
		t.Errorf("%d bytes beside the sheet's %d", b.Len(), full.Len())
	}
	paths := 0
	for dec := xml.NewDecoder(bytes.NewReader(b.Bytes())); ; {
		token, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "path" {
			continue
		}
		paths++
		for _, a := range e.Attr {
			if a.Name.Local == "d" && strings.Contains(a.Value, "l") {
				inside(t, a.Value, d.Width, d.Height)
			}
		}
	}
	if paths != 4 {
		t.Errorf("%d paths, want paper, bars, fine and bold strokes", paths)
	}
}

// inside follows a path of M and l commands.
func inside(t *testing.T, path string, width, height float64) {
	t.Helper()
	var x, y float64
	for _, c := range regexp.MustCompile(`([Ml])(-?\d+) (-?\d+)`).FindAllStringSubmatch(path, -1) {
		dx, _ := strconv.ParseFloat(c[2], 64)
		dy, _ := strconv.ParseFloat(c[3], 64)
		if c[1] == "M" {
			x, y = 0, 0
		}
		x, y = x+dx, y+dy
		if x < 0 || y < 0 || x > width || y > height {
			t.Fatalf("a stroke goes to %g, %g", x, y)
		}
	}
}

// An arc is drawn through its own points: the half circle from (60, 20) to
// (40, 20) with the bulge of 1 runs counter-clockwise, over (50, 30) where y
// goes up, which is 20 below the upper edge of a sheet of 50.
func TestThumbnailArc(t *testing.T) {
	d := &sheet.Drawing{Width: 100, Height: 50, Title: `A & "B"`, Primitives: []sheet.Primitive{
		sheet.Stroke{Role: sheet.Visible, Path: []sheet.Vertex{{Vec: r2.Vec{X: 60, Y: 20}, Bulge: 1}, {Vec: r2.Vec{X: 40, Y: 20}}}},
		sheet.Stroke{Role: sheet.Visible, Path: []sheet.Vertex{{Vec: r2.Vec{X: 60, Y: 20}, Bulge: 1}, {Vec: r2.Vec{X: 40, Y: 20}}}}, // again
		sheet.Label{Role: sheet.Lettering, At: r2.Vec{X: 80, Y: 10}, Value: "up", Height: 3.5, Rotation: math.Pi / 2},
	}}
	var b bytes.Buffer
	if err := svg.Thumbnail(&b, d); err != nil {
		t.Fatal(err)
	}
	// Every twelfth of a turn: (58.66, 25) rounds to 59, 25 and lies at 50-25 = 25 down, and so on.
	const want = `d="M60 30l-1 -5l-4 -4l-5 -1l-5 1l-4 4l-1 5"`
	if got := b.String(); strings.Count(got, want) != 1 || !strings.Contains(got, `aria-label="A &amp; &#34;B&#34;"`) {
		t.Errorf("got %s\nwant once %s", got, want)
	}
	if !regexp.MustCompile(`stroke="#bbb"[^>]*d="M7[89] 40l0 -\d"`).MatchString(b.String()) {
		t.Errorf("the upright label has no upright bar: %s", b.String())
	}
}
