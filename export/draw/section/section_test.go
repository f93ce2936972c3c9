package section

import (
	"math"
	"testing"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func along() hidden.Camera {
	return hidden.Camera{Right: r3.Vec{Z: 1}, Up: r3.Vec{X: 1}, Toward: r3.Cross(r3.Vec{Z: 1}, r3.Vec{X: 1})}
}

// What a plane meets of a tube, a stepped turned part and a plate with a hole, by hand.
func TestFacesByHand(t *testing.T) {
	ring := solid.NewProfile(contour.Circle(r2.Vec{}, 30), contour.Circle(r2.Vec{}, 20))
	for name, c := range map[string]struct {
		body  interface{ Shell() *solid.Shell }
		loops int
		area  float64
	}{
		// Two walls of 10 by 50.
		"tube": {solid.Straight(ring, 50), 2, 2 * 10 * 50},
		// Bore 25, outside 52 from 1 to 26, outside 34 from 26 to 36: (26-12.5) 25 + (17-12.5) 10 on both sides.
		"insert": {solid.Turned{Outline: []r2.Vec{{X: 26, Y: 1}, {X: 26, Y: 26}, {X: 17, Y: 26}, {X: 17, Y: 36}}, Bore: 25}, 2, 2 * (13.5*25 + 4.5*10)},
		// Of no corner's own place: 100 by 40 about the middle of its hole of 20.
		"plate": {solid.Straight(solid.NewProfile(contour.Polygon(r2.Vec{X: -50, Y: -30}, r2.Vec{X: 50, Y: -30}, r2.Vec{X: 50, Y: 30}, r2.Vec{X: -50, Y: 30}), contour.Circle(r2.Vec{}, 10)), 40), 2, 2 * 40 * 40},
		"cone":  {solid.Turned{Outline: []r2.Vec{{X: 10, Y: 0}, {X: 20, Y: 30}}}, 1, 30 * 30},
	} {
		faces, err := Cut([]Part{{Body: c.body, Place: solid.World()}}, along())
		if err != nil || len(faces) != 1 {
			t.Fatalf("%s: %d faces, %v", name, len(faces), err)
		}
		got := 0.0
		for _, l := range faces[0].Loops {
			sum := 0.0
			for i, p := range l {
				sum += r2.Cross(p, l[(i+1)%len(l)])
			}
			got += math.Abs(sum) / 2
		}
		if len(faces[0].Loops) != c.loops || math.Abs(got-c.area) > 0.01*c.area {
			t.Errorf("%s: %d loops of %.1f mm², want %d of %.1f: %v", name, len(faces[0].Loops), got, c.loops, c.area, faces[0].Loops)
		}
	}
}

// Outlines are broken off where a window cuts them, hatching fills what is left, neighbours
// are hatched across each other and what is drawn uncut is not hatched.
func TestLines(t *testing.T) {
	square := func(x0, y0, x1, y1 float64) []r2.Vec {
		return []r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	parts := []Part{{}, {Whole: true}, {}}
	faces := []Face{
		{Loops: [][]r2.Vec{square(0, 0, 10, 10), square(4, 4, 6, 6)}, Part: 0}, // whole in the window
		{Loops: [][]r2.Vec{square(20, 2, 60, 8)}, Part: 1},                     // runs out on the right
		{Loops: [][]r2.Vec{square(-5, 15, 5, 20)}, Part: 2},                    // runs out on the left
		{Loops: [][]r2.Vec{square(100, 0, 110, 10)}, Part: 0},                  // beyond
	}
	lines := Lines(parts, faces, r2.Box{Min: r2.Vec{X: -1, Y: -1}, Max: r2.Vec{X: 50, Y: 30}})
	var closed, open int
	var hatches []sheet.Hatch
	for _, e := range lines {
		switch e := e.(type) {
		case sheet.Polyline:
			if e.Closed {
				closed++
				continue
			}
			open++
			if len(e.Vertices) != 4 { // three sides: none along the window
				t.Errorf("a broken outline of %d corners, want 4: %v", len(e.Vertices), e.Vertices)
			}
			for _, v := range [2]r2.Vec{e.Vertices[0].Vec, e.Vertices[3].Vec} {
				if v.X != -1 && v.X != 50 {
					t.Errorf("a broken outline ends at %v, off the window", v)
				}
			}
		case sheet.Hatch:
			hatches = append(hatches, e)
		}
	}
	if closed != 2 || open != 2 || len(hatches) != 2 {
		t.Fatalf("%d closed, %d broken outlines, %d hatches, want 2 each", closed, open, len(hatches))
	}
	if len(hatches[0].Loops) != 2 || hatches[0].Angle == hatches[1].Angle {
		t.Errorf("a hole is not kept out, or neighbours are hatched alike: %v", hatches)
	}
}

// A screw M8 x 25 with its washer through 11 mm and into 10: hatching stays clear of its
// shank, its head is 13 mm across flats, and it ends 25 mm under its head.
func TestScrew(t *testing.T) {
	thread, _ := stock.ThreadFor(8)
	s := Screw{Along: r2.Vec{X: -1}, Thread: thread, Core: 6.75, Length: 25, Washer: true, Loose: 11}
	square := []r2.Vec{{X: -30, Y: -20}, {X: 0, Y: -20}, {X: 0, Y: 20}, {X: -30, Y: 20}}
	window := r2.Box{Min: r2.Vec{X: -100, Y: -100}, Max: r2.Vec{X: 100, Y: 100}}
	all := Lines([]Part{{}}, []Face{{Loops: [][]r2.Vec{square}}}, window, s)
	d, err := (&sheet.Sheet{Size: sheet.A3, Views: []sheet.View{{Entities: all, Scale: sheet.Scale{Drawing: 1, Real: 1}}}}).Flatten()
	if err != nil {
		t.Fatal(err)
	}
	by := d.Views[0].Origin
	hatched := 0
	for _, p := range d.Primitives {
		line, ok := p.(sheet.Stroke)
		if !ok || line.Role != sheet.Hatching {
			continue
		}
		hatched++
		for k := range 21 {
			q := r2.Sub(r2.Add(line.Path[0].Vec, r2.Scale(float64(k)/20, r2.Sub(line.Path[1].Vec, line.Path[0].Vec))), by)
			if q.X > -25+1.6+0.01 && math.Abs(q.Y) < 4-0.01 {
				t.Fatalf("hatching at %.2f", q)
			}
		}
	}
	if hatched < 10 {
		t.Errorf("%d hatching lines", hatched)
	}
	box := r2.Box{Min: r2.Vec{X: 99}, Max: r2.Vec{X: -99}}
	for _, e := range s.lines() {
		if p, ok := e.(sheet.Polyline); ok {
			for _, v := range p.Vertices {
				box.Min.X, box.Max.X, box.Max.Y = min(box.Min.X, v.X), max(box.Max.X, v.X), max(box.Max.Y, v.Y)
			}
		}
	}
	if math.Abs(box.Min.X+25-1.6) > 1e-9 || math.Abs(box.Max.X-1.6-5.3) > 1e-9 || box.Max.Y != 8 {
		t.Errorf("drawn over %.3f", box)
	}
}
