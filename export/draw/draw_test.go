package draw

import (
	"bytes"
	"errors"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"armwright/export/cutfile"
	"armwright/export/draw/platework"
	"armwright/export/dxf"
	"armwright/export/folder"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/solver"
	"armwright/solver/tolerance"
	"armwright/specs"
	"armwright/testdata"
)

// stations are solved once and kept as frames: an arm-pad station with a cam
// on a countershaft, a cam study with the cam on the shaft, a reclined station
// with levers, in inches and third angle, a bench study of a four-bar linkage and a
// reclined station with one.
func stations() []string {
	return []string{"arm-pad-station", "cam-study", "reclined-levers", "linkage-study", "reclined-linkage"}
}

var written sync.Map // of []folder.File by name and options

type order struct {
	name string
	Options
}

// list is what is drawn of a station, which no test may change.
func list(t testing.TB, name string, o Options) []folder.File {
	t.Helper()
	if l, ok := written.Load(order{name, o}); ok {
		return l.([]folder.File)
	}
	r := stationtest.Result(t, name)
	l, err := All(r, holds(t, r), o)
	if err != nil {
		t.Fatal(err)
	}
	written.Store(order{name, o}, l)
	return l
}

// files is what is drawn of a station, by path.
func files(t testing.TB, name string, o Options) map[string][]byte {
	t.Helper()
	return byPath(list(t, name, o))
}

func byPath(list []folder.File) map[string][]byte {
	out := map[string][]byte{}
	for _, f := range list {
		out[f.Path] = f.Data
	}
	return out
}

