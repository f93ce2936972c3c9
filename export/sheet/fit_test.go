package sheet_test

import (
	"errors"
	"strings"
	"testing"

	"armwright/export/sheet"
)

// A sheet takes the smallest size on which it keeps its scale: a part of 100 x
// 80 mm fits on A3 at 2:1 as well as on A1 at 2:1 but not at the 5:1 that A1
// allows; with its scale given it takes A3.
func TestSmallestSize(t *testing.T) {
	for _, c := range []struct {
		what  string
		w, h  float64
		scale sheet.Scale
		want  sheet.Size
	}{
		{"scale given", 100, 80, sheet.Scale{Drawing: 1, Real: 1}, sheet.A3},
		{"keeps the larger scale", 100, 60, sheet.Scale{}, sheet.A1},
		{"too large for A3 at its scale", 300, 100, sheet.Scale{Drawing: 1, Real: 1}, sheet.A2},
	} {
		s := &sheet.Sheet{Size: sheet.A1, Smaller: []sheet.Size{sheet.A3, sheet.A2}, TextHeight: 3.5,
			Views: []sheet.View{{Title: "Plate", Position: sheet.Front, Scale: c.scale, Entities: []sheet.Entity{
				box(c.w, c.h), sheet.Dimension{Kind: sheet.Horizontal, A: pt(0, 0), B: pt(c.w, 0)}}}}}
		if c.want == sheet.A2 {
			s.Views = append(s.Views, sheet.View{Title: "Other", Scale: c.scale, Entities: []sheet.Entity{box(c.w, c.h)}})
		}
		d, err := s.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		if w, h := c.want.Trimmed(); d.Width != w || d.Height != h {
			t.Errorf("%s: %g x %g mm at %v, want %v", c.what, d.Width, d.Height, d.Views[0].Scale, c.want)
		}
		if err := check(s); err != nil && !strings.Contains(err.Error(), "field") {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}

// A sheet on which nothing fits grows to the first size on which it does; one
// that may not grow says so.
func TestGrowsWhenNothingFits(t *testing.T) {
	s := &sheet.Sheet{Size: sheet.A4, TextHeight: 3.5, Tables: []sheet.Table{{Title: "Long", Columns: []sheet.Column{{Header: "Item"}, {Header: "What it is"}}}}}
	for range 90 {
		s.Tables[0].Rows = append(s.Tables[0].Rows, []string{"1", "a part whose name takes some room on the sheet"})
	}
	if _, err := s.Flatten(); err == nil {
		t.Fatal("90 rows fit on A4")
	}
	s.Larger = []sheet.Size{sheet.A3, sheet.A2, sheet.A1}
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	if w, _ := sheet.A4.Trimmed(); d.Width <= w {
		t.Errorf("still %g mm wide", d.Width)
	}
	if err := check(s); err != nil && !strings.Contains(err.Error(), "field") {
		t.Error(err)
	}
}

// On the largest size lettering shrinks, and then scales give way, before a
// sheet is given up.
func TestGivesWayWhenTheLargestIsFull(t *testing.T) {
	chain := func(n int, pitch float64) sheet.View {
		v := sheet.View{Position: sheet.Front, Scale: sheet.Scale{Drawing: 1, Real: 1}, Entities: []sheet.Entity{box(200, 40)}}
		for i := range n {
			v.Entities = append(v.Entities, sheet.Dimension{Kind: sheet.OrdinateX, Side: sheet.Above, A: pt(-100, 0), B: pt(100-pitch*float64(i), 0)})
		}
		return v
	}
	full := 2 // dimensions that A3 cannot take at the usual lettering
	for full < 120 {
		if _, err := (&sheet.Sheet{Size: sheet.A3, TextHeight: 3.5, Views: []sheet.View{chain(full, 1)}}).Flatten(); err != nil {
			break
		}
		full++
	}
	for _, c := range []struct {
		what   string
		view   sheet.View
		scaled bool
	}{
		{"many dimensions", chain(full, 1), false},
		{"a scale too large", sheet.View{Position: sheet.Front, Scale: sheet.Scale{Drawing: 1, Real: 1}, Entities: []sheet.Entity{box(500, 300)}}, true},
	} {
		s := &sheet.Sheet{Size: sheet.A4, TextHeight: 3.5, Views: []sheet.View{c.view}}
		if _, err := s.Flatten(); err == nil {
			t.Fatalf("%s: fits as it is", c.what)
		}
		s.Larger = []sheet.Size{sheet.A3}
		if c.scaled {
			s.Larger = []sheet.Size{sheet.A4}
		}
		d, err := s.Flatten()
		if err != nil {
			t.Fatalf("%s: %v", c.what, err)
		}
		if got := d.Views[0].Scale != (sheet.Scale{Drawing: 1, Real: 1}); got != c.scaled {
			t.Errorf("%s: scale %v", c.what, d.Views[0].Scale)
		}
		if err := check(s); err != nil && !strings.Contains(err.Error(), "field") {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}

// Titles of views keep clear of the centring marks, and Check sees a text on a
// line that it should keep off.
func TestCentringMarks(t *testing.T) {
	d, err := (&sheet.Sheet{Size: sheet.A3, Views: []sheet.View{{Title: "Tall", Position: sheet.Front, Scale: sheet.Scale{Drawing: 1, Real: 1},
		Entities: []sheet.Entity{box(40, 240)}}}}).Flatten()
	if err != nil {
		t.Fatal(err)
	}
	const inside = 5.0 // mm inside the frame
	_, y, _, h := sheet.A3.Space()
	for p := range d.All() {
		if l, ok := p.(sheet.Label); ok && l.Value == "Tall" {
			if half := sheet.TextWidth(l.Value, l.Height) / 2; l.At.X-half < d.Width/2 && l.At.X+half > d.Width/2 && l.At.Y+l.Height > y+h-inside {
				t.Errorf("title at %v lies on the top centring mark", l.At)
			}
		}
	}
	s := &sheet.Sheet{Size: sheet.A4, Views: []sheet.View{{NotToScale: true, Entities: []sheet.Entity{
		box(150, 150), sheet.Text{Role: sheet.Lettering, At: pt(75, 0), Value: "on the outline", H: sheet.Middle, V: sheet.HalfHeight}}}}}
	var bad *sheet.CheckError
	if err := check(s); !errors.As(err, &bad) {
		t.Errorf("text on an outline: %v", err)
	}
}

// A leader goes round a hole where it can: the note of the small hole right of
// a large one does not run through the large one.
func TestLeaderKeepsOutOfHoles(t *testing.T) {
	big, small := pt(0, 0), pt(30, 0)
	s := &sheet.Sheet{Size: sheet.A3, Views: []sheet.View{{Position: sheet.Front, Scale: sheet.Scale{Drawing: 1, Real: 1}, Entities: []sheet.Entity{
		box(0.1, 0.1), sheet.Circle{Role: sheet.Visible, Centre: big, Radius: 15}, sheet.Circle{Role: sheet.Visible, Centre: small, Radius: 4},
		sheet.Circle{Role: sheet.Visible, Centre: pt(30, 25), Radius: 15}, sheet.Circle{Role: sheet.Visible, Centre: pt(30, -25), Radius: 15},
		sheet.Leader{At: pt(26, 0), Note: "anchor"},
	}}}}
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	o := d.Views[0].Origin
	found := false
	for p := range d.All() {
		line, ok := p.(sheet.Stroke)
		if !ok || len(line.Path) != 3 || line.Role != sheet.Thin {
			continue
		}
		found = true
		a, b := line.Path[0], line.Path[1]
		for k := 0.0; k <= 1; k += 0.01 {
			x, y := a.X+k*(b.X-a.X)-o.X, a.Y+k*(b.Y-a.Y)-o.Y
			for _, c := range [...][3]float64{{0, 0, 15}, {30, 25, 15}, {30, -25, 15}} {
				if dx, dy := x-c[0], y-c[1]; dx*dx+dy*dy < (c[2]-0.2)*(c[2]-0.2) {
					t.Fatalf("the leader runs through the hole at (%g, %g)", c[0], c[1])
				}
			}
		}
	}
	if !found {
		t.Error("no leader")
	}
}
