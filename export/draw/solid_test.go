package draw

import (
	"math"
	"testing"

	"armwright/export/sheet"
	"armwright/export/stroke"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// block is an upright box between two corners.
func block(lo, hi r3.Vec) prism {
	mid := r3.Scale(0.5, r3.Add(lo, hi))
	a, b := mid, mid
	a.X, b.X = lo.X, hi.X
	return bar(a, b, r3.Vec{Y: 1}, hi.Y-lo.Y, hi.Z-lo.Z)
}

func lengths(strokes []stroke.Line) map[sheet.Role]float64 {
	out := map[sheet.Role]float64{}
	for _, s := range strokes {
		out[s.Role] += r2.Norm(r2.Sub(s.B, s.A))
	}
	return out
}

// A square plate of side 100 seen behind one of side 40 in its middle: the
// whole outline of both is seen. Moved over the edge by half, the front plate
// hides 40 of the rear one's outline; that is the hand-drawn answer (D).
func TestHiddenLinesOfPlates(t *testing.T) {
	rear := block(r3.Vec{X: -50, Y: 10, Z: -50}, r3.Vec{X: 50, Y: 12, Z: 50})
	for _, c := range []struct {
		name            string
		shift           float64
		visible, hidden float64
	}{
		{"inside", 0, 400 + 160, 0},
		{"over the edge", 50, 400 + 160 - 40, 40},
		{"beside", 200, 400 + 160, 0},
	} {
		front := block(r3.Vec{X: -20 + c.shift, Y: 0, Z: -20}, r3.Vec{X: 20 + c.shift, Y: 2, Z: 20})
		got := lengths(stroke.Tidy(newScene([]prism{rear, front}, fromRight()).picture()))
		// Edges end a skin early where they pass behind a body.
		if math.Abs(got[sheet.Visible]-c.visible) > 0.5 || math.Abs(got[sheet.Hidden]-c.hidden) > 0.5 {
			t.Errorf("%s: visible %.2f, hidden %.2f, want %g and %g", c.name, got[sheet.Visible], got[sheet.Hidden], c.visible, c.hidden)
		}
		front.role = sheet.Phantom
		got = lengths(stroke.Tidy(newScene([]prism{rear, front}, fromRight()).picture()))
		if math.Abs(got[sheet.Visible]-400) > 0.5 || got[sheet.Hidden] != 0 {
			t.Errorf("%s: a phantom hides lines: %v", c.name, got)
		}
	}
}

// A cube seen along its diagonal shows 9 of its 12 edges, each shortened to
// √(2/3) (isometric projection, D).
func TestCubeAlongItsDiagonal(t *testing.T) {
	toward := r3.Unit(r3.Vec{X: 1, Y: -1, Z: 1})
	right := r3.Unit(r3.Cross(r3.Vec{Z: 1}, toward))
	c := camera{right, r3.Cross(toward, right), toward}
	cube := block(r3.Vec{}, r3.Vec{X: 10, Y: 10, Z: 10})
	got := lengths(newScene([]prism{cube}, c).picture())
	if want := 90 * math.Sqrt(2.0/3); math.Abs(got[sheet.Visible]-want) > 1e-9 {
		t.Errorf("visible edges measure %.6f, want %.6f", got[sheet.Visible], want)
	}
}

// A cylinder of diameter d and length l from the side is a rectangle d by l;
// the polygon that stands for the circle is narrower by at most 1 - cos(π/n).
func TestCylinderFromTheSide(t *testing.T) {
	const d, l = 40.0, 100.0
	p := rod(r3.Vec{}, r3.Vec{X: l}, d)
	box := p.extent(fromRight())
	short := d * (1 - math.Cos(math.Pi/roundCorners))
	if h := box.Max.Y - box.Min.Y; h > d+1e-9 || h < d-short-1e-9 {
		t.Errorf("height %.4f, want %g", h, d)
	}
	got := lengths(stroke.Tidy(newScene([]prism{p}, fromRight()).picture()))
	if want := 2 * (d + l); math.Abs(got[sheet.Visible]-want) > 4*short+0.1 {
		t.Errorf("outline %.3f, want %.3f", got[sheet.Visible], want)
	}
}

// The mirror image of a body looks like the body from the mirrored side.
func TestMirrored(t *testing.T) {
	p := bar(r3.Vec{X: 3, Y: -50, Z: 2}, r3.Vec{X: 40, Y: -90, Z: 30}, r3.Vec{X: 1}, 10, 20)
	c := axonometric()
	flip := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	other := camera{flip(c.right), flip(c.up), flip(c.toward)}
	a := lengths(newScene([]prism{p}, c).picture())
	b := lengths(newScene([]prism{p.mirrored()}, other).picture())
	if math.Abs(a[sheet.Visible]-b[sheet.Visible]) > 1e-9 || a[sheet.Visible] == 0 {
		t.Errorf("outline %v, of the mirror image %v", a, b)
	}
}

// Every stroke of random boxes agrees with shooting rays: from the middle of a
// visible stroke no box lies towards the viewer, from a hidden one some box
// does. The rays meet the boxes by slabs, a way of its own.
func TestHiddenLinesAgainstRays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "boxes")
		size := rapid.Float64Range(5, 60)
		place := rapid.Float64Range(-50, 50)
		var bodies []prism
		type box struct{ lo, hi r3.Vec }
		var boxes []box
		for range n {
			lo := r3.Vec{X: place.Draw(t, "x"), Y: place.Draw(t, "y"), Z: place.Draw(t, "z")}
			hi := r3.Add(lo, r3.Vec{X: size.Draw(t, "dx"), Y: size.Draw(t, "dy"), Z: size.Draw(t, "dz")})
			boxes = append(boxes, box{lo, hi})
			bodies = append(bodies, block(lo, hi))
		}
		c := axonometric()
		s := newScene(bodies, c)
		for i, b := range bodies {
			for _, e := range b.edges(c) {
				behind := s.behind(i, e)
				for _, u := range []float64{0.11, 0.37, 0.5, 0.73, 0.94} {
					p := r3.Add(e.a, r3.Scale(u, r3.Sub(e.b, e.a)))
					hidden, near := false, false
					for _, v := range behind {
						hidden = hidden || v.From < u && u < v.To
						near = near || math.Abs(v.From-u) < 0.01 || math.Abs(v.To-u) < 0.01
					}
					ray := func(grow float64) bool {
						for k, o := range boxes {
							if k != i && meets(p, c.toward, o.lo, o.hi, grow) {
								return true
							}
						}
						return false
					}
					// Between a box shrunk and grown by twice the skin either
					// answer is right.
					if in, out := ray(-2*skin), ray(2*skin); !near && (in && !hidden || !out && hidden) {
						t.Fatalf("edge %v at %g: hidden %v, rays say %v to %v", e, u, hidden, in, out)
					}
				}
			}
		}
	})
}

// meets reports whether the ray from p along v enters the box grown by some
// mm (slab method).
func meets(p, v, lo, hi r3.Vec, grow float64) bool {
	from, to := 0.0, math.Inf(1)
	for _, a := range [...][4]float64{{p.X, v.X, lo.X, hi.X}, {p.Y, v.Y, lo.Y, hi.Y}, {p.Z, v.Z, lo.Z, hi.Z}} {
		x, y := (a[2]-grow-a[0])/a[1], (a[3]+grow-a[0])/a[1]
		from, to = math.Max(from, math.Min(x, y)), math.Min(to, math.Max(x, y))
	}
	return from < to
}
