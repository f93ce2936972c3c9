//go:build !js

package page_test

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
	"armwright/specs"
	"armwright/testdata"
)

//go:embed testdata/play.cjs
var play string

// The page in a browser, played with as a person would.
func TestInBrowser(t *testing.T) {
	testdata.Long(t)
	s := serve(t, example(t, "arm-pad-station"))
	dir := t.TempDir()
	var seen struct {
		Title, Address, Fault, Conflict, Verdict         string
		TorqueChanged, DrawingChanged, Kept, Paused      bool
		Keyboard, Designs, Files, Shared, Errors, Abroad []string
		Overflow                                         []int
		Axe                                              []pagetest.Finding
	}
	pagetest.Run(t, &seen, play, "http://"+s.at+"/", dir)
	pagetest.Judge(t, pagetest.View{Width: 1280, Scheme: "light", Errors: seen.Errors, Abroad: seen.Abroad, Findings: seen.Axe})
	if seen.Title != "Saltmere hall station" || !seen.TorqueChanged || !seen.DrawingChanged || !seen.Kept || !seen.Paused {
		t.Errorf("%+v", seen)
	}
	if len(seen.Keyboard) != 2 || seen.Keyboard[0] == seen.Keyboard[1] {
		t.Errorf("an arrow key moved the load over %v", seen.Keyboard)
	}
	for _, want := range []string{"resistance.load.middle=", "posture.pivot_height.to=", "brief="} {
		if !strings.Contains(seen.Address, want) {
			t.Errorf("address %q holds no %s", seen.Address, want)
		}
	}
	if !strings.Contains(seen.Fault, "is not below the middle load") {
		t.Errorf("beside the control: %q", seen.Fault)
	}
	if seen.Verdict != "INFEASIBLE" || !strings.Contains(seen.Conflict, "footprint-length") || !strings.Contains(seen.Conflict, "make more room front to back") {
		t.Errorf("infeasible: %q, %q", seen.Verdict, seen.Conflict)
	}
	if !slices.Equal(seen.Designs, []string{"Design 1", "Design 2"}) {
		t.Errorf("kept designs %q", seen.Designs)
	}
	if !slices.Equal(seen.Shared, []string{"70", "true", "Play"}) {
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
	if b, err := specs.ParseBrief("brief.yaml", saved); err != nil || b != example(t, "arm-pad-station").Quantised() {
		t.Errorf("the brief saved is not the one opened: %v", err)
	}
}

// The report of a station in a browser: readable wide and narrow, light and
// dark, from a file, without anything else.
func TestReportInBrowser(t *testing.T) {
	testdata.Long(t)
	for _, name := range []string{"arm-pad-station", "cam-study"} {
		t.Run(name, func(t *testing.T) {
			r, err := solver.Solve(t.Context(), example(t, name), nil)
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
