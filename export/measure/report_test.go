package measure

import (
	"bytes"
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"armwright/export/dxf"
	"armwright/export/report"
	"armwright/export/solid"
	"armwright/export/stationtest"
	"armwright/testdata"
)

// reported changes a value of the report, found by its keys and places in lists.
func reported(t *testing.T, f fstest.MapFS, path string, change func(any) any) {
	t.Helper()
	var top any
	if err := json.Unmarshal(f[reportPath].Data, &top); err != nil {
		t.Fatal(err)
	}
	keys := strings.Split(path, ".")
	at := top
	for i, key := range keys {
		last := i == len(keys)-1
		switch v := at.(type) {
		case map[string]any:
			if _, ok := v[key]; !ok {
				t.Fatalf("the report has no %s", path)
			}
			if last {
				v[key] = change(v[key])
			}
			at = v[key]
		case []any:
			n, err := strconv.Atoi(key)
			if err != nil || n >= len(v) {
				t.Fatalf("the report has no %s", path)
			}
			if last {
				v[n] = change(v[n])
			}
			at = v[n]
		default:
			t.Fatalf("the report has no %s", path)
		}
	}
	data, err := json.Marshal(top)
	if err != nil {
		t.Fatal(err)
	}
	f[reportPath] = &fstest.MapFile{Data: data}
}

func plus(by float64) func(any) any {
	return func(v any) any { return v.(float64) + by }
}

func times(by float64) func(any) any {
	return func(v any) any { return v.(float64) * by }
}

func without(any) any { return nil }

