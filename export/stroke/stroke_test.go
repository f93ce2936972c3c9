package stroke

import (
	"testing"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func lengths(strokes []Line) map[sheet.Role]float64 {
	out := map[sheet.Role]float64{}
	for _, s := range strokes {
		out[s.Role] += r2.Norm(r2.Sub(s.B, s.A))
	}
	return out
}

// Sets of intervals agree with asking single points.
func TestSpans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) Spans {
			var s Spans
			for range rapid.IntRange(0, 6).Draw(t, name) {
				a := rapid.IntRange(0, 20).Draw(t, "from")
				b := rapid.IntRange(0, 20).Draw(t, "to")
				s = append(s, Span{float64(min(a, b)), float64(max(a, b))})
			}
			return s
		}
		in := func(s Spans, x float64) bool {
			for _, v := range s {
				if v.From < x && x < v.To {
					return true
				}
			}
			return false
		}
		a, b := draw("a"), draw("b")
		rest := a.Union().Minus(b.Union())
		for x := 0.25; x < 20; x += 0.5 {
			if got, want := in(rest, x), in(a, x) && !in(b, x); got != want {
				t.Fatalf("%v less %v is %v: wrong at %g", a, b, rest, x)
			}
		}
	})
}

// Lines drawn twice or over each other are drawn once, the stronger on top,
// and the corners of a square join to one closed polyline.
func TestTidyAndJoin(t *testing.T) {
	square := []r2.Vec{{}, {X: 100}, {X: 100, Y: 100}, {Y: 100}}
	var strokes []Line
	for i, p := range square {
		q := square[(i+1)%4]
		half := r2.Scale(0.5, r2.Add(p, q))
		strokes = append(strokes, Line{p, half, sheet.Visible}, Line{q, p, sheet.Hidden}, Line{half, q, sheet.Visible}, Line{p, q, sheet.Phantom})
	}
	got := lengths(Tidy(strokes))
	if got[sheet.Visible] != 400 || got[sheet.Hidden] != 0 || got[sheet.Phantom] != 0 {
		t.Errorf("lengths %v, want 400 visible", got)
	}
	e := Join(Tidy(strokes))
	if len(e) != 1 {
		t.Fatalf("%d chains, want 1: %v", len(e), e)
	}
	if p := e[0].(sheet.Polyline); !p.Closed || len(p.Vertices) != 4 {
		t.Errorf("got %v, want a closed square", p)
	}
}
