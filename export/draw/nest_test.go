package draw

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"armwright/export/draw/platework"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Every piece of the parts list that is sawn is in the plan.
func TestCuttingPlanHoldsAllPieces(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		r := stationtest.Result(t, name)
		d := &drafter{machine: newMachine(r), units: sheet.Millimetres}
		d.list = partlist.Of(r)
		bars, got := 0, map[string]int{}
		for _, row := range d.lists().Cutting().Rows {
			if row[1] != "" {
				bars++
			}
			for _, m := range regexp.MustCompile(`(\d+) x item (\d+) `).FindAllStringSubmatch(row[2], -1) {
				n, _ := strconv.Atoi(m[1])
				got[m[2]] += n
			}
		}
		n := 0
		for _, p := range d.list {
			if p.Bar != "" {
				n++
				if got[strconv.Itoa(p.Item)] != p.Count {
					t.Errorf("%s: %d of item %d, %s, are sawn, want %d", name, got[strconv.Itoa(p.Item)], p.Item, p.Title, p.Count)
				}
			}
		}
		if n < 10 || bars < 3 {
			t.Errorf("%s: %d lines from %d bars", name, n, bars)
		}
	}
}

// Index holes: seen from the swivel line they stand apart by the swivel angles, on one
// circle, and each is a hole of the plate as it is cut.
func TestIndexHoles(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		m := newMachine(stationtest.Result(t, name))
		plate := platework.ProfileOf(m.part("index-plate-right"))
		first, ok := m.indexHole(0)
		if !ok {
			t.Fatal("no plate")
		}
		for i, a := range m.geo.Pivots.Axes {
			p, _ := m.indexHole(i)
			if math.Abs(r2.Norm(p)-r2.Norm(first)) > 1e-6 {
				t.Errorf("%s: hole %d at %v, the first at %v", name, i+1, p, first)
			}
			turned := math.Atan2(r2.Cross(first, p), r2.Dot(first, p))
			if want := m.swivel(m.geo.Pivots.Axes[0].Vector()) - m.swivel(a.Vector()); math.Abs(turned-want) > 1e-9 {
				t.Errorf("%s: hole %d turned by %.5f, want %.5f", name, i+1, turned, want)
			}
			near := math.Inf(1)
			for _, h := range plate.Holes() {
				if c, _, ok := h.Round(); ok {
					near = math.Min(near, r2.Norm(r2.Sub(c, p)))
				}
			}
			if near > 1e-6 {
				t.Errorf("%s: hole %d of the table is %.3f mm from one of the plate", name, i+1, near)
			}
		}
	}
}

// What the people sheet measures is what the solver found: lean and seat
// height of the smallest and of the largest person; its chart is the crowd's.
func TestPeopleSheet(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		r := stationtest.Result(t, name)
		list := measure(t, files(t, name, Options{})["drawings/08-people.dxf"])
		d := &drafter{machine: newMachine(r), units: sheet.Millimetres}
		small, large := d.extremes()
		if small.Person.Stature >= large.Person.Stature {
			t.Fatalf("%s: extremes %v, %v", name, small.Person.Stature, large.Person.Stature)
		}
		for _, p := range r.People.Boundary {
			if p.Person.Stature < small.Person.Stature || p.Person.Stature > large.Person.Stature {
				t.Errorf("%s: %s is beyond the extremes", name, p.Person.Label)
			}
		}
		// Angular dimensions, kind 5, and vertical ones.
		for _, p := range []struct{ lean, seat float64 }{{small.Pose.Lean, small.SeatTop}, {large.Pose.Lean, large.SeatTop}} {
			if math.Abs(p.lean) > 1*specs.Degree && !has(list, 5, 0, math.Abs(p.lean), 2e-4) {
				t.Errorf("%s: no angle measures the lean of %.2f°", name, p.lean/specs.Degree)
			}
			if !has(list, 0, math.Pi/2, p.seat, 5e-3) {
				t.Errorf("%s: no height measures the seat at %.1f mm", name, p.seat)
			}
		}
		rows := 0
		for _, b := range r.People.Crowd.Bands {
			if b.N >= fewest {
				rows++
			}
		}
		if got := len(d.settingsChart().Rows); rows == 0 || got != rows {
			t.Errorf("%s: %d lines in the chart, want %d", name, got, rows)
		}
	}
}

// A nested file holds as many pieces as a station needs, each a gap apart.
func TestNestedPlate(t *testing.T) {
	list, err := CutFiles(stationtest.Result(t, "arm-pad-station"), Options{Nest: true})
	if err != nil {
		t.Fatal(err)
	}
	const gap = 10.0 // mm, docs/drawings.md
	want := map[string]int{"cut/cam.dxf": 1, "cut/cam-cheek.dxf": 1, "cut/cam-nest.dxf": 2, "cut/cam-cheek-nest.dxf": 4}
	for _, f := range list {
		boxes := []r2.Box{}
		d := document(t, f.Data)
		for _, p := range outlines(d) {
			b := p.Bounds()
			if slices.ContainsFunc(boxes, func(o r2.Box) bool {
				return o.Min.X < b.Min.X && o.Min.Y < b.Min.Y && b.Max.X < o.Max.X && b.Max.Y < o.Max.Y
			}) {
				continue // a slot
			}
			for _, o := range boxes {
				if dx, dy := math.Max(o.Min.X-b.Max.X, b.Min.X-o.Max.X), math.Max(o.Min.Y-b.Max.Y, b.Min.Y-o.Max.Y); math.Max(dx, dy) < gap-1e-3 {
					t.Errorf("%s: pieces %.2f, %.2f mm apart", f.Path, dx, dy)
				}
			}
			boxes = append(boxes, b)
		}
		if n, ok := want[f.Path]; ok && len(boxes) != n {
			t.Errorf("%s: %d pieces, want %d", f.Path, len(boxes), n)
		}
		delete(want, f.Path)
	}
	if len(want) > 0 {
		t.Errorf("missing %v", want)
	}
}

func TestShortened(t *testing.T) {
	for in, want := range map[string]string{
		"Bench cam": "Bench cam", "Bench cam with a long name": "Bench cam with a long", "Donaudampfschifffahrtsgesellschaft": "Donaudampfschifffahrtsgese", "": "",
	} {
		if len(want) > titleLength {
			want = want[:titleLength]
		}
		if got := shortened(in, titleLength); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
