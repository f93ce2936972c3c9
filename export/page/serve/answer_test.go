//go:build !js

package serve_test

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"encoding/json"
	"encoding/xml"
	"io"
	"maps"
	"math"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armwright/export/dxf"
	"armwright/solver"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// What the page shows of a station is what check says of it.
func TestAnswersAreThoseOfCheck(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	s := begin(t, b)
	first := s.solve("", nil)
	if first.Verdict != "met" || !first.Solved || first.Station == "" {
		t.Fatalf("solved: %+v", first)
	}
	want, err := solver.Solve(t.Context(), b, nil)
	if err != nil {
		t.Fatal(err)
	}
	steps := first.Motion.Steps
	if len(steps) != len(want.Resistance.Angles) {
		t.Fatalf("%d steps of motion, want %d", len(steps), len(want.Resistance.Angles))
	}
	for i, m := range steps {
		if math.Abs(m.Delivered-want.Resistance.Middle.Delivered[i]/1000) > 0.006 || math.Abs(m.Arm-want.Resistance.MomentArm[i]) > 0.006 {
			t.Errorf("at %g deg: arm %g, torque %g; solved %g, %g", m.Flexion, m.Arm, m.Delivered, want.Resistance.MomentArm[i], want.Resistance.Middle.Delivered[i]/1000)
		}
	}
	// Another load on the same cam: the torque of the cam grows with it.
	status, heavier := s.evaluate(first.Station, map[string]string{"resistance.load.middle": "30 kg"})
	if status != 200 || heavier.Solved || heavier.Station != first.Station {
		t.Fatalf("judged: %d, %+v", status, heavier)
	}
	f := want.Frame
	f.Resistance.Load.Middle = 30
	check, err := solver.Check(f)
	if err != nil {
		t.Fatal(err)
	}
	for i, m := range heavier.Motion.Steps {
		if math.Abs(m.Delivered-check.Resistance.Middle.Delivered[i]/1000) > 0.006 {
			t.Errorf("30 kg at %g deg: %g N m, checked %g", m.Flexion, m.Delivered, check.Resistance.Middle.Delivered[i]/1000)
		}
	}
	// The same station unchanged is the solved one, with all the search knows.
	if _, same := s.evaluate(first.Station, nil); !same.Solved || same.Parts != first.Parts {
		t.Error("a station that was left alone is not the solved one")
	}
	// Solved again, and for a brief with the same changes, it is the same.
	if again := s.solve("", nil); again.Station != first.Station {
		t.Errorf("solved again it is %s, before %s", again.Station, first.Station)
	}
}

// The picture of the moving cam holds by itself: the moment arm is the distance
// of the axis from the line of the cable, and stands across it.
func TestMotionIsOneMechanism(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	_, _, body := s.do("POST", "/solve", state("", nil), nil)
	lines := bytes.Split(bytes.TrimSpace(body), []byte("\n"))
	var last struct {
		Answer struct {
			Motion struct {
				Guide [3]float64
				Steps []struct {
					Contact, Leave, Foot [2]float64
					Arm                  float64
				}
			}
		}
	}
	if err := json.Unmarshal(lines[len(lines)-1], &last); err != nil {
		t.Fatal(err)
	}
	m := last.Answer.Motion
	for i, q := range m.Steps {
		dx, dy := q.Leave[0]-q.Contact[0], q.Leave[1]-q.Contact[1]
		span := math.Hypot(dx, dy)
		if away := math.Abs(q.Contact[0]*dy-q.Contact[1]*dx) / span; math.Abs(away-q.Arm) > 0.05 {
			t.Errorf("step %d: the cable passes the axis at %g mm, moment arm %g", i, away, q.Arm)
		}
		if across := (q.Foot[0]*dx + q.Foot[1]*dy) / span / q.Arm; math.Abs(across) > 1e-3 || math.Abs(math.Hypot(q.Foot[0], q.Foot[1])-q.Arm) > 0.02 {
			t.Errorf("step %d: the moment arm ends at %v", i, q.Foot)
		}
		if r := math.Hypot(q.Leave[0]-m.Guide[0], q.Leave[1]-m.Guide[1]); math.Abs(r-m.Guide[2]) > 0.02 {
			t.Errorf("step %d: the cable meets the sheave %g mm from its centre, radius %g", i, r, m.Guide[2])
		}
	}
	if len(m.Steps) < 10 {
		t.Errorf("%d steps", len(m.Steps))
	}
}

