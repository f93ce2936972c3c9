package measure

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"armwright/export/dxf"
	"armwright/testdata"
)

// mitred stands for the sheet of tubes on which there is a mitre.
const mitred = "mitred tubes"

// named is the path of the first sheet of a name.
func named(t *testing.T, f fstest.MapFS, name string) string {
	t.Helper()
	suffix := "-" + name + ".dxf"
	if name == mitred {
		suffix = "-tubes.dxf"
	}
	var all []string
	for path := range f {
		if !strings.HasPrefix(path, "drawings/") || !strings.HasSuffix(path, suffix) {
			continue
		}
		if name == mitred && !bytes.Contains(f[path].Data, []byte("AcDb3PointAngularDimension")) {
			continue
		}
		all = append(all, path)
	}
	if len(all) == 0 {
		t.Fatalf("no sheet %q", name)
	}
	return slices.Min(all)
}

// Rows of a written sheet are read in all their columns.
func TestMadeRows(t *testing.T) {
	for _, name := range testdata.Few(1, armPad, reclined) {
		f := output(t, name, false)
		var rows []madeRow
		for path := range f {
			if !strings.HasSuffix(path, "-tubes.dxf") {
				continue
			}
			d, err := dxf.Read(bytes.NewReader(f[path].Data))
			if err != nil {
				t.Fatal(err)
			}
			rows = append(rows, madeRows(d)...)
		}
		ends, holes := 0, 0
		for _, r := range rows {
			switch {
			case r.angle:
				ends++
			case r.feature == "hole" && r.size > 8 && r.size < 15 && !math.IsNaN(r.x):
				holes++
			}
		}
		if holes < 6 || name == armPad && ends != 2 { // pivot post, slide of the chest pad
			t.Errorf("%s: %d holes, %d ends: %+v", name, holes, ends, rows)
		}
	}
}

// What a shop would build in if a sheet of parts said otherwise than the rest.
func TestFaultsOfMadePartsAreFound(t *testing.T) {
	testdata.Long(t)
	for _, c := range []struct {
		what, name, sheet, says string
		change                  func(*dxf.Document)
	}{
		{"a hole of a tube moved with its figure", armPad, "tubes", "off a place of the table", redrawn(dxf.Ordinate, func(v *dxf.Dimension) { v.First.X += 0.6 })},
		{"a mitre turned with its figure", armPad, mitred, "mitre", redrawn(dxf.Angular, func(v *dxf.Dimension) {
			s, c := math.Sincos(0.02)
			dx, dy := v.Second.X-v.Vertex.X, v.Second.Y-v.Vertex.Y
			v.Second.X, v.Second.Y = v.Vertex.X+c*dx-s*dy, v.Vertex.Y+s*dx+c*dy
		})},
		{"a hole of a plate drawn elsewhere", armPad, "plates", "drawn otherwise", pierce(func(c *dxf.Circle) { c.Centre.X += 0.5 })},
		{"a hole of a plate drawn larger", armPad, "plates", "drawn otherwise", pierce(func(c *dxf.Circle) { c.Radius += 0.3 })},
		{"a place in the table", reclined, "plates", "drawn otherwise", cell("x", "front", func(t *dxf.Text) { t.Value = bump(t.Value) })},
		{"a mitre in the table", armPad, mitred, "mitre in the table", func(d *dxf.Document) {
			for i, e := range d.Entities {
				if v, ok := e.(dxf.Text); ok && strings.HasSuffix(v.Value, "°") && strings.Contains(v.Value, ".") {
					v.Value = "31.00°"
					d.Entities[i] = v
				}
			}
		}},
	} {
		t.Run(c.what, func(t *testing.T) {
			f := output(t, c.name, false)
			path := named(t, f, c.sheet)
			edit(t, f, path, c.change)
			notice(t, f, path, c.says)
		})
	}
	t.Run("a hole cut elsewhere", func(t *testing.T) {
		f := output(t, armPad, false)
		edit(t, f, "cut/index-plate.dxf", hole(func(c *dxf.Circle) { c.Centre.X += 0.2 }))
		notice(t, f, named(t, f, "plates"), "index-plate.dxf, off the table")
	})
}

// redrawn moves the points of the last dimension of a kind, and lets it say what they
// measure.
func redrawn(kind dxf.DimKind, change func(*dxf.Dimension)) func(*dxf.Document) {
	return func(d *dxf.Document) {
		factors := map[string]float64{}
		for _, s := range d.DimStyles {
			factors[s.Name] = s.LinearFactor
		}
		for i := len(d.Entities) - 1; i >= 0; i-- {
			v, ok := d.Entities[i].(dxf.Dimension)
			if !ok || v.Kind != kind || v.Measurement == 0 {
				continue
			}
			change(&v)
			v.Measurement = v.Measure(factors[v.Style])
			d.Entities[i] = v
			return
		}
	}
}

// pierce changes the first circle of a view: the projection's symbol has smaller ones.
func pierce(change func(*dxf.Circle)) func(*dxf.Document) {
	return func(d *dxf.Document) {
		for i, e := range d.Entities {
			if c, ok := e.(dxf.Circle); ok && c.Layer == "VISIBLE" && c.Radius > 3 {
				change(&c)
				d.Entities[i] = c
				return
			}
		}
	}
}

// cell changes the first cell under a heading whose row says a word.
func cell(heading, word string, change func(*dxf.Text)) func(*dxf.Document) {
	return func(d *dxf.Document) {
		rows := tableRows(d, heading, "From")
		at := slices.IndexFunc(rows, func(r []string) bool { return r[1] == word && r[0] != "" })
		for i, e := range d.Entities {
			if v, ok := e.(dxf.Text); ok && v.Value == rows[at][0] {
				change(&v)
				d.Entities[i] = v
			}
		}
	}
}

func notice(t *testing.T, f fstest.MapFS, path, says string) {
	t.Helper()
	out, err := Folder(f)
	if err != nil {
		t.Fatal(err)
	}
	if !found(out.Differences, path, says) {
		t.Errorf("not found in %s; differences %v", path, out.Differences)
	}
}
