package docs_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"armwright/export/draw"
	"armwright/export/report"
	"armwright/export/svg"
	"armwright/solver"
)

// The gallery shows what the program draws of the example stations, and all of it.
func TestGallery(t *testing.T) {
	drawn := map[string]bool{}
	keep := func(name string, picture []byte) {
		if len(picture) == 0 {
			t.Fatalf("%s: nothing drawn", name)
		}
		drawn[name] = true
		kept(t, "gallery/"+name, picture)
	}
	for _, c := range []struct{ name, plot string }{
		{"arm-pad-station", "torque"}, {"reclined-levers", "coverage"}, {"reclined-linkage", "torque"}, {"cam-study", "hardness"},
	} {
		r := judgedOn(t, "../testdata/frames/"+c.name+".yaml", 400)
		keep(c.name+".svg", small(t, r))
		for _, p := range report.Plots(report.New(r, "armwright", nil)) {
			if p.ID == c.plot {
				keep(c.name+"-"+c.plot+".svg", []byte(alone(string(p.SVG))))
			}
		}
	}
	for _, m := range regexp.MustCompile(`\]\(gallery/([^)]+)\)`).FindAllStringSubmatch(page(t, "gallery.md"), -1) {
		if !drawn[m[1]] {
			t.Errorf("the page shows %s, which nothing draws", m[1])
		}
		delete(drawn, m[1])
	}
	for name := range drawn {
		t.Errorf("the page does not show %s", name)
	}
}

// small is a station from the user's right, or the cam sheet of a study, as a small
// picture.
func small(t *testing.T, r *solver.Result) []byte {
	t.Helper()
	list, err := draw.Pictures(r, "side")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if len(list) > 0 {
		if err := svg.Thumbnail(&b, list[0].Drawing); err != nil {
			t.Fatal(err)
		}
	} else {
		files, err := draw.All(r, nil, draw.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if strings.HasPrefix(f.Path, "drawings/03-cam.svg") {
				b.Write(f.Thumbnail)
			}
		}
	}
	return []byte(alone(b.String()))
}
