package sheet

import (
	"fmt"
	"math"
	"testing"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func pt(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

func TestDimensionText(t *testing.T) {
	for _, c := range []struct {
		d    Dimension
		u    Units
		want string
	}{
		{Dimension{Kind: Horizontal, A: pt(0, 0), B: pt(-120, 7)}, Millimetres, "120"},
		{Dimension{Kind: Vertical, A: pt(0, 0), B: pt(3, 12.27)}, Millimetres, "12.3"},
		{Dimension{Kind: Vertical, A: pt(0, 0), B: pt(3, 12.5), Decimals: 3}, Millimetres, "12.5"},
		{Dimension{Kind: Aligned, A: pt(0, 0), B: pt(30, 40)}, Millimetres, "50"},
		{Dimension{Kind: Aligned, A: pt(0, 0), B: pt(30, 40), Tolerance: Tolerance{0.1, 0.1}}, Millimetres, "50 ±0.1"},
		{Dimension{Kind: Aligned, A: pt(0, 0), B: pt(30, 40), Tolerance: Tolerance{0.2, 0.05}, Suffix: " max"}, Millimetres, "50 +0.2/-0.05 max"},
		{Dimension{Kind: Radius, A: pt(1, 1), B: pt(1, 26)}, Millimetres, "R25"},
		{Dimension{Kind: Diameter, A: pt(1, 1), B: pt(6.5, 1), Prefix: "4x "}, Millimetres, "4x Ø11"},
		{Dimension{Kind: OrdinateX, A: pt(10, 0), B: pt(4, 9)}, Millimetres, "-6"},
		{Dimension{Kind: OrdinateY, A: pt(10, 0), B: pt(4, 1e-9)}, Millimetres, "0"},
		{Dimension{Kind: Angular, A: pt(1, 0), B: pt(1, 1)}, Millimetres, "45°"},
		{Dimension{Kind: Angular, A: pt(1, 1), B: pt(1, 0)}, Millimetres, "315°"},
		{Dimension{Kind: Angular, A: pt(1, 0), B: pt(-1, 0), Tolerance: Tolerance{math.Pi / 360, math.Pi / 360}}, Millimetres, "180° ±0.5°"},
		{Dimension{Kind: Horizontal, A: pt(0, 0), B: pt(317.5, 0)}, Inches, "12.50"},
		{Dimension{Kind: Horizontal, A: pt(0, 0), B: pt(317.5, 0), Reference: true}, InchesDual, "(12.50 [317.5])"},
	} {
		if got := c.d.Text(c.u); got != c.want {
			t.Errorf("%+v: %q, want %q", c.d, got, c.want)
		}
	}
}

// ISO 129-1 (M) and DIN 406 practice: the first dimension line 10 mm from the
// outline and the next 8 mm on, whatever the scale; extension lines run 2 mm
// (8 narrow widths) past it; arrowheads 2.5 mm (10 widths) long; value above
// the line.
func TestStackedDimensions(t *testing.T) {
	for _, scale := range []Scale{{1, 1}, {1, 5}, {2, 1}} {
		size := 100 / scale.Factor()
		v := View{Entities: []Entity{
			Line{Visible, pt(0, 0), pt(size, 0)}, Line{Visible, pt(0, 0), pt(0, size)},
			Dimension{Kind: Horizontal, A: pt(0, 0), B: pt(size, 0)},
			Dimension{Kind: Horizontal, A: pt(0, 0), B: pt(size/2, 0)},
			Dimension{Kind: Horizontal, A: pt(size/2, 0), B: pt(size, 0)},
		}}
		laid := v.layOut(scale, Millimetres, 3.5, "")
		if len(laid.dims) != 3 {
			t.Fatalf("%d dimensions", len(laid.dims))
		}
		for _, d := range laid.dims {
			want := -10.0
			if d.Value > 0.75*size {
				want = -18
			}
			if math.Abs(d.Line.Y-want) > 1e-9 {
				t.Errorf("%s at %s: dimension line %g from the outline, want %g", d.Text, scale, d.Line.Y, want)
			}
			if d.TextMiddle.Y <= d.Line.Y+1.75 || math.Abs(d.TextMiddle.X-(d.A.X+d.B.X)/2) > 1e-9 {
				t.Errorf("%s: text at %v", d.Text, d.TextMiddle)
			}
			arrows, past := 0, 0
			for _, p := range d.Primitives {
				switch p := p.(type) {
				case Fill:
					arrows++
					if w, _ := sizeOf(p); math.Abs(w-2.5) > 1e-9 {
						t.Errorf("arrowhead %g long", w)
					}
				case Stroke:
					if b := primitiveBox(p); math.Abs(b.Min.Y-(want-2)) < 1e-9 && math.Abs(b.Max.Y+1) < 1e-9 {
						past++
					}
				}
			}
			if arrows != 2 || past != 2 {
				t.Errorf("%s: %d arrowheads, %d extension lines", d.Text, arrows, past)
			}
		}
	}
}

func sizeOf(p Primitive) (w, h float64) { return boxes.Size(primitiveBox(p)) }

// Values read from the bottom or from the right (ISO 129-1, M).
func TestReadable(t *testing.T) {
	for deg := -720; deg <= 720; deg += 5 {
		a := float64(deg) * math.Pi / 180
		r := readable(a)
		if r <= -math.Pi/2 || r > math.Pi/2+1e-9 {
			t.Errorf("%d°: turned to %g", deg, r)
		}
		if s := math.Sin(r - a); math.Abs(s) > 1e-9 {
			t.Errorf("%d°: not along the line", deg)
		}
	}
}

// A dimension that is too short for arrowheads and value keeps its measured
// ends and puts the value beside.
func TestNarrowDimension(t *testing.T) {
	e := linear(pt(0, 0), pt(3, 0), pt(1, 0), pt(0, -10), "3.25", 3.5)
	if e.between || len(e.choice) == 0 {
		t.Fatalf("%d places for a value that does not fit between", len(e.choice))
	}
	for _, c := range e.choice {
		b := c[0].(Label).block().box()
		if b.Min.X < 3 && b.Max.X > 0 {
			t.Errorf("value over x = %g to %g, between the extension lines", b.Min.X, b.Max.X)
		}
	}
}

// Where an angle's leg is not drawn at the arc, an extension line is.
func TestAngularLegs(t *testing.T) {
	d := Dimension{Kind: Angular, A: pt(50, 0), B: pt(0, 50)}
	for want, legs := range map[int][]Entity{
		2: {Circle{Visible, pt(0, 0), 2}},
		1: {Line{Visible, pt(0, 0), pt(50, 0)}},
		0: {Line{Visible, pt(0, 0), pt(50, 0)}, Line{Centre, pt(0, 0), pt(0, 50)}},
	} {
		v := View{Entities: append(legs, d)}
		laid := v.layOut(Scale{1, 1}, Millimetres, 3.5, "")
		lines := 0
		for _, p := range laid.dims[0].Primitives {
			if s, ok := p.(Stroke); ok && s.Path[0].Bulge == 0 {
				lines++
			}
		}
		if lines != want {
			t.Errorf("%d extension lines with %d legs drawn, want %d", lines, len(legs), want)
		}
		if got := r2.Norm(laid.dims[0].Line); math.Abs(got-16) > 1e-9 {
			t.Errorf("arc of radius %g", got)
		}
	}
}

// spread keeps order and pitch, and the mean: the least-squares solution moves
// every pool about its own mean.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "n")
		xs := make([]float64, n)
		mean := 0.0
		for i := range xs {
			xs[i] = rapid.Float64Range(0, 12).Draw(t, "gap")
			if i > 0 {
				xs[i] += xs[i-1]
			}
			mean += xs[i] / float64(n)
		}
		got := spread(xs, 5)
		after, moved := 0.0, 0.0
		for i, x := range got {
			after += x / float64(n)
			moved += math.Abs(x - xs[i])
			if i > 0 && x-got[i-1] < 5-1e-9 {
				t.Fatalf("%v: %g apart", got, x-got[i-1])
			}
		}
		if math.Abs(after-mean) > 1e-9 {
			t.Fatalf("mean moved from %g to %g", mean, after)
		}
		clear := true
		for i := 1; i < n; i++ {
			clear = clear && xs[i]-xs[i-1] >= 5
		}
		if clear && moved > 1e-9 {
			t.Fatal("moved what was clear")
		}
	})
}