// ask puts a question and reads the answer.
func (s *served) ask(path string, body, into any) {
	s.t.Helper()
	data, err := json.Marshal(body)
	if err != nil {
		s.t.Fatal(err)
	}
	status, _, out := s.do("POST", path, string(data), nil)
	if err := json.Unmarshal(out, into); err != nil || status != 200 {
		s.t.Fatalf("%s: %d, %v, %.200s", path, status, err, out)
	}
}

// Every fragment is well-formed, the station in space has its bodies, and the views
// drawn in lines come when they are asked for.
func TestFragmentsOfAStation(t *testing.T) {
	testdata.Long(t)
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		s := begin(t, solvertest.Brief(t, name))
		a := s.solve("", nil)
		if a.Scene == nil || len(a.Scene.Parts) < 30 {
			t.Fatalf("%s: no scene", name)
		}
		var keys []string
		for _, p := range a.Scene.Parts {
			keys = append(keys, p.Mesh)
		}
		var meshes map[string]struct{ Points []int }
		s.ask("/meshes", append(keys, "nothing"), &meshes)
		for _, k := range keys {
			if len(meshes[k].Points) == 0 {
				t.Errorf("%s: no mesh %s", name, k)
			}
		}
		if strings.Contains(a.Parts.Table+a.Parts.Head, "NaN") || strings.Count(a.Parts.Table, "<li") < 25 {
			t.Errorf("%s: table of %d rows", name, strings.Count(a.Parts.Table, "<li"))
		}
		var viewed struct{ Answer *answer }
		s.ask("/evaluate", map[string]any{"station": a.Station, "shown": a.Shown}, &viewed)
		if viewed.Answer.Scene != nil {
			t.Errorf("%s: the scene that is shown is sent again", name)
		}
		var names []string
		var drawn struct{ Views []struct{ Name, SVG string } }
		s.ask("/views", map[string]any{"station": a.Station}, &drawn)
		for _, p := range drawn.Views {
			names = append(names, p.Name)
			d := xml.NewDecoder(strings.NewReader(p.SVG))
			for {
				if _, err := d.Token(); err == io.EOF {
					break
				} else if err != nil {
					t.Errorf("%s, %s: %v", name, p.Name, err)
					break
				}
			}
		}
		if got := strings.Join(names, " "); got != "side front plan axonometric" {
			t.Errorf("%s: views %q", name, got)
		}
		// Narrowing a range moves the geometry at hand into it, and the scene with it.
		_, moved := s.evaluate(a.Station, map[string]string{"posture.pivot_height.from": "1050 mm", "posture.pivot_height.to": "1100 mm"})
		if moved.Shown == a.Shown || moved.Scene == nil {
			t.Errorf("%s: raised pivots leave the scene as it was: %+v", name, moved.Problems)
		}
	}
}