func document(t testing.TB, data []byte) *dxf.Document {
	t.Helper()
	d, err := dxf.Read(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

var laid sync.Map // of []named by name

// plain are the sheets of a station without tolerances to hold, which no test may change.
func plain(t testing.TB, name string) []named {
	t.Helper()
	if set, ok := laid.Load(name); ok {
		return set.([]named)
	}
	r := stationtest.Result(t, name)
	set, err := sheets(r, holds(t, r))
	if err != nil {
		t.Fatal(err)
	}
	laid.Store(name, set)
	return set
}

// check lays a sheet out and looks for its defects.
func check(s *sheet.Sheet) error {
	d, err := s.Flatten()
	if err != nil {
		return err
	}
	return d.Check()
}

// No text covers another, none lies on an outline, nothing leaves the frame
// (ISO 5457, ISO 129-1).
func TestSheetsAreLegible(t *testing.T) {
	for _, name := range testdata.Few(2, stations()...) {
		set := plain(t, name)
		for i := range set {
			t.Run(name+"/"+set[i].slug, func(t *testing.T) {
				if err := check(&set[i].sheet); err != nil {
					t.Error(err)
				}
				withoutNegativeZero(t, &set[i].sheet)
			})
		}
	}
}

// weldmentPath is that of a sheet 1xx.
var weldmentPath = regexp.MustCompile(`^drawings/1\d\d-`)

func TestFileNames(t *testing.T) {
	plates := map[string][]string{
		"arm-pad-station": {"arm-pad-plate", "arm-pad-saddle", "arm-pad-saddle-left", "cheek-rib", "chest-cheek", "chest-plate", "chest-tab", "counter-bar", "counter-weight", "drive-guard", "drive-guard-left", "foot-seat", "guard-bar", "index-plate", "index-plate-left",
			"inner-cheek", "inner-cheek-left", "outer-cheek", "outer-cheek-left", "rod-bar", "seat-carriage", "sheave-rail-foot", "sheave-tower-foot", "stack-foot", "stack-head",
			"swivel-sole", "swivel-sole-left", "tower-cap"},
		"reclined-linkage": {"arm-pad-plate", "back-bracket", "cheek-rib", "foot-seat", "index-plate", "index-plate-left", "inner-cheek", "inner-cheek-left", "outer-cheek", "outer-cheek-left",
			"plate-ring", "seat-carriage", "swivel-sole", "swivel-sole-left"},
		"reclined-levers": {"arm-pad-plate", "back-bracket", "cheek-rib", "foot-seat", "index-plate", "index-plate-left", "inner-cheek", "inner-cheek-left", "lever", "outer-cheek",
			"plate-ring", "seat-carriage", "swivel-sole", "swivel-sole-left"},
	}
	want := map[string][]string{
		"arm-pad-station":  {"01-general-arrangement", "02-pivots", "03-cam", "04-arm", "05-pads-and-seat", "06-base", "07-torque", "08-people", "09-parts", "10-cutting"},
		"cam-study":        {"03-cam", "07-torque"},
		"linkage-study":    {"03-linkage", "07-torque"},
		"reclined-linkage": {"01-general-arrangement", "02-pivots", "03-linkage", "04-arm", "05-pads-and-seat", "06-base", "07-torque", "08-people", "09-parts", "10-cutting"},
		"reclined-levers":  {"01-general-arrangement", "02-pivots", "04-arm", "05-pads-and-seat", "06-base", "07-torque", "08-people", "09-parts", "10-cutting"},
	}
	for _, name := range testdata.Few(2, stations()...) {
		var got, expect, series []string
		for _, f := range list(t, name, Options{}) {
			if number := regexp.MustCompile(`^drawings/([123]\d\d)-[a-z0-9-]+\.svg$`).FindStringSubmatch(f.Path); number != nil {
				series = append(series, number[1])
			}
			if !regexp.MustCompile(`^drawings/[123]\d\d-`).MatchString(f.Path) {
				got = append(got, f.Path)
			}
		}
		for _, s := range want[name] {
			expect = append(expect, "drawings/"+s+".dxf", "drawings/"+s+".pdf", "drawings/"+s+".svg")
		}
		expect = append(expect, "drawings/drawings.pdf")
		if stationtest.Result(t, name).Frame.Geometry.Cam != nil {
			expect = append(expect, "cut/cam.dxf", "cut/cam-cheek.dxf")
		}
		if stationtest.Result(t, name).Frame.Geometry.Linkage != nil {
			expect = append(expect, "cut/input-bar.dxf", "cut/coupler.dxf", "cut/output-bar.dxf", "cut/plate-lever.dxf")
		}
		for _, p := range plates[name] {
			expect = append(expect, "cut/"+p+".dxf")
		}
		// How many sheets the weldments, the parts and the steps take is theirs to know.
		for i, n := range series {
			if k, _ := strconv.Atoi(n); k%100 == 1 {
				continue
			} else if i == 0 || series[i-1] != strconv.Itoa(k-1) {
				t.Errorf("%s: sheet %s does not follow the one before: %q", name, n, series)
			}
		}
		if stands := stationtest.Result(t, name).Station.Assembly != nil; stands != (len(series) > 0) {
			t.Errorf("%s: %d sheets of parts", name, len(series))
		}
		slices.Sort(expect)
		if !slices.Equal(got, expect) {
			t.Errorf("%s: files %q, want %q", name, got, expect)
		}
		if !slices.IsSorted(got) {
			t.Errorf("%s: files are not sorted", name)
		}
	}
}

func TestSameBytes(t *testing.T) {
	names := stations()
	if !testdata.IsLong() {
		names = []string{"cam-study"}
	}
	for _, name := range names {
		first := files(t, name, Options{})
		again, err := All(stationtest.Result(t, name), holds(t, stationtest.Result(t, name)), Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range again {
			if !bytes.Equal(f.Data, first[f.Path]) {
				t.Errorf("%s: %s differs between two runs", name, f.Path)
			}
		}
	}
}

// The title block's text and the notice reach every sheet in every form that
// holds plain text.
func TestTitleBlock(t *testing.T) {
	f := stationtest.Result(t, "arm-pad-station").Frame
	for path, data := range files(t, "arm-pad-station", Options{}) {
		if !strings.HasSuffix(path, ".svg") {
			continue
		}
		general := "ISO 2768-m"
		if weldmentPath.MatchString(path) {
			general = "ISO 13920-BF"
		}
		for _, want := range []string{f.Name, f.Drawing.Number, f.Drawing.Creator, general, sheet.Notice, "100 mm"} {
			if !bytes.Contains(data, []byte(want)) {
				t.Errorf("%s lacks %q", path, want)
			}
		}
	}
}

// measured is a dimension as a reader of the DXF file finds it: real size in
// mm or rad from the points it measures.
type measured struct {
	kind  dxf.DimKind
	angle float64 // of a rotated one
	value float64
	text  string
}

// measure reads the dimensions of a sheet again: their points on the paper
// times the linear factor of their style.
func measure(t *testing.T, data []byte) []measured {
	t.Helper()
	d := document(t, data)
	factor := map[string]float64{}
	for _, s := range d.DimStyles {
		factor[s.Name] = s.LinearFactor
	}
	var out []measured
	for _, e := range d.Entities {
		if v, ok := e.(dxf.Dimension); ok {
			out = append(out, measured{v.Kind, v.Angle, v.Measure(factor[v.Style]), v.Text})
		}
	}
	return out
}

func has(list []measured, kind dxf.DimKind, angle, want, within float64) bool {
	return slices.ContainsFunc(list, func(m measured) bool {
		return m.kind == kind && math.Abs(m.angle-angle) < 1e-6 && math.Abs(m.value-want) <= within
	})
}

// Closed loop: what a reader measures on the general arrangement is what was
// solved. The points are written to 1e-4 mm of paper, a scale of 1:10 makes
// that 1e-3 mm for each end.
func TestArrangementMeasures(t *testing.T) {
	const within = 3e-3
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		g := stationtest.Result(t, name).Frame.Geometry
		list := measure(t, files(t, name, Options{})["drawings/01-general-arrangement.dxf"])
		for _, c := range []struct {
			what     string
			vertical bool
			want     float64
		}{
			{"pivot height", true, g.Pivots.Height},
			{"lowest seat", true, g.Seat.Lowest},
			{"highest seat", true, g.Seat.Lowest + float64(g.Seat.Positions-1)*g.Seat.Pitch},
			{"base length", false, g.Base.Front - g.Base.Rear},
			{"pivot spacing", false, g.Pivots.Spacing},
			{"pivots from the rear feet", false, -g.Base.Rear},
		} {
			angle := 0.0
			if c.vertical {
				angle = math.Pi / 2
			}
			if !has(list, dxf.Rotated, angle, c.want, within) {
				t.Errorf("%s: no dimension measures the %s of %.3f mm: %+v", name, c.what, c.want, list)
			}
		}
		slope := 0.0
		if g.Back != nil {
			slope = g.Back.Angle
		} else {
			slope = g.Pad.Slope
		}
		if !has(list, dxf.Angular, 0, slope, 1e-4) {
			t.Errorf("%s: no angle of %.4f rad", name, slope)
		}
	}
}

// Toe, cant and swivel angle: the angles drawn measure what was solved, and
// the table gives every position.
func TestAxesMeasure(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		r := stationtest.Result(t, name)
		data := files(t, name, Options{})["drawings/02-pivots.dxf"]
		list := measure(t, data)
		var texts []string
		for _, e := range document(t, data).Entities {
			if v, ok := e.(dxf.Text); ok {
				texts = append(texts, v.Value)
			}
		}
		axes := r.Frame.Geometry.Pivots.Axes
		for i, a := range axes {
			for _, angle := range []float64{a.Toe, a.Cant} {
				if (i == 0 || i == len(axes)-1) && !has(list, dxf.Angular, 0, math.Abs(angle), 1e-4) {
					t.Errorf("%s: no angle of %.4f rad for axis %d", name, angle, i+1)
				}
				if want := sheet.Degrees(angle, 2); !slices.Contains(texts, want) {
					t.Errorf("%s: the table lacks %s of axis %d", name, want, i+1)
				}
			}
		}
		if !has(list, dxf.Rotated, 0, r.Frame.Geometry.Pivots.Spacing, 1e-3) {
			t.Errorf("%s: the spacing is not dimensioned", name)
		}
	}
}

// The dimensions of the cam sheet: guide from the cam axis, bore.
func TestCamSheetMeasures(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		r := stationtest.Result(t, name)
		list := measure(t, files(t, name, Options{})["drawings/03-cam.dxf"])
		c := r.Frame.Geometry.Cam
		for _, w := range [...]struct {
			angle, want float64
		}{{0, c.GuideX}, {math.Pi / 2, c.GuideY}} {
			if math.Abs(w.want) > 0.1 && !has(list, dxf.Rotated, w.angle, math.Abs(w.want), 2e-3) {
				t.Errorf("%s: no dimension of %.3f to the guide: %+v", name, w.want, list)
			}
		}
		if !has(list, dxf.Diameter, 0, r.Frame.Stock.Shaft, 1e-3) {
			t.Errorf("%s: no bore of %g", name, r.Frame.Stock.Shaft)
		}
	}
}

