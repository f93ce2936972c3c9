package measure

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"armwright/export/draw"
	"armwright/export/dxf"
	"armwright/export/report"
	"armwright/export/solid"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

const (
	armPad   = "arm-pad-station"
	study    = "cam-study"
	reclined = "reclined-levers" // inches, third angle
	dual     = "cam-study, dual" // inches with millimetres
	keyed    = "cam-study, keyway"
	clamped  = "arm-pad-station, clamp"
	linked   = "reclined-linkage"
	bars     = "linkage-study"
)

var written sync.Map // of fstest.MapFS by name and form

// output is the folder of an example, as design writes it.
func output(t testing.TB, name string, r12 bool) fstest.MapFS {
	t.Helper()
	type key struct {
		name string
		r12  bool
	}
	if f, ok := written.Load(key{name, r12}); ok {
		return maps.Clone(f.(fstest.MapFS))
	}
	file, form, _ := strings.Cut(name, ", ")
	frame, err := specs.ParseFrame(name, testdata.Frame(file))
	if err != nil {
		t.Fatal(err)
	}
	frame.People.Sample = 100 // coverage is not drawn
	switch form {
	case "dual":
		frame.Drawing.Units = "in-mm"
	case "keyway", "clamp":
		frame.Stock.Hub = form
	}
	r, err := solver.Check(frame)
	if err != nil {
		t.Fatal(err)
	}
	files, err := draw.All(r, nil, draw.Options{R12: r12, Nest: true})
	if err != nil {
		t.Fatal(err)
	}
	out := fstest.MapFS{}
	var listed []report.File
	for _, f := range files {
		out[f.Path] = &fstest.MapFile{Data: f.Data}
		listed = append(listed, report.File{Path: f.Path, Bytes: len(f.Data)})
	}
	if a := r.Station.Assembly; a != nil {
		var b bytes.Buffer
		if err := solid.WriteList(&b, a, "test"); err != nil {
			t.Fatal(err)
		}
		out[assemblyPath] = &fstest.MapFile{Data: b.Bytes()}
		listed = append(listed, report.File{Path: assemblyPath, Bytes: b.Len()})
	}
	var b bytes.Buffer
	if err := report.JSON(&b, report.New(r, "test", listed)); err != nil {
		t.Fatal(err)
	}
	out[reportPath] = &fstest.MapFile{Data: b.Bytes()}
	written.Store(key{name, r12}, out)
	return maps.Clone(out)
}

func TestOutputMeasuresUp(t *testing.T) {
	type wanted struct {
		name  string
		files int // sheets and cut files
		least int // figures
	}
	for _, c := range testdata.Few(3, []wanted{{armPad, 13, 350}, {bars, 10, 100}, {study, 6, 100}, {reclined, 8, 200}, {keyed, 6, 105}, {clamped, 15, 350}, {linked, 17, 390}}...) {
		for _, r12 := range testdata.Few(1, false, true) {
			out, err := Folder(output(t, c.name, r12))
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range out.Differences {
				t.Errorf("%s, r12 %v: %v", c.name, r12, d)
			}
			if len(out.Files) < c.files || out.Compared < c.least {
				t.Errorf("%s: %d figures in %d files, want at least %d in %d", c.name, out.Compared, len(out.Files), c.least, c.files)
			}
		}
	}
}

// edit reads a drawing, changes it and writes it back.
func edit(t *testing.T, f fstest.MapFS, path string, change func(*dxf.Document)) {
	t.Helper()
	d, err := dxf.Read(bytes.NewReader(f[path].Data))
	if err != nil {
		t.Fatal(err)
	}
	change(d)
	var b bytes.Buffer
	if err := dxf.Write(&b, d, dxf.AC1015); err != nil {
		t.Fatal(err)
	}
	f[path] = &fstest.MapFile{Data: b.Bytes()}
}

