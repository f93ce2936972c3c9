package weldment

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

var stations = []string{"arm-pad-station", "reclined-levers", "reclined-linkage"}

func drawer(a *assembly.Assembly, u sheet.Units) *Drawer {
	d := &Drawer{Assembly: a, Units: u, Item: make([]string, len(a.Parts))}
	for n, i := range a.Items() {
		for _, p := range i.Parts {
			d.Item[p] = strconv.Itoa(n + 1)
		}
	}
	d.Body = func(part int) hidden.Body {
		return hidden.Body{Shape: hidden.NewShape(a.Parts[part].Solid, 0.1), Place: a.Parts[part].Place, Bare: true}
	}
	d.Blank = func(title, _ string) sheet.Sheet {
		return sheet.Sheet{Size: sheet.A3, Larger: []sheet.Size{sheet.A2, sheet.A1}, Units: u, TitleBlock: sheet.TitleBlock{Title: title}}
	}
	return d
}

// Every weld of the station is made on one sheet, and every part that is welded is a
// member of one weldment, which the frame holds whole.
func TestEveryWeldHasItsSheet(t *testing.T) {
	for _, name := range stations {
		a := stationtest.Result(t, name).Station.Assembly
		welds, member := map[int]int{}, map[int]int{}
		for _, w := range Find(a) {
			for _, k := range w.Welds {
				welds[k]++
			}
			for _, b := range w.Blocks {
				if len(b.Parts) == 1 {
					member[b.Lead]++
				} else if b.Sheet <= w.Number {
					t.Errorf("%s: %s holds %s, which is on no later sheet", name, w.Title, a.Parts[b.Lead].ID)
				}
			}
		}
		n := 0
		for k := range a.Joints {
			j := &a.Joints[k]
			if j.Kind != assembly.Weld {
				continue
			}
			n++
			if welds[k] != 1 {
				t.Errorf("%s: the weld of %s on %s is on %d sheets", name, a.Parts[j.A].ID, a.Parts[j.B].ID, welds[k])
			}
			for _, i := range [2]int{j.A, j.B} {
				if member[i] != 1 {
					t.Errorf("%s: %s is a member of %d weldments", name, a.Parts[i].ID, member[i])
				}
			}
		}
		if n < 20 || len(welds) != n {
			t.Errorf("%s: %d welds, %d on sheets", name, n, len(welds))
		}
	}
}

// What a frame in the hall is welded of: the base from rails and cross members, and the
// posts on the rails, which the chest pad's crossbar makes one.
func TestWeldmentsOfAStation(t *testing.T) {
	list := Find(stationtest.Result(t, "arm-pad-station").Station.Assembly)
	var got []string
	for _, w := range list {
		got = append(got, fmt.Sprint(w.Number, " ", w.Title, " ", w.Side))
	}
	for _, want := range []string{"101 Frame ", "102 Base ", "103 Pivot posts ", "104 Tower "} {
		if !slices.Contains(got, want) {
			t.Errorf("no %q among %q", want, got)
		}
	}
	for _, want := range []string{"Swivel bracket", "Arm", "Handle"} {
		n := map[assembly.Side]int{}
		for _, w := range list {
			if w.Title == want {
				n[w.Side]++
			}
		}
		if n[assembly.Right] != 1 || n[assembly.Left] != 1 || n[assembly.Middle] != 0 {
			t.Errorf("%s: sheets by side %v", want, n)
		}
	}
}