// outlines are the polylines on layer CUT.
func outlines(d *dxf.Document) (out []contour.Path) {
	for _, e := range d.On(dxf.CutLayer) {
		if p, ok := e.(dxf.Polyline); ok {
			out = append(out, p.Path())
		}
	}
	return out
}

// root reads the groove root back from a cut file.
func root(t *testing.T, data []byte) contour.Path {
	t.Helper()
	list := outlines(document(t, data))
	if len(list) != 1 {
		t.Fatalf("%d outlines on layer CUT", len(list))
	}
	return list[0]
}

// The cut file measured back gives the moment arm of the result within 0.2 %
// over the loaded range, in both versions of the format.
func TestCutFileGivesMomentArm(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		r := stationtest.Result(t, name)
		c, err := platework.CamOf(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, r12 := range testdata.Few(1, false, true) {
			path := root(t, files(t, name, Options{R12: r12})["cut/cam.dxf"])
			for i, theta := range r.Resistance.Angles {
				m, err := cam.Measure(path, c.Cable.Diameter, c.Profile.Guide, c.Profile.Ratio, theta)
				if err != nil {
					t.Fatal(err)
				}
				if want := r.Resistance.MomentArm[i]; math.Abs(m.Arm-want) > 0.002*want {
					t.Errorf("%s, %.0f°: the cut file gives %.3f mm, want %.3f", name, theta/specs.Degree, m.Arm, want)
				}
			}
		}
	}
}

