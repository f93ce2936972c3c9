package cam

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A keyed bore is the bore's circle and the keyway's area above it: b (r + t2) less
// half the keyway's share of the disc below its flanks, by the circle segment's
// formula (any handbook).
func TestKeyedBore(t *testing.T) {
	const d, b, t2 = 25.0, 8.0, 3.3
	pl := plate()
	pl.KeyWidth, pl.KeyDepth = b, t2
	p := Profile{Law: peaked(t, 60, 110), Guide: Guide{X: -100, Y: -300, Radius: 48, Side: Open}, Ratio: 1.5}
	out, err := p.Outline(pl)
	if err != nil {
		t.Fatal(err)
	}
	verify(t, p, pl, out, 2e-4)
	if err := out.Keyed.Validate(); err != nil {
		t.Fatal(err)
	}
	r := d / 2
	half := math.Asin(b / d)
	segment := r * r * (half - math.Sin(half)*math.Cos(half))
	foot := math.Sqrt(r*r - b*b/4)
	want := math.Pi*r*r - segment + b*(r+t2-foot)
	if got := out.Keyed.Area(); math.Abs(got-want) > 1e-9 {
		t.Errorf("area %.6f mm², want %.6f", got, want)
	}
	box := out.Keyed.Bounds()
	if math.Abs(box.Max.Y-(r+t2)) > 1e-9 || math.Abs(box.Min.Y+r) > 1e-9 || math.Abs(box.Max.X-r) > 1e-9 {
		t.Errorf("bounds %v", box)
	}
	// The wall holds past the keyway too.
	for _, v := range out.Keyed.Vertices {
		if room, _ := out.Root.Distance(v.Point()); room < 1.5*pl.Cable-.01 {
			t.Errorf("keyway %.2f mm from the groove", room)
		}
	}
	pl.KeyWidth = 30
	if _, err := p.Outline(pl); err == nil {
		t.Error("a keyway wider than the bore was accepted")
	}
}

// A split hub keeps its walls, its bolts are those of the cam, and its screw
// clears them and the bore.
func TestClampHub(t *testing.T) {
	for _, bore := range []float64{12, 25, 40, 60} {
		c := Clamp{Bore: bore, BoltCircle: bore + 28, BoltHole: 9, Bolts: 4, Wall: 6, Slot: 3, Screw: 8.4, Head: 16, Ear: 12}
		h := c.Hub()
		if err := h.Outline.Validate(); err != nil {
			t.Fatalf("bore %g: %v", bore, err)
		}
		if h.Outline.Area() < 0 {
			t.Errorf("bore %g: clockwise", bore)
		}
		// Ring less bore and slot, and the two ears: by pieces, the segment beyond
		// the ears' root counted apart.
		r := (c.BoltCircle+c.BoltHole)/2 + c.Wall
		segment := func(r, half float64) float64 {
			a := math.Asin(half / r)
			return r * r * (a - math.Sin(a)*math.Cos(a))
		}
		end := h.Outline.Bounds().Max.X
		root := math.Sqrt(r*r - h.Half*h.Half)
		disc := math.Pi*r*r - segment(r, h.Half)
		ears := 2 * h.Half * (end - root)
		b := bore / 2
		mouth := math.Sqrt(b*b - c.Slot*c.Slot/4)
		hole := math.Pi*b*b - segment(b, c.Slot/2) + c.Slot*(end-mouth)
		if got, want := h.Outline.Area(), disc+ears-hole; math.Abs(got-want) > 1e-6 {
			t.Errorf("bore %g: area %.4f, want %.4f", bore, got, want)
		}
		if len(h.Holes) != c.Bolts {
			t.Fatalf("%d holes", len(h.Holes))
		}
		for _, o := range h.Holes {
			if room, _ := h.Outline.Distance(o.Centre); room-o.Diameter/2 < c.Wall-1e-9 {
				t.Errorf("bore %g: bolt hole %.2f mm from an edge", bore, room-o.Diameter/2)
			}
			// The screw runs along y through the whole of the ears.
			if h.ScrewX-o.Centre.X < (c.Screw+o.Diameter)/2+2 {
				t.Errorf("bore %g: the screw meets a bolt", bore)
			}
		}
		// Its head stands clear of the round part.
		if off := r2.Norm(r2.Vec{X: h.ScrewX - c.Head/2, Y: h.Half}); off < r-1e-9 {
			t.Errorf("bore %g: the head meets the hub", bore)
		}
	}
}

// A screw of 10 kN whose axis is as far from the bore's axis as the hinge is on
// the other side presses with 20 kN: 0.12 x 20 kN x 25 mm.
func TestClampHolding(t *testing.T) {
	h := ClampHub{ScrewX: 30, Hinge: 30}
	if got := h.Holding(10e3, 0.12, 25); math.Abs(got-60e3) > 1e-9 {
		t.Errorf("holds %.1f N·mm", got)
	}
}
