package made_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armwright/export/draw/made"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/specs/stock"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// set are the sheets of a stored station.
type set struct {
	a      *assembly.Assembly
	list   []partlist.Line
	screws stock.Screws
	sheets []made.Sheet
}

func drawn(t *testing.T, name string) set {
	t.Helper()
	r := stationtest.Result(t, name)
	s := set{a: r.Station.Assembly, list: partlist.Of(r), screws: r.Frame.Drawing.Screws()}
	w := made.Shop{Blank: func(title string) sheet.Sheet {
		return sheet.Sheet{Size: sheet.A2, Larger: []sheet.Size{sheet.A1}, TextHeight: sheet.ViewText, TitleBlock: sheet.TitleBlock{Title: title}}
	}}
	s.sheets = w.Sheets(made.Of(s.a, s.list, s.screws))
	return s
}

var frames = []string{"arm-pad-station", "reclined-levers", "reclined-linkage", "arm-pad-station, foot plate", "arm-pad-station, split hub", "arm-pad-station, own cables"}

// rows are those of an item, of all sheets.
func (s *set) rows(item int) (out []string) {
	for i := range s.sheets {
		for _, row := range s.sheets[i].Tables[0].Rows {
			if row[0] == strconv.Itoa(item) {
				out = append(out, strings.Join(row[1:], "|"))
			}
		}
	}
	return out
}

// view is the picture of an item.
func (s *set) view(item int) *sheet.View {
	for i := range s.sheets {
		for k := range s.sheets[i].Views {
			if strings.HasPrefix(s.sheets[i].Views[k].Title, strconv.Itoa(item)+"  ") {
				return &s.sheets[i].Views[k]
			}
		}
	}
	return nil
}

// measures reports whether a view has a dimension of a kind and value, mm or rad.
func measures(v *sheet.View, kind sheet.DimKind, want float64) bool {
	return slices.ContainsFunc(v.Entities, func(e sheet.Entity) bool {
		d, ok := e.(sheet.Dimension)
		return ok && d.Kind == kind && math.Abs(d.Value()-want) < 1e-6*(1+want)
	})
}

func fine(x float64) string { return sheet.Millimetres.Fine(x) }

func has(rows []string, words ...string) bool {
	return slices.ContainsFunc(rows, func(r string) bool {
		cells := strings.Split(r, "|")
		for _, w := range words {
			if !slices.ContainsFunc(cells, func(c string) bool { return c == w || strings.HasPrefix(c, w+",") || strings.Contains(c, w+" ") }) {
				return false
			}
		}
		return true
	})
}

// Every part that is made has a picture, with its length or outline over all, and each
// end cut, hole, bore and seat of it a dimension or a row. What there is to be found is
// read from the solids and joints here, not from the package.
func TestEveryFeatureIsTold(t *testing.T) {
	for _, name := range testdata.Few(1, frames...) {
		t.Run(name, func(t *testing.T) {
			s := drawn(t, name)
			told := 0
			for _, l := range s.list {
				if len(l.Parts) == 0 || l.Form == assembly.Bought {
					continue
				}
				v, rows := s.view(l.Item), s.rows(l.Item)
				if v == nil {
					t.Errorf("item %d, %s, has no picture", l.Item, l.Title)
					continue
				}
				p := &s.a.Parts[l.Parts[0]]
				switch q := p.Solid.(type) {
				case solid.Prism:
					told += prism(t, l, p, q, v, rows)
				case solid.Turned:
					low, high := solid.Bounds(q, solid.World())
					if !measures(v, sheet.Horizontal, high.Z-low.Z) {
						t.Errorf("item %d, %s: no length", l.Item, l.Title)
					}
					for _, c := range q.Outline {
						if !has(rows, "Ø"+fine(2*c.X)) && !has(rows, "to "+fine(2*c.X)) && !strings.Contains(strings.Join(rows, "|"), "to "+fine(2*c.X)) {
							t.Errorf("item %d, %s: diameter %g is not told: %q", l.Item, l.Title, 2*c.X, rows)
						}
						told++
					}
					if q.Bore > 0 && !has(rows, "bore", "Ø"+fine(q.Bore)) {
						t.Errorf("item %d, %s: bore %g is not told", l.Item, l.Title, q.Bore)
					}
				}
				told += joints(t, &s, l, rows)
			}
			if told < 60 {
				t.Errorf("only %d features were looked for", told)
			}
		})
	}
}