// A brief, a frame and an example are opened, each with the controls that are its own;
// a file that is none is told with its place.
func TestOpening(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	type opened struct {
		Brief, Name, Text, Station, Controls string
		Bench, Inches                        bool
		Trouble                              *answer
	}
	var own, frame, again, none opened
	s.ask("/open", map[string]any{}, &own)
	if !own.Bench || own.Station != "" || strings.Contains(own.Controls, "posture.") || !strings.Contains(own.Controls, `data-path="resistance.load.middle"`) {
		t.Errorf("the page's own brief: %+v", own)
	}
	s.ask("/open", map[string]any{"name": "frame.yaml", "text": string(testdata.Frame("reclined-levers"))}, &frame)
	if frame.Bench || !frame.Inches || frame.Station == "" || !strings.Contains(frame.Controls, `data-path="posture.back_angle.from"`) || strings.Contains(frame.Controls, "posture.pad_slope") {
		t.Errorf("a frame: %.300v", frame)
	}
	// Played with: the frame's own geometry is judged, and it is what check says.
	var judged struct{ Answer *answer }
	s.ask("/evaluate", map[string]any{"brief": frame.Brief, "station": frame.Station}, &judged)
	if judged.Answer == nil || judged.Answer.Verdict != "met" || judged.Answer.Solved {
		t.Errorf("a frame judged: %+v", judged.Answer)
	}
	s.ask("/open", map[string]any{"brief": frame.Brief}, &again)
	if again.Text != frame.Text || again.Text == "" {
		t.Error("the brief opened before is not found by its number")
	}
	bench := solvertest.Brief(t, "cam-study")
	var known opened
	s.ask("/open", map[string]any{"example": "arm-pad-station"}, &known)
	var another opened
	begin(t, bench).ask("/open", map[string]any{"brief": known.Brief}, &another)
	if another.Text != known.Text {
		t.Error("an address with an example's number does not find it")
	}
	s.ask("/open", map[string]any{"name": "x.yaml", "text": "armwright: brief/1\nname: X\nkind: arm-pad\nresistance: 3\n"}, &none)
	if none.Trouble == nil || len(none.Trouble.Problems) == 0 || !strings.Contains(none.Trouble.Problems[0].Message, "resistance") {
		t.Errorf("no brief: %+v", none.Trouble)
	}
	var curve struct {
		Table   string
		Trouble *answer
	}
	s.ask("/curve", map[string]any{"name": "c.csv", "text": "flexion,strength\n5,30\n30,44\n60,50\n130,35\n"}, &curve)
	if curve.Table != "5 deg 30, 30 deg 44, 60 deg 50, 130 deg 35" {
		t.Errorf("a curve: %q", curve.Table)
	}
	s.ask("/curve", map[string]any{"text": "5,x\n6,1\n"}, &curve)
	if curve.Trouble == nil {
		t.Error("a curve that is none is taken")
	}
}

func TestBadValuesAreNamed(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	first := s.solve("", nil)
	for _, c := range []struct{ path, text, at, want string }{
		{"resistance.load.light", "30 kg", "resistance.load.light", "is not below the middle load"},
		{"resistance.load.light", "30", "resistance.load.light", "has no unit"},
		{"resistance.load.light", "NaN kg", "resistance.load.light", "not"},
		{"limits.hand_path", "1 km", "limits.hand_path", "unknown unit"},
		{"limits.torque_match", "99 %", "limits.torque_match", "is above 60 %"},
		{"resistance.nothing", "1 kg", "resistance.nothing", "unknown key"},
		{"stock.cable", "rope", "stock.cable", "not a known value"},
	} {
		for _, path := range []string{"/evaluate", "/solve", "/brief", "/files"} {
			_, _, body := s.do("POST", path, state(first.Station, map[string]string{c.path: c.text}), nil)
			var got struct{ Trouble *answer }
			if err := json.Unmarshal(body, &got); err != nil || got.Trouble == nil || len(got.Trouble.Problems) == 0 {
				t.Fatalf("%s of %s = %s: %v, %.200s", path, c.path, c.text, err, body)
			}
			if p := got.Trouble.Problems[0]; p.Path != c.at || !strings.Contains(p.Message, c.want) {
				t.Errorf("%s of %s = %s: %+v", path, c.path, c.text, p)
			}
		}
	}
	if _, a := s.evaluate("nothing", nil); len(a.Problems) != 1 || !strings.Contains(a.Problems[0].Message, "no longer kept") {
		t.Errorf("an unknown station: %+v", a)
	}
	// A lever has no place on the bench; a linkage has, but this station has none.
	if _, a := s.evaluate(first.Station, map[string]string{"resistance.drive": "linkage"}); !a.Solve || len(a.Problems) != 1 || !strings.Contains(a.Problems[0].Message, "geometry.linkage is missing") || a.Problems[0].Hint == "" {
		t.Errorf("another drive: %+v", a)
	}
}