// mapped moves every point of a cut file.
func mapped(move func(dxf.Point) dxf.Point, size, bulge float64) func(*dxf.Document) {
	return func(d *dxf.Document) {
		for i, e := range d.Entities {
			switch e := e.(type) {
			case dxf.Line:
				e.A, e.B = move(e.A), move(e.B)
				d.Entities[i] = e
			case dxf.Circle:
				e.Centre, e.Radius = move(e.Centre), e.Radius*size
				d.Entities[i] = e
			case dxf.Polyline:
				for k, v := range e.Vertices {
					e.Vertices[k] = dxf.Vertex{Point: move(v.Point), Bulge: bulge * v.Bulge}
				}
				d.Entities[i] = e
			}
		}
	}
}

func scaled(k float64) func(*dxf.Document) {
	return mapped(func(p dxf.Point) dxf.Point { return dxf.Point{X: k * p.X, Y: k * p.Y} }, k, 1)
}

func mirror() func(*dxf.Document) {
	return mapped(func(p dxf.Point) dxf.Point { return dxf.Point{X: -p.X, Y: p.Y} }, 1, -1)
}

// hole changes the hole farthest from the cam axis.
func hole(change func(*dxf.Circle)) func(*dxf.Document) {
	return func(d *dxf.Document) {
		far := -1
		for i, e := range d.Entities {
			if c, ok := e.(dxf.Circle); ok && (far < 0 || distance(c.Centre, dxf.Point{}) > distance(d.Entities[far].(dxf.Circle).Centre, dxf.Point{})) {
				far = i
			}
		}
		c := d.Entities[far].(dxf.Circle)
		change(&c)
		d.Entities[far] = c
	}
}

// keyway changes the floor of the last keyway: the straight pieces of a loop with
// both lines and arcs that is no cam.
func keyway(change func(*dxf.Vertex)) func(*dxf.Document) {
	return func(d *dxf.Document) {
		for i := len(d.Entities) - 1; i >= 0; i-- {
			p, ok := d.Entities[i].(dxf.Polyline)
			if !ok || len(p.Vertices) != 5 {
				continue
			}
			change(&p.Vertices[3])
			change(&p.Vertices[4])
			if p.Vertices[3].X != p.Vertices[2].X { // a flank moved: its foot too
				p.Vertices[2].X = p.Vertices[3].X
			}
			d.Entities[i] = p
			return
		}
	}
}

// dimensioned changes the first dimension of a kind; its picture keeps saying
// what it says unless the text is changed by say.
func dimensioned(kind dxf.DimKind, change func(*dxf.Dimension)) func(*dxf.Document) {
	return func(d *dxf.Document) {
		i := slices.IndexFunc(d.Entities, func(e dxf.Entity) bool { v, ok := e.(dxf.Dimension); return ok && v.Kind == kind })
		v := d.Entities[i].(dxf.Dimension)
		change(&v)
		d.Entities[i] = v
	}
}

// say writes another text into a dimension and its picture.
func say(edit func(string) string) func(*dxf.Dimension) {
	return func(v *dxf.Dimension) {
		v.Text = edit(v.Text)
		for i, e := range v.Picture {
			if t, ok := e.(dxf.Text); ok {
				t.Value = v.Text
				v.Picture[i] = t
			}
		}
	}
}

// bump raises the last digit of the first number that is no count.
func bump(s string) string {
	digits := func(c rune) bool { return c >= '0' && c <= '9' || c == '.' }
	from := strings.IndexFunc(s, digits)
	to := from + strings.IndexFunc(s[from:]+" ", func(c rune) bool { return !digits(c) })
	i := from + strings.LastIndexAny(s[from:to], "012345678")
	return s[:i] + string(s[i]+1) + s[i+1:]
}

