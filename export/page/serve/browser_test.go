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

//go:embed testdata/play.cjs
var play string

// The page in a browser, played with as a person would.
func TestInBrowser(t *testing.T) {
	testdata.Long(t)
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	played(t, "http://"+s.at+"/")
}

// played plays with the page at an address, which must be of the arm-pad station.
func played(t *testing.T, address string) {
	dir := t.TempDir()
	frame := filepath.Join(dir, "frame.yaml")
	if err := os.WriteFile(frame, testdata.Frame("reclined-linkage"), 0o600); err != nil {
		t.Fatal(err)
	}
	var seen struct {
		Title, Fault, Conflict, Verdict string
		Persons, Away                   string
		Said                            int
		Did, Lost                       []string
		Designs, Files, Shared          []string
		Errors, Abroad, Overlaps        []string
		Overflow                        []int
		Axe                             []pagetest.Finding
	}
	pagetest.Run(t, &seen, play, address, dir, frame)
	pagetest.Judge(t, pagetest.View{Width: 1440, Scheme: "light", Errors: seen.Errors, Abroad: seen.Abroad, Overlaps: seen.Overlaps, Findings: seen.Axe})
	if seen.Title != "Saltmere hall station" {
		t.Errorf("titled %q", seen.Title)
	}
	for _, want := range []string{
		"station, torque and controls in the first screen", "torque while dragging", "figures while dragging", "slider by keyboard", "undo and redo",
		"values read out at the cursor", "cursor in the other plots", "played and stopped", "told once", "last picture kept", "fault forgiven", "tried a repair",
		"kept design laid over the torque", "kept designs stay", "found", "inches", "views", "persons of a table", "curve by hand", "another drive in peace", "bench", "frame opened",
		"together at 390 px", "together at 200 %",
	} {
		if !slices.Contains(seen.Did, want) {
			t.Errorf("not seen: %s", want)
		}
	}
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
	if !strings.Contains(seen.Away, "turned away by hand-path") {
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
	for _, want := range []string{"cut/cam.dxf", "drawings/drawings.pdf", "station.zip"} {
		if !slices.Contains(seen.Files, want) {
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
	want.Drawing.Units = "in"
	if b, err := specs.ParseBrief("brief.yaml", saved); err != nil || b != want {
		t.Errorf("the brief saved is not the one opened, read in inches: %v", err)
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