// The cheek stands 1.5 cable diameters outside the groove root everywhere
// (rope makers' handbooks, S), and has the same holes.
func TestCheekSurroundsCore(t *testing.T) {
	name := "arm-pad-station"
	c, err := platework.CamOf(stationtest.Result(t, name))
	if err != nil {
		t.Fatal(err)
	}
	f := files(t, name, Options{})
	core, cheek := root(t, f["cut/cam.dxf"]), root(t, f["cut/cam-cheek.dxf"])
	for _, q := range cheek.Points(0.01) {
		if gap, _ := core.Distance(q); math.Abs(gap-1.5*c.Cable.Diameter) > 0.01 {
			t.Fatalf("rim stands %.4f mm off the root at %v, want %.1f", gap, q, 1.5*c.Cable.Diameter)
		}
	}
	holes := func(data []byte) (out []dxf.Circle) {
		for _, e := range document(t, data).On(dxf.CutLayer) {
			if h, ok := e.(dxf.Circle); ok {
				out = append(out, h)
			}
		}
		return out
	}
	if a, b := holes(f["cut/cam.dxf"]), holes(f["cut/cam-cheek.dxf"]); len(a) < 2 || !slices.Equal(a, b) {
		t.Errorf("core has holes %v, cheek %v", a, b)
	}
}

// Cut files hold cut paths and marks alone, in millimetres, the notice first
// (cutting shops' guides, S).
func TestCutFileHoldsOnlyPaths(t *testing.T) {
	for path, data := range files(t, "arm-pad-station", Options{}) {
		if !strings.HasPrefix(path, "cut/") {
			continue
		}
		d := document(t, data)
		if d.Units != dxf.Millimetres || len(d.Comments) == 0 || d.Comments[0] != sheet.Notice {
			t.Errorf("%s: units %v, comments %q", path, d.Units, d.Comments)
		}
		if n := len(d.On(dxf.CutLayer)) + len(d.On(dxf.EtchLayer)); n != len(d.Entities) {
			t.Errorf("%s: %d of %d entities on CUT or ETCH", path, n, len(d.Entities))
		}
		if faults := cutfile.Check(d, cutfile.Rules{}); len(faults) > 0 {
			t.Errorf("%s: %v", path, faults)
		}
	}
}

func TestNoCam(t *testing.T) {
	var missing *platework.MissingError
	if _, err := platework.CamOf(stationtest.Result(t, "reclined-levers")); !errors.As(err, &missing) || missing.Part != "cam" {
		t.Errorf("got %v, want a *platework.MissingError", err)
	}
}

// ISO 5456-2 (M): in first angle what is seen from above stands below the
// front view and what is seen from the right on its left; in third angle above
// and on the right.
func TestProjection(t *testing.T) {
	for name, first := range map[string]bool{"arm-pad-station": true, "reclined-levers": false} {
		d, err := plain(t, name)[0].sheet.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		views := map[string]sheet.PlacedView{}
		for _, v := range d.Views {
			views[v.Title] = v
		}
		side, front, plan := views["Seen from the user's right"], views["Seen from the front"], views["Plan"]
		if below := plan.Origin.Y < side.Origin.Y; below != first {
			t.Errorf("%s: plan below %v, want %v", name, below, first)
		}
		if left := front.Origin.X < side.Origin.X; left != first {
			t.Errorf("%s: front view on the left %v, want %v", name, left, first)
		}
		if side.Scale != front.Scale || side.Scale != plan.Scale {
			t.Errorf("%s: aligned views in scales %v, %v, %v", name, side.Scale, front.Scale, plan.Scale)
		}
	}
}