// Faults that a shop would build in, and the file that is to be named.
func TestFaultsAreFound(t *testing.T) {
	arrangement, pivots, camSheet := "drawings/01-general-arrangement.dxf", "drawings/02-pivots.dxf", "drawings/03-cam.dxf"
	for _, c := range testdata.Spread(5, []struct {
		what, name, file, says string
		change                 func(t *testing.T, f fstest.MapFS)
	}{
		{"cam 1 % larger", armPad, corePath, "moment arm", func(t *testing.T, f fstest.MapFS) { edit(t, f, corePath, scaled(1.01)) }},
		{"cam 1 % smaller", study, corePath, "torque", func(t *testing.T, f fstest.MapFS) { edit(t, f, corePath, scaled(0.99)) }},
		{"cheek 1 % larger", armPad, cheekPath, "rim", func(t *testing.T, f fstest.MapFS) { edit(t, f, cheekPath, scaled(1.01)) }},
		{"core turned over", armPad, corePath, "moment arm", func(t *testing.T, f fstest.MapFS) { edit(t, f, corePath, mirror()) }},
		{"both plates turned over", armPad, corePath, "moment arm", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, corePath, mirror())
			edit(t, f, cheekPath, mirror())
		}},
		{"core and cheek swapped", armPad, corePath, "moment arm", func(t *testing.T, f fstest.MapFS) { f[corePath], f[cheekPath] = f[cheekPath], f[corePath] }},
		{"a hole moved by 0.1 mm", armPad, cheekPath, "place", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, cheekPath, hole(func(c *dxf.Circle) { c.Centre.X += 0.1 }))
		}},
		{"a hole moved in both plates", armPad, camSheet, "place", func(t *testing.T, f fstest.MapFS) {
			for _, path := range []string{corePath, cheekPath} {
				edit(t, f, path, hole(func(c *dxf.Circle) { c.Centre.Y -= 0.1 }))
			}
		}},
		{"a hole 0.2 mm too wide", study, cheekPath, "diameter", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, cheekPath, hole(func(c *dxf.Circle) { c.Radius += 0.1 }))
		}},
		{"a piece of the nest moved onto another's hole pattern", armPad, "cut/cam-nest.dxf", "hole", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, "cut/cam-nest.dxf", hole(func(c *dxf.Circle) { c.Centre.X -= 0.1 }))
		}},
		{"a hole left out", study, cheekPath, "number of holes", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, cheekPath, func(d *dxf.Document) {
				i := slices.IndexFunc(d.Entities, func(e dxf.Entity) bool { _, ok := e.(dxf.Circle); return ok })
				d.Entities = slices.Delete(d.Entities, i, i+1)
			})
		}},
		{"a coupler 0.1 mm too long", linked, "cut/coupler.dxf", "from bore to bore", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, "cut/coupler.dxf", hole(func(c *dxf.Circle) { c.Centre.X += 0.1 }))
		}},
		{"a plate lever 1 mm too short", linked, "cut/input-bar.dxf", "torque", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, "cut/plate-lever.dxf", hole(func(c *dxf.Circle) { c.Centre.X -= 1 }))
		}},
		{"a pin's bore 0.2 mm too wide", bars, "cut/output-bar.dxf", "bore for the pin", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, "cut/output-bar.dxf", hole(func(c *dxf.Circle) { c.Radius += 0.1 }))
		}},
		{"a keyway 0.1 mm too wide", keyed, corePath, "keyway's width", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, corePath, keyway(func(v *dxf.Vertex) {
				if v.X > 0 {
					v.X += 0.1
				}
			}))
		}},
		{"a keyway too deep in the cheek", keyed, cheekPath, "keyed bore", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, cheekPath, keyway(func(v *dxf.Vertex) { v.Y += 0.1 }))
		}},
		{"a keyway too deep in both plates", keyed, camSheet, "keyed bore", func(t *testing.T, f fstest.MapFS) {
			for _, path := range []string{corePath, cheekPath} {
				edit(t, f, path, keyway(func(v *dxf.Vertex) { v.Y += 0.1 }))
			}
		}},
		{"a keyway of the nest too deep", keyed, "cut/cam-nest.dxf", "slot", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, "cut/cam-nest.dxf", keyway(func(v *dxf.Vertex) { v.Y += 0.1 }))
		}},
		{"a split hub 1 % larger", clamped, hubPath, "bore", func(t *testing.T, f fstest.MapFS) { edit(t, f, hubPath, scaled(1.01)) }},
		{"a hole of the split hub moved", clamped, hubPath, "off the cam's", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, hubPath, hole(func(c *dxf.Circle) { c.Centre.X += 0.1 }))
		}},
		{"outline twice", study, corePath, "same loop", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, corePath, func(d *dxf.Document) { d.Add(d.Entities[0]) })
		}},
		{"a written length edited", armPad, arrangement, "as written", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, arrangement, dimensioned(dxf.Rotated, say(bump)))
		}},
		{"a written length edited, inches", reclined, arrangement, "as written", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, arrangement, dimensioned(dxf.Rotated, say(bump)))
		}},
		{"a written angle edited", armPad, pivots, "as written", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, pivots, dimensioned(dxf.Angular, say(bump)))
		}},
		{"a written diameter edited", study, camSheet, "as written", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, camSheet, dimensioned(dxf.Diameter, say(bump)))
		}},
		{"text and picture differ", armPad, arrangement, "picture", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, arrangement, dimensioned(dxf.Rotated, func(v *dxf.Dimension) { v.Text += " approx." }))
		}},
		{"no number", armPad, arrangement, "no size", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, arrangement, dimensioned(dxf.Rotated, say(func(string) string { return "as fitted" })))
		}},
		{"a dimension stretched with its text", armPad, "drawings/06-base.dxf", "base", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, "drawings/06-base.dxf", func(d *dxf.Document) {
				for i, e := range d.Entities {
					if v, ok := e.(dxf.Dimension); ok && v.Kind == dxf.Rotated {
						v.Second.X += 1
						v.Second.Y += 1
						v.Measurement = v.Measure(dimensions(d)[0].factor)
						d.Entities[i] = v
					}
				}
			})
		}},
		{"the angles on the left pivot", armPad, pivots, "left pivot", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, pivots, func(d *dxf.Document) {
				var spacing dxf.Dimension
				for i, e := range d.Entities {
					v, ok := e.(dxf.Dimension)
					switch {
					case ok && v.Kind == dxf.Rotated:
						spacing = v
					case ok && v.Kind == dxf.Angular:
						by := math.Abs(spacing.First.X - spacing.Second.X)
						v.Vertex.X, v.First.X, v.Second.X = v.Vertex.X+by, v.First.X+by, v.Second.X+by
						d.Entities[i] = v
					}
				}
			})
		}},
		{"a toe edited in the table", armPad, pivots, "axis position 1", func(t *testing.T, f fstest.MapFS) {
			edit(t, f, pivots, func(d *dxf.Document) {
				for i, e := range d.Entities {
					if v, ok := e.(dxf.Text); ok && strings.Count(v.Value, ".") == 1 && strings.Trim(v.Value, "-0123456789.") == "" && len(v.Value) < 6 {
						v.Value = bump(v.Value)
						d.Entities[i] = v
					}
				}
			})
		}},
	}...) {
		t.Run(c.what, func(t *testing.T) {
			f := output(t, c.name, false)
			c.change(t, f)
			out, err := Folder(f)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.ContainsFunc(out.Differences, func(d Difference) bool {
				return d.File == c.file && strings.Contains(d.String(), c.says)
			}) {
				t.Errorf("not found in %s; differences %v", c.file, out.Differences)
			}
		})
	}
}