func TestFilesOfTheStationShown(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	first := s.solve("", nil)
	changes := map[string]string{"resistance.load.middle": "21 kg"}
	_, head, brief := s.do("POST", "/brief", state("", changes), nil)
	if b, err := specs.ParseBrief("saved", brief); err != nil || b.Resistance.Load.Middle != 21 {
		t.Errorf("saved brief: %v", err)
	}
	if got := head.Get("Content-Disposition"); got != "attachment; filename=brief.yaml" {
		t.Errorf("saved as %q", got)
	}
	_, _, body := s.do("POST", "/files", state(first.Station, changes), nil)
	var made struct {
		Number string
		Files  []struct {
			Path  string
			Bytes int
		}
	}
	if err := json.Unmarshal(body, &made); err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, f := range made.Files {
		status, head, data := s.do("GET", (&url.URL{Path: "/files/" + made.Number + "/" + f.Path}).String(), "", nil)
		if status != 200 || len(data) != f.Bytes || !strings.HasPrefix(head.Get("Content-Disposition"), "attachment") {
			t.Errorf("%s: %d, %d bytes of %d, %q", f.Path, status, len(data), f.Bytes, head.Get("Content-Disposition"))
		}
		all[f.Path] = data
	}
	if found := dxf.Audit(all["cut/cam.dxf"]); len(all["cut/cam.dxf"]) == 0 || len(found) > 0 {
		t.Errorf("cut/cam.dxf: %v", found)
	}
	z, err := zip.NewReader(bytes.NewReader(all["station.zip"]), int64(len(all["station.zip"])))
	if err != nil {
		t.Fatal(err)
	}
	if len(z.File) != len(made.Files)-1 {
		t.Errorf("%d files packed of %d", len(z.File), len(made.Files)-1)
	}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil || !bytes.Equal(data, all[f.Name]) {
			t.Errorf("%s is packed as another: %v", f.Name, err)
		}
	}
	if _, _, again := s.do("POST", "/files", state(first.Station, changes), nil); !bytes.Equal(again, body) {
		t.Error("the same files made again are others")
	}
	for _, path := range []string{"/files/" + made.Number + "/nothing", "/files/" + made.Number + "/"} {
		if status, _, _ := s.do("GET", path, "", nil); status != 404 {
			t.Errorf("%s: %d", path, status)
		}
	}
	if status, _, _ := s.do("GET", "/files/0123456789abcdef/cut/cam.dxf", "", nil); status != 410 {
		t.Errorf("files never made: %d", status)
	}
}

