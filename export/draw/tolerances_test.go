package draw

import (
	"strconv"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/solver/judge"
	"armwright/solver/tolerance"
	"armwright/testdata"
)

// What the parts sheet asks the shop to hold is what the study of builds works
// out, of a judge of its own.
func TestSheetPrintsTolerancesToHold(t *testing.T) {
	for _, name := range testdata.Few(1, "arm-pad-station", "reclined-levers") {
		r := stationtest.Result(t, name)
		j, err := judge.New(&r.Frame.Asked)
		if err != nil {
			t.Fatal(err)
		}
		m, err := tolerance.NewModel(j, &r.Frame, tolerance.Classes{Machined: r.Frame.Drawing.Tolerance, Welded: "B"})
		if err != nil {
			t.Fatal(err)
		}
		closest := map[string]float64{}
		for _, h := range m.Holds() {
			dim := m.Dimensions[h.Dimension]
			if v, ok := closest[dim.Feature]; !h.General && (!ok || h.To < v) {
				closest[dim.Feature] = h.To
			}
		}
		if len(closest) == 0 {
			t.Fatalf("%s: nothing is to be held", name)
		}
		set := plain(t, name)
		cells := map[string]string{}
		for _, s := range set {
			for _, table := range s.sheet.Tables {
				if table.Title == "Tolerances by feature" {
					for _, row := range table.Rows {
						cells[row[0]] = row[2] + " " + row[3]
					}
				}
			}
		}
		for feature, title := range map[string]string{"pivots": "Pivots: height, spacing", "axes": "Pivot axes: toe, cant"} {
			v, ok := closest[feature]
			if !ok {
				continue
			}
			want := "±" + sheet.Millimetres.Length(v, 2) + " mm held for "
			if feature == "axes" {
				want = "±" + sheet.Degrees(v, 2) + "° held for "
			} else if r.Frame.Drawing.Units == "in" {
				want = "±" + strings.TrimPrefix(strconv.FormatFloat(v/25.4, 'f', 3, 64), "0") + " in held for "
			}
			// Closer than the finest class of ISO 13920 is not welded: 2 mm from 400 to 1000 mm (M).
			if feature == "pivots" && v < 2 && !strings.Contains(cells[title], "after welding") {
				t.Errorf("%s: ±%.2f mm is said to be welded: %q", name, v, cells[title])
			}
			if got := cells[title]; !strings.HasPrefix(got, want) {
				t.Errorf("%s: %s is %q, want %q", name, title, got, want)
			}
		}
	}
}