func TestFileErrors(t *testing.T) {
	for _, c := range []struct {
		what, path string
		missing    bool
		change     func(fstest.MapFS)
	}{
		{"no report", reportPath, true, func(f fstest.MapFS) { delete(f, reportPath) }},
		{"no cut file", corePath, true, func(f fstest.MapFS) { delete(f, corePath) }},
		{"no sheet", "drawings/07-torque.dxf", true, func(f fstest.MapFS) { delete(f, "drawings/07-torque.dxf") }},
		{"cut short", cheekPath, false, func(f fstest.MapFS) { f[cheekPath] = &fstest.MapFile{Data: f[cheekPath].Data[:2000]} }},
		{"report is no JSON", reportPath, false, func(f fstest.MapFS) { f[reportPath] = &fstest.MapFile{Data: []byte("{")} }},
		{"report of another kind", reportPath, false, func(f fstest.MapFS) { f[reportPath] = &fstest.MapFile{Data: []byte(`{"schema":"x"}`)} }},
	} {
		t.Run(c.what, func(t *testing.T) {
			f := output(t, study, false)
			c.change(f)
			var bad *FileError
			if _, err := Folder(f); !errors.As(err, &bad) || bad.Path != c.path || bad.Missing != c.missing || bad.Hint() == "" {
				t.Errorf("error %v, want a *FileError for %s, missing %v", err, c.path, c.missing)
			} else if bad.Missing != (bad.Line == 0) || !bad.Missing && bad.Column != 1 {
				t.Errorf("%s is told at line %d, column %d", c.path, bad.Line, bad.Column)
			} else if c.missing != errors.Is(err, fs.ErrNotExist) {
				t.Errorf("error %v does not tell the cause", err)
			}
		})
	}
}