// prism looks for the features of a prism, and counts them.
func prism(t *testing.T, l partlist.Line, p *assembly.Part, q solid.Prism, v *sheet.View, rows []string) (n int) {
	fail := func(what string, x ...float64) {
		t.Errorf("item %d, %s: no %s %.3f: %q", l.Item, l.Title, what, x, rows)
	}
	low, high := solid.Bounds(q, solid.World())
	if p.Stock.Form == assembly.Tube {
		if n++; !measures(v, sheet.Horizontal, p.Length()) {
			fail("length", p.Length())
		}
		for _, e := range [2]solid.End{q.From, q.To} {
			for _, tilt := range [2]float64{e.Tilt.X, e.Tilt.Y} {
				if math.Abs(tilt) < 1e-4 {
					continue
				}
				n++
				angle := math.Abs(math.Atan(tilt))
				if !has(rows, strconv.FormatFloat(angle*180/math.Pi, 'f', 2, 64)+"°") || !measures(v, sheet.Angular, angle) {
					fail("mitre, deg", angle*180/math.Pi)
				}
			}
		}
	}
	for _, b := range q.Bores {
		n++
		d := r3.Unit(b.Dir)
		words := []string{"Ø" + fine(b.Diameter)}
		switch {
		case p.Stock.Form == assembly.Tube || p.Stock.Form == assembly.Round || strings.Contains(l.ID, "selector-bar"):
			if math.Abs(d.Z) < 0.5 {
				words = append(words, fine(b.At.Z-low.Z))
			}
		case math.Abs(d.Z) < 0.5:
			words = append(words, fine(b.At.Z-low.Z))
		}
		if b.Depth > 0 {
			words = append(words, fine(b.Depth))
		}
		if !has(rows, words...) {
			fail("bore", b.At.X, b.At.Y, b.At.Z, b.Diameter)
		}
	}
	if p.Stock.Form == assembly.Tube || p.Stock.Form == assembly.Round {
		return n
	}
	if p.Stock.Form != assembly.Plate || len(q.Bores) == 0 && q.To.Z-q.From.Z < 50 {
		if n++; !measures(v, sheet.Horizontal, high.X-low.X) && !measures(v, sheet.Diameter, high.X-low.X) {
			fail("width", high.X-low.X)
		}
	}
	for _, h := range q.Profile.Holes() {
		n++
		c, r, ok := h.Round()
		if ok && !has(rows, "Ø"+fine(2*r), fine(c.X-low.X), fine(c.Y-low.Y)) {
			fail("hole", c.X-low.X, c.Y-low.Y, 2*r)
		}
		if !ok && !slices.ContainsFunc(rows, func(s string) bool { return strings.HasPrefix(s, "slot") || strings.HasPrefix(s, "opening") }) {
			box := h.Bounds()
			fail("slot or opening", box.Min.X, box.Min.Y)
		}
	}
	return n
}

// joints looks for what the joints ask of a part: threads, fits, keyways.
func joints(t *testing.T, s *set, l partlist.Line, rows []string) (n int) {
	a := s.a
	text := strings.Join(rows, "|")
	for k := range a.Joints {
		j := &a.Joints[k]
		if !slices.Contains(l.Parts, j.A) && !slices.Contains(l.Parts, j.B) {
			continue
		}
		mate := &a.Parts[j.B]
		if slices.Contains(l.Parts, j.B) {
			mate = &a.Parts[j.A]
		}
		d := &j.Detail
		ask := func(word string) {
			if n++; !strings.Contains(text, word) {
				t.Errorf("item %d, %s: %s with %s asks for %q: %q", l.Item, l.Title, j.Kind, mate.ID, word, rows)
			}
		}
		switch {
		case j.Kind == assembly.Bolts && d.Thread > 0 && d.Count > 0:
			// A rubber buffer is bought with its stud.
			if mate.Item == "buffer" || mate.Item == "stack-buffer" || l.ID == "buffer" || l.ID == "stack-buffer" {
				ask("M" + strconv.FormatFloat(d.Thread, 'g', 4, 64))
			} else {
				ask(s.screws.Name(d.Thread))
			}
		case j.Kind != assembly.Fit || mate.Is(assembly.Fastener):
		case d.Key.Length > 0:
			ask("keyway")
			ask("|" + fine(d.Key.Width) + "|")
		case strings.Contains(d.Class, "/"):
			hole, shaft, _ := strings.Cut(d.Class, "/")
			if !strings.Contains(text, hole) {
				ask(shaft)
			}
		}
	}
	return n
}