// What a first visit loads, the answer of the first search and its bodies included, is
// at most 150 kB compressed.
func TestWeight(t *testing.T) {
	testdata.Long(t)
	const most = 150_000
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	_, _, front := s.do("GET", "/", "", nil)
	parts := map[string][]byte{"/": front}
	var load func(path string)
	load = func(path string) {
		if parts[path] != nil {
			return
		}
		status, _, data := s.do("GET", path, "", nil)
		if status != 200 {
			t.Errorf("%s: %d", path, status)
		}
		parts[path] = data
		for _, m := range regexp.MustCompile(`from '\./([^']+)'`).FindAllSubmatch(data, -1) {
			load("/assets/" + string(m[1]))
		}
	}
	for _, m := range regexp.MustCompile(`(?:href|src)="(/assets/[^"]+)"`).FindAllSubmatch(front, -1) {
		load(string(m[1]))
	}
	_, _, parts["/open"] = s.do("POST", "/open", "{}", nil)
	_, _, parts["/solve"] = s.do("POST", "/solve", state("", nil), nil)
	var keys []string
	for _, m := range regexp.MustCompile(`"mesh":"([0-9a-f]+)"`).FindAllSubmatch(parts["/solve"], -1) {
		if k := string(m[1]); !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	asked, _ := json.Marshal(keys)
	_, _, parts["/meshes"] = s.do("POST", "/meshes", string(asked), nil)
	if len(parts) < 20 { // page, three styles, its scripts, three answers
		t.Errorf("a visit loads %d parts", len(parts))
	}
	sum := 0
	for _, path := range slices.Sorted(maps.Keys(parts)) {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		if _, err := z.Write(parts[path]); err != nil {
			t.Fatal(err)
		}
		if err := z.Close(); err != nil {
			t.Fatal(err)
		}
		t.Logf("%-24s %7d bytes, %6d compressed", path, len(parts[path]), b.Len())
		sum += b.Len()
	}
	if t.Logf("%d bytes compressed in all", sum); sum > most {
		t.Errorf("a visit loads %d bytes, the most is %d", sum, most)
	}
}

// Sliders take what the brief's tags say, from round number to round number.
func TestControlsAreTheBriefs(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	var o struct{ Controls string }
	s.ask("/open", map[string]any{}, &o)
	for _, want := range []string{
		`min="1" max="240" step="1" value="80"`, // load.heavy, specs.Loads, three times its value
		`id="c-resistance-load-heavy" min="1" max="400" step="any" value="80"`,
		`min="0" max="45" step="0.2" value="20"`, // posture.lean.to
		`min="600" max="5000" step="20" value="2000"`,
	} {
		if !strings.Contains(o.Controls, want) {
			t.Errorf("no control with %s", want)
		}
	}
	// Another drive has other controls, and what was changed is shown as changed.
	s.ask("/controls", map[string]any{"changes": map[string]string{"resistance.drive": "lever", "resistance.load.heavy": "90 kg"}}, &o)
	for path, want := range map[string]bool{"resistance.lever_radius.to": true, "resistance.greatest_arm": false, "stock.cable": false} {
		if got := strings.Contains(o.Controls, `data-path="`+path+`"`); got != want {
			t.Errorf("with a lever %s has a control: %v", path, got)
		}
	}
	if !strings.Contains(o.Controls, `<div class="control changed" data-path="resistance.load.heavy" data-unit="kg" data-first="80">`) {
		t.Error("a changed load is not told as changed")
	}
}

// With sheets in inches, controls are in inches and pounds, sliders count from round
// numbers, and the program takes what they send, up to the ends of their ranges.
func TestControlsInInches(t *testing.T) {
	b := solvertest.Brief(t, "reclined-levers")
	s := begin(t, b)
	var o struct{ Controls string }
	s.ask("/open", map[string]any{}, &o)
	for _, unit := range []string{"mm", "kg", "N"} {
		if strings.Contains(o.Controls, `data-unit="`+unit+`"`) {
			t.Errorf("a control in %s", unit)
		}
	}
	for _, want := range []string{
		`data-path="resistance.load.heavy" data-unit="lb" data-first="70"`,
		`data-path="posture.seat_pitch" data-unit="in" data-first="0.5"`,
	} {
		if !strings.Contains(o.Controls, want) {
			t.Errorf("no control with %s", want)
		}
	}
	control := regexp.MustCompile(`data-path="([^"]+)" data-unit="(in|lb|lbf)" data-first="([^"]+)">\s*<label[^\n]*\n\s*<input type="range"[^>]* min="([^"]+)" max="([^"]+)" step="([^"]+)"[^\n]*\n<input type="number"[^>]* min="([^"]+)" max="([^"]+)"`)
	found := control.FindAllStringSubmatch(o.Controls, -1)
	if len(found) < 20 {
		t.Fatalf("%d controls in inches and pounds", len(found))
	}
	for _, c := range found {
		for _, v := range []string{c[3], c[4], c[5], c[7], c[8]} {
			copied := b
			if err := copied.Set(c[1], v+" "+c[2]); err != nil {
				t.Errorf("%s: %v", c[1], err)
			}
		}
		from, _ := strconv.ParseFloat(c[4], 64)
		step, _ := strconv.ParseFloat(c[6], 64)
		if n := from / step; math.Abs(n-math.Round(n)) > 1e-6 {
			t.Errorf("%s counts from %g in steps of %g", c[1], from, step)
		}
	}
	// The same brief read in millimetres.
	s.ask("/controls", map[string]any{"changes": map[string]string{"drawing.units": "mm"}}, &o)
	if !strings.Contains(o.Controls, `data-path="posture.seat_pitch" data-unit="mm" data-first="12.7"`) {
		t.Error("switched to millimetres, half an inch is not 12.7 mm")
	}
}