func TestParseValue(t *testing.T) {
	for _, c := range []struct {
		text     string
		number   float64
		decimals int
		angle    bool
		ok       bool
	}{
		{"812", 812, 0, false, true}, {"(1240.5)", 1240.5, 1, false, true}, {"4x Ø9", 9, 0, false, true},
		{"R120.5", 120.5, 1, false, true}, {"⌀30 H7", 30, 0, false, true}, {"-45.25", -45.25, 2, false, true},
		{"12.25°", 12.25, 2, true, true}, {"3.15 [80]", 3.15, 2, false, true}, {"250 ±0.1", 250, 0, false, true},
		{"60 = 4 x 15", 60, 0, false, true}, {"as fitted", 0, 0, false, false}, {"", 0, 0, false, false},
		{"(12.50 [317.5])", 12.5, 2, false, true},
	} {
		v, ok := ParseValue(c.text)
		if ok != c.ok || v.Number != c.number || v.Decimals != c.decimals || v.Angle != c.angle {
			t.Errorf("%q: %+v, %v", c.text, v, ok)
		}
	}
	if v, _ := ParseValue("3.15 [80]"); !v.Dual || v.Second != 80 || v.SecondDecimals != 0 {
		t.Errorf("whole millimetres in brackets: %+v", v)
	}
	if v, _ := ParseValue("(12.50 [317.5])"); !v.Dual || v.Second != 317.5 || v.SecondDecimals != 1 {
		t.Errorf("millimetres in brackets: %+v", v)
	}
}

// A folder in inches with millimetres beside them measures up, and an edit of
// the millimetres alone is found.
func TestDualDimensions(t *testing.T) {
	f := output(t, dual, false)
	out, err := Folder(f)
	if err != nil || len(out.Differences) > 0 {
		t.Fatalf("%v, %v", err, out.Differences)
	}
	const sheet = "drawings/03-cam.dxf"
	edit(t, f, sheet, dimensioned(dxf.Rotated, say(func(s string) string {
		at := strings.Index(s, "[")
		return s[:at] + bump(s[at:])
	})))
	if out, err = Folder(f); err != nil || !slices.ContainsFunc(out.Differences, func(d Difference) bool { return strings.Contains(d.String(), "in brackets") }) {
		t.Errorf("%v, %v", err, out.Differences)
	}
}

func BenchmarkFolder(b *testing.B) {
	f := output(b, armPad, false)
	for b.Loop() {
		if _, err := Folder(f); err != nil {
			b.Fatal(err)
		}
	}
}

// swapped exchanges two texts wherever they stand on a sheet.
func swapped(a, b string) func(*dxf.Document) {
	return func(d *dxf.Document) {
		for i, e := range d.Entities {
			if v, ok := e.(dxf.Text); ok && (v.Value == a || v.Value == b) {
				if v.Value == a {
					v.Value = b
				} else {
					v.Value = a
				}
				d.Entities[i] = v
			}
		}
	}
}

