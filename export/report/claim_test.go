package report_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"armwright/export/draw"
	"armwright/export/report"
	"armwright/export/report/console"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/testdata"
)

// claim matches words that claim conformity.
var claim = regexp.MustCompile(`(?i)\b(conforms?|conforming|complies|compliant|complying|certified|certifies|approved (to|for|under)|in accordance with|meets? (the )?(requirements of )?(EN|ISO|ASTM|DIN))\b`)

// No report claims conformity, and every one carries the notice.
func TestNoReportClaimsConformity(t *testing.T) {
	for _, kind := range []string{"arm-pad-station", "reclined-levers", "cam-study", "base-too-short"} {
		r := report.New(stationtest.Result(t, kind), "armwright test", nil)
		outputs := map[string]func(*bytes.Buffer) error{
			"html": func(b *bytes.Buffer) error { return report.HTML(b, r) },
			"json": func(b *bytes.Buffer) error { return report.JSON(b, r) },
			"text": func(b *bytes.Buffer) error { return console.Write(b, r, console.Options{}) },
		}
		for name, write := range outputs {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			// Text and HTML may break lines anywhere.
			words := strings.Join(strings.Fields(b.String()), " ")
			if !strings.Contains(words, sheet.Notice) {
				t.Errorf("%s %s: no notice", kind, name)
			}
			if said := claim.FindString(words); said != "" {
				t.Errorf("%s %s claims: %q", kind, name, said)
			}
		}
	}
}

// Nor does any sheet.
func TestNoSheetClaimsConformity(t *testing.T) {
	for _, kind := range testdata.Few(1, "cam-study", "arm-pad-station", "reclined-levers") {
		files, err := draw.All(stationtest.Result(t, kind), nil, draw.Options{})
		if err != nil {
			t.Fatal(err)
		}
		seen := 0
		for _, f := range files {
			if said := claim.Find(f.Data); said != nil && !strings.HasSuffix(f.Path, ".pdf") { // its text is compressed
				t.Errorf("%s %s claims: %q", kind, f.Path, said)
			}
			if strings.HasSuffix(f.Path, ".svg") {
				seen++
				if !bytes.Contains(f.Data, []byte(sheet.Notice)) {
					t.Errorf("%s %s: no notice", kind, f.Path)
				}
			}
		}
		if seen == 0 {
			t.Errorf("%s: no sheets", kind)
		}
	}
}
