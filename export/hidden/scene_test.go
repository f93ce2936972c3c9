package hidden

import (
	"math"
	"testing"

	"armwright/export/sheet"
	"armwright/export/stroke"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// chord is how far, mm, a straight line may stand off a curve here.
const chord = 0.1

// block is an upright box between two corners.
func block(lo, hi r3.Vec) Body {
	mid, size := r3.Scale(0.5, r3.Add(lo, hi)), r3.Sub(hi, lo)
	box := solid.Prism{Profile: solid.Rect(size.X, size.Y, 0), From: solid.Flat(-size.Z / 2), To: solid.Flat(size.Z / 2)}
	return Body{Shape: NewShape(box, chord), Place: solid.Shift(mid)}
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
		got := lengths(stroke.Tidy(NewScene([]Body{rear, front}, FromRight()).picture()))
		// Edges end a skin early where they pass behind a body.
		if math.Abs(got[sheet.Visible]-c.visible) > 0.5 || math.Abs(got[sheet.Hidden]-c.hidden) > 0.5 {
			t.Errorf("%s: visible %.2f, hidden %.2f, want %g and %g", c.name, got[sheet.Visible], got[sheet.Hidden], c.visible, c.hidden)
		}
		front.Role = sheet.Phantom
		got = lengths(stroke.Tidy(NewScene([]Body{rear, front}, FromRight()).picture()))
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
	c := Camera{Right: right, Up: r3.Cross(toward, right), Toward: toward}
	cube := block(r3.Vec{}, r3.Vec{X: 10, Y: 10, Z: 10})
	got := lengths(NewScene([]Body{cube}, c).picture())
	if want := 90 * math.Sqrt(2.0/3); math.Abs(got[sheet.Visible]-want) > 1e-9 {
		t.Errorf("visible edges measure %.6f, want %.6f", got[sheet.Visible], want)
	}
}

// along is a solid whose own z runs from one place to another.
func along(s solid.Solid, from, to r3.Vec) Body {
	return Body{Shape: NewShape(s, chord), Place: solid.Along(from, to, r3.Vec{Z: 1})}
}

// A cylinder of diameter d and length l from the side is a rectangle d by l, and a
// cone of radii a and b a trapezium (D).
func TestTurnedFromTheSide(t *testing.T) {
	const d, l = 40.0, 100.0
	got := lengths(stroke.Tidy(NewScene([]Body{along(solid.Round(d, l), r3.Vec{}, r3.Vec{X: 1})}, FromRight()).picture()))
	if want := 2 * (d + l); math.Abs(got[sheet.Visible]-want) > 1e-3 {
		t.Errorf("outline %.4f, want %.4f", got[sheet.Visible], want)
	}
	cone := solid.Turned{Outline: []r2.Vec{{X: 30}, {X: 10, Y: 60}}}
	got = lengths(stroke.Tidy(NewScene([]Body{along(cone, r3.Vec{}, r3.Vec{X: 1})}, FromRight()).picture()))
	if want := 60 + 20 + 2*math.Hypot(20, 60); math.Abs(got[sheet.Visible]-want) > 1e-3 {
		t.Errorf("outline %.4f of a cone, want %.4f", got[sheet.Visible], want)
	}
}

// A square tube with a bore through both walls: seen along the bore the hole is a
// circle and no edge is hidden by more than its inner walls; a mitred end is as long
// as its slope says (D).
func TestTube(t *testing.T) {
	const side, wall, long, hole = 40.0, 3.0, 200.0, 10.0
	tube := solid.Prism{Profile: solid.RectTube(side, side, wall, 0), From: solid.Flat(0), To: solid.Flat(long),
		Bores: []solid.Bore{{At: r3.Vec{Z: 50}, Dir: r3.Vec{Y: 1}, Diameter: hole}}}
	b := along(tube, r3.Vec{}, r3.Vec{X: 1})
	got := lengths(stroke.Tidy(NewScene([]Body{b}, FromAbove()).picture()))
	if want := 2*(side+long) + math.Pi*hole; math.Abs(got[sheet.Visible]-want) > 0.1 {
		t.Errorf("outline with hole %.3f, want %.3f", got[sheet.Visible], want)
	}
	if want := 2 * long; got[sheet.Hidden] < want-2*hole { // the inner walls
		t.Errorf("hidden %.3f, at least %.3f are", got[sheet.Hidden], want-2*hole)
	}
	b.Bare = true
	if got := lengths(NewScene([]Body{b}, FromAbove()).picture()); got[sheet.Hidden] != 0 {
		t.Errorf("hidden edges of a bare body: %v", got)
	}
	// Cut at 45 degrees across its height, seen from the side.
	tube.Bores, tube.To = nil, solid.End{Z: long, Tilt: r2.Vec{Y: 1}}
	b = along(tube, r3.Vec{}, r3.Vec{X: 1})
	b.Bare = true
	got = lengths(stroke.Tidy(NewScene([]Body{b}, FromRight()).picture()))
	if want := side + 2*long + side*math.Sqrt2; math.Abs(got[sheet.Visible]-want) > 0.1 {
		t.Errorf("mitred %.3f, want %.3f", got[sheet.Visible], want)
	}
}

// What is not convex hides with its own Shape: a bar in the notch of an L is seen, one
// behind its leg is not (D).
func TestNotchShowsWhatIsBehind(t *testing.T) {
	l := solid.NewProfile(contour.Polygon(r2.Vec{}, r2.Vec{X: 60}, r2.Vec{X: 60, Y: 20}, r2.Vec{X: 20, Y: 20}, r2.Vec{X: 20, Y: 60}, r2.Vec{Y: 60}))
	// Own x right, y up, the plate's face to the viewer of fromRight.
	plate := Body{Shape: NewShape(solid.Straight(l, 5), chord), Place: solid.Placement{X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}}}
	behind := func(x, z float64) map[sheet.Role]float64 {
		box := block(r3.Vec{X: x, Y: 10, Z: z}, r3.Vec{X: x + 5, Y: 12, Z: z + 5})
		return lengths(stroke.Tidy(NewScene([]Body{plate, box}, FromRight()).picture()))
	}
	if got := behind(40, 40); math.Abs(got[sheet.Visible]-240-20) > 1e-6 || got[sheet.Hidden] != 0 {
		t.Errorf("in the notch: %v", got)
	}
	if got := behind(5, 40); math.Abs(got[sheet.Visible]-240) > 1e-6 || math.Abs(got[sheet.Hidden]-20) > 1e-6 {
		t.Errorf("behind the leg: %v", got)
	}
}

