package sheet_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/sheet/sheettest"

	"gonum.org/v1/gonum/spatial/r2"
)

func pt(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

func box(w, h float64) sheet.Polyline {
	return sheet.Polyline{Role: sheet.Visible, Closed: true, Vertices: []sheet.Vertex{
		{Vec: pt(0, 0)}, {Vec: pt(w, 0)}, {Vec: pt(w, h)}, {Vec: pt(0, h)},
	}}
}

// check lays a sheet out and looks for its defects.
func check(s *sheet.Sheet) error {
	d, err := s.Flatten()
	if err != nil {
		return err
	}
	return d.Check()
}

func TestExamplesAreClean(t *testing.T) {
	for _, s := range []*sheet.Sheet{sheettest.Bracket(), sheettest.Strip(), sheettest.Cam()} {
		if err := check(s); err != nil {
			t.Error(err)
		}
		for _, f := range s.TitleBlock.Fields() {
			if f.Mandatory && f.Value == "" {
				t.Errorf("%s: no %s", s.TitleBlock.Title, f.Name)
			}
		}
	}
}

func TestFlattenIsDeterministic(t *testing.T) {
	a, err := sheettest.Bracket().Flatten()
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		b, err := sheettest.Bracket().Flatten()
		if err != nil || !reflect.DeepEqual(a, b) {
			t.Fatal("the same sheet gave another drawing", err)
		}
	}
}

// Values of ordinates stand clear of centre lines that run past the outline.
func TestOrdinatesClearOfCentreLines(t *testing.T) {
	s := &sheet.Sheet{Size: sheet.A4, Views: []sheet.View{{NotToScale: true, Entities: []sheet.Entity{
		box(60, 40), sheet.CentreLine{A: pt(30, 0), B: pt(30, 55)},
		sheet.Dimension{Kind: sheet.OrdinateX, B: pt(30, 20), Side: sheet.Above},
	}}}}
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	top := d.Views[0].Origin.Y + 55 + 3
	if got := d.Dimensions[0].Line.Y; got < top-1 || got > top+2 {
		t.Errorf("value starts at %g, the centre line ends at %g", got, top)
	}
}

// ISO 5456-2 (M): first angle puts the view from the left on the right and the
// one from above below; third angle on the left and above. Views are aligned.
func TestProjection(t *testing.T) {
	for _, p := range []sheet.Projection{sheet.FirstAngle, sheet.ThirdAngle} {
		s := &sheet.Sheet{Size: sheet.A3, Projection: p, Views: []sheet.View{
			{Title: "a", Position: sheet.Front, Entities: []sheet.Entity{box(60, 40)}},
			{Title: "b", Position: sheet.FromLeft, Entities: []sheet.Entity{box(30, 40)}},
			{Title: "c", Position: sheet.FromAbove, Entities: []sheet.Entity{box(60, 30)}},
			{Title: "d", Position: sheet.FromRight, Entities: []sheet.Entity{box(30, 40)}},
			{Title: "e", Position: sheet.FromBelow, Entities: []sheet.Entity{box(60, 30)}},
		}}
		d, err := s.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		front, left, above, right, below := d.Views[0].Origin, d.Views[1].Origin, d.Views[2].Origin, d.Views[3].Origin, d.Views[4].Origin
		sign := 1.0
		if p == sheet.ThirdAngle {
			sign = -1
		}
		if sign*(left.X-front.X) <= 0 || sign*(above.Y-front.Y) >= 0 || sign*(right.X-front.X) >= 0 || sign*(below.Y-front.Y) <= 0 {
			t.Errorf("projection %d: views at %v", p, d.Views)
		}
		if left.Y != front.Y || right.Y != front.Y || above.X != front.X || below.X != front.X {
			t.Errorf("projection %d: views not aligned", p)
		}
		for _, v := range d.Views {
			if v.Scale != d.Views[0].Scale {
				t.Errorf("scales %v", d.Views)
			}
		}
	}
}