// Each figure that the sheets and cut files give is held against the report: the
// drawings do not measure up to a report that differs by little more than is allowed.
func TestEveryFigureIsHeld(t *testing.T) {
	const (
		mm       = 0.02 // more than a sheet's coordinates at 1:10 are rounded to
		deg      = 0.012
		general  = "drawings/01-general-arrangement.dxf"
		pivots   = "drawings/02-pivots.dxf"
		camSheet = "drawings/03-cam.dxf"
		arm      = "-arm.dxf"
		seats    = "-pads-and-seat.dxf"
		base     = "-base.dxf"
		parts    = "-parts.dxf"
	)
	for _, c := range testdata.Spread(12, []struct {
		name, path string
		change     func(any) any
		file, says string // of the difference; file by its end
	}{
		{armPad, "pivots.right.z", plus(mm), general, "pivot height"},
		{armPad, "pivots.left.y", plus(mm), general, "pivot spacing"},
		{armPad, "pivots.left.y", plus(mm), pivots, "pivot spacing"},
		{armPad, "footprint.length", plus(mm), general, "base length"},
		{armPad, "footprint.length", plus(mm), base, "base length"},
		{armPad, "footprint.width", plus(mm), general, "base width"},
		{armPad, "footprint.width", plus(mm), base, "base width"},
		{armPad, "seat.positions.0", plus(mm), general, "lowest seat"},
		{armPad, "seat.positions.5", plus(mm), general, "highest seat"},
		{armPad, "seat.positions.2", plus(mm), seats, "seat position 3"},
		{armPad, "pad.slope", plus(deg), general, "slope of the pad"},
		{reclined, "back.angle", plus(deg), general, "angle of the back pad"},
		{reclined, "back.length", plus(mm), seats, "length of the back pad"},
		{reclined, "back.angle", plus(deg), seats, "angle of the back pad"},
		{armPad, "pad.near", plus(mm), seats, "pad's lower edge"},
		{armPad, "pad.offset", plus(mm), seats, "pad's face"},
		{armPad, "pad.width", plus(mm), seats, "width of the pad"},
		{armPad, "seat.depth", plus(mm), seats, "depth of the seat"},
		{armPad, "pivots.right.axes.0.toe", plus(deg), pivots, "toe of axis position 1"},
		{armPad, "pivots.right.axes.0.cant", plus(deg), pivots, "cant of axis position 1"},
		{armPad, "pivots.right.axes.2.toe", plus(deg), pivots, "toe of axis position 3"},
		{armPad, "pivots.right.axes.2.cant", plus(deg), pivots, "cant of axis position 3"},
		{armPad, "pivots.right.axes.1.toe", plus(deg), pivots, "axis position 2, Toe ° in the table"},
		{armPad, "pivots.right.axes.1.cant", plus(deg), pivots, "axis position 2, Cant ° in the table"},
		{armPad, "pivots.right.axes.1.axis.0", plus(1.2e-5), pivots, "axis position 2, Axis x in the table"},
		{armPad, "pivots.right.axes.1.axis.1", plus(1.2e-5), pivots, "axis position 2, Axis y in the table"},
		{armPad, "pivots.right.axes.1.axis.2", plus(1.2e-5), pivots, "axis position 2, Axis z in the table"},
		{armPad, "handle.positions.0", plus(mm), arm, "innermost grip"},
		{reclined, "resistance.lever.radius", plus(mm), arm, "plates from the axis"},
		{armPad, "resistance.cam.guide.x", plus(mm), camSheet, "forward of the cam axis"},
		{armPad, "resistance.cam.guide.y", plus(mm), camSheet, "above the cam axis"},
		{armPad, "resistance.cam.centre.x", plus(mm), camSheet, "cam axis, forward of the pivot"},
		{armPad, "resistance.cam.centre.y", plus(mm), camSheet, "cam axis, above the pivot"},
		{armPad, "resistance.cam.moment_arm.3", plus(0.1), corePath, "moment arm at 20°"},
		{armPad, "resistance.delivered.3", times(1.002), corePath, "torque at 20°"},
		{armPad, "resistance.gravity.3", plus(0.05), corePath, "torque at 20°"},
		{armPad, "resistance.cam.cable_tension", times(1.002), corePath, "torque at 20°"},
		{armPad, "resistance.cam.hub.bore", plus(mm), corePath, "bore"},
		{keyed, "resistance.cam.hub.key_width", plus(mm), corePath, "keyway's width"},
		{keyed, "resistance.cam.hub.hub_keyway", plus(mm), corePath, "keyway past the bore"},
		{keyed, "resistance.cam.hub.key_width", without, corePath, "do not agree on whether there is one"},
		{clamped, "resistance.cam.hub.bore", plus(mm), hubPath, "bore"},
		{clamped, "resistance.cam.hub.clamp_screw", without, hubPath, "the report has none"},
		{armPad, "resistance.cam.hub.clamp_screw", func(any) any { return 8.0 }, hubPath, "the report has one"},
		{linked, "resistance.linkage.input", plus(mm), "cut/input-bar.dxf", "from bore to bore"},
		{linked, "resistance.linkage.coupler", plus(mm), "cut/coupler.dxf", "from bore to bore"},
		{linked, "resistance.linkage.output", plus(mm), "cut/output-bar.dxf", "from bore to bore"},
		{linked, "resistance.linkage.radius", plus(mm), "cut/plate-lever.dxf", "from bore to bore"},
		{linked, "resistance.linkage.coupler", plus(mm), "-linkage.dxf", "coupler"},
		{linked, "resistance.linkage.output", plus(mm), "-linkage.dxf", "output bar"},
		{linked, "resistance.linkage.radius", plus(mm), "-linkage.dxf", "plate lever"},
		{linked, "resistance.linkage.ground", plus(mm), "-linkage.dxf", "output shaft, forward"},
		{linked, "resistance.linkage.ground", plus(mm), "-linkage.dxf", "output shaft, above"},
		{linked, "resistance.linkage.phase", plus(deg), "cut/input-bar.dxf", "torque at 20°"},
		{linked, "resistance.delivered.3", plus(0.05), "cut/input-bar.dxf", "torque at 20°"},
		{linked, "resistance.gravity.3", plus(0.05), "cut/input-bar.dxf", "torque at 20°"},
		{armPad, "parts.4.count", plus(1), parts, "item 5"},
		// What is reported in part cannot be held.
		{armPad, "resistance.cam.ratio", without, reportPath, "not reported in full"},
		{armPad, "resistance.cam.guide.side", without, reportPath, "not reported in full"},
		{armPad, "resistance.gravity", func(v any) any { return v.([]any)[1:] }, reportPath, "not reported in full"},
		{armPad, "resistance.delivered", func(v any) any { return v.([]any)[1:] }, reportPath, "not reported in full"},
		{armPad, "resistance.cam.moment_arm", func(v any) any { return v.([]any)[1:] }, reportPath, "not reported in full"},
		{linked, "resistance.linkage.phase", without, reportPath, "not reported in full"},
		{linked, "resistance.linkage.assembly", without, reportPath, "not reported in full"},
		{linked, "resistance.delivered", func(v any) any { return v.([]any)[1:] }, reportPath, "not reported in full"},
	}...) {
		f := output(t, c.name, false)
		reported(t, f, c.path, c.change)
		out, err := Folder(f)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(out.Differences, func(d Difference) bool {
			return strings.HasSuffix(d.File, c.file) && strings.Contains(d.String(), c.says)
		}) {
			t.Errorf("%s: %s changed: no difference of %s tells %q; there are %v", c.name, c.path, c.file, c.says, out.Differences)
		}
	}
}

