//go:build !js

package report

import (
	_ "embed"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"armwright/export/page/pagetest"
	"armwright/export/readertest"
	"armwright/testdata"
)

//go:embed testdata/render.cjs
var render string

// mostPages is how many sheets of A4 a station takes before its appendix.
const mostPages = 8

// A report as it is read: on a screen and a telephone, light and dark, no text on
// another, none of a plot cut off, nothing wider than the window and enough contrast; on
// paper no more pages than it may have, and no heading alone at a page's foot. Its
// figures are those of their requirements. ARMWRIGHT_LOOK names a folder to keep the
// pictures in.
func TestRendered(t *testing.T) {
	testdata.Long(t)
	reports := []*Report{infeasible(t)}
	for _, kind := range append(kinds, "reclined-linkage") {
		reports = append(reports, written(t, kind))
	}
	for _, r := range reports {
		t.Run(r.Name, func(t *testing.T) {
			dir := t.TempDir()
			if look := os.Getenv("ARMWRIGHT_LOOK"); look != "" {
				dir = filepath.Join(look, r.Kind+"-"+r.Verdict)
				if err := os.MkdirAll(dir, 0o777); err != nil {
					t.Fatal(err)
				}
			}
			path := filepath.Join(dir, "report.html")
			if err := os.WriteFile(path, []byte(rendered(t, r)), 0o666); err != nil {
				t.Fatal(err)
			}
			pagetest.Sound(t, "file://"+path)
			var seen struct {
				Cut     []string
				Figures map[string]string
			}
			pagetest.Run(t, &seen, render, "file://"+path, dir)
			for _, s := range seen.Cut {
				t.Error(s)
			}
			if len(seen.Figures) != len(r.Headline.Figures) {
				t.Errorf("%d figures, want %d", len(seen.Figures), len(r.Headline.Figures))
			}
			for _, q := range r.Requirements {
				if shown, ok := seen.Figures[q.ID]; ok && shown != r.Units.Figure(q.Value, q.Unit) {
					t.Errorf("%s: the page shows %s, the requirement has %s", q.ID, shown, r.Units.Figure(q.Value, q.Unit))
				}
			}
			paper(t, rendered(t, r), filepath.Join(dir, "report.pdf"))
		})
	}
}

// paper looks at the printed report.
func paper(t *testing.T, page, pdf string) {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		readertest.Absent(t, "pdftotext", "install the package poppler-utils")
	}
	text, err := exec.Command("pdftotext", "-layout", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(string(text), "\f"), "\f")
	before := len(pages)
	for i, p := range pages {
		if strings.Contains(p, "Appendix: every figure") {
			before = i
			break
		}
	}
	t.Logf("%d pages, %d with the appendix", before, len(pages))
	if before < 1 || before > mostPages {
		t.Errorf("%d pages before the appendix, at most %d", before, mostPages)
	}
	headings := map[string]bool{}
	for _, m := range regexp.MustCompile(`<h[23][^>]*>([^<]*)</h[23]>`).FindAllStringSubmatch(page, -1) {
		headings[m[1]] = true
	}
	for i, p := range pages {
		lines := strings.Split(strings.TrimRight(p, "\n "), "\n")
		if last := strings.TrimSpace(lines[len(lines)-1]); headings[last] {
			t.Errorf("page %d ends with the heading %q", i+1, last)
		}
	}
}
