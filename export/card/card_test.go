package card

import (
	"math"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/solver/judge"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r2"
)

func cardOf(t *testing.T, name string) *sheet.Drawing {
	t.Helper()
	f := solvertest.Frame(t, name)
	c, err := judge.Cover(f, judge.Random(f.People))
	if err != nil {
		t.Fatal(err)
	}
	d := Of(&f, &c, []int{3, 2, 1})
	if d == nil {
		t.Fatal("no card")
	}
	return d
}

// All that is told can be read at an arm's length, lies on the card, and no text lies
// on another: boxes of the letters' own widths and heights.
func TestLegible(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		t.Run(name, func(t *testing.T) {
			d := cardOf(t, name)
			var boxes []r2.Box
			var texts []string
			for p := range d.All() {
				l, ok := p.(sheet.Label)
				if !ok {
					continue
				}
				const arm, rule = 700.0, 200.0
				if l.Height < arm/rule && !strings.Contains(sheet.Notice, l.Value) {
					t.Errorf("%q is %.1f mm high", l.Value, l.Height)
				}
				w := sheet.TextWidth(l.Value, l.Height)
				x := l.At.X
				if l.H == sheet.Middle {
					x -= w / 2
				}
				box := r2.Box{Min: r2.Vec{X: x, Y: l.At.Y}, Max: r2.Vec{X: x + w, Y: l.At.Y + l.Height}}
				if box.Min.X < margin-1 || box.Max.X > d.Width-margin+1 || box.Min.Y < margin-1 || box.Max.Y > d.Height-margin+1 {
					t.Errorf("%q lies past the margin", l.Value)
				}
				for i, b := range boxes {
					if math.Min(b.Max.X, box.Max.X)-math.Max(b.Min.X, box.Min.X) > -0.5 && math.Min(b.Max.Y, box.Max.Y)-math.Max(b.Min.Y, box.Min.Y) > 0 {
						t.Errorf("%q lies on %q", l.Value, texts[i])
					}
				}
				boxes, texts = append(boxes, box), append(texts, l.Value)
			}
			if len(texts) < 30 {
				t.Errorf("only %d texts", len(texts))
			}
		})
	}
}

// Whoever changes the axis finds on the card where the guide sheave's pin goes; a station
// without one has nothing said of it.
func TestGuideOnCard(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	c, err := judge.Cover(f, judge.Random(f.People))
	if err != nil {
		t.Fatal(err)
	}
	says := func(guide []int) bool {
		for p := range Of(&f, &c, guide).All() {
			if l, ok := p.(sheet.Label); ok && l.Value == "Axis and hole from the top: 1 in 3, 2 in 2, 3 in 1." {
				return true
			}
		}
		return false
	}
	if !says([]int{3, 2, 1}) {
		t.Error("the card does not tell the guide's holes")
	}
	if says(nil) {
		t.Error("told where there is none")
	}
}

// A card that fits nobody is none.
func TestNobody(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	if d := Of(&f, &judge.Crowd{}, nil); d != nil {
		t.Errorf("%d texts", len(d.Primitives))
	}
}
