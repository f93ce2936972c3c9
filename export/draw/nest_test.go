package draw

import (
	"math"
	"slices"
	"testing"

	"armwright/export/sheet"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// Worked by hand: bars of 100 with a kerf of 1.
func TestNestByHand(t *testing.T) {
	pieces := func(lengths ...float64) (out []cutPiece) {
		for i, l := range lengths {
			out = append(out, cutPiece{i + 1, l})
		}
		return out
	}
	for _, c := range []struct {
		lengths []float64
		want    [][]float64
	}{
		{[]float64{40, 60}, [][]float64{{60}, {40}}},                           // 60+1+40 = 101
		{[]float64{39, 60}, [][]float64{{60, 39}}},                             // 60+1+39 = 100, the last kerf in the end
		{[]float64{100, 10}, [][]float64{{100}, {10}}},                         // no room for a kerf
		{[]float64{30, 50, 18, 60, 40}, [][]float64{{60, 30}, {50, 40}, {18}}}, // 60+1+30+1 leaves 8
		{[]float64{120}, [][]float64{{120}}},                                   // longer than a bar: by itself
		{nil, nil},
	} {
		var got [][]float64
		for _, b := range nest(pieces(c.lengths...), 100, 1) {
			var row []float64
			for _, p := range b.pieces {
				row = append(row, p.length)
			}
			got = append(got, row)
		}
		if !slices.EqualFunc(got, c.want, slices.Equal) {
			t.Errorf("%v: %v, want %v", c.lengths, got, c.want)
		}
	}
}

// Every piece is in one bar, no bar is overfull, and no two bars would go into
// one, which is what first fit promises.
func TestNest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const bar, kerf = 6000.0, 3.0
		lengths := rapid.SliceOfN(rapid.Float64Range(20, bar), 0, 60).Draw(t, "lengths")
		var pieces []cutPiece
		for i, l := range lengths {
			pieces = append(pieces, cutPiece{i, l})
		}
		seen := map[int]bool{}
		bars := nest(pieces, bar, kerf)
		for _, b := range bars {
			sum := -kerf
			for _, p := range b.pieces {
				if seen[p.item] {
					t.Fatalf("piece %d twice", p.item)
				}
				seen[p.item] = true
				sum += p.length + kerf
			}
			if sum > bar+1e-9 || math.Abs(sum+kerf-b.used) > 1e-9 {
				t.Fatalf("bar takes %g", sum)
			}
		}
		if len(seen) != len(pieces) {
			t.Fatalf("%d of %d pieces", len(seen), len(pieces))
		}
		for i := range bars {
			for k := range i {
				if bars[i].used+bars[k].used <= bar+kerf {
					t.Fatalf("bars %d and %d fit into one", k, i)
				}
			}
		}
	})
}

// All tubes and bars of the parts list are in the plan.
func TestCuttingPlanHoldsAllPieces(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		r := result(t, name)
		d := &drafter{machine: newMachine(r), units: sheet.Millimetres}
		sum, rest, bars := 0.0, 0.0, 0
		for _, row := range d.cuttingPlan().Rows {
			if row[1] != "" {
				bars++
				rest += parse(t, row[3])
			}
		}
		n := 0
		for _, p := range r.Parts {
			if sawn(p) {
				sum += float64(p.Count) * (p.Length + sawKerf)
				n += p.Count
			}
		}
		if want := float64(bars)*barLength(r.Frame.Drawing.Reads()) - sum; n < 10 || math.Abs(rest-want) > 0.06*float64(bars) {
			t.Errorf("%s: rests sum up to %.1f, want %.1f", name, rest, want)
		}
	}
}

// The wedge lies on the plane y = 0 and has the axis for the normal of its
// other face: its greatest slope is the angle between the normals, and from
// the pivot it thickens most towards the direction given. Turned by toe and
// then lifted, the spindle's direction -y becomes the axis. All by vectors.
func TestCompoundAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		toe, cant := rapid.Float64Range(-0.6, 0.6).Draw(t, "toe"), rapid.Float64Range(-0.6, 0.6).Draw(t, "cant")
		a := specs.Axis{Toe: toe, Cant: cant}.Vector()
		c := compoundOf(a)
		// Height of the outer face over the plane, outward: from a·p = 0.
		height := func(x, z float64) float64 { return (a.X*x + a.Z*z) / a.Y }
		steepest := 0.0
		for k := range 3600 {
			s, co := math.Sincos(float64(k) / 1800 * math.Pi)
			steepest = math.Max(steepest, height(co, s))
		}
		s, co := math.Sincos(c.thick)
		if got := height(co, s); c.wedge > 1e-3 && (math.Abs(got-math.Tan(c.wedge)) > 1e-9 || got < steepest-1e-9) {
			t.Fatalf("thickest rise %g, steepest %g, tan wedge %g", got, steepest, math.Tan(c.wedge))
		}
		// Turn about z, then lift about the level line across: by Rodrigues.
		v := r3.Rotate(r3.Vec{Y: -1}, -c.turn, r3.Vec{Z: 1})
		across := r3.Unit(r3.Cross(v, r3.Vec{Z: 1}))
		v = r3.Rotate(v, c.lift, across)
		if r3.Norm(r3.Sub(v, a)) > 1e-9 {
			t.Fatalf("turned and lifted gives %v, want %v", v, a)
		}
		if math.Abs(c.turn-toe) > 1e-9 {
			t.Fatalf("turn %g, toe %g", c.turn, toe)
		}
	})
}

// Index holes: their angles are the swivel angles, and neighbours stand far
// enough apart for pins of 10 mm.
func TestIndexHoles(t *testing.T) {
	m := newMachine(result(t, "arm-pad-station"))
	radius := m.indexRadius()
	var before r2.Vec
	for i, a := range m.geo.Pivots.Axes {
		p := m.index(a, radius)
		if math.Abs(r2.Norm(p)-radius) > 1e-9 {
			t.Errorf("hole %d at %v, radius %g", i+1, p, radius)
		}
		if gap := r2.Norm(r2.Sub(p, before)); i > 0 && gap < 2*indexHole {
			t.Errorf("holes %d and %d are %.1f mm apart", i, i+1, gap)
		}
		before = p
	}
}

// What the people sheet measures is what the solver found: lean and seat
// height of the smallest and of the largest person; its chart is the crowd's.
func TestPeopleSheet(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		r := result(t, name)
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
			if math.Abs(p.lean) > 1*deg && !has(list, 5, 0, math.Abs(p.lean), 2e-4) {
				t.Errorf("%s: no angle measures the lean of %.2f°", name, p.lean/deg)
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
	list, err := CutFiles(result(t, "arm-pad-station"), Options{Nest: true})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]int{"cut/cam.dxf": 1, "cut/cam-cheek.dxf": 1, "cut/cam-nest.dxf": 2, "cut/cam-cheek-nest.dxf": 4}
	for _, f := range list {
		boxes := []r2.Box{}
		d := document(t, f.Data)
		for _, p := range outlines(d) {
			b := p.Bounds()
			for _, o := range boxes {
				if dx, dy := math.Max(o.Min.X-b.Max.X, b.Min.X-o.Max.X), math.Max(o.Min.Y-b.Max.Y, b.Min.Y-o.Max.Y); math.Max(dx, dy) < partGap-1e-3 {
					t.Errorf("%s: pieces %.2f, %.2f mm apart", f.Path, dx, dy)
				}
			}
			boxes = append(boxes, b)
		}
		if len(boxes) != want[f.Path] {
			t.Errorf("%s: %d pieces, want %d", f.Path, len(boxes), want[f.Path])
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
