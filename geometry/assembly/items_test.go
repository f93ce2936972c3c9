package assembly

import (
	"testing"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// A pair, two stops of one kind and one of another length: three lines, worked by hand.
func TestItems(t *testing.T) {
	var b Builder
	frame := b.Group("frame", -1, nil)
	post := func(id, item, title string, length float64) Part {
		return Part{ID: id, Item: item, Title: title, Group: frame, Place: solid.World(), Density: 1e-6,
			Stock: Stock{Form: Round, Grade: "steel", Size: [3]float64{20}}, Solid: solid.Round(20, length)}
	}
	b.Pair(post("post", "", "Post", 100))
	b.Add(post("stop-low", "stop", "Lower stop", 30))
	b.Add(post("stop-high", "stop", "Upper stop", 30))
	b.Add(post("stop-long", "stop", "Long stop", 40))
	b.FlexPair(Flexible{ID: "cable", Title: "Cable", Path: []r3.Vec{{}, {X: 30}, {X: 30, Y: 40}}, Mass: 0.5})
	list := b.Items()
	want := []struct {
		title  string
		count  int
		length float64
	}{{"Post", 2, 100}, {"Stop", 2, 30}, {"Long stop", 1, 40}, {"Cable", 2, 70}}
	if len(list) != len(want) {
		t.Fatalf("%d lines", len(list))
	}
	mass := 0.0
	for i, w := range want {
		if l := &list[i]; l.Title != w.title || l.Count() != w.count || l.Length != w.length {
			t.Errorf("line %d: %q, %d of %g mm; want %+v", i, l.Title, l.Count(), l.Length, w)
		}
		mass += float64(list[i].Count()) * list[i].Mass
	}
	if d := mass - b.Mass(); d > 1e-12 || d < -1e-12 {
		t.Errorf("the list weighs %g kg, the assembly %g", mass, b.Mass())
	}
}

// Four bolts through three plates are four, whatever their joints; those of another
// place are others; a pin that is a part is none. Worked by hand.
func TestHardware(t *testing.T) {
	var b Builder
	g := b.Group("frame", -1, nil)
	plate := func(id string, traits Traits) int {
		return b.Add(Part{ID: id, Title: id, Group: g, Place: solid.World(), Solid: solid.Round(50, 5), Mass: 1, Traits: traits})
	}
	one, two, three, far, pin := plate("one", 0), plate("two", 0), plate("three", 0), plate("far", 0), plate("pin", Fastener)
	d := Detail{Thread: 8, Count: 4, Length: 30, Pattern: [2]float64{60, 60}}
	b.Join(Bolts, one, two, r3.Vec{Z: 5}, d)
	b.Join(Bolts, two, three, r3.Vec{Z: 10}, d)
	b.Join(Bolts, two, far, r3.Vec{X: 200, Z: 5}, d)
	b.Join(Fit, one, three, r3.Vec{}, Detail{Diameter: 25, Thread: 6, Count: 2, Key: Key{8, 7, 20}})
	b.Join(Fit, one, pin, r3.Vec{}, Detail{Diameter: 12, Thread: 12, Count: 1})
	b.Join(Swivel, one, far, r3.Vec{X: 300}, Detail{Thread: 12, Count: 2, Length: 40})
	got := map[string]int{}
	eights := 0
	for k := range b.Joints {
		for _, h := range b.HardwareOf(k) {
			got[h.Kind.String()] += h.Count
			if h.Kind == Bolt && h.Thread == 8 {
				eights += h.Count
			}
		}
	}
	if eights != 8 {
		t.Errorf("%d bolts M8, want 8", eights)
	}
	if got["bolt"] != 10 || got["set screw"] != 2 || got["parallel key"] != 1 || len(got) != 3 {
		t.Errorf("hardware %v", got)
	}
}