// The cable must not bend tighter than it may: a report that asks for more finds the
// root too tight, one that asks for a hair more does not.
func TestRootBendsWideEnough(t *testing.T) {
	for _, c := range []struct {
		by    float64
		tight bool
	}{{1.001, false}, {1.03, true}} {
		f := output(t, armPad, false)
		reported(t, f, "resistance.cam.least_radius", times(c.by))
		reported(t, f, "resistance.cam.required_radius", times(c.by*1.02))
		out, err := Folder(f)
		if err != nil {
			t.Fatal(err)
		}
		tight := slices.ContainsFunc(out.Differences, func(d Difference) bool {
			return d.File == corePath && strings.Contains(d.What, "least radius")
		})
		if tight != c.tight {
			t.Errorf("asked for %g times the radius: found %v, want %v", c.by, tight, c.tight)
		}
	}
}

// Faults of cut files and sheets that leave every figure of the report alone.
func TestFilesAgreeWithEachOther(t *testing.T) {
	const camSheet, pivots = "drawings/03-cam.dxf", "drawings/02-pivots.dxf"
	curved := func(p dxf.Polyline) bool {
		return p.Closed && slices.ContainsFunc(p.Vertices, func(v dxf.Vertex) bool { return v.Bulge != 0 })
	}
	outline := func(d *dxf.Document) int { // the largest closed loop with arcs
		best, largest := -1, 0.0
		for i, e := range d.Entities {
			if p, ok := e.(dxf.Polyline); ok && curved(p) {
				if a := p.Path().Area(); a*a > largest {
					best, largest = i, a*a
				}
			}
		}
		return best
	}
	moved := func(p dxf.Polyline, by float64) dxf.Polyline {
		p.Vertices = slices.Clone(p.Vertices)
		for i := range p.Vertices {
			p.Vertices[i].X += by
		}
		return p
	}
	for _, c := range testdata.Spread(5, []struct {
		what, name, file string
		says             string // "" where nothing may be found
		change           func(*dxf.Document)
	}{
		{"the outline left open", study, corePath, "no closed outline", func(d *dxf.Document) {
			i := outline(d)
			p := d.Entities[i].(dxf.Polyline)
			p.Closed = false
			d.Entities[i] = p
		}},
		{"the drawn outlines moved", armPad, camSheet, "drawn outline off", func(d *dxf.Document) {
			for i, e := range d.Entities {
				if p, ok := e.(dxf.Polyline); ok && curved(p) {
					d.Entities[i] = moved(p, 0.05)
				}
			}
		}},
		{"the drawn outlines gone", armPad, camSheet, "it is not drawn", func(d *dxf.Document) {
			d.Entities = slices.DeleteFunc(d.Entities, func(e dxf.Entity) bool { p, ok := e.(dxf.Polyline); return ok && p.Closed })
		}},
		{"the same outline on another layer, moved", armPad, camSheet, "", func(d *dxf.Document) {
			p := moved(d.Entities[outline(d)].(dxf.Polyline), 0.5)
			p.Layer = "HIDDEN"
			d.Entities = slices.Insert(d.Entities, 0, dxf.Entity(p))
		}},
		{"the same outline, open and moved", armPad, camSheet, "", func(d *dxf.Document) {
			p := moved(d.Entities[outline(d)].(dxf.Polyline), 0.5)
			p.Closed = false
			d.Entities = slices.Insert(d.Entities, 0, dxf.Entity(p))
		}},
		{"the bore's dimension without its fit", armPad, camSheet, "no diameter with the fit", func(d *dxf.Document) {
			for i, e := range d.Entities {
				if v, ok := e.(dxf.Dimension); ok && strings.HasSuffix(v.Text, boreFit) {
					say(func(s string) string { return strings.TrimSuffix(s, boreFit) })(&v)
					d.Entities[i] = v
				}
			}
		}},
		{"a length of the same fit before the bore's", armPad, camSheet, "", func(d *dxf.Document) {
			for _, e := range d.Entities {
				if v, ok := e.(dxf.Dimension); ok && v.Kind == dxf.Rotated {
					v.Picture = slices.Clone(v.Picture)
					say(func(s string) string { return s + boreFit })(&v)
					d.Entities = slices.Insert(d.Entities, 0, dxf.Entity(v))
					return
				}
			}
		}},
		{"a figure of the table gone", armPad, pivots, "2 figures stand under this heading, want 3", func(d *dxf.Document) {
			toe := column(d, "Toe °")
			gone := strconv.FormatFloat(toe[2], 'f', 2, 64)
			d.Entities = slices.DeleteFunc(d.Entities, func(e dxf.Entity) bool { v, ok := e.(dxf.Text); return ok && v.Value == gone })
		}},
		{"an angle at neither pivot", armPad, pivots, "angles stand at the right pivot", func(d *dxf.Document) {
			for i, e := range d.Entities {
				if v, ok := e.(dxf.Dimension); ok && v.Kind == dxf.Angular {
					v.Vertex.Y, v.First.Y, v.Second.Y = v.Vertex.Y+1, v.First.Y+1, v.Second.Y+1
					d.Entities[i] = v
				}
			}
		}},
		{"a length's text in degrees", armPad, "drawings/06-base.dxf", "no size of its kind", dimensioned(dxf.Rotated, say(func(s string) string { return s + "°" }))},
		{"half the nest gone", armPad, "cut/cam-nest.dxf", "pieces and holes", func(d *dxf.Document) {
			i := outline(d)
			d.Entities = slices.Delete(d.Entities, i, i+1)
		}},
		{"a split hub off its axis", clamped, hubPath, "bore off the axis", mapped(func(p dxf.Point) dxf.Point { return dxf.Point{X: p.X + 0.05, Y: p.Y} }, 1, 1)},
		{"a bar without its second bore", linked, "cut/coupler.dxf", "two bores", func(d *dxf.Document) {
			i := slices.IndexFunc(d.Entities, func(e dxf.Entity) bool { _, ok := e.(dxf.Circle); return ok })
			d.Entities = slices.Delete(d.Entities, i, i+1)
		}},
	}...) {
		f := output(t, c.name, false)
		edit(t, f, c.file, c.change)
		out, err := Folder(f)
		if err != nil {
			t.Fatal(err)
		}
		found := slices.ContainsFunc(out.Differences, func(d Difference) bool {
			return d.File == c.file && strings.Contains(d.String(), c.says)
		})
		if found != (c.says != "") {
			t.Errorf("%s: want %q of %s; differences %v", c.what, c.says, c.file, out.Differences)
		}
	}
}

