//go:build !js

package page_test

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"encoding/json"
	"encoding/xml"
	"io"
	"math"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"armwright/export/dxf"
	"armwright/solver"
	"armwright/specs"
)

// What the page shows of a station is what check says of it.
func TestAnswersAreThoseOfCheck(t *testing.T) {
	b := example(t, "cam-study")
	s := serve(t, b)
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
	s := serve(t, example(t, "cam-study"))
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

// Every fragment is well-formed, and every picture is there.
func TestFragmentsOfAStation(t *testing.T) {
	if testing.Short() {
		t.Skip("solves stations")
	}
	for name, want := range map[string]string{"arm-pad-station": "side front plan axonometric", "reclined-levers": "side front plan axonometric"} {
		s := serve(t, example(t, name))
		a := s.solve("", nil)
		var names []string
		for _, p := range a.Pictures {
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
		if got := strings.Join(names, " "); got != want {
			t.Errorf("%s: pictures %q, want %q", name, got, want)
		}
		if strings.Contains(a.Parts.Table+a.Parts.Head, "NaN") || strings.Count(a.Parts.Table, "<tr>") < 25 {
			t.Errorf("%s: table of %d rows", name, strings.Count(a.Parts.Table, "<tr>"))
		}
		// Narrowing a range moves the geometry at hand into it, and the drawing with it.
		_, moved := s.evaluate(a.Station, map[string]string{"posture.pivot_height.from": "1050 mm", "posture.pivot_height.to": "1100 mm"})
		if moved.Shown == a.Shown || len(moved.Pictures) != len(a.Pictures) {
			t.Errorf("%s: raised pivots leave the drawing as it was: %+v", name, moved.Problems)
		}
		// What is shown already is not sent again.
		body, _ := json.Marshal(map[string]any{"station": a.Station, "changes": map[string]string{"limits.crush_gap": "26 mm"}, "shown": a.Shown})
		_, _, answer := s.do("POST", "/evaluate", string(body), nil)
		if !bytes.Contains(answer, []byte(`"pictures":null`)) {
			t.Errorf("%s: pictures that are shown are sent again", name)
		}
	}
}

func TestBadValuesAreNamed(t *testing.T) {
	s := serve(t, example(t, "cam-study"))
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
	if _, a := s.evaluate(first.Station, map[string]string{"resistance.drive": "linkage"}); len(a.Problems) != 1 || !strings.Contains(a.Problems[0].Message, "geometry.linkage is missing") || a.Problems[0].Hint == "" {
		t.Errorf("another drive: %+v", a)
	}
}

func TestFilesOfTheStationShown(t *testing.T) {
	s := serve(t, example(t, "cam-study"))
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

// What a first visit loads, the answer of the first search included, is at most
// 150 kB compressed.
func TestWeight(t *testing.T) {
	if testing.Short() {
		t.Skip("solves a station")
	}
	const most = 150_000
	s := serve(t, example(t, "arm-pad-station"))
	_, _, front := s.do("GET", "/", "", nil)
	parts := map[string][]byte{"/": front}
	for _, m := range regexp.MustCompile(`(?:href|src)="(/assets/[^"]+)"`).FindAllSubmatch(front, -1) {
		_, _, parts[string(m[1])] = s.do("GET", string(m[1]), "", nil)
	}
	for _, m := range regexp.MustCompile(`from '\./([^']+)'`).FindAllSubmatch(parts["/assets/page.js"], -1) {
		path := "/assets/" + string(m[1])
		var status int
		if status, _, parts[path] = s.do("GET", path, "", nil); status != 200 {
			t.Errorf("%s: %d", path, status)
		}
	}
	_, _, parts["/solve"] = s.do("POST", "/solve", state("", nil), nil)
	if len(parts) != 10 { // page, two styles, six scripts, answer
		t.Errorf("a visit loads %d parts", len(parts))
	}
	sum := 0
	for path, data := range parts {
		var b bytes.Buffer
		z := gzip.NewWriter(&b)
		if _, err := z.Write(data); err != nil {
			t.Fatal(err)
		}
		if err := z.Close(); err != nil {
			t.Fatal(err)
		}
		t.Logf("%-24s %7d bytes, %6d compressed", path, len(data), b.Len())
		sum += b.Len()
	}
	if t.Logf("%d bytes compressed in all", sum); sum > most {
		t.Errorf("a visit loads %d bytes, the most is %d", sum, most)
	}
}

// Controls take what the brief's tags say, and every value of the brief that
// can change a station has one. The region only chooses the defaults of others.
func TestControlsAreTheBriefs(t *testing.T) {
	s := serve(t, example(t, "arm-pad-station"))
	_, _, front := s.do("GET", "/", "", nil)
	for _, l := range specs.Leaves() {
		section, _, _ := strings.Cut(l.Path, ".")
		has := bytes.Contains(front, []byte(`data-path="`+l.Path+`"`))
		if want := section != "name" && section != "kind" && section != "region" && section != "drawing" && section != "choose"; has != want {
			t.Errorf("%s has a control: %v", l.Path, has)
		}
	}
	for _, want := range []string{
		`min="1" max="400" step="1" value="80"`,  // load.heavy, specs.Loads
		`min="0" max="45" step="0.1" value="20"`, // posture.lean.to
		`min="600" max="5000" step="10" value="2000"`,
	} {
		if !bytes.Contains(front, []byte(want)) {
			t.Errorf("no control with %s", want)
		}
	}
}

// With sheets in inches, controls are in inches and pounds, and the server takes
// what they send, up to the ends of their ranges.
func TestControlsInInches(t *testing.T) {
	b := example(t, "reclined-levers")
	s := serve(t, b)
	_, _, front := s.do("GET", "/", "", nil)
	for _, unit := range []string{"mm", "kg", "N"} {
		if bytes.Contains(front, []byte(`data-unit="`+unit+`"`)) {
			t.Errorf("a control in %s", unit)
		}
	}
	for _, want := range []string{
		`data-path="resistance.load.heavy" data-unit="lb" data-first="70"`,
		`data-path="posture.seat_pitch" data-unit="in" data-first="0.5"`,
	} {
		if !bytes.Contains(front, []byte(want)) {
			t.Errorf("no control with %s", want)
		}
	}
	control := regexp.MustCompile(`data-path="([^"]+)" data-unit="(in|lb|lbf)" data-first="([^"]+)">\s*<label[^\n]*\n\s*<input type="range"[^>]* min="([^"]+)" max="([^"]+)"`)
	found := control.FindAllStringSubmatch(string(front), -1)
	if len(found) < 20 {
		t.Fatalf("%d controls in inches and pounds", len(found))
	}
	for _, c := range found {
		for _, v := range c[3:] {
			copied := b
			if err := copied.Set(c[1], v+" "+c[2]); err != nil {
				t.Errorf("%s: %v", c[1], err)
			}
		}
	}
}