// The layout takes the largest recommended scale: the next larger one must not
// fit the drawing space. 1700 x 600 on A3 is check 34's part: 1:5.
func TestAutomaticScale(t *testing.T) {
	s := &sheet.Sheet{Size: sheet.A3, Views: []sheet.View{{Entities: []sheet.Entity{box(1700, 600)}}}}
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	if got := d.Views[0].Scale.String(); got != "1:5" {
		t.Errorf("scale %s", got)
	}
	var texts []string
	for p := range d.All() {
		if l, ok := p.(sheet.Label); ok {
			texts = append(texts, l.Value)
		}
	}
	if !strings.Contains(strings.Join(texts, "|"), "Scale|1:5") {
		t.Errorf("no scale in the title block: %q", texts)
	}
}

// A dimension carries the real size, whatever the scale, and its points on
// paper are that size times the scale apart.
func TestPlacedDimensions(t *testing.T) {
	d, err := sheettest.Bracket().Flatten()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[sheet.DimKind]bool{}
	for _, dim := range d.Dimensions {
		seen[dim.Dimension.Kind] = true
		f := dim.Scale.Factor()
		paper := r2.Sub(dim.B, dim.A)
		var got float64
		switch dim.Dimension.Kind {
		case sheet.Horizontal:
			got = math.Abs(paper.X) / f
		case sheet.Vertical:
			got = math.Abs(paper.Y) / f
		case sheet.Aligned, sheet.Radius:
			got = r2.Norm(paper) / f
		case sheet.Diameter:
			got = 2 * r2.Norm(paper) / f
		case sheet.OrdinateX:
			got = paper.X / f
		case sheet.OrdinateY:
			got = paper.Y / f
		case sheet.Angular:
			got = math.Acos(r2.Cos(r2.Sub(dim.A, dim.Vertex), r2.Sub(dim.B, dim.Vertex)))
		}
		if math.Abs(got-dim.Value) > 1e-9 {
			t.Errorf("%s: paper says %g, value %g", dim.Text, got, dim.Value)
		}
	}
	for _, k := range []sheet.DimKind{sheet.Horizontal, sheet.Vertical, sheet.Aligned, sheet.Angular, sheet.Radius, sheet.Diameter, sheet.OrdinateY} {
		if !seen[k] {
			t.Errorf("the example has no dimension of kind %d", k)
		}
	}
}