// Texts of dimensions stacked at the four sides of any view never overlap,
// and parallel dimension lines keep their distance.
func TestStackedTextsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(5, 800).Draw(t, "width"), rapid.Float64Range(5, 800).Draw(t, "height")
		v := View{Entities: []Entity{Polyline{Visible, straight(pt(0, 0), pt(w, 0), pt(w, h), pt(0, h)), true}}}
		n := rapid.IntRange(1, 14).Draw(t, "n")
		for range n {
			f := func(s string, hi float64) float64 { return rapid.Float64Range(0, hi).Draw(t, s) }
			d := Dimension{
				Kind: rapid.SampledFrom([]DimKind{Horizontal, Vertical}).Draw(t, "kind"),
				Side: rapid.SampledFrom([]Side{Auto, Below, Above, Leftward, Rightward}).Draw(t, "side"),
				A:    pt(f("ax", w), f("ay", h)), B: pt(f("bx", w), f("by", h)),
				Tolerance: Tolerance{f("tol", 1), 0.1},
			}
			v.Entities = append(v.Entities, d)
		}
		units := rapid.SampledFrom([]Units{Millimetres, Inches, InchesDual}).Draw(t, "units")
		scale := rapid.SampledFrom([]Scale{{2, 1}, {1, 1}, {1, 5}, {1, 10}}).Draw(t, "scale")
		laid := v.layOut(scale, units, 3.5, "")
		if err := disjoint(laid); err != nil {
			t.Fatal(err)
		}
	})
}