// Every item of the parts list that has a solid has one balloon, on one sheet, unless
// others hide it in every view.
func TestBalloons(t *testing.T) {
	for _, name := range testdata.Few(1, "arm-pad-station", "reclined-linkage", "reclined-levers") {
		r := stationtest.Result(t, name)
		seen := map[string]int{}
		for _, n := range plain(t, name) {
			// The cam's has its own pictures of core and guide beside its section, those of
			// weldments all their members.
			if n.number > 100 {
				continue
			}
			for _, v := range n.sheet.Views {
				if n.slug == "cam" && !strings.HasPrefix(v.Title, "A-A") {
					continue
				}
				for _, e := range v.Entities {
					if b, ok := e.(sheet.Balloon); ok {
						seen[b.Item]++
					}
				}
			}
		}
		missing := 0
		for _, p := range partlist.Of(r) {
			n := seen[strconv.Itoa(p.Item)]
			if n > 1 || n > 0 && len(p.Parts) == 0 {
				t.Errorf("%s: %s has %d balloons", name, p.Title, n)
			}
			if n == 0 && len(p.Parts) > 0 {
				missing++
				t.Logf("%s: %s has no balloon", name, p.Title)
			}
		}
		if missing > 0 {
			t.Errorf("%s: %d items without a balloon", name, missing)
		}
	}
}

// The polar table gives the groove root: turned back by the cable's half
// diameter its points lie on the cut outline.
func TestPolarTable(t *testing.T) {
	path := root(t, files(t, "cam-study", Options{})["cut/cam.dxf"])
	table := plain(t, "cam-study")[0].sheet.Tables[0]
	if len(table.Rows) < 10 {
		t.Fatalf("%d rows", len(table.Rows))
	}
	for _, row := range table.Rows {
		x, y := parse(t, row[3]), parse(t, row[4])
		if gap, _ := path.Distance(at(x, y)); gap > 0.012 { // coordinates are printed to 0.01
			t.Errorf("at %s° the root (%s, %s) lies %.4f mm off the cut outline", row[0], row[3], row[4], gap)
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

// holds are the dimensions of a station that are to be held.
func holds(t testing.TB, r *solver.Result) []tolerance.Holding {
	t.Helper()
	if l, ok := held.Load(r); ok {
		return l.([]tolerance.Holding)
	}
	list, err := tolerance.HoldsOf(&r.Frame)
	if err != nil {
		t.Fatal(err)
	}
	held.Store(r, list)
	return list
}

// held holds what was held of a result before: working it out takes as long as drawing.
var held sync.Map // of []tolerance.Holding by *solver.Result

// No number on a sheet is a zero with a sign: here of the system of units that is not
// the frame's own, of the others where their sheets are looked at.
func TestNoNegativeZero(t *testing.T) {
	if negative := negative(); !negative.MatchString("-0.000") || !negative.MatchString("0 to -0°") || negative.MatchString("-0.001") || negative.MatchString("10-0.5") {
		t.Fatal("the pattern is wrong")
	}
	names := stations()
	if !testdata.IsLong() {
		names = names[3:4]
	}
	for _, name := range names {
		r := *stationtest.Result(t, name)
		if r.Frame.Drawing.Units == "in" {
			r.Frame.Drawing.Units = "mm"
		} else {
			r.Frame.Drawing.Units = "in"
		}
		set, err := sheets(&r, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i := range set {
			withoutNegativeZero(t, &set[i].sheet)
		}
	}
}

func negative() *regexp.Regexp {
	return regexp.MustCompile(`(?:^|[^0-9.])-0(?:\.0*)?(?:$|[^0-9.])`)
}

// withoutNegativeZero looks at the texts and dimensions of a sheet.
func withoutNegativeZero(t *testing.T, s *sheet.Sheet) {
	t.Helper()
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, p := range d.Primitives {
		if l, ok := p.(sheet.Label); ok {
			said = append(said, l.Value)
		}
	}
	for _, q := range d.Dimensions {
		said = append(said, q.Text)
	}
	if len(said) == 0 {
		t.Errorf("%s says nothing", d.Title)
	}
	negative := negative()
	for _, text := range said {
		if negative.MatchString(text) {
			t.Errorf("%s: %q", d.Title, text)
		}
	}
}
