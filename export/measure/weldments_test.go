package measure

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"armwright/export/dxf"
	"armwright/testdata"
)

const post = "drawings/103-pivot-post.dxf"

// found reports whether one of the differences is of a file and says something.
func found(list []Difference, file, says string) bool {
	return slices.ContainsFunc(list, func(d Difference) bool { return d.File == file && strings.Contains(d.String(), says) })
}

// A member that stands elsewhere on its sheet is found by its row or its ordinate, a weld
// by its run, an angle by its column.
func TestWeldmentSheets(t *testing.T) {
	f := output(t, armPad, false)
	d, err := dxf.Read(bytes.NewReader(f[post].Data))
	if err != nil {
		t.Fatal(err)
	}
	for _, heading := range []string{"x", "y", "z", "Plan °", "All runs"} {
		if len(column(d, heading)) == 0 {
			t.Fatalf("no figure under %q", heading)
		}
	}
	for _, c := range []struct {
		what, says string
		change     func(*dxf.Document)
	}{
		{"the columns of x and y swapped", "x in the table", swapped("x", "y")},
		{"plan and rise swapped", "Plan ° in the table", swapped("Plan °", "Rise °")},
		{"a run told elsewhere", "run of", swapped("60", "160")},
		{"a column gone", "column All runs", swapped("All runs", "All")},
		{"all ordinates gone", "ordinate of", func(d *dxf.Document) {
			d.Entities = slices.DeleteFunc(d.Entities, func(e dxf.Entity) bool {
				q, ok := e.(dxf.Dimension)
				return ok && q.Kind == dxf.Ordinate
			})
		}},
	} {
		f := output(t, armPad, false)
		path := post
		if strings.HasPrefix(c.says, "ordinate") {
			path = "drawings/102-rail.dxf"
		}
		edit(t, f, path, c.change)
		out, err := Folder(f)
		if err != nil {
			t.Fatal(err)
		}
		if !found(out.Differences, path, c.says) {
			t.Errorf("%s: not found; differences %v", c.what, out.Differences)
		}
	}
}

// A part that the list has moved by 5 mm is not where the sheets have it, whichever way
// it went.
func TestMovedMembers(t *testing.T) {
	for _, id := range testdata.Few(1, "cross-tower", "pivot-post-left", "arm-pad-bracket-right", "inner-cheek-right", "rail-left") {
		for axis := range 3 {
			f := output(t, armPad, false)
			list(t, f, func(v map[string]any) {
				for _, p := range v["parts"].([]any) {
					p := p.(map[string]any)
					if p["id"] == id {
						origin := p["place"].(map[string]any)["origin"].([]any)
						origin[axis] = origin[axis].(float64) + 5
					}
				}
			})
			out, err := Folder(f)
			if err != nil {
				t.Fatal(err)
			}
			if !found(out.Differences, assemblyPath, id+" on sheet") {
				t.Errorf("%s moved by 5 mm along %c: not found; differences %v", id, 'x'+rune(axis), out.Differences)
			}
		}
	}
}

// A weld that no sheet has is found.
func TestMissingWeld(t *testing.T) {
	f := output(t, armPad, false)
	list(t, f, func(v map[string]any) {
		v["joints"] = append(v["joints"].([]any), map[string]any{"kind": "weld", "parts": []string{"rail-right", "rail-left"}})
	})
	out, err := Folder(f)
	if err != nil {
		t.Fatal(err)
	}
	if !found(out.Differences, assemblyPath, "welds on the sheets") {
		t.Errorf("not found; differences %v", out.Differences)
	}
}

// list changes the list of the assembly.
func list(t *testing.T, f fstest.MapFS, change func(map[string]any)) {
	t.Helper()
	var v map[string]any
	if err := json.Unmarshal(f[assemblyPath].Data, &v); err != nil {
		t.Fatal(err)
	}
	change(v)
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	f[assemblyPath] = &fstest.MapFile{Data: data}
}

// Frames of lists undo themselves.
func TestListedPlace(t *testing.T) {
	p := listedPlace{Origin: [3]float64{10, -20, 30}, X: [3]float64{0, 1, 0}, Y: [3]float64{-1, 0, 0}, Z: [3]float64{0, 0, 1}}
	if got := p.point([3]float64{1, 2, 3}); got != [3]float64{8, -19, 33} {
		t.Errorf("point %v", got)
	}
	for k, x := range p.own(p.point([3]float64{1, 2, 3})) {
		if math.Abs(x-float64(k+1)) > 1e-12 {
			t.Errorf("own %d is %g", k, x)
		}
	}
}
