package sheet

import (
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// Sizes of fillets: the throat in millimetres; in inches the leg, which is the throat
// times the square root of two, to the next sixteenth above. 3 mm: 4.243 mm, 0.167 in.
// 5 mm: 7.071 mm, 0.278 in. 8.98 mm: 12.70 mm, 1/2 in. 20 mm: 28.28 mm, 1.114 in.
func TestWeldSizes(t *testing.T) {
	for _, c := range []struct {
		throat    float64
		mm, inchs string
	}{{3, "a3", "3/16"}, {5, "a5", "5/16"}, {8.98, "a9", "1/2"}, {4, "a4", "1/4"}, {20, "a20", "1 1/8"}, {17.96, "a18", "1"}} {
		w := Weld{Throat: c.throat}
		if got := w.Size(Millimetres); got != c.mm {
			t.Errorf("throat %g: %q, want %q", c.throat, got, c.mm)
		}
		if got := w.Size(Inches); got != c.inchs {
			t.Errorf("throat %g: %q, want %q", c.throat, got, c.inchs)
		}
	}
}

// ISO 2553, system A: the triangle stands on the continuous line, the identification
// line, dashed, is on its other side, and is left out where both sides are alike. AWS
// A2.4: what is on the arrow's side hangs below the line. A circle says all round.
func TestWeldSymbols(t *testing.T) {
	for _, c := range []struct {
		name                  string
		weld                  Weld
		units                 Units
		above, below          int // triangles
		dashed, around, texts int
	}{
		{"all round", Weld{Throat: 3, Around: true, Tail: "1"}, Millimetres, 1, 0, 1, 1, 2},
		{"one side", Weld{Throat: 3, Length: 60}, Millimetres, 1, 0, 1, 0, 2},
		{"both sides", Weld{Throat: 5, Length: 60, Both: true}, Millimetres, 1, 1, 0, 0, 4},
		{"one side, inches", Weld{Throat: 3, Length: 60}, Inches, 0, 1, 0, 0, 2},
	} {
		v := View{Entities: []Entity{Line{A: r2.Vec{}, B: r2.Vec{X: 100}}, c.weld}}
		laid := v.layOut(Scale{1, 1}, c.units, 3.5, "")
		var above, below, dashed, around, texts int
		for _, p := range laid.prims {
			switch p := p.(type) {
			case Label:
				texts++
			case Stroke:
				_, _, ring := p.Circle()
				switch {
				case ring:
					around++
				case p.Role == Hidden:
					dashed++
				case len(p.Path) == 3 && p.Path[0].X == p.Path[1].X && p.Path[0].Y == p.Path[2].Y:
					if p.Path[1].Y > p.Path[0].Y {
						above++
					} else {
						below++
					}
				}
			}
		}
		got, want := []int{above, below, dashed, around, texts}, []int{c.above, c.below, c.dashed, c.around, c.texts}
		if !slices.Equal(got, want) {
			t.Errorf("%s: triangles above, below, dashed lines, circles, texts %v, want %v", c.name, got, want)
		}
	}
}
