//go:build !js

package serve_test

import (
	"bytes"
	_ "embed"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armwright/export/dxf/dxftest"
	"armwright/export/page/pagetest"
	"armwright/export/report"
	"armwright/solver"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

var (
	//go:embed testdata/stage.cjs
	stage string
	//go:embed testdata/play.cjs
	play string
	//go:embed testdata/static.cjs
	static string
)

// seen is what a script saw.
type seen struct {
	Title, Fault, Conflict, Verdict string
	Persons, Away                   string
	Said                            int
	Did, Lost                       []string
	Designs, Files, Shared          []string
	Errors, Abroad, Overlaps        []string
	Overflow                        []int
	Axe                             []pagetest.Finding
}

// played plays a script with the page at an address, which must be of the arm-pad station,
// and looks at what every script sees; units are those of the brief that it saves.
func played(t *testing.T, script, address, units string, did ...string) (out seen) {
	t.Helper()
	dir := t.TempDir()
	frame := filepath.Join(dir, "frame.yaml")
	if err := os.WriteFile(frame, testdata.Frame("reclined-linkage"), 0o600); err != nil {
		t.Fatal(err)
	}
	pagetest.Run(t, &out, stage+script, address, dir, frame)
	pagetest.Judge(t, pagetest.View{Width: 1440, Scheme: "light", Errors: out.Errors, Abroad: out.Abroad, Overlaps: out.Overlaps, Findings: out.Axe})
	if out.Title != "Saltmere hall station" {
		t.Errorf("titled %q", out.Title)
	}
	for _, want := range did {
		if !slices.Contains(out.Did, want) {
			t.Errorf("not seen: %s", want)
		}
	}
	for _, want := range []string{"cut/cam.dxf", "drawings/drawings.pdf", "station.zip"} {
		if !slices.Contains(out.Files, want) {
			t.Errorf("no %s among the files", want)
		}
	}
	cut, err := os.ReadFile(filepath.Join(dir, "cam.dxf"))
	if err != nil {
		t.Fatal(err)
	}
	if a := dxftest.Ezdxf(t, cut); len(a.Errors)+len(a.Fixes) != 0 || a.Entities["LWPOLYLINE"] == 0 {
		t.Errorf("ezdxf: errors %q, fixes %q, %v", a.Errors, a.Fixes, a.Entities)
	}
	saved, err := os.ReadFile(filepath.Join(dir, "brief.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	want := solvertest.Brief(t, "arm-pad-station").Quantised()
	want.Drawing.Units = units
	if b, err := specs.ParseBrief("brief.yaml", saved); err != nil || b != want {
		t.Errorf("the brief saved is not the one opened, read in %s: %v", units, err)
	}
	return out
}

// The page in a browser, played with as a person would.
func TestInBrowser(t *testing.T) {
	testdata.Long(t)
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	seen := played(t, play, "http://"+s.at+"/", "in",
		"station, torque and controls in the first screen", "torque while dragging", "figures while dragging", "slider by keyboard", "undo and redo",
		"values read out at the cursor", "cursor in the other plots", "played and stopped", "told once", "last picture kept", "fault forgiven", "tried a repair",
		"kept design laid over the torque", "kept designs stay", "found", "inches", "views", "persons of a table", "curve by hand", "another drive in peace", "bench", "the bench at rest", "frame opened",
		"together at 390 px", "together at 200 %")
	if len(seen.Lost) > 0 {
		t.Errorf("the focus fell to the document after %q", seen.Lost)
	}
	if seen.Said > 2 {
		t.Errorf("the live region spoke %d times in a solve", seen.Said)
	}
	if !strings.Contains(seen.Fault, "is not below the middle load") {
		t.Errorf("beside the control: %q", seen.Fault)
	}
	if seen.Verdict != "INFEASIBLE" || !strings.Contains(seen.Conflict, "footprint-length") || !strings.Contains(seen.Conflict, "make more room front to back") {
		t.Errorf("infeasible: %q, %q", seen.Verdict, seen.Conflict)
	}
	for _, want := range []string{"Persons of crew.csv", "1 of 2 fit", "crew.csv:4:2: sex \"robot\""} {
		if !strings.Contains(seen.Persons, want) {
			t.Errorf("no %q among the persons: %q", want, seen.Persons)
		}
	}
	if !strings.Contains(seen.Away, "turned away by hand-path") || !strings.Contains(seen.Away, "; handle-reach") {
		t.Errorf("of the person seated: %q", seen.Away)
	}
	if !slices.Equal(seen.Designs, []string{"Design 1", "Design 2"}) {
		t.Errorf("kept designs %q", seen.Designs)
	}
	if !slices.Equal(seen.Shared, []string{"70", "Play"}) {
		t.Errorf("from a shared address: %q", seen.Shared)
	}
	if !slices.Equal(seen.Overflow, []int{0, 0}) {
		t.Errorf("wider than the window at 390 px and at 200 %% by %v", seen.Overflow)
	}
}

// The report of a station in a browser: readable wide and narrow, light and
// dark, from a file, without anything else.
func TestReportInBrowser(t *testing.T) {
	testdata.Long(t)
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		t.Run(name, func(t *testing.T) {
			r, err := solver.Solve(t.Context(), solvertest.Brief(t, name), nil)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if err := report.HTML(&b, report.New(r, "armwright test", nil)); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(t.TempDir(), "report.html")
			if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			pagetest.Sound(t, "file://"+path)
		})
	}
}
