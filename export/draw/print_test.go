//go:build !js

package draw

import (
	"bytes"
	"image"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"armwright/export/dxf"
	"armwright/export/dxf/dxftest"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
)

// printsSwitch is the environment variable that, set to "all", has the sheets of weldments,
// parts and steps printed too.
const printsSwitch = "ARMWRIGHT_PRINTS"

// A CAD program prints each sheet with the letters that it brings, and no text leaves the
// box that the sheet keeps for it: a cell of a table, a place among lines. The texts are
// printed by themselves, so that ink outside every box is that of a letter.
func TestCADPrintsTextInItsBox(t *testing.T) {
	testdata.Long(t)
	for _, name := range stations() {
		t.Run(name, func(t *testing.T) {
			r := stationtest.Result(t, name)
			set, err := sheets(r, holds(t, r))
			if err != nil {
				t.Fatal(err)
			}
			if os.Getenv(printsSwitch) != "all" {
				set = slices.DeleteFunc(set, func(s named) bool { return s.number >= 100 })
			}
			var files, lettering [][]byte
			var texts [][]dxf.Text
			var papers []*sheet.Drawing
			for i := range set {
				d, err := set[i].sheet.Flatten()
				if err != nil {
					t.Fatal(err)
				}
				var whole bytes.Buffer
				if err := (dxf.Renderer{Version: dxf.AC1015}).Render(&whole, d); err != nil {
					t.Fatal(err)
				}
				files = append(files, whole.Bytes())
				only, list := lettered(t, whole.Bytes(), d.Width, d.Height)
				lettering, texts = append(lettering, only), append(texts, list)
				papers = append(papers, d)
			}
			ink := make([]int, len(set))
			dxftest.Print(t, files, func(i int, g *image.Gray) { ink[i] = newPage(g).ink })
			dxftest.Print(t, lettering, func(i int, g *image.Gray) {
				t.Run(set[i].slug, func(t *testing.T) {
					only := newPage(g)
					if ink[i] < 2*only.ink {
						t.Errorf("%d dots of ink on the sheet, %d of them texts: it is not all there", ink[i], only.ink)
					}
					inBoxes(t, &only, texts[i], papers[i].Width, papers[i].Height)
				})
			})
		})
	}
}

// lettered is a file with the texts of a sheet alone in a frame as large as its paper.
func lettered(t *testing.T, data []byte, width, height float64) ([]byte, []dxf.Text) {
	t.Helper()
	d := document(t, data)
	var texts []dxf.Text
	kept := d.Entities[:0]
	for _, e := range d.Entities {
		if x, ok := e.(dxf.Text); ok && strings.TrimSpace(x.Value) != "" {
			texts, kept = append(texts, x), append(kept, x)
		}
	}
	corners := [4]dxf.Point{{}, {X: width}, {X: width, Y: height}, {Y: height}}
	for i, a := range corners {
		kept = append(kept, dxf.Line{A: a, B: corners[(i+1)%4]})
	}
	d.Entities = kept
	for i := range d.Layers {
		d.Layers[i].Lineweight = dxf.Lineweights()[0] // the print reduces the sheet, but not its lines
	}
	var b bytes.Buffer
	if err := dxf.Write(&b, d, dxf.AC1015); err != nil {
		t.Fatal(err)
	}
	return b.Bytes(), texts
}

// page is a printed sheet, and where its paper lies on it.
type page struct {
	*image.Gray
	frame image.Rectangle // of all ink
	ink   int             // dots
}

func newPage(g *image.Gray) page {
	p := page{Gray: g, frame: image.Rectangle{Min: g.Rect.Max, Max: g.Rect.Min}}
	p.each(g.Rect, func(x, y int) {
		p.ink++
		p.frame = p.frame.Union(image.Rect(x, y, x+1, y+1))
	})
	return p
}

// each visits the dots of ink in a part of the page.
func (p *page) each(in image.Rectangle, f func(x, y int)) {
	in = in.Intersect(p.Rect)
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			if p.Pix[p.PixOffset(x, y)] < 0x80 {
				f(x, y)
			}
		}
	}
}

// What letters may reach beyond the box of their capitals, as a share of their height:
// tails and commas below the baseline, a round digit above the others; and all round, on
// paper, half a stroke and two dots of the print.
const (
	tails  = 0.4
	rounds = 0.2
	around = 0.5 // mm
)

// inBoxes looks for ink outside all boxes of texts, and for boxes without any. The paper's
// own border is what reaches farthest.
func inBoxes(t *testing.T, p *page, texts []dxf.Text, width, height float64) {
	t.Helper()
	dots := float64(p.frame.Dx()-1) / width // of a millimetre
	if other := float64(p.frame.Dy()-1) / height; math.Abs(other/dots-1) > 0.01 {
		t.Fatalf("%.3f dots a mm along the paper, %.3f up it", dots, other)
	}
	paper := func(x, y int) r2.Vec {
		return r2.Vec{X: (float64(x-p.frame.Min.X) + 0.5) / dots, Y: height - (float64(y-p.frame.Min.Y)+0.5)/dots}
	}
	known := make([]bool, len(p.Pix))
	for _, x := range texts {
		along := r2.Vec{X: x.End.X - x.At.X, Y: x.End.Y - x.At.Y}
		long := r2.Norm(along)
		if x.H != dxf.Fit || long == 0 {
			t.Fatalf("%q is not fitted", x.Value)
		}
		along = r2.Unit(along)
		reach := long + 2*x.Height
		at := r2.Vec{X: x.At.X, Y: x.At.Y}
		corner := func(s float64) image.Point {
			return image.Pt(p.frame.Min.X+int((at.X+s*reach)*dots), p.frame.Min.Y+int((height-at.Y-s*reach)*dots))
		}
		a, b := corner(-1), corner(1)
		dotsIn := 0
		p.each(image.Rect(a.X, b.Y, b.X+1, a.Y+1), func(px, py int) {
			off := r2.Sub(paper(px, py), at)
			u, v := r2.Dot(off, along), r2.Cross(along, off)
			if u > -around && u < long+around && v > -tails*x.Height-around && v < (1+rounds)*x.Height+around {
				known[p.PixOffset(px, py)] = true
				dotsIn++
			}
		})
		if dotsIn == 0 {
			t.Errorf("nothing is printed of %q at %v", x.Value, at)
		}
	}
	const border = 3 // dots of the paper's border
	inner := p.frame.Inset(border)
	out := 0
	p.each(inner, func(x, y int) {
		if !known[p.PixOffset(x, y)] {
			if out++; out <= 5 {
				t.Errorf("ink outside every text's box at %.1f", paper(x, y))
			}
		}
	})
	if out > 5 {
		t.Errorf("%d dots outside every text's box", out)
	}
}