func disjoint(laid laidView) error {
	var blocks []block
	var names []string
	for _, d := range laid.dims {
		for _, p := range d.Primitives {
			if l, ok := p.(Label); ok {
				blocks, names = append(blocks, l.block()), append(names, l.Value)
			}
		}
	}
	for i := range blocks {
		for k := range i {
			if blocks[i].overlaps(blocks[k]) {
				return fmt.Errorf("%q at %v covers %q at %v", names[i], blocks[i].centre, names[k], blocks[k].centre)
			}
		}
	}
	return nil
}

// A mix of everything that looks for its own place stays clear of each other.
func TestFreeTextsNeverOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := View{Entities: []Entity{Polyline{Visible, straight(pt(0, 0), pt(200, 0), pt(200, 120), pt(0, 120)), true}}}
		for i := range rapid.IntRange(1, 10).Draw(t, "n") {
			c := pt(rapid.Float64Range(15, 185).Draw(t, "x"), rapid.Float64Range(15, 105).Draw(t, "y"))
			r := rapid.Float64Range(2, 12).Draw(t, "r")
			v.Entities = append(v.Entities, Circle{Visible, c, r}, CentreMark{c, r})
			switch i % 5 {
			case 0:
				v.Entities = append(v.Entities, Dimension{Kind: Diameter, A: c, B: pt(c.X+r, c.Y)})
			case 1:
				v.Entities = append(v.Entities, Dimension{Kind: Radius, A: c, B: pt(c.X, c.Y+r)})
			case 2:
				v.Entities = append(v.Entities, Leader{At: c, Note: "drilled and\nreamed"})
			case 3:
				v.Entities = append(v.Entities, Balloon{At: c, Item: fmt.Sprint(i)})
			case 4:
				v.Entities = append(v.Entities, Dimension{Kind: OrdinateX, A: pt(0, 0), B: c, Side: Above})
			}
		}
		laid := v.layOut(Scale{1, 1}, Millimetres, 3.5, "View")
		d := Drawing{Primitives: laid.prims, Dimensions: laid.dims, frame: laid.extent}
		for _, p := range d.clashes() {
			if p.Fault == Overlap || p.Fault == Outside {
				t.Fatal(p)
			}
		}
	})
}
