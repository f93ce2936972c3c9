//go:build !js

package draw

import (
	"testing"

	"armwright/export/sheet/sheettest"
	"armwright/testdata"
)

// What of a sheet is filled at least, of squares of 20 mm: a line drawing of plain tubes
// and plates leaves its inside white. On the average of a station's sheets it is more.
const (
	leastFilled = 0.28
	meanFilled  = 0.42
)

// Sheets are filled: views have grown, and what is left shows the thing as it looks.
func TestSheetsAreFilled(t *testing.T) {
	names := []string{"arm-pad-station"}
	if testdata.IsLong() {
		names = stations()
	}
	for _, name := range names {
		set := plain(t, name)
		sum := 0.0
		for i := range set {
			d, err := set[i].sheet.Flatten()
			if err != nil {
				t.Fatal(err)
			}
			share := sheettest.Filled(d)
			sum += share
			t.Logf("%s, %d-%s, %.0f x %.0f: %.0f %%", name, set[i].number, set[i].slug, d.Width, d.Height, 100*share)
			if share < leastFilled {
				t.Errorf("%s: sheet %d-%s is filled to %.0f %%, want %.0f at least", name, set[i].number, set[i].slug, 100*share, 100*leastFilled)
			}
		}
		if mean := sum / float64(len(set)); mean < meanFilled {
			t.Errorf("%s: its sheets are filled to %.0f %% on average, want %.0f at least", name, 100*mean, 100*meanFilled)
		}
	}
}
