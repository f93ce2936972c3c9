package sheet

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// The thick ends of a cutting plane, its arrows and letters lie beyond the outline at
// every scale, the arrows point the way the section is looked at, and they end before
// the first dimension line (ISO 128-40).
func TestCuttingPlaneEndsOutside(t *testing.T) {
	for _, s := range []Scale{{2, 1}, {1, 1}, {1, 5}} {
		half := 40 / s.Factor()
		l := &viewLayout{scale: s, factor: s.Factor(), height: 3.5}
		prims := l.cuttingPlane(CuttingPlane{A: r2.Vec{Y: -half}, B: r2.Vec{Y: half}, Sight: r2.Vec{X: 1}, Letter: "A"})
		thick, letters, arrows := 0, 0, 0
		for _, p := range prims {
			box := primitiveBox(p)
			far := max(box.Max.Y, -box.Min.Y)
			near := min(max(box.Min.Y, -box.Max.Y), far)
			switch p := p.(type) {
			case Stroke:
				if p.Role == Visible {
					thick++
				}
				if p.Role == Centre {
					continue
				}
			case Label:
				letters++
				if box.Max.X > 0 {
					t.Errorf("%v: the letter stands at %v, past the line", s, box)
				}
			case Fill:
				arrows++
				if tip := p.Loops[0][0]; tip.X != 0 || box.Min.X > -ArrowLength+1e-9 {
					t.Errorf("%v: arrow at %v, want its tip on the line from the left", s, box)
				}
			}
			if near <= 40 || far >= 40+firstOffset {
				t.Errorf("%v: %T from %.1f to %.1f, want between the outline at 40 and the first dimension", s, p, near, far)
			}
		}
		if thick != 2 || letters != 2 || arrows != 2 {
			t.Errorf("%v: %d thick ends, %d letters, %d arrows, want 2 each", s, thick, letters, arrows)
		}
	}
}

// The largest recommended scale that has room, by hand.
func TestFitting(t *testing.T) {
	one := Scale{1, 1}
	for _, c := range []struct {
		size, room r2.Vec
		most, want Scale
	}{
		{r2.Vec{X: 100, Y: 100}, r2.Vec{X: 200, Y: 120}, one, one},
		{r2.Vec{X: 240, Y: 240}, r2.Vec{X: 200, Y: 120}, one, Scale{1, 2}},
		{r2.Vec{X: 240, Y: 241}, r2.Vec{X: 200, Y: 120}, one, Scale{1, 5}},
		{r2.Vec{X: 10, Y: 10}, r2.Vec{X: 200, Y: 120}, Scale{1, 2}, Scale{1, 2}},
		{r2.Vec{X: 1e9, Y: 1}, r2.Vec{X: 200, Y: 120}, one, Scale{1, 10000}},
	} {
		if got := Fitting(c.size, c.room, c.most); got != c.want {
			t.Errorf("%v in %v at most %v: %v, want %v", c.size, c.room, c.most, got, c.want)
		}
	}
}