func TestErrors(t *testing.T) {
	view := func(e ...sheet.Entity) sheet.View { return sheet.View{Title: "v", Entities: e} }
	for name, s := range map[string]*sheet.Sheet{
		"not finite":   {Views: []sheet.View{view(sheet.Line{A: pt(math.NaN(), 0)})}},
		"infinite":     {Views: []sheet.View{view(sheet.Circle{Radius: math.Inf(1)})}},
		"two fronts":   {Views: []sheet.View{{Position: sheet.Front}, {Position: sheet.Front}}},
		"no front":     {Views: []sheet.View{{Position: sheet.FromLeft}}},
		"half a scale": {Views: []sheet.View{{Scale: sheet.Scale{Drawing: 1}}}},
		"one vertex":   {Views: []sheet.View{view(sheet.Polyline{Vertices: make([]sheet.Vertex, 1)})}},
		"point circle": {Views: []sheet.View{view(sheet.Circle{})}},
		"point arc":    {Views: []sheet.View{view(sheet.Arc{})}},
		"dense hatch":  {Views: []sheet.View{view(sheet.Hatch{Spacing: 0.1})}},
		"no radius":    {Views: []sheet.View{view(sheet.Dimension{Kind: sheet.Radius})}},
		"too large":    {Views: []sheet.View{{Scale: sheet.Scale{Drawing: 1, Real: 1}, Entities: []sheet.Entity{box(500, 10)}}}},
	} {
		var e *sheet.Error
		if _, err := s.Flatten(); !errors.As(err, &e) || e.Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestCheckFinds(t *testing.T) {
	text := func(x, y float64, s string) sheet.Text {
		return sheet.Text{Role: sheet.Lettering, At: pt(x, y), Value: s}
	}
	for want, s := range map[sheet.Fault]*sheet.Sheet{
		sheet.Overlap:     {Views: []sheet.View{{NotToScale: true, Entities: []sheet.Entity{box(80, 50), text(10, 10, "one"), text(12, 11, "two")}}}},
		sheet.Struck:      {Views: []sheet.View{{NotToScale: true, Entities: []sheet.Entity{box(80, 50), text(75, 10, "three")}}}},
		sheet.Unprintable: {Views: []sheet.View{{NotToScale: true, Entities: []sheet.Entity{box(80, 50), text(10, 10, "漢")}}}},
		sheet.TooLong:     {TitleBlock: sheet.TitleBlock{Title: strings.Repeat("Title ", 6)}},
	} {
		var e *sheet.CheckError
		if err := check(s); !errors.As(err, &e) || len(e.Problems) != 1 || e.Problems[0].Fault != want {
			t.Errorf("%s: %v", want, err)
		}
	}
}

// A table that is too tall for its place is broken, and no row is lost.
func TestBrokenTable(t *testing.T) {
	d, err := sheettest.Strip().Flatten()
	if err != nil {
		t.Fatal(err)
	}
	heads, rows := 0, map[string]bool{}
	for _, p := range d.Primitives {
		if l, ok := p.(sheet.Label); ok && l.Role == sheet.Lettering {
			if l.Value == "No" {
				heads++
			}
			if l.H == sheet.Right {
				rows[l.Value] = true
			}
		}
	}
	if heads < 2 {
		t.Errorf("%d parts", heads)
	}
	for i := range 60 {
		if !rows[fmt.Sprint(i+1)] {
			t.Errorf("row %d is lost", i+1)
		}
	}
}

// Hatching covers the region inside an outer and outside an inner loop: total
// length times spacing is its area, here 100·60 - π·20².
func TestHatchCoversArea(t *testing.T) {
	b := box(100, 60)
	hole := []sheet.Vertex{{Vec: pt(70, 30), Bulge: 1}, {Vec: pt(30, 30), Bulge: 1}}
	s := &sheet.Sheet{Size: sheet.A4, Views: []sheet.View{{NotToScale: true, Entities: []sheet.Entity{
		sheet.Hatch{Loops: [][]sheet.Vertex{b.Vertices, hole}, Spacing: 1},
	}}}}
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, p := range d.Primitives {
		if h, ok := p.(sheet.Stroke); ok && h.Role == sheet.Hatching {
			dir := r2.Sub(h.Path[1].Vec, h.Path[0].Vec)
			sum += r2.Norm(dir)
			if math.Abs(math.Abs(math.Atan2(dir.Y, dir.X))-math.Pi/4) > 1e-9 {
				t.Fatalf("line along %v", dir)
			}
		}
	}
	if want := 100*60 - math.Pi*400; math.Abs(sum-want) > 0.01*want {
		t.Errorf("area %g, want %g", sum, want)
	}
}

// Check 37 (D/E): chord 10 with bulge 0.5 is an arc of radius 6.25 over
// 106.26020°, centre (5, 3.75); with 0.41421356 radius 7.0710678, centre
// (5, 5).
func TestArcOf(t *testing.T) {
	for _, c := range []struct{ bulge, radius, degrees, y float64 }{
		{0.5, 6.25, 106.26020, 3.75}, {0.41421356, 7.0710678, 90, 5}, {1, 5, 180, 0}, {-0.5, 6.25, -106.26020, -3.75},
	} {
		centre, radius, _, sweep := sheet.ArcOf(pt(0, 0), pt(10, 0), c.bulge)
		if math.Abs(radius-c.radius) > 1e-7 || math.Abs(sweep*180/math.Pi-c.degrees) > 1e-5 || r2.Norm(r2.Sub(centre, pt(5, c.y))) > 1e-6 {
			t.Errorf("bulge %g: centre %v radius %g sweep %g", c.bulge, centre, radius, sweep*180/math.Pi)
		}
	}
}

func ExampleSheet_Flatten() {
	s := &sheet.Sheet{
		Size:       sheet.A3,
		TitleBlock: sheet.TitleBlock{Title: "Plate", Sheet: 1},
		Views: []sheet.View{{
			Position: sheet.Front,
			Entities: []sheet.Entity{
				box(1700, 600),
				sheet.Dimension{Kind: sheet.Horizontal, A: pt(0, 0), B: pt(1700, 0)},
			},
		}},
	}
	d, err := s.Flatten()
	if err != nil {
		fmt.Println(err)
		return
	}
	dim := d.Dimensions[0]
	fmt.Printf("%s at %s, %.0f mm on paper\n", dim.Text, dim.Scale, math.Abs(dim.B.X-dim.A.X))
	// Output: 1700 at 1:5, 340 mm on paper
}
