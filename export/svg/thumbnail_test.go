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

// A closed outline is drawn back to its beginning, its last arc with it: a bar 60 long
// with round ends of radius 10, the last one at the left. An arc of less than 2 mm is a
// straight stroke.
func TestThumbnailLoop(t *testing.T) {
	v := func(x, y, bulge float64) sheet.Vertex { return sheet.Vertex{Vec: r2.Vec{X: x, Y: y}, Bulge: bulge} }
	d := &sheet.Drawing{Width: 100, Height: 50, Primitives: []sheet.Primitive{
		sheet.Stroke{Role: sheet.Visible, Closed: true, Path: []sheet.Vertex{v(20, 10, 0), v(80, 10, 1), v(80, 30, 0), v(20, 30, 1)}},
		sheet.Stroke{Role: sheet.Visible, Path: []sheet.Vertex{v(10, 45, 1), v(13, 45, 0)}},
		sheet.Stroke{Role: sheet.Visible, Path: []sheet.Vertex{v(20, 45, 1), v(24.5, 45, 0)}},
	}}
	var b bytes.Buffer
	if err := svg.Thumbnail(&b, d); err != nil {
		t.Fatal(err)
	}
	// Radius 10: 5.0 and 8.66 along, 1.34 and 3.66 and 5 across. Radius 2.25: at 1.1 and 1.9.
	for _, want := range []string{"M20 40l60 0l5 -1l4 -4l1 -5l-1 -5l-4 -4l-5 -1l-60 0l-5 1l-4 4l-1 5l1 5l4 4l5 1", "M10 5l3 0", "M20 5l0 1l1 1l1 0l1 0l1 -1l1 -1"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in %s", want, b.String())
		}
	}
}