// One symbol a weld stands on its sheet. Its arrow points at both parts, and what it
// says adds up to the run of the joint.
func TestEveryWeldHasItsSymbol(t *testing.T) {
	for _, name := range stations {
		a := stationtest.Result(t, name).Station.Assembly
		d := drawer(a, sheet.Millimetres)
		for _, w := range Find(a) {
			s := d.Sheet(&w)
			frame := w.Frame(a)
			found := map[string]int{}
			for v, view := range s.Views {
				for _, e := range view.Entities {
					symbol, ok := e.(sheet.Weld)
					if !ok {
						continue
					}
					found[symbol.Tail]++
					n, err := strconv.Atoi(symbol.Tail)
					if err != nil || n < 1 || n > len(w.Welds) {
						t.Fatalf("%s, %s: symbol %q", name, w.Title, symbol.Tail)
					}
					j := &a.Joints[w.Welds[n-1]]
					for _, i := range [2]int{j.A, j.B} {
						low, high := solid.Bounds(a.Parts[i].Solid, frame.Inverse().Then(a.Parts[i].Place))
						box := [3]r2.Box{
							{Min: r2.Vec{X: low.X, Y: low.Z}, Max: r2.Vec{X: high.X, Y: high.Z}},
							{Min: r2.Vec{X: low.Y, Y: low.Z}, Max: r2.Vec{X: high.Y, Y: high.Z}},
							{Min: r2.Vec{X: low.X, Y: low.Y}, Max: r2.Vec{X: high.X, Y: high.Y}},
						}[v]
						const off = 3.0 // mm: into each other, or a clearance that the weld fills
						if q := symbol.At; q.X < box.Min.X-off || q.X > box.Max.X+off || q.Y < box.Min.Y-off || q.Y > box.Max.Y+off {
							t.Errorf("%s, %s: the arrow of weld %s is off %s", name, w.Title, symbol.Tail, a.Parts[i].ID)
						}
					}
					if symbol.Throat != j.Detail.Throat {
						t.Errorf("%s, %s: weld %s has a throat of %g, the joint %g", name, w.Title, symbol.Tail, symbol.Throat, j.Detail.Throat)
					}
					runs := 1.0
					if symbol.Both {
						runs = 2
					}
					if !symbol.Around && math.Abs(runs*symbol.Length-j.Detail.Run) > 1e-9 {
						t.Errorf("%s, %s: weld %s has %g x %g, the joint %g", name, w.Title, symbol.Tail, runs, symbol.Length, j.Detail.Run)
					}
				}
			}
			for n := range w.Welds {
				if found[strconv.Itoa(n+1)] != 1 {
					t.Errorf("%s, %s: weld %d has %d symbols", name, w.Title, n+1, found[strconv.Itoa(n+1)])
				}
			}
		}
	}
}

// Every member has a row, and that of one that lies along the axes has an ordinate for
// every place that is not the datum's. Where a member is moved by 5 mm along an axis,
// its row says so, and no other does.
func TestEveryMemberIsPlaced(t *testing.T) {
	const by = 5.0
	for _, name := range stations {
		a := stationtest.Result(t, name).Station.Assembly
		d := drawer(a, sheet.Millimetres)
		for _, w := range Find(a) {
			s := d.Sheet(&w)
			rows := s.Tables[0].Rows
			if len(rows) != len(w.Blocks) {
				t.Fatalf("%s, %s: %d rows for %d members", name, w.Title, len(rows), len(w.Blocks))
			}
			frame := w.Frame(a)
			for i, row := range rows {
				if row[0] != d.Item[w.Blocks[i].Lead] {
					t.Errorf("%s, %s: row %d is of item %s", name, w.Title, i+1, row[0])
				}
				part := &a.Parts[w.Blocks[i].Lead]
				for axis := range 3 {
					value := parse(t, row[3+axis])
					if math.Abs(value) > sameSize && !ordinate(&s, axis, value) {
						t.Errorf("%s, %s: no ordinate says that %s is at %g", name, w.Title, part.ID, value)
					}
					if i == 0 {
						continue
					}
					moved := *part
					way := [3]r3.Vec{frame.X, frame.Y, frame.Z}[axis]
					moved.Place.Origin = r3.Add(moved.Place.Origin, r3.Scale(by, way))
					b := *a
					b.Parts = slices.Clone(a.Parts)
					b.Parts[w.Blocks[i].Lead] = moved
					was, is := placingOf(a, w.Blocks[i].Lead, frame), placingOf(&b, w.Blocks[i].Lead, frame)
					for k := range 3 {
						want := 0.0
						if k == axis {
							want = by
						}
						got := is.At[k] - was.At[k]
						// The other face may have become the nearer one.
						low, high := solid.Bounds(part.Solid, frame.Inverse().Then(part.Place))
						size := [3]float64{high.X - low.X, high.Y - low.Y, high.Z - low.Z}[k]
						if math.Abs(got-want) > 1e-9 && math.Abs(math.Abs(got-want)-size) > 1e-9 {
							t.Errorf("%s, %s: %s moved by %g along %d, its row by %g along %d", name, w.Title, part.ID, by, axis, got, k)
						}
					}
				}
			}
		}
	}
}