// Figures of a table belong to their heading and their row.
func TestTableColumns(t *testing.T) {
	const pivots = "drawings/02-pivots.dxf"
	f := output(t, armPad, false)
	d, err := dxf.Read(bytes.NewReader(f[pivots].Data))
	if err != nil {
		t.Fatal(err)
	}
	toe, cant := column(d, "Toe °"), column(d, "Cant °")
	if len(toe) < 2 || len(cant) != len(toe) || len(column(d, "Toe")) != 0 {
		t.Fatalf("toe %v, cant %v", toe, cant)
	}
	two := func(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }
	for _, c := range []struct{ what, a, b, says string }{
		{"toe and cant swapped", two(toe[0]), two(cant[0]), "axis position 1, Toe °"},
		{"headings swapped", "Toe °", "Cant °", "axis position 1, Cant °"},
		{"positions swapped", two(toe[0]), two(toe[1]), "axis position 2, Toe °"},
		{"a figure gone", two(toe[1]), "see note", "nothing measures"},
		{"a vector turned", "Axis x", "Axis z", "axis position 1, Axis x"},
	} {
		f := output(t, armPad, false)
		edit(t, f, pivots, swapped(c.a, c.b))
		out, err := Folder(f)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(out.Differences, func(d Difference) bool {
			return d.File == pivots && strings.Contains(d.String(), c.says) && strings.Contains(d.What, "in the table")
		}) {
			t.Errorf("%s: not found; differences %v", c.what, out.Differences)
		}
	}
}

// What measures up and what does not lie as close together as the tolerances say:
// on either side of each within a factor of about three.
func TestTolerances(t *testing.T) {
	testdata.Long(t)
	const base = "drawings/06-base.dxf"
	// stretched moves one end of every dimension of the base by some paper mm, and
	// keeps what is stored with it true.
	stretched := func(by float64) func(*dxf.Document) {
		return func(d *dxf.Document) {
			for i, e := range d.Entities {
				if v, ok := e.(dxf.Dimension); ok && v.Kind == dxf.Rotated {
					v.Second.X += by
					v.Second.Y += by
					v.Measurement = v.Measure(dimensions(d)[0].factor)
					d.Entities[i] = v
				}
			}
		}
	}
	moved := func(by float64) func(*dxf.Document) {
		return hole(func(c *dxf.Circle) { c.Centre.X += by })
	}
	wider := func(by float64) func(*dxf.Document) {
		return hole(func(c *dxf.Circle) { c.Radius += by / 2 })
	}
	for _, c := range []struct {
		what, file, says string
		change           func(float64) func(*dxf.Document)
		within           float64 // agrees
		beyond           float64 // does not
	}{
		{"a hole moved", cheekPath, "place", moved, 0.003, 0.015},   // placeTolerance, 0.005 mm
		{"a hole wider", cheekPath, "diameter", wider, 0.003, 0.03}, // on its diameter, twice that
		// outlineTolerance at the largest moment arm
		{"the outline scaled", corePath, "moment arm", scaled, 1 + 0.008/124, 1 + 0.037/124},
		{"the outline scaled", corePath, "torque", scaled, 1 + 0.008/124, 1 + 0.07/124},
		{"a dimension stretched", base, "base", stretched, 0.0001, 0.001}, // paper mm, at 1:10
	} {
		for _, by := range []float64{c.within, c.beyond} {
			f := output(t, armPad, false)
			edit(t, f, c.file, c.change(by))
			out, err := Folder(f)
			if err != nil {
				t.Fatal(err)
			}
			differs := slices.ContainsFunc(out.Differences, func(d Difference) bool { return d.File == c.file && strings.Contains(d.What, c.says) })
			if differs != (by == c.beyond) {
				t.Errorf("%s by %g: %s differs %v, %v", c.what, by, c.says, differs, out.Differences)
			}
		}
	}
}
