package draw

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"armwright/export/sheet"
	"armwright/testdata"
)

// Page sizes of the merged PDF, in points of 1/72 in, are those of the trimmed
// sheets (check 42; ISO 5457 and ASME Y14.1 sizes, S), and no sheet is larger
// than it has to be to keep its scale.
func TestPageSizes(t *testing.T) {
	box := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	for _, name := range testdata.Few(2, stations()...) {
		set := plain(t, name)
		var got [][2]float64
		var inherited [2]float64
		for _, object := range bytes.Split(files(t, name, Options{})["drawings/drawings.pdf"], []byte("endobj")) {
			var own [2]float64
			if m := box.FindSubmatch(object); m != nil {
				for i := range own {
					own[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
				}
			}
			switch {
			case bytes.Contains(object, []byte("/Type /Pages")):
				inherited = own
			case bytes.Contains(object, []byte("/Type /Page\n")):
				got = append(got, own)
			}
		}
		if len(got) != len(set) {
			t.Fatalf("%s: %d pages, %d sheets", name, len(got), len(set))
		}
		for i := range set {
			d, err := set[i].sheet.Flatten()
			if err != nil {
				t.Fatal(err)
			}
			page := got[i]
			if page == ([2]float64{}) {
				page = inherited
			}
			if math.Abs(page[0]-d.Width*72/25.4) > 0.005 || math.Abs(page[1]-d.Height*72/25.4) > 0.005 {
				t.Errorf("%s, %s: page of %v pt for a sheet of %g x %g mm", name, d.Title, page, d.Width, d.Height)
			}
			known := false
			for _, z := range slices.Concat(set[i].sheet.Smaller, set[i].sheet.Larger, []sheet.Size{set[i].sheet.Size}) {
				w, h := z.Trimmed()
				known = known || w == d.Width && h == d.Height
			}
			if !known {
				t.Errorf("%s, %s: %g x %g mm is no size it may have", name, d.Title, d.Width, d.Height)
			}
		}
		if w, h := sheet.A3.Trimmed(); name == "arm-pad-station" && (math.Abs(w*72/25.4-1190.5512) > 1e-3 || math.Abs(h*72/25.4-841.8898) > 1e-3) {
			t.Errorf("A3 is %g x %g mm", w, h)
		}
	}
}