func parse(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// ordinate reports whether one of a sheet measures a value along an axis of the frame.
func ordinate(s *sheet.Sheet, axis int, value float64) bool {
	for v, axes := range [3][2]int{{0, 2}, {1, 2}, {0, 1}} {
		for _, e := range s.Views[v].Entities {
			d, ok := e.(sheet.Dimension)
			if ok && math.Abs(d.Value()-value) < 0.06 &&
				(d.Kind == sheet.OrdinateX && axes[0] == axis || d.Kind == sheet.OrdinateY && axes[1] == axis) {
				return true
			}
		}
	}
	return false
}

// The angles of the table put a member's own z where the assembly has it.
func TestAnglesOfTheTable(t *testing.T) {
	askew := 0
	for _, name := range stations {
		a := stationtest.Result(t, name).Station.Assembly
		for _, w := range Find(a) {
			frame := w.Frame(a)
			for _, b := range w.Blocks {
				p := placingOf(a, b.Lead, frame)
				if p.Square {
					continue
				}
				askew++
				level := r3.Vec{X: math.Cos(p.Rise) * math.Cos(p.Plan), Y: math.Cos(p.Rise) * math.Sin(p.Plan), Z: math.Sin(p.Rise)}
				z := r3.Add(r3.Add(r3.Scale(level.X, frame.X), r3.Scale(level.Y, frame.Y)), r3.Scale(level.Z, frame.Z))
				if got := a.Parts[b.Lead].Place.Z; r3.Norm(r3.Sub(got, z)) > 1e-9 {
					t.Errorf("%s, %s: own z of %s is %v, the angles say %v", name, w.Title, a.Parts[b.Lead].ID, got, z)
				}
			}
		}
	}
	if askew == 0 {
		t.Error("no station has a member that lies askew")
	}
}

// Runs of welds by hand: round a tube 60 x 60, round a bar of 20, along both sides of a
// plate 100 long, along one of 44.
func TestFilletOf(t *testing.T) {
	tube := assembly.Part{Solid: solid.Straight(solid.RectTube(60, 60, 3, 6), 500), Place: solid.World()}
	mitred := assembly.Part{Solid: solid.Prism{Profile: solid.RectTube(60, 60, 3, 6), To: solid.End{Z: 500, Tilt: r2.Vec{Y: 1}}}, Place: solid.World()}
	bar := assembly.Part{Solid: solid.Round(20, 80), Place: solid.World()}
	plate := assembly.Part{Solid: solid.Straight(solid.Rect(100, 44, 0), 10), Place: solid.World()}
	for _, c := range []struct {
		name string
		a, b assembly.Part
		run  float64
		want Fillet
	}{
		{"tube on tube", tube, tube, 240, Fillet{3, 240, 1, true}},
		{"mitre of 45 degrees", mitred, plate, 2 * (60 + 60*math.Sqrt2), Fillet{3, 2 * (60 + 60*math.Sqrt2), 1, true}},
		{"bar on plate", bar, plate, 20 * math.Pi, Fillet{3, 20 * math.Pi, 1, true}},
		{"plate on its edge, both sides", plate, tube, 200, Fillet{3, 100, 2, false}},
		{"one side", plate, tube, 44, Fillet{3, 44, 1, false}},
		{"a length of its own", bar, tube, 75, Fillet{3, 75, 1, false}},
	} {
		a := assembly.Assembly{Parts: []assembly.Part{c.a, c.b}}
		got := FilletOf(&a, &assembly.Joint{Kind: assembly.Weld, A: 0, B: 1, Detail: assembly.Detail{Throat: 3, Run: c.run}})
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// No text of a weldment's sheet covers another or lies on an outline, in either system.
func TestSheetsAreLegible(t *testing.T) {
	for _, name := range stations {
		a := stationtest.Result(t, name).Station.Assembly
		for _, u := range testdata.Few(1, sheet.Millimetres, sheet.Inches, sheet.InchesDual) {
			d := drawer(a, u)
			for _, w := range Find(a) {
				s := d.Sheet(&w)
				drawing, err := s.Flatten()
				if err != nil {
					t.Fatal(err)
				}
				if err := drawing.Check(); err != nil {
					t.Errorf("%s, %v: %v", name, u, err)
				}
			}
		}
	}
}