// Each hole along a tube has an ordinate in its picture, however many there are: a shop
// drills from the picture, and measure holds the table against it.
func TestHolesAlongTubesHaveOrdinates(t *testing.T) {
	for _, name := range append(slices.Clone(frames), "arm-pad-station, thirty chest positions") {
		s, most := drawn(t, name), 0
		for _, l := range s.list {
			if len(l.Parts) == 0 || s.a.Parts[l.Parts[0]].Stock.Form != assembly.Tube {
				continue
			}
			holes := 0
			for _, row := range s.rows(l.Item) {
				cells := strings.Split(row, "|")
				x, err := strconv.ParseFloat(cells[1], 64)
				if cells[0] != "hole" || err != nil {
					continue
				}
				holes++
				if !slices.ContainsFunc(s.view(l.Item).Entities, func(e sheet.Entity) bool {
					d, ok := e.(sheet.Dimension)
					return ok && d.Kind == sheet.OrdinateX && math.Abs(d.B.X-x) < 0.006
				}) {
					t.Errorf("%s: item %d, %s: the hole at %g has no ordinate", name, l.Item, l.Title, x)
				}
			}
			most = max(most, holes)
		}
		if strings.HasSuffix(name, "thirty chest positions") && most < 30 {
			t.Errorf("%s: %d holes in a tube, want 30 at least", name, most)
		}
	}
}

// Every made part stands on one sheet, once, with its count; a mitred post with a hole
// on one side is not its own mirror image, a straight one is.
func TestPartsStandOnce(t *testing.T) {
	for _, name := range frames {
		s := drawn(t, name)
		of := map[int]int{}
		for _, sh := range s.sheets {
			for _, p := range sh.Parts {
				of[p.Item]++
				if p.Opposite > p.Count {
					t.Errorf("%s: item %d has %d of %d opposite", name, p.Item, p.Opposite, p.Count)
				}
			}
		}
		for item, n := range of {
			if n != 1 {
				t.Errorf("%s: item %d stands on %d sheets", name, item, n)
			}
		}
	}
}

func TestSheetsAreLegible(t *testing.T) {
	for _, name := range frames {
		s := drawn(t, name)
		for i := range s.sheets {
			d, err := s.sheets[i].Flatten()
			if err == nil {
				err = d.Check()
			}
			if err != nil {
				t.Errorf("%s, %d, %s: %v", name, i, s.sheets[i].Slug, err)
			}
		}
	}
}

// A body is handed when a feature stands off every middle plane.
func TestHanded(t *testing.T) {
	tube := func(to solid.End, bores ...solid.Bore) solid.Prism {
		return solid.Prism{Profile: solid.RectTube(60, 40, 3, 4.5), To: to, Bores: bores}
	}
	across := func(x, y, z float64) solid.Bore {
		return solid.Bore{At: r3.Vec{X: x, Z: z}, Dir: r3.Vec{Y: y}, Diameter: 9, Depth: 5}
	}
	mitre := solid.End{Z: 300, Tilt: r2.Vec{X: 0.5}}
	compound := solid.End{Z: 300, Tilt: r2.Vec{X: 0.5, Y: 0.2}}
	for _, c := range []struct {
		name string
		s    solid.Solid
		want bool
	}{
		{"straight", tube(solid.Flat(300)), false},
		{"hole in the middle of a side", tube(solid.Flat(300), across(0, 1, 40)), false},
		{"hole beside the middle", tube(solid.Flat(300), across(10, 1, 40)), true},
		{"mitre", tube(mitre), false},
		{"mitre and a hole in its plane", tube(mitre, solid.Bore{At: r3.Vec{Z: 40}, Dir: r3.Vec{X: 1}, Diameter: 9, Depth: 5}), false},
		{"mitre and a hole across, from one side", tube(mitre, across(0, 1, 40)), true},
		{"compound mitre", tube(compound), true},
		{"turned", solid.Round(20, 50), false},
	} {
		if got := made.Handed(c.s); got != c.want {
			t.Errorf("%s: handed is %t", c.name, got)
		}
	}
}
