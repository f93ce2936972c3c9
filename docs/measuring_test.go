package docs_test

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"armwright/export/draw"
	"armwright/export/report"
	"armwright/geometry/cam"
	"armwright/specs"
	"armwright/testdata"
)

// What a tape and an angle gauge tell apart, at best: half a division.
const (
	tape  = 0.5 + 1e-9  // mm
	gauge = 0.25 + 1e-9 // deg
)

// field finds a value of a frame's geometry by its dotted key.
func field(t *testing.T, g *specs.Geometry, key string) float64 {
	t.Helper()
	v := reflect.ValueOf(*g)
	for _, part := range strings.Split(key, ".") {
		if v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
		found := false
		for i := range v.NumField() {
			if v.Type().Field(i).Tag.Get("key") == part {
				v, found = v.Field(i), true
				break
			}
		}
		if !found {
			t.Fatalf("a frame has no %s", key)
		}
	}
	if v.CanInt() {
		return float64(v.Int())
	}
	return v.Float()
}

// reading parses "813 mm", "44.5 deg" or "6" into inside units, with what its
// tool may be off by.
func reading(t *testing.T, s string) (value, off float64) {
	t.Helper()
	for suffix, kind := range map[string]specs.Kind{" mm": specs.Length, " deg": specs.Angle} {
		if strings.HasSuffix(s, suffix) {
			v, err := specs.ParseQuantity(s, kind)
			if err != nil {
				t.Fatal(err)
			}
			if kind == specs.Angle {
				return v, gauge * math.Pi / 180
			}
			return v, tape
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v, 0
}

// Every reading of the page is what its tool makes of the solved station, is
// shown on the sheet named, and is what the measured frame holds.
func TestMeasuring(t *testing.T) {
	testdata.Long(t)
	text := page(t, "measuring.md")
	solved := judged(t, "measuring/solved.yaml")
	measured := judged(t, "measuring/measured.yaml")
	files, err := draw.All(solved, nil, draw.Options{})
	if err != nil {
		t.Fatal(err)
	}
	sheets := map[string]map[string]bool{} // texts by sheet number
	words := regexp.MustCompile(`<text[^>]*>([^<]*)</text>`)
	for _, f := range files {
		if name, ok := strings.CutPrefix(f.Path, "drawings/"); ok && strings.HasSuffix(name, ".svg") {
			sheets[name[:2]] = map[string]bool{}
			for _, m := range words.FindAllStringSubmatch(string(f.Data), -1) {
				sheets[name[:2]][m[1]] = true
			}
		}
	}
	rows := headed(t, text, "key", "how", "sheet")
	if len(rows) < 20 {
		t.Fatalf("%d readings", len(rows))
	}
	was, is := &solved.Frame.Geometry, &measured.Frame.Geometry
	for _, row := range rows {
		key, sheet, shown := row[0], row[2], row[3]
		got, off := reading(t, row[4])
		if !sheets[sheet][shown] {
			t.Errorf("%s: sheet %s does not show %q", key, sheet, shown)
		}
		if want := field(t, was, key); math.Abs(got-want) > off {
			t.Errorf("%s: read %s, is %v", key, row[4], want)
		}
		if have := field(t, is, key); math.Abs(have-got) > 1e-6 {
			t.Errorf("%s: read %s, the frame file has %v", key, row[4], have)
		}
	}
	for i, row := range headed(t, text, "position", "to the rear, mm on 300") {
		for k, of := range [2]func(specs.Axis) float64{func(a specs.Axis) float64 { return a.Toe }, func(a specs.Axis) float64 { return a.Cant }} {
			offset, _ := strconv.ParseFloat(row[1+k], 64)
			angle, _ := reading(t, row[3+k])
			if want := 300 * math.Tan(of(was.Pivots.Axes[i])); math.Abs(offset-want) > tape {
				t.Errorf("axis %d: %s mm on 300, is %.2f", i+1, row[1+k], want)
			}
			if want := math.Atan(offset / 300); math.Abs(angle-want) > 0.05*math.Pi/180+1e-9 {
				t.Errorf("axis %d: %s, atan says %.3f", i+1, row[3+k], want*180/math.Pi)
			}
			if math.Abs(of(is.Pivots.Axes[i])-angle) > 1e-9 {
				t.Errorf("axis %d: the frame file has another angle than %s", i+1, row[3+k])
			}
		}
	}
	arms := headed(t, text, "flexion, deg")
	loaded := solved.Frame.Resistance.Loaded
	law, err := cam.NewLaw(loaded.From, loaded.To, was.Cam.Law)
	if err != nil {
		t.Fatal(err)
	}
	if len(arms) != 2 || len(arms[1])-1 != len(is.Cam.Law) {
		t.Fatalf("moment arms %v, the frame file has %d", arms, len(is.Cam.Law))
	}
	for i, have := range is.Cam.Law {
		theta := loaded.From + (loaded.To-loaded.From)*float64(i)/float64(len(is.Cam.Law)-1)
		read, _ := strconv.ParseFloat(arms[0][1+i], 64)
		smooth, _ := strconv.ParseFloat(arms[1][1+i], 64)
		if want, _, _ := law.At(theta); math.Abs(read-want) > tape || math.Abs(smooth-read) > tape || have != smooth {
			t.Errorf("moment arm at %.1f: read %v, smoothed %v, is %.2f, the frame file has %v", theta*180/math.Pi, read, smooth, want, have)
		}
	}

	if _, err := draw.All(measured, nil, draw.Options{}); err != nil {
		t.Errorf("the measured frame cannot be drawn: %v", err)
	}

	var b strings.Builder
	b.WriteString("| requirement | solved | measured |\n|---|---|---|\n")
	one, two := report.New(solved, "", nil), report.New(measured, "", nil)
	for i, q := range one.Requirements {
		switch q.ID {
		case "axis-offset", "axis-tilt", "hand-path", "lean", "seat-range", "hip-on-seat", "torque-match", "cam-bend", "cable-factor", "tilt-occupied", "tilt-entry", "seat-load":
			fmt.Fprintf(&b, "| %s | %s | %s |\n", q.ID, specs.Metric.Figure(q.Value, q.Unit), specs.Metric.Figure(two.Requirements[i].Value, q.Unit))
		}
	}
	made(t, "measuring.md", "margins", b.String())
}