// Pieces and masses of the parts list are those of the assembly.
func TestAssemblyIsHeld(t *testing.T) {
	r := stationtest.Result(t, armPad)
	var list bytes.Buffer
	if err := solid.WriteList(&list, r.Station.Assembly, "notice"); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ what, from, to, says string }{
		{"as written", "", "", ""},
		{"a mass doubled", `"item": "rail",`, `"item": "rail", "mass": 100,`, "mass of the parts"},
		{"a cable less", `"cable-left"`, ``, "pieces"},
	} {
		f := output(t, armPad, false)
		text := list.String()
		switch c.from {
		case "":
		case `"cable-left"`:
			text = strings.Replace(strings.Replace(text, "\"cable-right\",\n  \"cable-left\"", `"cable-right"`, 1), c.from, c.from, 1)
		default:
			text = strings.Replace(text, `"mass":`, `"was":`, 1)
		}
		f[assemblyPath] = &fstest.MapFile{Data: []byte(text)}
		var rep report.Report
		if err := json.Unmarshal(f[reportPath].Data, &rep); err != nil {
			t.Fatal(err)
		}
		rep.Files = append(rep.Files, report.File{Path: assemblyPath})
		data, err := json.Marshal(rep)
		if err != nil {
			t.Fatal(err)
		}
		f[reportPath] = &fstest.MapFile{Data: data}
		out, err := Folder(f)
		if err != nil {
			t.Fatal(err)
		}
		found := slices.ContainsFunc(out.Differences, func(d Difference) bool {
			return d.File == assemblyPath && strings.Contains(d.What, c.says)
		})
		if found != (c.says != "") {
			t.Errorf("%s: differences %v", c.what, out.Differences)
		}
	}
}