// The mirror image of a body looks like the body from the mirrored side.
func TestMirrored(t *testing.T) {
	box := solid.Prism{Profile: solid.Rect(10, 20, 3), From: solid.End{Tilt: r2.Vec{X: 0.3}}, To: solid.Flat(70)}
	p := along(box, r3.Vec{X: 3, Y: -50, Z: 2}, r3.Vec{X: 40, Y: -90, Z: 30})
	q := Body{Shape: NewShape(solid.Mirrored(box), chord), Place: p.Place.Mirrored()}
	c := Axonometric()
	flip := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	other := Camera{Right: flip(c.Right), Up: flip(c.Up), Toward: flip(c.Toward)}
	a := lengths(NewScene([]Body{p}, c).picture())
	b := lengths(NewScene([]Body{q}, other).picture())
	if math.Abs(a[sheet.Visible]-b[sheet.Visible]) > 1e-9 || a[sheet.Visible] == 0 {
		t.Errorf("outline %v, of the mirror image %v", a, b)
	}
}

// A balloon points at a face that can be seen: not at one behind another body, not
// into a hole.
func TestSpotsCanBeSeen(t *testing.T) {
	ring := along(solid.Tube(60, 40, 10), r3.Vec{}, r3.Vec{Y: -1})
	wall := block(r3.Vec{X: -40, Y: -30, Z: -40}, r3.Vec{X: 40, Y: -20, Z: 15})
	s := NewScene([]Body{ring, wall}, FromRight())
	spots := s.Spots(0)
	if len(spots) == 0 {
		t.Fatal("none")
	}
	for _, q := range spots {
		if r := r2.Norm(q); r < 20 || r > 30 || q.Y < 15 {
			t.Errorf("points at %v", q)
		}
	}
	s = NewScene([]Body{ring, block(r3.Vec{X: -40, Y: -30, Z: -40}, r3.Vec{X: 40, Y: -20, Z: 40})}, FromRight())
	if spots := s.Spots(0); len(spots) > 0 {
		t.Errorf("points at %v behind a wall", spots)
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
		var bodies []Body
		type box struct{ lo, hi r3.Vec }
		var boxes []box
		for range n {
			lo := r3.Vec{X: place.Draw(t, "x"), Y: place.Draw(t, "y"), Z: place.Draw(t, "z")}
			hi := r3.Add(lo, r3.Vec{X: size.Draw(t, "dx"), Y: size.Draw(t, "dy"), Z: size.Draw(t, "dz")})
			boxes = append(boxes, box{lo, hi})
			bodies = append(bodies, block(lo, hi))
		}
		c := Axonometric()
		s := NewScene(bodies, c)
		for i, b := range bodies {
			for _, e := range b.edges(&s.places[i]) {
				behind := s.behind(i, &e, new(work), nil)
				for _, u := range []float64{0.11, 0.37, 0.5, 0.73, 0.94} {
					seen := r3.Add(e.a, r3.Scale(u, r3.Sub(e.b, e.a)))
					p := r3.Add(r3.Add(r3.Scale(seen.X, c.Right), r3.Scale(seen.Y, c.Up)), r3.Scale(seen.Z, c.Toward))
					hidden, near := false, false
					for _, v := range behind {
						hidden = hidden || v.From < u && u < v.To
						near = near || math.Abs(v.From-u) < 0.01 || math.Abs(v.To-u) < 0.01
					}
					ray := func(grow float64) bool {
						for k, o := range boxes {
							if k != i && meets(p, c.Toward, o.lo, o.hi, grow) {
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
