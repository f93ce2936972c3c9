package contour

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// A string round discs reaches in every direction as far as the disc that reaches
// farthest, and is a sound outline without corners but at discs of no radius.
func TestAround(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var disks []Disk
		for range rapid.IntRange(1, 6).Draw(t, "discs") {
			disks = append(disks, Disk{
				At:     r2.Vec{X: float64(rapid.IntRange(-90, 90).Draw(t, "x")), Y: float64(rapid.IntRange(-90, 90).Draw(t, "y"))},
				Radius: float64(rapid.IntRange(1, 40).Draw(t, "radius")),
			})
		}
		p := Around(disks...)
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
		for k := range 24 {
			s, c := math.Sincos(float64(k) * 15 * deg)
			n := r2.Vec{X: c, Y: s}
			most := math.Inf(-1)
			for _, d := range disks {
				most = math.Max(most, r2.Dot(n, d.At)+d.Radius)
			}
			if got, _ := p.Support(n); math.Abs(got-most) > 1e-9 {
				t.Fatalf("reaches %v at %d degrees, want %v", got, 15*k, most)
			}
		}
		if worst, at := p.MaxCorner(); worst > 1e-6 {
			t.Fatalf("a corner of %v at %d", worst, at)
		}
		if p.Area() <= 0 {
			t.Fatalf("area %v", p.Area())
		}
		// A convex outline of line and arc by turns: no more of either than discs can give.
		if n := p.Len(); n > 4*len(disks) {
			t.Fatalf("%d elements round %d discs", n, len(disks))
		}
	})
	// Of three corners and a disc: a triangle with one rounded corner. Length by hand.
	got := Around(Disk{At: r2.Vec{}}, Disk{At: r2.Vec{X: 40}}, Disk{At: r2.Vec{X: 30, Y: 30}, Radius: 10}, Disk{At: r2.Vec{Y: 40}})
	near9(t, "length", got.Length(), 40+30+math.Pi/2*10+30+40, 1e-9)
	near9(t, "area", got.Area(), 1600-100+25*math.Pi, 1e-9)
	// Discs in a row, the middle one touched by both lines: it adds nothing.
	row := Around(Disk{r2.Vec{}, 5}, Disk{r2.Vec{X: 20}, 5}, Disk{r2.Vec{X: 40}, 5})
	if row.Len() != 4 {
		t.Errorf("%d elements round a row, want 4: %v", row.Len(), row)
	}
}

// Slots by their areas, lengths and what lies in them.
func TestSlots(t *testing.T) {
	// Half widths of 5 about a radius of 100, over half a radian, and a disc of 5.
	arc := ArcSlot(100, .2, .7, 10)
	near9(t, "area", arc.Area(), .5*100*10+25*math.Pi, 1e-9)
	near9(t, "length", arc.Length(), .5*(105+95)+10*math.Pi, 1e-9)
	for angle, in := range map[float64]bool{.16: true, .45: true, .74: true, .14: false, .76: false} {
		s, c := math.Sincos(angle)
		if arc.Contains(r2.Vec{X: 100 * c, Y: 100 * s}) != in {
			t.Errorf("at %v rad inside %v, want %v", angle, !in, in)
		}
	}
	if !arc.Closed || arc.Validate() != nil {
		t.Errorf("slot %v: %v", arc, arc.Validate())
	}
	straight := Slot(r2.Vec{X: 1, Y: 2}, r2.Vec{X: 31, Y: 42}, 10)
	near9(t, "area", straight.Area(), 500+25*math.Pi, 1e-9)
	near9(t, "length", straight.Length(), 100+10*math.Pi, 1e-9)
	for name, p := range map[string]Path{"arc": ArcSlot(100, .3, .3, 10), "straight": Slot(r2.Vec{X: 7}, r2.Vec{X: 7}, 10)} {
		if _, radius, ok := p.Round(); !ok || radius != 5 {
			t.Errorf("a %s slot of no length is %v", name, p)
		}
	}
	if centre, _, _ := ArcSlot(100, .3, .3, 10).Round(); math.Abs(centre.X-100*math.Cos(.3)) > 1e-9 || math.Abs(centre.Y-100*math.Sin(.3)) > 1e-9 {
		t.Errorf("its middle is %v", centre)
	}
	if ends := straight.RoundEnds(); len(ends) != 2 || math.Abs(ends[0].Radius-5) > 1e-9 {
		t.Errorf("ends %v", ends)
	}
	for name, p := range map[string]Path{"a slot": straight, "a polygon": Polygon(r2.Vec{}, r2.Vec{X: 1}, r2.Vec{Y: 1}), "two arcs": {Closed: true, Vertices: []Vertex{{0, 0, 1}, {1, 0, .5}}}} {
		if _, _, ok := p.Round(); ok {
			t.Errorf("%s is round", name)
		}
	}
	if ends := Circle(r2.Vec{}, 3).RoundEnds(); len(ends) != 0 {
		t.Errorf("a circle has ends: %v", ends)
	}
	plate := Rectangle(60, 40, 6)
	near9(t, "area of a plate", plate.Area(), 2400-144+36*math.Pi, 1e-9)
	if b := plate.Bounds(); b.Min.X != -30 || b.Max.Y != 20 {
		t.Errorf("bounds %v", b)
	}
}
